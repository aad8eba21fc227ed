"""The ways to run one drill tonight: on how many nets or stations, and how often it starts.

Fewer nets and slower starts are what a coach does when the load would grow beyond what is usual:
the drill stays, each goaltender sees less of it, and the others change with her or have a task.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tendline.practice.constants import PracticeRules
from tendline.practice.fitting import (
    able,
    fewest_stations,
    holds_copies,
    nets_used,
    stations_needed,
)
from tendline.practice.repetitions import Stint, stint
from tendline.practice.sharing import Group, groups_of
from tendline.practice.types import DrillFacts, Load, Request


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Nets (or stations of a block drill) in use, and the stretch of the time between starts.

    ``left_out`` counts the nets or stations that could be used too.
    """

    places: int
    rhythm: float = 1.0
    left_out: int = 0


ONE_PLACE = Way(places=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A segment decided on: a drill, or what the head coach has fixed."""

    drill: DrillFacts | None
    title: str
    minutes: int
    is_fixed: bool = False
    way: Way = ONE_PLACE

    @property
    def facts(self) -> DrillFacts:
        """Return the drill, or a stand-in with no counts for a fixed segment without one."""
        return self.drill or DrillFacts(
            id="", name=self.title, minutes_low=self.minutes, minutes_high=self.minutes,
            work=30.0, rest=15.0, nets_high=self.way.places, for_block=False, for_team=True,
        )  # fmt: skip

    @property
    def seconds_between(self) -> float:
        """Return the time from one start to the next at one net [s]."""
        return self.way.rhythm * (self.facts.work + self.facts.rest)


def ways_of(
    drill: DrillFacts, request: Request, rules: PracticeRules, *, with_team: bool
) -> tuple[Way, ...]:
    """Return every way to run a drill, the fullest first."""
    count = max(1, len(able(drill, request)))
    places: tuple[int, ...]
    if with_team:
        most = max(1, nets_used(drill, request.slot.space, count))
        fewest = min(most, max(drill.nets_low, drill.goaltenders_low))
        places = tuple(range(most, fewest - 1, -1))
    else:
        fewest = fewest_stations(drill, count)
        fit = [
            copies
            for copies in range(stations_needed(drill, count), fewest, -1)
            if _station_room(drill, request, copies)
        ]
        places = (*fit, fewest)
    return tuple(
        Way(places=one, rhythm=rhythm, left_out=places[0] - one)
        for one in places
        for rhythm in _rhythms(drill, rules, with_team=with_team)
    )


def team_groups(
    drill: DrillFacts, request: Request, way: Way, minutes: int, rules: PracticeRules
) -> tuple[Group, ...]:
    """Return how many stand at each net of a team drill, and what each of them does."""
    count = len(able(drill, request))
    return groups_of(
        drill, space=request.slot.space, goaltenders=count,
        barred=len(request.roster.goaltenders) - count, minutes=minutes, rules=rules,
        nets=way.places, rhythm=way.rhythm,
    )  # fmt: skip


def block_groups(
    drill: DrillFacts, goaltenders: int, way: Way, minutes: int, rules: PracticeRules
) -> tuple[tuple[int, Stint], ...]:
    """Return, for each station of a block drill, how many take turns there and what each does."""
    sizes = [
        goaltenders // way.places + (1 if at < goaltenders % way.places else 0)
        for at in range(way.places)
    ]
    return tuple(
        (
            size,
            stint(
                drill, minutes=minutes, sharing=size, with_team=False, rules=rules,
                rhythm=way.rhythm,
            ),
        )
        for size in sizes
        if size
    )  # fmt: skip


def together(groups: Sequence[tuple[int, Stint]]) -> Load:
    """Return the load of everybody at all nets or stations together."""
    total = Load()
    for size, done in groups:
        total = total + done.load.times(size)
    return total


def _station_room(drill: DrillFacts, request: Request, copies: int) -> bool:
    space = request.slot.block_space
    return (
        (not drill.needs_net or space.nets >= copies * drill.nets_low)
        and drill.people * copies <= request.roster.helpers
        and holds_copies(space, drill.area, copies)
    )


def _rhythms(drill: DrillFacts, rules: PracticeRules, *, with_team: bool) -> tuple[float, ...]:
    if drill.load == Load() or rules.longest_rhythm <= 1.0:
        return (1.0,)
    slower = ((1.0 + rules.longest_rhythm) / 2.0, rules.longest_rhythm)
    own = drill.work + drill.rest
    fit = (one for one in slower if not with_team or one * own <= rules.longest_start)
    return (1.0, *fit)
