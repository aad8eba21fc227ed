"""Her reachable replies: where she can be, and how, when the shot leaves.

Every row of the arrays here is one pair of a place she starts from and a threat. From the first
sign of the threat she reacts, then goes toward the line from the release to the middle of the
goal. Several ways of doing so are tried and the one that costs least counts:

- *nearest*: to the nearest point of the new line. If she is still on the move at the release, the
  time missing until she is set delays her save (at most ``play.moving_delay_most``);
- *out*: to the furthest point out on the new line at which a push leaves her set in time;
- *stop short*: as far toward the nearest point as she can be set in time, which may be nowhere;
- *slide*: the butterfly slide along the nearest way, down at the release;
- *drop* where she is set in time (near or out), as the shot leaves: the blocking save. Tried only
  where the shot comes from so near (``drops``) that dropping after it would be too late;
- *stand on the post*, or go down there into a reverse VH, against a shot from a sharp angle;
  she stands there already, or has the time to get there;
- *reach* from where she was: limbs, then the whole body, start for the puck as soon as she has
  reacted; most often the save is then under way before the release (a negative delay). Only against
  a move close to her (``reaches``): across a pass there is nothing to reach for yet.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from tendline.body import Stance
from tendline.motion import MotionParameters, MoveKind, TimeLaw, arrival_times, covered_at
from tendline.motion.constants import RANGES
from tendline.play import constants as known

Array = NDArray[np.float64]

STANCES = (
    Stance.READY, Stance.BUTTERFLY, Stance.POST_STAND_LEFT, Stance.POST_STAND_RIGHT,
    Stance.REVERSE_VH_LEFT, Stance.REVERSE_VH_RIGHT,
)  # fmt: skip
"""The stances of her replies, in the order in which the shot's kernel gets them."""
READY, BUTTERFLY, POST_STAND, REVERSE_VH = 0, 1, 2, 4
"""Rows of the stances; those on a post are followed by the same on her right post."""

STOPS = (
    MoveKind.STEP_SHUFFLE, MoveKind.T_PUSH, MoveKind.FORWARD_PUSH, MoveKind.C_CUT_FORWARD,
    MoveKind.C_CUT_BACK,
)  # fmt: skip
OUT_SHARES = (1.0, 0.75, 0.5, 0.25)
"""Shares of the furthest way out that are tried, the furthest first."""
LONGEST_REACH = known.LONGEST_REACH.value
_SLIDE = RANGES[MoveKind.BUTTERFLY_SLIDE]
SLIDE_LEAST, SLIDE_MOST = _SLIDE.least_angle.value, _SLIDE.greatest_angle.value


class Way(IntEnum):
    """The ways of replying, in the order in which they are tried."""

    NEAREST = 0
    OUT = 1
    STOP_SHORT = 2
    SLIDE = 3
    DROP = 4
    REACH = 5
    STAND_ON_POST = 6
    DOWN_ON_POST = 7
    DROP_OUT = 8


