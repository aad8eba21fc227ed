"""How often a drill is done in some minutes, and what load that puts on each goaltender."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tendline.practice.constants import PracticeRules
from tendline.practice.types import DrillFacts, Load, Sides


@dataclass(frozen=True, slots=True, kw_only=True)
class Stint:
    """One goaltender's share of one segment; ``turn`` in the net and ``longest_wait`` in s."""

    repetitions: int
    left: int
    right: int
    load: Load
    turn: float
    longest_wait: float


def playing_seconds(minutes: int, rules: PracticeRules) -> float:
    """Return the seconds of play in a segment: its minutes less the change-over."""
    return max(0.0, 60.0 * minutes - rules.changeover)


def rest_for(drill: DrillFacts, sharing: int, rules: PracticeRules) -> float:
    """Return the rest of one goaltender after one repetition [s], when ``sharing`` alternate.

    Alone, she gets the drill's own rest or ``rest_per_work`` times the work, whichever is more;
    with a partner, at least the partner's turn.
    """
    if sharing == 1:
        return max(drill.rest, rules.rest_per_work * drill.work)
    return max(drill.rest, (sharing - 1) * drill.work)


def stint(
    drill: DrillFacts,
    *,
    minutes: int,
    sharing: int,
    with_team: bool,
    rules: PracticeRules,
    rhythm: float = 1.0,
) -> Stint:
    """Return what each of ``sharing`` goaltenders at one station does in ``minutes``.

    Team drills run at their own rhythm and the goaltenders change every ``net_change`` seconds;
    in block drills they alternate repetition by repetition. With mirrored sides the repetitions
    are even, half for each side. ``rhythm`` stretches the time from one start to the next: at 1.5
    every start comes half as late again as in the drill's own run.
    """
    seconds = playing_seconds(minutes, rules)
    if with_team:
        one_after_another = rhythm * (drill.work + drill.rest)
        count = math.floor(seconds / one_after_another / sharing)
        turn = rules.net_change
        alone = one_after_another - drill.work
        wait = alone if sharing == 1 else (sharing - 1) * rules.net_change
    else:
        rest = rhythm * (drill.work + rest_for(drill, sharing, rules)) - drill.work
        count = math.floor((seconds + rest) / (drill.work + rest))
        turn = drill.work
        wait = rest
    if drill.sides is Sides.MIRRORED:
        count -= count % 2
    half = 0 if drill.sides is Sides.NONE else count // 2
    both = drill.sides is Sides.BOTH
    return Stint(
        repetitions=count,
        left=count if both else half,
        right=count if both else half,
        load=drill.load.times(count),
        turn=turn,
        longest_wait=wait,
    )
