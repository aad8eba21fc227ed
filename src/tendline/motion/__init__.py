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
from tendline.motion.plan import chain_by, quickest_chain
from tendline.motion.posture import is_at_post, is_down, push_leg
from tendline.motion.state import redirected, state_at
from tendline.motion.types import Chain, MotionLoad, MotionState, Step

__all__ = [
    "CATALOGUE", "MOTION_CONSTANTS", "AgeGuide", "Arrivals", "Chain", "DriveLeg", "MotionLoad",
    "MotionParameters", "MotionState", "Move", "MoveKind", "Step", "TeachingStep", "TimeLaw",
    "arrival_times", "chain_by", "covered_at", "drop_time", "free_fall_time", "is_at_post",
    "is_down", "load_of", "motion_parameters", "move", "push_leg", "quickest_chain", "redirected",
    "state_at", "usually_later_than", "usually_taught_at",
]  # fmt: skip
