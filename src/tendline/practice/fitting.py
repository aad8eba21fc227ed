"""Which drills fit where: one drill against one place on the sheet, rule by rule."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tendline.base import Level
from tendline.practice.constants import PracticeRules
from tendline.practice.types import LEVEL_ORDER, DrillFacts, Request, RosterGoaltender, Space

MOST_IN_TURN = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """A rule that keeps a drill out, and the change that would let it in."""

    rule: str
    change: str


def able(drill: DrillFacts, request: Request) -> tuple[RosterGoaltender, ...]:
    """Return the goaltenders who may do a drill: no move of it is ruled out by a note."""
    return tuple(one for one in request.roster.goaltenders if not one.restrictions & drill.moves)


def stations_needed(drill: DrillFacts, goaltenders: int) -> int:
    """Return how many copies of a drill a number of goaltenders needs."""
    return max(1, math.ceil(goaltenders / max(1, drill.goaltenders_high)))


def fewest_stations(drill: DrillFacts, goaltenders: int) -> int:
    """Return how few copies of a block drill will do when three take turns at each.

    A drill for one goaltender alone stays that; for two, a third in turn only adds rest.
    """
    most = drill.goaltenders_high
    return max(1, math.ceil(goaltenders / (max(most, MOST_IN_TURN) if most > 1 else 1)))


def nets_used(drill: DrillFacts, space: Space, goaltenders: int) -> int:
    """Return how many nets get a goaltender in a team drill: as many as there are of each."""
    if not drill.needs_net:
        return 0
    return max(0, min(space.nets, drill.nets_high, goaltenders))


def misfits(
    drill: DrillFacts, request: Request, rules: PracticeRules, *, with_team: bool
) -> tuple[Misfit, ...]:
    """Return every rule that keeps a drill out of the block, or of the team part."""
    found = [*_own_misfits(drill, request, rules)]
    space = request.slot.space if with_team else request.slot.block_space
    count = len(able(drill, request)) or len(request.roster.goaltenders)
    copies = 1 if with_team else fewest_stations(drill, count)
    people = request.roster.skaters if with_team else request.roster.helpers
    if drill.needs_net and space.nets < copies * drill.nets_low:
        lacking = copies * drill.nets_low - space.nets
        found.append(Misfit(rule="net", change=f"{lacking} more net{_s(lacking)} on {space.name}"))
    if not holds_copies(space, drill.area, copies):
        length, width = drill.area
        times = f"{copies} times " if copies > 1 else ""
        change = f"a space of {times}{length:g} x {width:g} m instead of {space.name}"
        found.append(Misfit(rule="V19", change=change))
    if drill.people * copies > people:
        lacking = drill.people * copies - people
        person = "person" if lacking == 1 else "people"
        who = f"skater{_s(lacking)}" if with_team else f"{person} to serve the block"
        found.append(Misfit(rule="people", change=f"{lacking} more {who}"))
    if count < drill.goaltenders_low:
        lacking = drill.goaltenders_low - count
        found.append(Misfit(rule="goaltenders", change=f"{lacking} more goaltender{_s(lacking)}"))
    return tuple(found)


def minutes_allowed(
    drill: DrillFacts, request: Request, rules: PracticeRules, *, with_team: bool
) -> range:
    """Return the whole minutes a segment of this drill may take."""
    low, high = drill.minutes_low, drill.minutes_high
    if not with_team:
        return range(low, max(low, min(high, round(rules.block_minutes))) + 1)
    short, long = segment_range(request.roster.youngest, rules)
    if max(low, short) <= min(high, long):
        low, high = max(low, short), min(high, long)
    return range(low, high + 1)


def segment_range(level: Level, rules: PracticeRules) -> tuple[int, int]:
    """Return the usual shortest and longest segment [min] for an age."""
    if LEVEL_ORDER.index(level) <= LEVEL_ORDER.index(Level.U11):
        return round(rules.young_segment_low), round(rules.young_segment_high)
    return round(rules.older_segment_low), round(rules.older_segment_high)


def _own_misfits(drill: DrillFacts, request: Request, rules: PracticeRules) -> list[Misfit]:
    found = []
    if drill.pucks_in_play > 1:
        found.append(Misfit(rule="V2", change=f"one puck at a time in {drill.name}"))
    if drill.release_gap < rules.release_gap and not drill.second_save:
        change = f"{rules.release_gap:g} s between releases in {drill.name}"
        found.append(Misfit(rule="V3", change=f"{change} (now {drill.release_gap:.1f} s)"))
    found += [
        Misfit(rule=rule, change=f"repair {drill.name} ({words})") for rule, words in drill.faults
    ]
    youngest = request.roster.youngest
    if LEVEL_ORDER.index(youngest) < LEVEL_ORDER.index(drill.youngest):
        change = f"a drill for {youngest.value} ({drill.name} is for {drill.youngest.value} and up)"
        found.append(Misfit(rule="V18", change=change))
    oldest = max((g.level for g in request.roster.goaltenders), key=LEVEL_ORDER.index)
    if LEVEL_ORDER.index(oldest) > LEVEL_ORDER.index(drill.oldest):
        change = (
            f"a drill for {oldest.value} ({drill.name} is for {drill.oldest.value} and younger)"
        )
        found.append(Misfit(rule="V18", change=change))
    if not able(drill, request):
        barred = sorted({m for one in request.roster.goaltenders for m in one.restrictions}
                        & drill.moves)  # fmt: skip
        change = f"a drill without {', '.join(barred)}, which every goaltender leaves out"
        found.append(Misfit(rule="V22", change=change))
    if drill.id in request.refused:
        found.append(Misfit(rule="refused", change=f"take {drill.name} back off your refused list"))
    return found


def holds_copies(space: Space, area: tuple[float, float], copies: int) -> bool:
    """Return whether some copies of an area fit beside each other on a piece of ice."""
    if copies == 1:
        return space.holds(area)
    short, long = sorted(area)
    return space.holds((short * copies, long)) or space.holds((short, long * copies))


def _s(count: int) -> str:
    return "" if count == 1 else "s"
