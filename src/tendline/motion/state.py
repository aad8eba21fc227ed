"""Where she is at any instant of a chain, and whether set."""

from __future__ import annotations

import math

from tendline.body.types import Pose
from tendline.motion.plan import wrapped
from tendline.motion.types import Chain, MotionState, Step


def state_at(chain: Chain, time: float) -> MotionState:
    """Return her state ``time`` [s] after the chain's clock began.

    Before her reaction has passed she is set at the start. In a move she is never set; between
    arrival and ``set_time`` she stands still but is not set yet. A move that changes stance
    counts as the old stance until it is finished.
    """
    if not chain.steps or time < chain.reaction:
        return MotionState(
            pose=chain.start if chain.steps else chain.end,
            moving=False, is_set=True, speed=0.0, move=None,
        )  # fmt: skip
    for step in chain.steps:
        if time < step.finish:
            return _within(step, time - step.begin)
    return MotionState(
        pose=chain.end, moving=False, is_set=time >= chain.set_time, speed=0.0, move=None
    )


def _within(step: Step, time: float) -> MotionState:
    start, end = step.start, step.end
    x, y, speed = start.x, start.y, 0.0
    if step.law is not None and step.distance > 0.0:
        share = min(1.0, max(0.0, step.law.covered(step.distance, time) / step.distance))
        x += share * (end.x - start.x)
        y += share * (end.y - start.y)
        speed = step.law.speed(step.distance, time)
    facing = start.facing
    turn = wrapped(end.facing - start.facing)
    if turn and step.turn_law is not None:
        turned = step.turn_law.covered(abs(turn), time)
        facing = wrapped(facing + math.copysign(turned, turn))
    return MotionState(
        pose=Pose(x, y, facing, start.stance), moving=True, is_set=False, speed=speed,
        move=step.move,
    )  # fmt: skip
