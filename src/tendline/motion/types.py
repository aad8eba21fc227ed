"""What a plan of moves is made of: steps in time, with pose, leg and edge."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tendline.base import Side
from tendline.body import Pose
from tendline.motion.kinds import MoveKind
from tendline.motion.law import Course
from tendline.motion.posture import is_down


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One move: from ``start`` to ``end`` between ``begin`` and ``finish`` [s].

    ``distance`` [m]. ``drive_leg`` is the leg that pushes (the left leg drives to her right), or
    the leg that comes up first in a recovery; None where both work or neither. ``course`` and
    ``turning`` say where she is in between; both None for a move that has only a time.
    ``count`` is the number of single steps in a shuffle run.
    """

    move: MoveKind
    start: Pose
    end: Pose
    begin: float
    finish: float
    settle: float
    drive_leg: Side | None
    distance: float
    keeps_stance: bool
    count: int = 1
    course: Course | None = None
    turning: Course | None = None

    @property
    def cut_short(self) -> bool:
        """Return whether the move was broken off before its planned end."""
        course = self.course
        return course is not None and not course.skipped and self.distance < course.distance - 1e-9

    @property
    def edge(self) -> str:
        """Return which edge works, in words; empty where none pushes."""
        if self.move in (MoveKind.C_CUT_FORWARD, MoveKind.C_CUT_BACK):
            return "inside edges of both skates in turn"
        if self.drive_leg is None:
            return ""
        if self.move is MoveKind.FULL_RECOVERY:
            return f"{self.drive_leg.value} leg up first, onto its inside edge"
        return f"inside edge of the {self.drive_leg.value} skate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The quickest legal chain of moves.

    ``arrival`` [s]: she is at the place and no longer travels; ``set_time`` [s]: she is also
    settled. ``as_asked`` is False when she could not be set on her feet by the deadline and the
    chain ends down and sealed instead.
    """

    start: Pose
    end: Pose
    reaction: float
    steps: tuple[Step, ...]
    arrival: float
    set_time: float
    as_asked: bool = True

    @property
    def legs(self) -> tuple[Side, ...]:
        """Return the driving legs in order; moves without one are left out."""
        return tuple(one.drive_leg for one in self.steps if one.drive_leg is not None)

    @property
    def distance(self) -> float:
        """Return the metres travelled."""
        return sum(one.distance for one in self.steps)

    @property
    def ends_down(self) -> bool:
        """Return whether the last pose is on the knees."""
        return is_down(self.end.stance)


@dataclass(frozen=True, slots=True, kw_only=True)
class MotionState:
    """Where she is at one instant: pose, speed and velocity [m/s], and whether moving or set."""

    pose: Pose
    moving: bool
    is_set: bool
    speed: float
    move: MoveKind | None
    vx: float = 0.0
    vy: float = 0.0

    @property
    def retreat(self) -> float:
        """Return her speed straight back from where she faces [m/s]; negative when advancing."""
        return -(self.vx * math.cos(self.pose.facing) + self.vy * math.sin(self.pose.facing))


@dataclass(frozen=True, slots=True, kw_only=True)
class MotionLoad:
    """What a run of moves asks of her body: counts, and metres.

    A butterfly slide counts as a drop. ``hard_stops`` are stops on an edge after a push.
    ``recoveries`` are those to the feet.
    """

    drops: int = 0
    hard_stops: int = 0
    recoveries: int = 0
    on_ice_recoveries: int = 0
    pushes_left: int = 0
    pushes_right: int = 0
    metres: float = 0.0

    def __add__(self, other: MotionLoad) -> MotionLoad:
        return MotionLoad(
            drops=self.drops + other.drops,
            hard_stops=self.hard_stops + other.hard_stops,
            recoveries=self.recoveries + other.recoveries,
            on_ice_recoveries=self.on_ice_recoveries + other.on_ice_recoveries,
            pushes_left=self.pushes_left + other.pushes_left,
            pushes_right=self.pushes_right + other.pushes_right,
            metres=self.metres + other.metres,
        )