@dataclass(frozen=True, slots=True)
class Pairs:
    """Pairs of a start and a threat, arrays of one length n.

    ``start`` (n, 3) x, y, facing [m, rad]; ``release`` (n, 2) [m]; ``time`` (n,) [s] from first
    sign to release, 0 where she is set for the shot; ``wrong_foot`` (n,) [s] added to her
    reaction; ``drops`` and ``reaches`` (n,) say where those ways are open to her.
    """

    start: Array
    release: Array
    time: Array
    wrong_foot: Array
    drops: NDArray[np.bool_]
    reaches: NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What bounds her replies: depths and gap [m], and times [s].

    ``most_delay`` is the most that being on the move costs; ``save_reaction`` the reaction that
    the shot's own model puts before a save. ``seal_from`` [rad] is how sharp a shot may be met on
    the post, ``posts`` (2, 2, 3) the poses there (standing and down; her left and right), and
    within ``seal_near`` [m] of one she stands on it.
    """

    least_depth: float
    most_depth: float
    puck_gap: float
    most_delay: float
    save_reaction: float
    seal_from: float
    seal_near: float
    posts: Array


@dataclass(frozen=True, slots=True)
class Replies:
    """For each way and pair: her pose at release (w, n, 3), target (w, n, 2), delay, held, times.

    ``delay`` [s] counts against her save; ``held`` is the stance row; ``usable`` says whether
    the way exists; ``arrival`` and ``set_time`` [s] from the first sign, at the target.
    """

    pose: Array
    target: Array
    delay: Array
    held: NDArray[np.int64]
    usable: NDArray[np.bool_]
    arrival: Array
    set_time: Array


def replies(pairs: Pairs, motion: MotionParameters, limits: Limits) -> Replies:
    """Return her replies by every :class:`Way` for all pairs."""
    made = _none_yet(len(pairs.time))
    waits = pairs.time > 0.0
    left = pairs.time - pairs.wrong_foot
    start, facing = pairs.start[:, :2], pairs.start[:, 2]
    turn = _wrapped(np.arctan2(pairs.release[:, 1], pairs.release[:, 0]) - facing)
    near, far, reachable = targets(pairs, motion, limits)
    made.pose[:, :, 2] = facing + _turned(turn, left, motion)

    step = near - start
    goals = near + np.array(OUT_SHARES)[:, None, None] * (far - near)
    steps = np.concatenate([step[None], goals - start])
    ways_long = np.hypot(steps[..., 0], steps[..., 1])
    ways_long[0] = np.where(waits, ways_long[0], 0.0)
    directions = _wrapped(np.arctan2(steps[..., 1], steps[..., 0]) - (facing + 0.5 * turn))
    times = arrival_times(ways_long, motion, direction=directions, facing_change=turn)
    distance, direction = ways_long[0], directions[0]
    gone, is_set = covered_at(distance, left, motion, direction=direction, facing_change=turn)
    late = waits & (times.set_time[0] > left)
    way = Way.NEAREST
    made.pose[way, :, :2] = start + _share(gone, distance)[:, None] * step
    made.target[way] = near
    missing = np.minimum(times.set_time[0] - left, limits.most_delay)
    made.delay[way] = np.where(late & ~is_set, missing, 0.0)
    made.arrival[way], made.set_time[way] = times.arrival[0], times.set_time[0]
    made.usable[way] = ~pairs.reaches

    way = Way.OUT
    in_time = waits & reachable & (times.set_time[1:] <= left)
    first = in_time.argmax(axis=0)
    rows = np.arange(len(left))
    made.target[way] = made.pose[way, :, :2] = goals[first, rows]
    made.arrival[way] = times.arrival[1 + first, rows]
    made.set_time[way] = times.set_time[1 + first, rows]
    made.usable[way] = in_time.any(axis=0)

    way = Way.STOP_SHORT
    short, settle = _furthest_set(distance, direction, turn, left, motion)
    made.pose[way, :, :2] = made.target[way] = start + _share(short, distance)[:, None] * step
    made.arrival[way] = np.where(short > 0.0, left - settle, 0.0)
    made.set_time[way] = np.where(short > 0.0, left, 0.0)
    made.usable[way] = late

    _slide(made, left, motion, limits, start=start, step=step)
    sideways = (np.abs(direction) >= SLIDE_LEAST) & (np.abs(direction) <= SLIDE_MOST)
    made.usable[Way.SLIDE] &= late & sideways & (distance <= motion.slide_reach)
    _drops(made, pairs, late)
    _reach(made, pairs, left, motion, limits)
    _on_posts(made, pairs, left, motion, limits)
    for clock in (made.arrival, made.set_time):
        clock += np.where(clock > 0.0, pairs.wrong_foot, 0.0)
    return made


def _none_yet(count: int) -> Replies:
    """Return tables for ``count`` pairs in which no way exists."""
    ways = len(Way)
    return Replies(
        pose=np.zeros((ways, count, 3)),
        target=np.zeros((ways, count, 2)),
        delay=np.zeros((ways, count)),
        held=np.zeros((ways, count), np.int64),
        usable=np.zeros((ways, count), bool),
        arrival=np.zeros((ways, count)),
        set_time=np.zeros((ways, count)),
    )


def _slide(
    made: Replies, left: Array, motion: MotionParameters, limits: Limits, *, start: Array,
    step: Array,
) -> None:  # fmt: skip
    """Fill the butterfly slide from ``start`` (n, 2) by ``step`` (n, 2) [m]."""
    way, law = Way.SLIDE, motion.law(MoveKind.BUTTERFLY_SLIDE)
    distance = np.hypot(step[:, 0], step[:, 1])
    moving = np.maximum(left - motion.reaction, 0.0)
    gone = law.covered_many(distance, moving)
    made.pose[way, :, :2] = start + _share(gone, distance)[:, None] * step
    made.target[way] = start + step
    made.held[way] = BUTTERFLY
    there = np.maximum(law.start_delay + law.travel_many(distance), motion.drop)
    made.arrival[way] = motion.reaction + there
    made.set_time[way] = made.arrival[way] + law.settle
    made.delay[way] = np.clip(made.set_time[way] - left, 0.0, limits.most_delay)
    made.usable[way] = moving > 0.0


def _drops(made: Replies, pairs: Pairs, late: NDArray[np.bool_]) -> None:
    """Fill the two ways of dropping as the shot leaves, from the ways of being set."""
    for table in (made.pose, made.target, made.arrival, made.set_time):
        from_short = late[:, None] if table.ndim == 3 else late
        table[Way.DROP] = np.where(from_short, table[Way.STOP_SHORT], table[Way.NEAREST])
        table[Way.DROP_OUT] = table[Way.OUT]
    made.held[[Way.DROP, Way.DROP_OUT]] = BUTTERFLY
    made.usable[Way.DROP] = pairs.drops
    made.usable[Way.DROP_OUT] = pairs.drops & made.usable[Way.OUT]


def _reach(
    made: Replies, pairs: Pairs, left: Array, motion: MotionParameters, limits: Limits
) -> None:
    """Fill reaching from where she was."""
    way = Way.REACH
    made.pose[way], made.target[way] = pairs.start, pairs.start[:, :2]
    head_start = np.minimum(left - motion.reaction, LONGEST_REACH)
    made.delay[way] = -head_start - limits.save_reaction
    made.arrival[way] = made.set_time[way] = motion.reaction
    made.usable[way] = pairs.reaches & (pairs.time > 0.0)


def _on_posts(
    made: Replies, pairs: Pairs, left: Array, motion: MotionParameters, limits: Limits
) -> None:
    """Fill the two ways on the post, where a shot is sharp enough for them."""
    sharp = np.abs(np.arctan2(pairs.release[:, 1], pairs.release[:, 0])) >= limits.seal_from
    if not sharp.any():
        return
    right = (pairs.release[:, 1] < 0.0).astype(np.int64)
    waits = pairs.time > 0.0
    for way, rows, kind in (
        (Way.STAND_ON_POST, POST_STAND, 0), (Way.DOWN_ON_POST, REVERSE_VH, 1),
    ):  # fmt: skip
        post = limits.posts[kind, right]
        step = post[:, :2] - pairs.start[:, :2]
        distance = np.hypot(step[:, 0], step[:, 1])
        there = distance <= limits.seal_near
        entry = np.where(there & (way is Way.STAND_ON_POST), 0.0, motion.post_entry)
        push = motion.post_push
        travel = np.where(there, 0.0, push.start_delay + push.travel_many(distance))
        busy = travel + entry
        clock = np.where(busy > 0.0, motion.reaction + busy, 0.0)
        made.pose[way], made.target[way] = post, post[:, :2]
        made.held[way] = rows + right
        made.arrival[way] = made.set_time[way] = clock
        made.delay[way] = np.clip(clock - left, 0.0, limits.most_delay)
        in_time = np.where(waits, clock <= left + limits.most_delay, clock == 0.0)
        made.usable[way] = sharp & in_time


def _share(part: Array, whole: Array) -> Array:
    return part / np.maximum(whole, 1e-9)


def targets(
    pairs: Pairs, motion: MotionParameters, limits: Limits
) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Return the nearest point (n, 2) of each new line, the furthest out, and whether that is one.

    The nearest stays goal-side of the puck with her usual gap (where she does not just reach): a
    puck carried past her is not met from behind.

    The furthest out lies as far from her as a push carries in the time that is left when reaction
    and settling are taken off; it counts only if it lies further out than the nearest.
    """
    away = np.hypot(pairs.release[:, 0], pairs.release[:, 1])
    unit = pairs.release / away[:, None]
    start = pairs.start[:, :2]
    along = (start * unit).sum(axis=1)
    goal_side = np.where(pairs.reaches | (pairs.time == 0.0), np.inf, away - limits.puck_gap)
    foot = np.maximum(np.minimum(along, goal_side), limits.least_depth)
    aside = start[:, 1] * unit[:, 0] - start[:, 0] * unit[:, 1]
    law = motion.law(MoveKind.T_PUSH)
    left = pairs.time - pairs.wrong_foot - motion.reaction - law.settle
    push = _rest_to_rest(law, np.maximum(left, 0.0))
    room = push**2 - aside**2
    out = along + np.sqrt(np.maximum(room, 0.0))
    most = np.minimum(
        np.maximum(limits.most_depth, np.hypot(start[:, 0], start[:, 1])), away - limits.puck_gap
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


def _furthest_set(
    distance: Array, direction: Array, turn: Array, left: Array, motion: MotionParameters
) -> tuple[Array, Array]:
    """Return how far (n,) [m] along the way she can be set in time, and the settling of that move.

    The best of the moves that may go in this direction; 0 where the turn alone takes too long.
    """
    best, settle = np.zeros(len(distance)), np.zeros(len(distance))
    angle = np.abs(direction)
    turning = motion.turn.start_delay + motion.turn.travel_many(np.abs(turn))
    for kind in STOPS:
        law = motion.law(kind)
        low, high = RANGES[kind].least_angle.value, RANGES[kind].greatest_angle.value
        moving = left - motion.reaction - law.settle
        legal = (angle >= low) & (angle <= high) & (turning <= moving)
        way = np.where(legal, _rest_to_rest(law, np.maximum(moving, 0.0)), 0.0)
        settle = np.where(way > best, law.settle, settle)
        best = np.maximum(best, way)
    return np.minimum(best, distance), settle


def _wrapped(angle: Array) -> Array:
    """Return angles [rad] in -pi .. pi, the same for an angle and its mirror."""
    return np.asarray(angle - 2.0 * math.pi * np.round(angle / (2.0 * math.pi)))
