"""The catalogue of moves: what each is, where it may go, which leg drives, from what age.

Ages are guidance from published lines and common practice, never a limit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from tendline.base import Constant, OriginKind, require_number, source_text, unknown_name
from tendline.motion import constants as c
from tendline.motion.kinds import MoveKind
from tendline.motion.load import DROPS, HARD_STOPS
from tendline.motion.plan import KEEPS_STANCE


class DriveLeg(StrEnum):
    """Which leg drives a move."""

    OPPOSITE = "the leg opposite to the way she goes"
    BOTH = "both legs in turn"
    FIRST_UP = "the far leg comes up first: the one that will push"
    NEITHER = "neither"


class TeachingStep(StrEnum):
    """The published order of teaching (facts: HCGOAL), beginner to advanced."""

    SKATING = "skating and position"
    SAVE = "save movement"
    AFTER_SAVE = "after the save"
    ADVANCED = "advanced positioning"


@dataclass(frozen=True, slots=True, kw_only=True)
class AgeGuide:
    """From what age a move is usually taught; ``age`` None where nothing says an age."""

    age: float | None
    words: str
    kind: OriginKind
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One row of the catalogue; ``constants`` are the figures behind it, with their origins."""

    kind: MoveKind
    meaning: str
    drive_leg: DriveLeg
    keeps_stance: bool
    starts_down: bool
    ends_down: bool
    is_drop: bool
    is_hard_stop: bool
    teaching: TeachingStep
    age: AgeGuide
    constants: tuple[Constant, ...]

    @property
    def usual_from(self) -> float | None:
        """Return the shortest usual distance [m]; None for a move on the spot."""
        row = c.RANGES.get(self.kind)
        return row.usual_from.value if row else None

    @property
    def longest(self) -> float | None:
        """Return the longest distance of one such move [m]; None for a move on the spot."""
        row = c.RANGES.get(self.kind)
        return row.longest.value if row else None

    @property
    def assumed(self) -> tuple[Constant, ...]:
        """Return the figures of this move that nothing published backs."""
        return tuple(one for one in self.constants if one.kind is OriginKind.ASSUMED)


BUTTERFLY_AGE = c.BUTTERFLY_AGE

_ANY_AGE = AgeGuide(
    age=None, words="for every age", kind=OriginKind.PUBLISHED, source=source_text("HCGOAL")
)
_BUTTERFLY = AgeGuide(
    age=BUTTERFLY_AGE.value,
    words="after stance, skating and tracking; usually from about 10 or 11",
    kind=OriginKind.PRACTICE,
    source="common practice, no source",
)
_AFTER = AgeGuide(
    age=BUTTERFLY_AGE.value,
    words="after the butterfly itself",
    kind=OriginKind.PRACTICE,
    source="common practice, no source",
)
_POST = AgeGuide(
    age=BUTTERFLY_AGE.value,
    words="not at U9; sealing a post is advanced positioning, taught last",
    kind=OriginKind.PUBLISHED,
    source=source_text("HCGOAL"),
)

_TIMES: dict[MoveKind, tuple[Constant, ...]] = {
    MoveKind.DROP: (c.DROP_TIME, c.DROP_SETTLE),
    MoveKind.FULL_RECOVERY: (c.RECOVERY_TIME, c.RECOVERY_SETTLE),
    MoveKind.ON_ICE_RECOVERY: (c.ON_ICE_RECOVERY_TIME, c.RE_AIM_TURN),
    MoveKind.STANCE_CHANGE: (c.STANCE_CHANGE_TIME, c.DOWN_CHANGE_TIME),
    MoveKind.POST_ENTRY: (c.POST_ENTRY_TIME, *c.LAWS[MoveKind.POST_ENTRY].all),
    MoveKind.POST_EXIT: (c.POST_EXIT_TIME, *c.LAWS[MoveKind.POST_ENTRY].all),
    MoveKind.STOP: (c.LAWS[MoveKind.T_PUSH].braking,),
}


def _row(
    kind: MoveKind,
    meaning: str,
    drive_leg: DriveLeg,
    teaching: TeachingStep,
    age: AgeGuide,
    *,
    starts_down: bool = False,
    ends_down: bool = False,
) -> Move:
    law = _TIMES.get(kind) or c.LAWS[kind].all
    reach = c.RANGES[kind].all if kind in c.RANGES else ()
    step = (c.SHUFFLE_STEP,) if kind is MoveKind.STEP_SHUFFLE else ()
    return Move(
        kind=kind,
        meaning=meaning,
        drive_leg=drive_leg,
        keeps_stance=kind in KEEPS_STANCE,
        starts_down=starts_down,
        ends_down=ends_down,
        is_drop=kind in DROPS,
        is_hard_stop=kind in HARD_STOPS,
        teaching=teaching,
        age=age,
        constants=(*law, *reach, *step),
    )


