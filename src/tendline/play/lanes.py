"""Lanes: how fast passes and skaters go, and how likely defenders are to cut them off.

Plan view, metres and seconds. A lane is a straight way from one place to another that something
(a puck, a skater with the puck) travels at constant speed. A defender cuts it where his stick,
moved by how far he can have come by then, reaches it:

    cut = most * Phi((reach + closing(t) - distance(t)) / spread),    at the worst point of the lane

He keeps his velocity till he is ``least_out`` from the goal line (he does not skate past the net).
``closing`` adds to that, after his reaction, at skating acceleration up to his
top speed. Several defenders act independently.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Point = tuple[float, float]

LANE_POINTS = 21
"""Points along a lane at which the defenders are tried; ends included."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """How a defender closes a lane: see the constants ``play.*`` of the same names."""

    reach: float
    spread: float
    reaction: float
    most: float
    acceleration: float
    top_speed: float
    least_out: float = -math.inf


def pass_speed(length: float, *, reference_speed: float, reference_length: float,
               fastest: float) -> float:  # fmt: skip
    """Return the speed [m/s] of a hard pass over ``length`` [m]: longer passes go faster.

    ``v = v_ref * sqrt(length / length_ref)``, at most ``fastest``; see ``play.pass_speed.*`` for
    the tracked passes that it meets. A pass of no length has the speed of a 1 m pass.
    """
    scale = math.sqrt(max(length, 1.0) / reference_length)
    return min(reference_speed * scale, fastest)


def skating_time(distance: float, *, speed: float, top_speed: float, acceleration: float) -> float:
    """Return the time [s] to skate ``distance`` [m] from ``speed``, gathering speed to the top.

    A skater already faster than ``top_speed`` keeps his speed.
    """
    if distance <= 0.0:
        return 0.0
    start = max(speed, 0.0)
    if start >= top_speed:
        return distance / start
    gather = (top_speed**2 - start**2) / (2.0 * acceleration)
    if distance <= gather:
        return (math.sqrt(start**2 + 2.0 * acceleration * distance) - start) / acceleration
    return (top_speed - start) / acceleration + (distance - gather) / top_speed


def meeting(start: Point, *, receiver: Point, velocity: Point, reference_speed: float,
            reference_length: float, fastest: float) -> tuple[Point, float, float]:  # fmt: skip
    """Return where a lead pass meets a moving receiver [m], its time of flight [s] and speed.

    The pass is aimed so that puck and receiver arrive together; solved by repeating
    ``t = length(t) / speed(length)``, which shrinks the error each time as long as the receiver
    is slower than the pass (he is never faster than 12 m/s; the repeat stops after 50 rounds).
    """
    time = 0.0
    place, speed = receiver, reference_speed
    for _ in range(50):
        place = (receiver[0] + velocity[0] * time, receiver[1] + velocity[1] * time)
        length = math.hypot(place[0] - start[0], place[1] - start[1])
        speed = pass_speed(length, reference_speed=reference_speed,
                           reference_length=reference_length, fastest=fastest)  # fmt: skip
        new = length / speed
        if abs(new - time) < 1e-9:
            break
        time = 0.5 * (time + new)
    return place, time, speed


def closing_distance(time: Array, closing: Closing, speed: Array | float = 0.0) -> Array:
    """Return how far [m] a defender can be, after ``time`` [s], from where he would drift.

    He reacts, then gathers speed against his drift of ``speed`` [m/s]; together they cannot
    exceed his top speed, but a quarter of it is always left to turn with. Shapes broadcast.
    """
    spare = np.maximum(closing.top_speed - np.asarray(speed), 0.25 * closing.top_speed)
    moving = np.maximum(time - closing.reaction, 0.0)
    gather = spare / closing.acceleration
    early = 0.5 * closing.acceleration * np.minimum(moving, gather) ** 2
    return np.asarray(early + spare * np.maximum(moving - gather, 0.0))


def cut_chances(start: Point, end: Point, time: float, places: Array, velocities: Array,
                closing: Closing, *, until: float = 1.0) -> Array:  # fmt: skip
    """Return the chance (defenders,) that each defender cuts the lane.

    ``places`` and ``velocities`` are (defenders, 2) [m, m/s]; ``time`` [s] is the whole way;
    only the lane up to the share ``until`` of it counts. No defender gives an empty array.
    """
    if not len(places):
        return np.zeros(0)
    share = np.linspace(0.0, until, LANE_POINTS)
    at = share * time
    lane_x = start[0] + share * (end[0] - start[0])
    lane_y = start[1] + share * (end[1] - start[1])
    his_x, his_y = drifted(places, velocities, at, closing.least_out)
    away = np.hypot(lane_x[None, :] - his_x, lane_y[None, :] - his_y)
    drift = np.hypot(velocities[:, :1], velocities[:, 1:])
    margin = (closing.reach + closing_distance(at[None, :], closing, drift) - away) / closing.spread
    return np.asarray(closing.most * normal_share(margin.max(axis=1)))


def drifted(
    places: Array, velocities: Array, times: Array, least_out: float
) -> tuple[Array, Array]:
    """Return where (people, times) people have come at their velocities after ``times`` [s].

    Skating back, nobody comes nearer to the goal line than ``least_out`` [m], unless he is there.
    """
    x = places[:, :1] + velocities[:, :1] * times[None, :]
    y = places[:, 1:] + velocities[:, 1:] * times[None, :]
    return np.maximum(x, np.minimum(places[:, :1], least_out)), y


def lane_open(cuts: Array) -> float:
    """Return the chance that nobody cuts the lane."""
    return float(np.prod(1.0 - cuts))


def normal_share(value: Array) -> Array:
    """Return the standard normal distribution function, by the error function of the library."""
    flat = np.asarray(value, dtype=np.float64)
    return np.array([0.5 * math.erfc(-one / math.sqrt(2.0)) for one in flat.ravel()]).reshape(
        flat.shape
    )


def shadow_share(puck: Point, half_width: float, places: Array, body_half_width: float) -> Array:
    """Return the share (bodies,) of the goal mouth, seen from the puck, that each body covers.

    Plan view: the mouth from post to post (``half_width`` [m] either side) spans an angle at the
    puck; a body of ``body_half_width`` [m] between puck and goal line spans another; the share is
    their overlap over the mouth's. Bodies behind the puck or behind the goal line cover nothing;
    from a puck on or behind the goal line nothing is seen and the answer is 0.
    """
    if not len(places) or puck[0] <= 0.0:
        return np.zeros(len(places))
    posts = np.arctan2(np.array([-half_width, half_width]) - puck[1], puck[0])
    dx = puck[0] - places[:, 0]
    dy = places[:, 1] - puck[1]
    distance = np.hypot(dx, dy)
    centre = np.arctan2(dy, dx)
    wide = np.arcsin(np.clip(body_half_width / np.maximum(distance, body_half_width), 0.0, 1.0))
    overlap = np.minimum(centre + wide, posts[1]) - np.maximum(centre - wide, posts[0])
    between = (dx > 0.0) & (places[:, 0] > 0.0)
    return np.where(between, np.clip(overlap / (posts[1] - posts[0]), 0.0, 1.0), 0.0)


def hidden_share(puck: Array, eye_x: Array, eye_y: Array, places: Array,
                 body_half_width: float, puck_half_width: float) -> Array:  # fmt: skip
    """Return the share (eyes,) of the puck that bodies hide from each eye, in plan view.

    ``puck`` (..., 2) broadcasts against the eyes. A body hides the puck where the straight line
    from eye to puck passes within its half-width; the puck's own width softens the edge. The
    body that hides most counts (they overlap).
    """
    hidden = np.zeros(np.shape(eye_x))
    along_x, along_y = puck[..., 0] - eye_x, puck[..., 1] - eye_y
    length = np.maximum(np.hypot(along_x, along_y), 1e-9)
    for x, y in places:
        share = ((x - eye_x) * along_x + (y - eye_y) * along_y) / length**2
        aside = np.abs((x - eye_x) * along_y - (y - eye_y) * along_x) / length
        soft = (body_half_width + puck_half_width - aside) / (2.0 * puck_half_width)
        between = (share > 0.0) & (share < 1.0)
        hidden = np.maximum(hidden, np.where(between, np.clip(soft, 0.0, 1.0), 0.0))
    return hidden
