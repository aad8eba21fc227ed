"""What is usual for a goaltender: the load that a plan tries not to pass, and where it comes from.

No limit on a young goaltender's shots, drops or stops is published and none is invented: a plan is
kept near what she did in her own last practices. Without a past, the others' past stands in;
without any, her own games do. A load that her past does not hold at all is not compared.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tendline.practice.constants import PracticeRules
from tendline.practice.types import Load, Roster, RosterGoaltender


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """The load up to which a practice is usual for her, and in words what it is taken from."""

    goaltender_id: str
    name: str
    most: Load
    basis: str
    tolerance: float = 0.0

    def over(self, load: Load) -> tuple[tuple[str, float, float], ...]:
        """Return (kind, planned, most) for each count above what is usual."""
        return tuple(
            (kind, load.of(kind), self.most.of(kind))
            for kind in Load.KINDS
            if self.most.of(kind) > 0.0
            and load.of(kind) > (1.0 + self.tolerance) * self.most.of(kind)
        )


def mean_load(loads: Sequence[Load]) -> Load | None:
    """Return the mean of some loads, None of none."""
    if not loads:
        return None
    total = Load()
    for one in loads:
        total = total + one
    return total.times(1.0 / len(loads))


def shot_budgets(roster: Roster, rules: PracticeRules) -> dict[str, float]:
    """Return the shots up to which V11 is kept, by goaltender's id; only whose games are known."""
    return {
        one.id: rules.shots_of_game * one.game_shots for one in roster.goaltenders if one.game_shots
    }


def usual_loads(roster: Roster, rules: PracticeRules) -> tuple[Usual, ...]:
    """Return what is usual for each goaltender of a roster about whom anything is known."""
    means = [mean for one in roster.goaltenders if (mean := mean_load(one.past))]
    others = mean_load(means)
    found = []
    for one in roster.goaltenders:
        known = _usual(one, others, rules)
        if known is not None:
            found.append(
                Usual(
                    goaltender_id=one.id,
                    name=one.name,
                    most=known[0],
                    basis=known[1],
                    tolerance=rules.load_tolerance,
                )
            )
    return tuple(found)


def _usual(
    one: RosterGoaltender, others: Load | None, rules: PracticeRules
) -> tuple[Load, str] | None:
    factor = rules.load_of_past
    own = mean_load(one.past)
    if own is not None:
        return own.times(factor), f"{factor:g} times her own last practices"
    if others is not None:
        return others.times(factor), f"{factor:g} times the others' last practices: no own ones yet"
    if one.game_shots:
        moves = rules.moves_of_game * one.game_shots
        most = Load(
            shots=rules.shots_of_game * one.game_shots,
            drops=moves, hard_stops=moves, recoveries=moves,
        )  # fmt: skip
        return most, f"her games, {one.game_shots:.0f} shots each"
    return None
