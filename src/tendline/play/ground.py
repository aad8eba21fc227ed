"""The line on which she stands: where depth and offset count from, and where she may be.

With the puck in front, the line runs from the goal's centre to the puck. Near and below the goal
line that line would lead along or behind the goal, so it is held at a steepest bearing toward the
puck's side; behind the net it swings from one side to the other with the puck.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import overload

import numpy as np
from numpy.typing import NDArray

from tendline.ice import Goal
from tendline.play import constants as known
from tendline.play.lanes import Array, Point
from tendline.play.parameters import AttackModel

LEAST_IN_FRONT = known.LEAST_IN_FRONT.value
STEEPEST_LINE = math.radians(known.STEEPEST_LINE.value)
STEEPEST_FACING = math.radians(known.STEEPEST_FACING.value)
BODY_RADIUS = 0.25
"""A puck nearer than this to the middle of her place [m] lies inside her."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """The line she stands on: its ``bearing`` [rad] from straight out, and limits [m].

    ``gap`` is the room she leaves to the puck; 0 where the net stands between them. She stays
    within ``furthest`` of the goal's centre and within ``most_aside`` of its middle, and at least
    ``room`` from each of ``people``.
    """

    puck: Point
    bearing: float
    least_depth: float
    most_depth: float
    most_offset: float
    gap: float
    furthest: float
    most_aside: float
    room: float
    people: tuple[Point, ...]

    @property
    def in_front(self) -> bool:
        """Return whether the puck lies in front of the goal line."""
        return self.puck[0] > 0.0

    @property
    def at_her_feet(self) -> bool:
        """Return whether the puck is so near the goal that she cannot have it in front of her."""
        return self.in_front and math.hypot(*self.puck) < self.least_depth + BODY_RADIUS

    @property
    def unit(self) -> Point:
        """Return the direction of the line."""
        return (math.cos(self.bearing), math.sin(self.bearing))

    @overload
    def place(self, depth: float, offset: float) -> Point: ...
    @overload
    def place(self, depth: Array, offset: Array) -> tuple[Array, Array]: ...

    def place(self, depth: float | Array, offset: float | Array) -> tuple[float | Array, ...]:
        """Return the place x, y [m] at ``depth`` along and ``offset`` to the left of the line."""
        ux, uy = self.unit
        return (depth * ux - offset * uy, depth * uy + offset * ux)

    def depth_and_offset(self, x: float, y: float) -> tuple[float, float]:
        """Return depth along and offset to the left of the line [m]."""
        ux, uy = self.unit
        return (x * ux + y * uy, y * ux - x * uy)

    def allowed(self, depth: Array, offset: Array) -> NDArray[np.bool_]:
        """Return whether she may stand at ``depth`` and ``offset`` [m], which broadcast.

        In front of the goal line, clear of the puck and of people, within the limits.
        """
        x, y = self.place(depth, offset)
        free = (
            (self.least_depth - 1e-9 <= depth)
            & (depth <= self.most_depth + 1e-9)
            & (np.abs(offset) <= self.most_offset + 1e-9)
            & (x >= LEAST_IN_FRONT)
            & (np.abs(y) <= self.most_aside)
            & (np.hypot(x, y) <= self.furthest + 1e-9)
            & (np.hypot(x - self.puck[0], y - self.puck[1]) >= self.gap - 1e-9)
        )
        for px, py in self.people:
            free &= np.hypot(x - px, y - py) >= self.room
        return np.asarray(free)

    def poses(self, places: Array) -> Array:
        """Return poses (m, 3) x, y, facing of someone waiting at ``places`` (m, 2)."""
        if self.in_front:
            toward = np.arctan2(self.puck[1] - places[:, 1], self.puck[0] - places[:, 0])
            facing = np.clip(toward, -STEEPEST_FACING, STEEPEST_FACING)
        else:
            facing = np.full(len(places), self.bearing * STEEPEST_FACING / STEEPEST_LINE)
        return np.column_stack([places, facing])


def line_bearing(puck: Point, goal: Goal) -> float:
    """Return the bearing [rad] of the line for a puck anywhere."""
    if puck[0] > 0.0:
        steep = math.atan2(puck[1], puck[0])
        return min(max(steep, -STEEPEST_LINE), STEEPEST_LINE)
    return STEEPEST_LINE * min(max(puck[1] / goal.half_width, -1.0), 1.0)


def puck_line(puck: Point, goal: Goal, model: AttackModel, people: tuple[Point, ...] = ()) -> Line:
    """Return the line for a puck, with the limits of the search; ``people`` besides the carrier.

    With the puck so near that her usual room to it would push her into the net, the room shrinks.
    From ``play.seal_from`` to the steepest line the limits fall evenly to those of a puck below the
    goal line: far out there she would stand outside the post with the goal behind her back.
    """
    in_front = puck[0] > 0.0
    away = math.hypot(*puck)
    bearing = line_bearing(puck, goal)
    seal_from = math.radians(model.seal_from)
    sharp = max(0.0, (abs(bearing) - seal_from) / (STEEPEST_LINE - seal_from)) if in_front else 1.0
    widest = math.hypot(model.depth_most, model.offset_most)
    gap, most_depth = 0.0, model.below_depth_most
    if in_front:
        usual = min(model.puck_gap, max(away - model.depth_least, 0.0))
        gap = _between(usual, min(usual, BODY_RADIUS), sharp)
        most_depth = _between(min(model.depth_most, away - usual), most_depth, sharp)
        most_depth = min(most_depth, away - gap)
    return Line(
        puck=puck,
        bearing=bearing,
        least_depth=model.depth_least,
        most_depth=max(model.depth_least, most_depth),
        most_offset=model.offset_most if in_front else model.below_offset_most,
        gap=gap,
        furthest=_between(widest, max(model.below_depth_most, model.depth_least), sharp),
        most_aside=_between(widest, goal.half_width, sharp),
        room=model.body_room,
        people=people,
    )


def _between(first: float, last: float, share: float) -> float:
    return first + share * (last - first)