CATALOGUE: tuple[Move, ...] = (
    _row(MoveKind.SHORT_SHUFFLE, "a side step of about a foot's width, blades parallel",
         DriveLeg.OPPOSITE, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.STEP_SHUFFLE, "a run of side steps without opening the stance",
         DriveLeg.OPPOSITE, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.T_PUSH, "lead foot turned, one long push across, stop on the lead edge",
         DriveLeg.OPPOSITE, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.C_CUT_FORWARD, "half circles with the edges, out along the puck's line",
         DriveLeg.BOTH, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.C_CUT_BACK, "half circles with the edges, back along the puck's line",
         DriveLeg.BOTH, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.FORWARD_PUSH, "one push out or diagonally out, and a stop",
         DriveLeg.OPPOSITE, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.TURN, "turn on the spot to face the puck",
         DriveLeg.OPPOSITE, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.STOP, "stop on an edge before the planned end of a move",
         DriveLeg.NEITHER, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.STANCE_CHANGE, "from one stance to another on the spot",
         DriveLeg.NEITHER, TeachingStep.SKATING, _ANY_AGE),
    _row(MoveKind.DROP, "both knees to the ice, pads flared: the butterfly",
         DriveLeg.NEITHER, TeachingStep.SAVE, _BUTTERFLY, ends_down=True),
    _row(MoveKind.BUTTERFLY_SLIDE, "push from the feet, travel with the lead pad sealed",
         DriveLeg.OPPOSITE, TeachingStep.AFTER_SAVE, _AFTER, ends_down=True),
    _row(MoveKind.BUTTERFLY_PUSH, "already down: raise the far leg and push along the ice",
         DriveLeg.OPPOSITE, TeachingStep.AFTER_SAVE, _AFTER, starts_down=True, ends_down=True),
    _row(MoveKind.KNEE_SHUFFLE, "a small move sideways while down",
         DriveLeg.OPPOSITE, TeachingStep.AFTER_SAVE, _AFTER, starts_down=True, ends_down=True),
    _row(MoveKind.FULL_RECOVERY, "from the knees to set feet, far leg first",
         DriveLeg.FIRST_UP, TeachingStep.AFTER_SAVE, _AFTER, starts_down=True),
    _row(MoveKind.ON_ICE_RECOVERY, "stay down, raise the far leg and face the puck again",
         DriveLeg.FIRST_UP, TeachingStep.AFTER_SAVE, _AFTER, starts_down=True, ends_down=True),
    _row(MoveKind.POST_ENTRY, "push into the seal of a post",
         DriveLeg.OPPOSITE, TeachingStep.ADVANCED, _POST),
    _row(MoveKind.POST_EXIT, "push off the post to the feet",
         DriveLeg.OPPOSITE, TeachingStep.ADVANCED, _POST, starts_down=True),
)  # fmt: skip

_BY_KIND = {row.kind: row for row in CATALOGUE}


def move(name: MoveKind | str) -> Move:
    """Return a row of the catalogue by kind or by its words; raises ``NotFoundError``."""
    for kind, row in _BY_KIND.items():
        if kind == name:
            return row
    raise unknown_name("move", str(name), [kind.value for kind in MoveKind])


def usually_taught_at(age: float) -> tuple[Move, ...]:
    """Return the moves usually taught by ``age`` [years], in teaching order; guidance only.

    Raises ``InputError`` for an age that nobody has.
    """
    age = require_age(age)
    return _chosen(lambda row: row.age.age is None or age >= row.age.age)


def usually_later_than(age: float) -> tuple[Move, ...]:
    """Return the moves usually taught later than ``age`` [years]; guidance only.

    Raises ``InputError`` for an age that nobody has.
    """
    age = require_age(age)
    return _chosen(lambda row: row.age.age is not None and age < row.age.age)


def require_age(age: float) -> float:
    """Return an age [years] that somebody can have; raises ``InputError`` else."""
    return require_number("age", age, low=0.0, high=120.0, unit="years")


def _chosen(wanted: Callable[[Move], bool]) -> tuple[Move, ...]:
    order = list(TeachingStep)
    found = [row for row in CATALOGUE if wanted(row)]
    return tuple(sorted(found, key=lambda row: order.index(row.teaching)))
