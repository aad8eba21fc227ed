"""What happens on the ice during one run of a play: tracks of people, and the puck's events.

All times in seconds from the whistle of the (first) repetition, places in metres.
"""

from __future__ import annotations

import bisect
import math
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import pairwise

from tendline.base import ShotType
from tendline.drill.skating import Glide, Point
from tendline.drill.types import Action
from tendline.drill.vocabulary import Target


@dataclass(slots=True)
class Track:
    """Where somebody is over time: paths one after the other, standing still in between."""

    name: str
    start: Point
    begins: list[float] = field(default_factory=list)
    glides: list[Glide] = field(default_factory=list)
    cuts: list[float] = field(default_factory=list)

    def add(self, begin: float, glide: Glide) -> None:
        """Add a path; one still under way is broken off."""
        if self.begins and begin < self.cuts[-1]:
            self.cuts[-1] = begin
        self.begins.append(begin)
        self.glides.append(glide)
        self.cuts.append(begin + glide.duration)

    def stop(self, time: float) -> None:
        """Stand still from ``time``."""
        if self.begins and self.begins[-1] <= time < self.cuts[-1]:
            self.cuts[-1] = time

    def at(self, time: float) -> Point:
        """Return the place at a time."""
        k = bisect.bisect_right(self.begins, time) - 1
        if k < 0:
            return self.start
        return self.glides[k].at(min(time, self.cuts[k]) - self.begins[k])

    def velocity_at(self, time: float) -> Point:
        """Return the velocity at a time [m/s]."""
        k = bisect.bisect_right(self.begins, time) - 1
        if k < 0 or time >= self.cuts[k]:
            return 0.0, 0.0
        return self.glides[k].velocity_at(time - self.begins[k])

    def time_nearest(self, place: Point) -> float:
        """Return when a path first passes nearest to a place; 0 without paths."""
        best, when = math.inf, 0.0
        for begin, glided in zip(self.begins, self.glides, strict=True):
            time = glided.time_nearest(place)
            away = math.dist(glided.at(time), place)
            if away < best - 1e-6:
                best, when = away, begin + time
        return when

    def under_way(self, time: float) -> bool:
        """Return whether somebody is on a path at a time."""
        k = bisect.bisect_right(self.begins, time) - 1
        return k >= 0 and time < self.cuts[k] - 1e-6

    def foreseen(self, time: float, seen: float) -> tuple[Point, Point]:
        """Return place and velocity [m/s] at a time if the path of the moment ``seen`` goes on."""
        k = bisect.bisect_right(self.begins, seen) - 1
        if k < 0 or seen >= self.cuts[k]:
            return self.at(seen), (0.0, 0.0)
        glide = self.glides[k]
        since = min(time - self.begins[k], glide.duration)
        moving = since < glide.duration
        return glide.at(since), glide.velocity_at(since) if moving else (0.0, 0.0)

    @property
    def ends(self) -> float:
        """Return when the last path ends."""
        return self.cuts[-1] if self.cuts else 0.0

    def metres(self, begin: float, end: float) -> float:
        """Return about how far the skater goes between two times [m]."""
        total = 0.0
        for start, cut, glide in zip(self.begins, self.cuts, self.glides, strict=True):
            low, high = max(begin, start), min(end, cut)
            if high > low and glide.duration > 0.0:
                total += glide.length * (high - low) / glide.duration
        return total


class PuckKind(StrEnum):
    """What happens to the puck."""

    HELD = "held"
    PASS = "pass"
    SHOT = "shot"
    LOOSE = "loose"
    COVERED = "covered"
    CLEARED = "cleared"


@dataclass(frozen=True, slots=True, kw_only=True)
class PuckEvent:
    """From ``time`` on the puck is held, on its way, loose, or out of play.

    ``place`` is where it is at ``time``; for passes and shots ``to`` and ``arrives`` say where and
    when it comes (a shot: at the goaltender), ``via`` where it bounces. ``windup`` [s] is how
    long before a shot its draw can be seen. ``puck`` numbers the pucks of one repetition. Before
    ``known_from`` nobody can know ``time``, since it depends on when she is set.
    """

    time: float
    kind: PuckKind
    who: str
    place: Point
    to: Point = (0.0, 0.0)
    via: tuple[Point, ...] = ()
    receiver: str = ""
    arrives: float = 0.0
    shot: ShotType = ShotType.WRIST
    speed: float = 0.0
    windup: float = 0.0
    target: Target | None = None
    toss: bool = False
    tipped: bool = False
    puck: int = 1
    rep: int = 0
    known_from: float = -math.inf

    def is_known(self, time: float) -> bool:
        """Return whether a told goaltender can know at a time when this happens."""
        return self.known_from <= time + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the play on the clock; ``number`` is its place in the branch's list."""

    number: int
    action: Action
    begin: float
    end: float


@dataclass(slots=True)
class Attack:
    """Everything but the goaltender: tracks, puck, lines, and her own scripted lines.

    ``homes`` are times at which a repetition without a shot is over and she goes back to its start.
    """

    tracks: dict[str, Track]
    events: list[PuckEvent] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    scripted: list[Line] = field(default_factory=list)
    blockers: list[tuple[float, str]] = field(default_factory=list)
    homes: tuple[float, ...] = ()

    @property
    def shots(self) -> list[PuckEvent]:
        """Return the shots that come at her, in time order (a tipped shot counts as its tip)."""
        return [one for one in self.ordered if one.kind is PuckKind.SHOT and not one.tipped]

    @property
    def ordered(self) -> list[PuckEvent]:
        """Return the puck's events in time order."""
        return sorted(self.events, key=lambda one: one.time)

    @property
    def ends(self) -> float:
        """Return when the last line is finished."""
        return max((one.end for one in self.lines), default=0.0)


def puck_place(attack: Attack, time: float) -> tuple[Point, str, PuckEvent | None]:
    """Return where the puck is, who has it ('' for nobody), and the event in force."""
    current: PuckEvent | None = None
    for event in attack.ordered:
        if event.time > time + 1e-9:
            break
        current = event
    if current is None:
        return (0.0, 0.0), "", None
    if current.kind is PuckKind.HELD:
        return attack.tracks[current.who].at(time), current.who, current
    if current.kind in (PuckKind.PASS, PuckKind.SHOT):
        return _on_way(current, time), "", current
    return current.place, "", current


def _on_way(event: PuckEvent, time: float) -> Point:
    span = event.arrives - event.time
    share = 1.0 if span <= 0.0 else min(1.0, (time - event.time) / span)
    corners = (event.place, *event.via, event.to)
    lengths = [((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in pairwise(corners)]
    left = share * sum(lengths)
    for a, b, length in zip(corners[:-1], corners[1:], lengths, strict=True):
        if left <= length and length > 0.0:
            part = left / length
            return a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])
        left -= length
    return event.to
