"""How a goaltender gets from one pose to another: moves, times, driving legs, set or not."""

from tendline.motion.arrays import Arrivals, arrival_times, covered_at
from tendline.motion.catalogue import (
    CATALOGUE,
    AgeGuide,
    DriveLeg,
    Move,
    TeachingStep,
    move,
    usually_later_than,
    usually_taught_at,
)
from tendline.motion.constants import MOTION_CONSTANTS
from tendline.motion.kinds import MoveKind
from tendline.motion.law import TimeLaw, drop_time, free_fall_time
from tendline.motion.load import load_of
from tendline.motion.parameters import MotionParameters, motion_parameters
from tendline.motion.plan import chain_by, chain_times, quickest_chain
from tendline.motion.posture import is_at_post, is_down, push_leg
from tendline.motion.refit import Fitted, Quality, Refit, apply_factors, refit
from tendline.motion.state import redirected, state_at
from tendline.motion.timed import (
    CAUTIONS,
    HOW_TO_FILM,
    TEST_SHEET,
    SheetRow,
    TimedTest,
    TimedTestKind,
    predicted_time,
    sheet_for,
)
from tendline.motion.types import Chain, MotionLoad, MotionState, Step

__all__ = [
    "CATALOGUE",
    "CAUTIONS",
    "HOW_TO_FILM",
    "MOTION_CONSTANTS",
    "TEST_SHEET",
    "AgeGuide",
    "Arrivals",
    "Chain",
    "DriveLeg",
    "Fitted",
    "MotionLoad",
    "MotionParameters",
    "MotionState",
    "Move",
    "MoveKind",
    "Quality",
    "Refit",
    "SheetRow",
    "Step",
    "TeachingStep",
    "TimeLaw",
    "TimedTest",
    "TimedTestKind",
    "apply_factors",
    "arrival_times",
    "chain_by",
    "chain_times",
    "covered_at",
    "drop_time",
    "free_fall_time",
    "is_at_post",
    "is_down",
    "load_of",
    "motion_parameters",
    "move",
    "predicted_time",
    "push_leg",
    "quickest_chain",
    "redirected",
    "refit",
    "sheet_for",
    "state_at",
    "usually_later_than",
    "usually_taught_at",
]  # fmt: skip
