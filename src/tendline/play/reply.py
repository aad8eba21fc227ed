"""Her reachable replies: where she can be, and how, when the shot leaves.

Every row of the arrays here is one pair of a place she starts from and a threat. From the first
sign of the threat she reacts, then goes toward the line from the release to the middle of the
goal. Several ways of doing so are tried and the one that costs least counts:

- *nearest*: to the nearest point of the new line. If she is still on the move at the release, the
  time missing until she is set delays her save (at most ``play.moving_delay_most``);
- *out*: to the furthest point out on the new line at which a push leaves her set in time;
- *stop short* at the furthest quarter of the nearest way where she is set in time, which may be
  where she started;
- *slide*, the butterfly slide along the nearest way, down at the release;
- *reach* from where she was: limbs, then the whole body, start for the puck as soon as she has
  reacted, so that at the release the save is already under way (a negative delay). Only against
  a move close to her (``reaches``): across a pass there is nothing to reach for yet;
- *drop* as the shot leaves, where she is set in time: the blocking save. Tried only where the
  shot comes from so near (``drops``) that dropping after it would be too late.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from tendline.motion import MotionParameters, MoveKind, TimeLaw, arrival_times, covered_at

Array = NDArray[np.float64]

READY, BUTTERFLY = 0, 1
"""Rows of the two stances in everything that is handed to the shot's kernel."""

LONGEST_REACH = 0.6
"""A save that would have been under way for longer than this [s] is a move, not a reach."""
SLIDE_LEAST, SLIDE_MOST = math.radians(45.0), math.radians(135.0)


class Way(IntEnum):
    """The ways of replying, in the order in which they are tried."""

    NEAREST = 0
    OUT = 1
    STOP_SHORT = 2
    SLIDE = 3
    DROP = 4
    REACH = 5


@dataclass(frozen=True, slots=True)
class Pairs:
    """Pairs of a start and a threat, arrays of one length n.

    ``start`` (n, 3) x, y, facing [m, rad]; ``release`` (n, 2) [m]; ``time`` (n,) [s] from first
    sign to release; ``wrong_foot`` (n,) [s] added to her reaction; ``least_depth`` and
    ``most_depth`` [m] bound where she replies to, ``puck_gap`` [m] how near to the puck.
    """

    start: Array
    release: Array
    time: Array
    wrong_foot: Array
    least_depth: float
    most_depth: float
    puck_gap: float


@dataclass(frozen=True, slots=True)
class Replies:
    """For each way and pair: her pose at release (w, n, 3), target (w, n, 2), delay, held, times.

    ``delay`` [s] counts against her save; ``held`` is the stance row; ``usable`` says whether
    the way exists; ``set_time`` [s] from the first sign to set at the target; ``arrival`` [s].
    """

    pose: Array
    target: Array
    delay: Array
    held: NDArray[np.int64]
    usable: NDArray[np.bool_]
    arrival: Array
    set_time: Array


def replies(
    pairs: Pairs,
    motion: MotionParameters,
    *,
    most_delay: float,
    save_reaction: float,
    drops: NDArray[np.bool_],
    reaches: bool,
) -> Replies:
    """Return her replies by every :class:`Way` for all pairs.

    ``save_reaction`` [s] is the reaction that the shot's own model adds before a save starts.
    """
    count = len(pairs.time)
    ways = len(Way)
    pose = np.zeros((ways, count, 3))
    target = np.zeros((ways, count, 2))
    delay = np.zeros((ways, count))
    held = np.zeros((ways, count), np.int64)
    usable = np.ones((ways, count), bool)
    arrival = np.zeros((ways, count))
    set_time = np.zeros((ways, count))

    left = pairs.time - pairs.wrong_foot
    start, facing = pairs.start[:, :2], pairs.start[:, 2]
    near, far, reachable = targets(pairs, motion)
    turn = _wrapped(np.arctan2(pairs.release[:, 1], pairs.release[:, 0]) - facing)
    turned = _turned(turn, left, motion)
    waits = pairs.time > 0.0
    for way, goal in ((Way.NEAREST, near), (Way.OUT, far)):
        step = goal - start
        distance = np.where(waits, np.hypot(step[:, 0], step[:, 1]), 0.0)
        direction = _wrapped(np.arctan2(step[:, 1], step[:, 0]) - (facing + 0.5 * turn))
        times = arrival_times(distance, motion, direction=direction, facing_change=turn)
        gone, is_set = covered_at(distance, left, motion, direction=direction, facing_change=turn)
        share = gone / np.maximum(distance, 1e-9)
        pose[way, :, :2] = start + share[:, None] * step
        pose[way, :, 2] = facing + turned
        target[way] = goal
        late = np.clip(times.set_time - left, 0.0, most_delay)
        delay[way] = np.where(is_set | ~waits, 0.0, late)
        arrival[way] = times.arrival + pairs.wrong_foot
        set_time[way] = times.set_time + pairs.wrong_foot
        if way is Way.NEAREST:
            late_on_feet = waits & (times.set_time > left)
            _stop_short(
                start, step, distance, direction, turn, left, motion,
                pose[Way.STOP_SHORT], target[Way.STOP_SHORT], arrival[Way.STOP_SHORT],
                set_time[Way.STOP_SHORT],
            )  # fmt: skip
            pose[Way.STOP_SHORT, :, 2] = facing + turned
            usable[Way.STOP_SHORT] = late_on_feet
            _slide(
                start, step, distance, direction, left, motion, most_delay,
                pose[Way.SLIDE], delay[Way.SLIDE], arrival[Way.SLIDE], set_time[Way.SLIDE],
                usable[Way.SLIDE],
            )  # fmt: skip
            pose[Way.SLIDE, :, 2] = facing + turned
            target[Way.SLIDE] = near
            held[Way.SLIDE] = BUTTERFLY
            usable[Way.SLIDE] &= late_on_feet
    in_time = ~usable[Way.STOP_SHORT]
    for filled in (pose, target, arrival, set_time):
        chosen = in_time[:, None] if filled.ndim == 3 else in_time
        filled[Way.DROP] = np.where(chosen, filled[Way.NEAREST], filled[Way.STOP_SHORT])
    held[Way.DROP] = BUTTERFLY
    usable[Way.DROP] = drops
    pose[Way.REACH] = pairs.start
    target[Way.REACH] = start
    moving = np.maximum(left - motion.reaction, 0.0)
    delay[Way.REACH] = np.where(moving > 0.0, -save_reaction - moving, 0.0)
    set_time[Way.REACH] = arrival[Way.REACH] = motion.reaction + pairs.wrong_foot
    usable[Way.REACH] = reaches & waits & (moving > 0.0) & (moving < LONGEST_REACH)
    usable[Way.OUT] = waits & reachable
    return Replies(pose, target, delay, held, usable, arrival, set_time)


