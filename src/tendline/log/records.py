"""A goaltender's record by zone and by scoring situation, with honest spans for small numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tendline.base import ScoringSituation, ShotResult
from tendline.ice import Zone
from tendline.log.game import Game, Shot
from tendline.log.statistics import Share, wilson


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """Shots on goal in one cell: ``saves = shots - goals``, always.

    ``attempts`` counts wide and blocked shots too; ``saved`` is the save share and ``scored`` the
    goal share, each with its 95 % span.
    """

    name: str
    attempts: int
    shots: int
    goals: int

    @property
    def saves(self) -> int:
        """Return shots on goal that did not score."""
        return self.shots - self.goals

    @property
    def saved(self) -> Share:
        """Return saves of shots (the save percentage as a share)."""
        return wilson(self.saves, self.shots)

    @property
    def scored(self) -> Share:
        """Return goals of shots."""
        return wilson(self.goals, self.shots)


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """Everything counted over some shots: the total and its divisions."""

    total: Record
    zones: tuple[Record, ...]
    situations: tuple[Record, ...]
    unsaid: Record
    home_plate: Record
    outside: Record
    rebounds_controlled: Share
    ratings: tuple[int, int, int]
    seconds: float | None
    games: int

    @property
    def goals_against_average(self) -> float | None:
        """Return goals per 60 minutes in the net, or None where the time was not noted."""
        if not self.seconds:
            return None
        return self.total.goals * 3600.0 / self.seconds


def count(name: str, shots: Iterable[Shot]) -> Record:
    """Return the record of some shots."""
    every = tuple(shots)
    on_goal = [one for one in every if one.on_goal]
    return Record(
        name=name,
        attempts=len(every),
        shots=len(on_goal),
        goals=sum(one.is_goal for one in on_goal),
    )


def records(shots: Sequence[Shot], *, seconds: float | None = None) -> Records:
    """Return the records of one person's shots (goals into an empty net are nobody's).

    ``seconds``: her time in the net, for the goals-against average.
    """
    mine = [one for one in shots if one.goaltender and not one.context.empty_net]
    return Records(
        total=count("all shots", mine),
        zones=tuple(
            cell
            for zone in Zone
            if (cell := count(zone.value, (one for one in mine if one.zone is zone))).attempts
        ),
        situations=tuple(
            count(situation.value, (one for one in mine if one.situation is situation))
            for situation in ScoringSituation
        ),
        unsaid=count("situation not said", (one for one in mine if one.situation is None)),
        home_plate=count("scoring area", (one for one in mine if one.in_home_plate)),
        outside=count("outside it", (one for one in mine if not one.in_home_plate)),
        rebounds_controlled=rebound_control(mine),
        ratings=_ratings(mine),
        seconds=seconds,
        games=len({one.game for one in mine}),
    )


def records_of(games: Iterable[Game], goaltender: str) -> Records:
    """Return one person's records over games."""
    every = [one for one in games if goaltender in one.goaltenders]
    spells = [one.seconds_of(goaltender) for one in every]
    timed = [one for one in spells if one is not None]
    return records(
        [shot for one in every for shot in one.shots_of(goaltender)],
        seconds=sum(timed) if timed and len(timed) == len(spells) else None,
    )


def rebound_control(shots: Iterable[Shot]) -> Share:
    """Return saves without a dangerous second puck, of the saves where the scorer said which."""
    told = (
        ShotResult.SAVE_HELD,
        ShotResult.SAVE_SAFE_REBOUND,
        ShotResult.SAVE_DANGEROUS_REBOUND,
    )
    saves = [one for one in shots if one.is_save and one.result in told]
    kept = sum(one.result is not ShotResult.SAVE_DANGEROUS_REBOUND for one in saves)
    return wilson(kept, len(saves))


def by(shots: Iterable[Shot], key: Callable[[Shot], str]) -> tuple[Record, ...]:
    """Return records by any name that ``key`` gives a shot (an empty name leaves it out)."""
    groups: dict[str, list[Shot]] = {}
    for one in shots:
        name = key(one)
        if name:
            groups.setdefault(name, []).append(one)
    return tuple(count(name, group) for name, group in groups.items())


def _ratings(shots: Iterable[Shot]) -> tuple[int, int, int]:
    given = [one.rating.rating for one in shots if one.rating is not None and one.is_goal]
    return given.count(0), given.count(1), given.count(2)
