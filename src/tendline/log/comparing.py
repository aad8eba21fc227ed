"""A record beside what was to be expected of shots that hard, by zone and by situation."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from tendline.base import ScoringSituation
from tendline.ice import Zone
from tendline.log.baseline import Expectation, expectation
from tendline.log.game import Shot
from tendline.log.records import Record, count


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One cell: its record, goals to expect, and the spread that chance alone gives them."""

    record: Record
    expected: float
    spread: float

    @property
    def words(self) -> str:
        """Return the comparison in words, counts first."""
        one = self.record
        text = f"{one.goals} goals on {one.shots} shots, about {self.expected:.1f} to expect"
        if abs(one.goals - self.expected) <= self.spread:
            return f"{text}: as expected"
        more = "more" if one.goals > self.expected else "fewer"
        if abs(one.goals - self.expected) <= 2 * self.spread:
            return f"{text}: {more}, but so few that it could be chance"
        return f"{text}: {more} than chance usually gives"


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Cells by zone and by situation, and whose chances they are compared with."""

    zones: tuple[Compared, ...]
    situations: tuple[Compared, ...]
    source: str


def compare(shots: Sequence[Shot], costs: Mapping[str, float] | None = None) -> Comparison:
    """Return one goaltender's record by zone and situation beside expectation.

    The expectation is her own level: summed over all shots it equals her goals, so a cell says
    where she is better or worse than herself. ``costs``: the engine's chances by shot id.
    """
    on_goal = [one for one in shots if one.on_goal]
    usual = expectation(on_goal, costs)
    return Comparison(
        zones=_cells(on_goal, usual, [(zone.value, _in_zone(zone)) for zone in Zone]),
        situations=_cells(
            on_goal, usual, [(kind.value, _in_situation(kind)) for kind in ScoringSituation]
        ),
        source=usual.source,
    )


def _cells(
    shots: Sequence[Shot],
    usual: Expectation,
    groups: Sequence[tuple[str, Callable[[Shot], bool]]],
) -> tuple[Compared, ...]:
    found = []
    for name, holds in groups:
        group = [one for one in shots if holds(one)]
        if not group:
            continue
        chances = [usual.chances[one.id] for one in group]
        found.append(
            Compared(
                record=count(name, group),
                expected=sum(chances),
                spread=math.sqrt(sum(one * (1.0 - one) for one in chances)),
            )
        )
    return tuple(found)


def _in_zone(zone: Zone) -> Callable[[Shot], bool]:
    return lambda shot: shot.zone is zone


def _in_situation(kind: ScoringSituation) -> Callable[[Shot], bool]:
    return lambda shot: shot.situation is kind
