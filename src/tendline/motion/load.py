"""What moves ask of her body: drops, hard stops, recoveries, pushes by leg, metres.

Hard skating stops gave 54 % more peak hip rotation than the drop itself in a laboratory (facts:
locomotion.ir_decel_vs_butterfly), so stops are counted beside drops.
"""

from __future__ import annotations

from collections.abc import Iterable

from tendline.base import Side
from tendline.motion.kinds import MoveKind
from tendline.motion.types import MotionLoad, Step

HARD_STOPS = frozenset({MoveKind.T_PUSH, MoveKind.FORWARD_PUSH, MoveKind.STOP})
DROPS = frozenset({MoveKind.DROP, MoveKind.BUTTERFLY_SLIDE})
PUSHES = frozenset(
    {
        MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE, MoveKind.T_PUSH, MoveKind.FORWARD_PUSH,
        MoveKind.BUTTERFLY_SLIDE, MoveKind.BUTTERFLY_PUSH, MoveKind.KNEE_SHUFFLE,
        MoveKind.POST_ENTRY, MoveKind.POST_EXIT,
    }
)  # fmt: skip


def load_of(steps: Iterable[Step]) -> MotionLoad:
    """Return the load of a run of moves; a shuffle run counts one push per step."""
    total = MotionLoad()
    for one in steps:
        pushes = one.count if one.move in PUSHES else 0
        up = one.move is MoveKind.FULL_RECOVERY or (
            one.move is MoveKind.POST_EXIT and one.start.stance.is_down
        )
        total += MotionLoad(
            drops=int(one.move in DROPS),
            hard_stops=int(one.move in HARD_STOPS and not one.cut_short),
            recoveries=int(up),
            on_ice_recoveries=int(one.move is MoveKind.ON_ICE_RECOVERY),
            pushes_left=pushes if one.drive_leg is Side.LEFT else 0,
            pushes_right=pushes if one.drive_leg is Side.RIGHT else 0,
            metres=one.distance,
        )
    return total
