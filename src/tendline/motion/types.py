"""What a plan of moves is made of: steps in time, with pose, leg and edge."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Side
from tendline.body.types import Pose
from tendline.motion.kinds import MoveKind
from tendline.motion.law import TimeLaw
from tendline.motion.posture import is_down


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One move: from ``start`` to ``end`` between ``begin`` and ``finish`` [s].

    ``distance`` [m]. ``drive_leg`` is the leg that pushes (the left leg drives to her right), or
    the leg that comes up first in a recovery; None where both work or neither. ``law`` and
    ``turn_law`` say where she is in between; both None for a move that has only a time.
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
    law: TimeLaw | None = None
    turn_law: TimeLaw | None = None

    @property
    def edge(self) -> str:
        """Return which edge works, in words; empty where none pushes."""
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
    """Where she is at one instant: pose, speed [m/s], and whether moving or set."""

    pose: Pose
    moving: bool
    is_set: bool
    speed: float
    move: MoveKind | None