def targets(pairs: Pairs, motion: MotionParameters) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Return the nearest point (n, 2) of each new line, the furthest out, and whether that is one.

    The furthest out lies as far from her as a push carries in the time that is left when reaction
    and settling are taken off; it counts only if it lies further out than the nearest.
    """
    away = np.hypot(pairs.release[:, 0], pairs.release[:, 1])
    unit = pairs.release / away[:, None]
    start = pairs.start[:, :2]
    along = (start * unit).sum(axis=1)
    foot = np.maximum(along, pairs.least_depth)
    aside = start[:, 1] * unit[:, 0] - start[:, 0] * unit[:, 1]
    law = motion.law(MoveKind.T_PUSH)
    left = pairs.time - pairs.wrong_foot - motion.reaction - law.settle
    push = _rest_to_rest(law, np.maximum(left, 0.0))
    room = push**2 - aside**2
    out = along + np.sqrt(np.maximum(room, 0.0))
    most = np.minimum(
        np.maximum(pairs.most_depth, np.hypot(start[:, 0], start[:, 1])), away - pairs.puck_gap
    )
    out = np.minimum(out, most)
    reachable = (room > 0.0) & (out > foot + 0.05)
    return foot[:, None] * unit, out[:, None] * unit, reachable


def _rest_to_rest(law: TimeLaw, time: Array) -> Array:
    """Return the distance (n,) [m] that a move covers from rest to rest in ``time`` (n,) [s]."""
    moving = np.maximum(time - law.start_delay, 0.0)
    short = 0.5 * moving**2 / law.ramp
    longest_triangle = 0.5 * law.ramp * law.top_speed**2
    long = longest_triangle + law.top_speed * (moving - law.ramp * law.top_speed)
    return np.where(short <= longest_triangle, short, long)


def _turned(turn: Array, left: Array, motion: MotionParameters) -> Array:
    """Return how far she has turned toward the release by then [rad]."""
    law = motion.law(MoveKind.TURN)
    return np.sign(turn) * law.covered_many(np.abs(turn), left - motion.reaction)


def _stop_short(
    start: Array, step: Array, distance: Array, direction: Array, turn: Array, left: Array,
    motion: MotionParameters, pose: Array, target: Array, arrival: Array, set_time: Array,
) -> None:  # fmt: skip
    """Fill the furthest quarter of the way at which she is set in time; else where she started."""
    best = np.zeros(len(distance))
    for share in (0.25, 0.5, 0.75):
        times = arrival_times(share * distance, motion, direction=direction, facing_change=turn)
        fits = times.set_time <= left
        best = np.where(fits, share, best)
        arrival[:] = np.where(fits, times.arrival, arrival)
        set_time[:] = np.where(fits, times.set_time, set_time)
    pose[:, :2] = start + best[:, None] * step
    target[:] = pose[:, :2]


def _slide(
    start: Array, step: Array, distance: Array, direction: Array, left: Array,
    motion: MotionParameters, most_delay: float, pose: Array, delay: Array, arrival: Array,
    set_time: Array, usable: NDArray[np.bool_],
) -> None:  # fmt: skip
    """Fill the butterfly slide: where she is, and whether it is a slide at all."""
    law = motion.law(MoveKind.BUTTERFLY_SLIDE)
    angle = np.abs(direction)
    usable &= (angle >= SLIDE_LEAST) & (angle <= SLIDE_MOST)
    usable &= (distance <= motion.slide_reach) & (distance > 1e-9)
    moving = np.maximum(left - motion.reaction, 0.0)
    usable &= moving > 0.0
    gone = law.covered_many(distance, moving)
    share = gone / np.maximum(distance, 1e-9)
    pose[:, :2] = start + share[:, None] * step
    there = np.maximum(law.start_delay + law.travel_many(distance), motion.drop)
    arrival[:] = motion.reaction + there
    set_time[:] = arrival + law.settle
    delay[:] = np.clip(set_time - left, 0.0, most_delay)


def _wrapped(angle: Array) -> Array:
    """Return angles [rad] in -pi .. pi, the same for an angle and its mirror."""
    return np.asarray(angle - 2.0 * math.pi * np.round(angle / (2.0 * math.pi)))
