"""The moves of the catalogue, by the words of the trade."""

from __future__ import annotations

from enum import StrEnum


class MoveKind(StrEnum):
    """One move of a goaltender."""

    SHORT_SHUFFLE = "short shuffle"
    STEP_SHUFFLE = "step shuffle"
    T_PUSH = "T-push"
    C_CUT_FORWARD = "C-cut out"
    C_CUT_BACK = "C-cut back"
    FORWARD_PUSH = "forward push and stop"
    TURN = "turn"
    STANCE_CHANGE = "change of stance"
    DROP = "drop"
    BUTTERFLY_SLIDE = "butterfly slide"
    BUTTERFLY_PUSH = "butterfly push"
    KNEE_SHUFFLE = "knee shuffle"
    FULL_RECOVERY = "full recovery"
    ON_ICE_RECOVERY = "on-ice recovery"
    POST_ENTRY = "post entry"
    POST_EXIT = "post exit"
    STOP = "stop"


TRAVELS_ON_FEET = (
    MoveKind.SHORT_SHUFFLE,
    MoveKind.STEP_SHUFFLE,
    MoveKind.T_PUSH,
    MoveKind.C_CUT_FORWARD,
    MoveKind.C_CUT_BACK,
    MoveKind.FORWARD_PUSH,
)
TRAVELS_DOWN = (MoveKind.KNEE_SHUFFLE, MoveKind.BUTTERFLY_PUSH)
