"""Words that only the game log uses, each closed set in one place."""

from __future__ import annotations

from enum import StrEnum


class Frame(StrEnum):
    """In which coordinates a place was given.

    ``NET``: the defended net's own frame (origin centre of its goal line, +x out, +y to the
    goaltender's left). ``RINK``: the whole-rink picture, whose origin is the near goal line's
    centre and whose x axis points to the far goal; which end is defended depends on the period.
    """

    NET = "net"
    RINK = "rink"


class RinkEnd(StrEnum):
    """An end of the whole-rink picture: near is its origin, far the other goal."""

    NEAR = "near"
    FAR = "far"

    @property
    def other(self) -> RinkEnd:
        """Return the opposite end."""
        return RinkEnd.FAR if self is RinkEnd.NEAR else RinkEnd.NEAR


class Readiness(StrEnum):
    """How the goaltender was when the puck left the stick."""

    SET = "set"
    MOVING = "moving"
    DOWN = "down"


class Strength(StrEnum):
    """Skaters on the ice, as the goaltender's team sees it."""

    EVEN = "even"
    SHORT_HANDED = "short-handed"
    POWER_PLAY = "power play"


class Cause(StrEnum):
    """Why a goal or chance cost what it did; also what the coach may say himself."""

    CHANCE_QUALITY = "chance quality"
    POSITION = "position"
    TIMING = "timing"
    READ = "read"
    EXECUTION = "execution"


class NoteKind(StrEnum):
    """What a note is for."""

    WELL = "one thing well"
    NEXT = "one thing next"
    CUE = "cue"
    OPPONENT = "opponent"
    FREE = "note"


class Grade(StrEnum):
    """Quality of a chance as paper charts grade it."""

    A = "A"
    B = "B"
    C = "C"


class Given(StrEnum):
    """Whether something was said by the scorer or worked out from the context."""

    SCORER = "said by the scorer"
    INFERRED = "worked out from the play before"
    UNKNOWN = "not enough said"
