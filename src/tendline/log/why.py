"""What each shot would have cost from the recommended place and set, and why it cost more.

For a shot on goal with enough said, three chances of a goal: *best*, from the recommended place
with the best reply; *there*, the same but from where she really was; *was*, as she really was
(moving, down). Then

    quality = best,  position = there - best,  timing = was - there

and over many shots what was scored beyond the sum of *was* is execution, or luck. If she stood
nearer to the passer's line than to the shooter's, the position part is called read. For one goal,
the share of a cause is its part of *was*: what of the chance it made. A goal whose chance was tiny
to the end is put down to execution, or luck: one goal cannot tell these apart.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from tendline.log.constants import CauseParameters
from tendline.log.game import Shot
from tendline.log.judge import Judge, Meeting
from tendline.log.vocabulary import Cause

SMALLEST_SAID = 0.1
"""Parts of fewer goals than this are left out of the words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotCost:
    """One shot on goal: chances per shot, and what was known.

    ``was`` is None when neither her place nor her readiness was noted. ``main`` is the main cause
    (goals only), ``sure`` how clearly, in words; ``knows_place`` and ``knows_readiness`` what the
    log said.
    """

    shot: str
    is_goal: bool
    best: float
    there: float
    was: float | None
    knows_place: bool
    knows_readiness: bool
    position_is_read: bool
    main: Cause | None
    sure: str

    @property
    def position(self) -> float:
        """Return what her place added to the chance (negative: it took some away)."""
        return self.there - self.best

    @property
    def timing(self) -> float:
        """Return what not being set added."""
        return 0.0 if self.was is None else self.was - self.there


@dataclass(frozen=True, slots=True, kw_only=True)
class CostSum:
    """Goals over shots whose place or readiness is known, split by cause.

    ``quality + position + read + timing + execution = goals``, exactly; ``spread`` is the standard
    deviation that chance alone gives ``execution``; ``places``: shots for which her place is known
    (often only goals, looked at again on film: then her place weighs too much against the rest).
    """

    shots: int
    goals: int
    quality: float
    position: float
    read: float
    timing: float
    execution: float
    spread: float
    places: int

    @property
    def words(self) -> str:
        """Return the split in words, counts first."""
        if not self.shots:
            return "Her place and whether she was set were not noted for any shot."
        parts = [
            f"{value:.1f} by {name}"
            for name, value in (
                ("the chances themselves", self.quality),
                ("her place", self.position),
                ("reading another play", self.read),
                ("not being set", self.timing),
            )
            if abs(value) >= SMALLEST_SAID
        ]
        listed = ", ".join(parts) or "none of them"
        text = (
            f"{self.goals} goals on {self.shots} shots where her place or readiness is known. The "
            f"engine expects {self.goals - self.execution:.1f}: {listed}. "
        )
        left = abs(self.execution)
        if left <= 2 * self.spread:
            text += f"The difference of {left:.1f} is no more than chance gives."
        elif self.execution > 0:
            text += (
                f"{left:.1f} more than that: the save itself, or numbers of her level that are too "
                "kind."
            )
        else:
            text += (
                f"{left:.1f} fewer than that: the save itself, or numbers of her level that are "
                "too hard."
            )
        if self.places < self.shots:
            text += f" Her place was noted for {self.places} of these shots."
        return text


@dataclass(frozen=True, slots=True)
class Costs:
    """The engine's answers for a set of shots, by shot id."""

    by_shot: Mapping[str, ShotCost]
    asked: int

    @property
    def chances(self) -> dict[str, float]:
        """Return the best chances by shot id, as ``findings`` takes them."""
        return {name: one.best for name, one in self.by_shot.items()}

    @property
    def causes(self) -> dict[str, Cause]:
        """Return the main causes of goals by shot id, where they are clear."""
        return {name: one.main for name, one in self.by_shot.items() if one.main is not None}

    def total(self, shots: Iterable[Shot] | None = None) -> CostSum:
        """Return the split over all shots, or over some of them."""
        names = None if shots is None else {one.id for one in shots}
        known = [
            one
            for name, one in self.by_shot.items()
            if one.was is not None and (names is None or name in names)
        ]
        was = [one.was or 0.0 for one in known]
        goals = sum(one.is_goal for one in known)
        return CostSum(
            shots=len(known),
            goals=goals,
            quality=sum(one.best for one in known),
            position=sum(one.position for one in known if not one.position_is_read),
            read=sum(one.position for one in known if one.position_is_read),
            timing=sum(one.timing for one in known),
            execution=goals - sum(was),
            spread=math.sqrt(sum(one * (1.0 - one) for one in was)),
            places=sum(one.knows_place for one in known),
        )


def why_it_cost(shots: Sequence[Shot], judge: Judge) -> Costs:
    """Return what the engine says of each shot on goal it can be asked about.

    ``shots``: those of one goaltender, games in any order. Shots without an answer (tips, from
    behind the goal line, a puck inside her) are left out.
    """
    place = {(one.game, one.number): one for one in shots}
    asked = [one for one in shots if judge.answers(one)]
    best = [judge.best(one, place.get((one.game, one.number - 1))) for one in asked]
    there = [judge.there(one, met) for one, met in zip(asked, best, strict=True)]
    was = [judge.actual(one, met) for one, met in zip(asked, best, strict=True)]
    filled: list[Meeting] = [now or met for now, met in zip(was, there, strict=True)]
    chance = [
        judge.chances(list(zip(asked, meetings, strict=True))) for meetings in (best, there, filled)
    ]
    found: dict[str, ShotCost] = {}
    for index, shot in enumerate(asked):
        at_best, at_place, as_was = (float(one[index]) for one in chance)
        if math.isnan(at_best):
            continue
        at_place = at_best if math.isnan(at_place) else at_place
        as_was = at_place if math.isnan(as_was) else as_was
        known = was[index] is not None
        read = judge.played_the_passer(shot)
        main, sure = _main_cause(
            shot, at_best, at_place, as_was if known else None, read=read, limits=judge.limits
        )
        found[shot.id] = ShotCost(
            shot=shot.id,
            is_goal=shot.is_goal,
            best=at_best,
            there=at_place,
            was=as_was if known else None,
            knows_place=shot.context.goaltender_x is not None,
            knows_readiness=shot.context.readiness is not None,
            position_is_read=read,
            main=main,
            sure=sure,
        )
    return Costs(found, len(asked))


def _main_cause(
    shot: Shot,
    best: float,
    there: float,
    was: float | None,
    *,
    read: bool,
    limits: CauseParameters,
) -> tuple[Cause | None, str]:
    if not shot.is_goal:
        return None, ""
    if was is None:
        return None, "not known: neither her place nor whether she was set was noted"
    if was < limits.should_stop:
        return Cause.EXECUTION, f"or luck: such a shot scores {100 * was:.0f} times in 100"
    parts = {
        Cause.CHANCE_QUALITY: best,
        Cause.READ if read else Cause.POSITION: max(there - best, 0.0),
        Cause.TIMING: max(was - there, 0.0),
    }
    total = sum(parts.values())
    cause, part = max(parts.items(), key=lambda item: item[1])
    share = part / total
    if share >= limits.mostly:
        return cause, f"mostly: {100 * share:.0f} in 100 of the chance"
    names = " and ".join(one.value for one, value in parts.items() if value > 0.2 * total)
    return cause, f"partly: {names} together"
