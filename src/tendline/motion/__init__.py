"""How a goaltender gets from one pose to another: moves, times, driving legs, set or not."""

from tendline.motion.arrays import Arrivals, arrival_times, covered_at
from tendline.motion.constants import MOTION_CONSTANTS
from tendline.motion.kinds import MoveKind
from tendline.motion.law import TimeLaw, drop_time, free_fall_time
from tendline.motion.parameters import MotionParameters, motion_parameters
from tendline.motion.plan import quickest_chain
from tendline.motion.posture import is_at_post, is_down, push_leg
from tendline.motion.state import state_at
from tendline.motion.types import Chain, MotionState, Step

__all__ = [
    "MOTION_CONSTANTS", "Arrivals", "Chain", "MotionParameters", "MotionState", "MoveKind",
    "Step", "TimeLaw", "arrival_times", "covered_at", "drop_time", "free_fall_time", "is_at_post",
    "is_down", "motion_parameters", "push_leg", "quickest_chain", "state_at",
]  # fmt: skip
