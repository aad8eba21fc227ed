"""Where she is at any instant of a chain, whether set, and what happens when the play changes."""

from __future__ import annotations

import math
from dataclasses import replace

from tendline.base import InputError
from tendline.body import Pose, Stance
from tendline.motion.kinds import MoveKind
from tendline.motion.law import braking_course
from tendline.motion.parameters import MotionParameters
from tendline.motion.plan import quickest_chain
from tendline.motion.posture import wrapped
from tendline.motion.types import Chain, MotionState, Step

_AT_REST = 1e-9


def state_at(chain: Chain, time: float) -> MotionState:
    """Return her state ``time`` [s] after the chain's clock began.

    Before her reaction has passed she is set at the start. In a move she is never set; between
    arrival and ``set_time`` she stands still but is not set yet. A move that changes stance
    counts as the old stance until it is finished. Raises ``InputError`` for a NaN time.
    """
    if math.isnan(time):
        raise InputError("her state is asked at a time", came="nan", allowed="seconds")
    if not chain.steps or time < chain.reaction:
        pose = chain.start if chain.steps else chain.end
        return MotionState(pose=pose, moving=False, is_set=True, speed=0.0, move=None)
    for step in chain.steps:
        if time < step.finish:
            return _within(step, time - step.begin)
    return MotionState(
        pose=chain.end, moving=False, is_set=time >= chain.set_time, speed=0.0, move=None
    )


def redirected(
    chain: Chain,
    end: Pose,
    parameters: MotionParameters,
    *,
    time: float,
    reaction: float | None = None,
    allow_down: bool = True,
    deadline: float | None = None,
) -> Chain:
    """Return the chain of a goaltender who learns at ``time`` [s] that ``end`` is the place to be.

    On the same clock as ``chain``. She goes on with what she does for her reaction time, brakes
    (a stop counts as a hard stop) or finishes a move that cannot be broken off (drop, recovery,
    post entry), and then takes the quickest chain. She always stops in between: a new push in
    the same direction could be quicker in fact. ``deadline`` [s] is on the same clock.
    Raises ``InputError`` for a negative time.
    """
    if not (math.isfinite(time) and time >= 0.0):
        raise InputError("the change must come at a time of the chain", came=f"{time}",
                         allowed="0 s or more")  # fmt: skip
    wait = parameters.reaction if reaction is None else reaction
    turn_at = time + wait
    done = _until(chain, turn_at)
    start = done[-1].end if done else chain.start
    free = max(turn_at, done[-1].finish) if done else turn_at
    tail = quickest_chain(
        start, end, parameters, reaction=free, allow_down=allow_down, deadline=deadline
    )
    steps = (*done, *tail.steps)
    arrival = steps[-1].finish if steps else 0.0
    return Chain(
        start=chain.start,
        end=tail.end,
        reaction=steps[0].begin if steps else 0.0,
        steps=steps,
        arrival=arrival,
        set_time=max((one.finish + one.settle for one in steps), default=0.0),
        as_asked=tail.as_asked,
    )


def _until(chain: Chain, time: float) -> tuple[Step, ...]:
    """Return the steps up to ``time`` and what then brings her to rest."""
    done = tuple(one for one in chain.steps if one.finish <= time)
    running = next((one for one in chain.steps if one.begin <= time < one.finish), None)
    if running is None:
        return done
    if running.course is None:
        return (*done, running)
    state = _within(running, time - running.begin)
    stance = Stance.BUTTERFLY if running.end.stance.is_down else Stance.READY
    here = replace(state.pose, stance=stance)
    moved = running.course.covered(time - running.begin)
    if state.speed <= _AT_REST and moved <= _AT_REST:
        return done
    cut = replace(running, end=here, finish=time, distance=moved)
    course = braking_course(running.course.law, state.speed)
    slow = course.law.braking
    length = 0.5 * state.speed**2 / slow
    stop = Pose(
        here.x + length * state.vx / max(state.speed, _AT_REST),
        here.y + length * state.vy / max(state.speed, _AT_REST),
        here.facing,
        stance,
    )
    brake = Step(
        move=MoveKind.STOP,
        start=here,
        end=stop,
        begin=time,
        finish=time + state.speed / slow,
        settle=running.settle,
        drive_leg=None,
        distance=length,
        keeps_stance=False,
        course=course,
    )
    return (*done, cut, brake)


def _within(step: Step, time: float) -> MotionState:
    start, end = step.start, step.end
    x, y, speed, vx, vy = start.x, start.y, 0.0, 0.0, 0.0
    if step.course is not None and step.distance > 0.0:
        share = min(1.0, max(0.0, step.course.covered(time) / step.distance))
        x += share * (end.x - start.x)
        y += share * (end.y - start.y)
        speed = step.course.speed(time)
        vx = speed * (end.x - start.x) / step.distance
        vy = speed * (end.y - start.y) / step.distance
    facing = start.facing
    turn = wrapped(end.facing - start.facing)
    if turn and step.turning is not None:
        facing = wrapped(facing + math.copysign(min(step.turning.covered(time), abs(turn)), turn))
    return MotionState(
        pose=Pose(x, y, facing, start.stance), moving=True, is_set=False, speed=speed,
        move=step.move, vx=vx, vy=vy,
    )  # fmt: skip
