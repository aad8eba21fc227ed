"""How a skater gets along a path: gathering speed, braking, slowing for turns, going backward.

Speed law: from a start of ``a0`` the acceleration falls off in a straight line with speed and is
zero at top speed, ``a = a0 (1 - v / top)``, so that after a standing start

    v(t) = top (1 - exp(-t / T)),   s(t) = top (t - T (1 - exp(-t / T))),   T = top / a0.

``a0`` is the highest measured start of the literature, which goes with the top speed of tracked
professionals; slower levels keep the same T, so they start in proportion. Braking is constant. In
a curve of radius r speed stays under ``sqrt(grip * r)``. Corners of the drawn path are rounded by
the arc that touches both legs. Paths are sampled every 0.1 m; times are good to about 0.02 s.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline.base import (
    DEFAULT_SETTINGS,
    Constant,
    Level,
    Settings,
    build,
    constants_of,
    parameter,
)
from tendline.drill import constants as known
from tendline.drill.types import Pace
from tendline.drill.vocabulary import SpeedWord
from tendline.play.parameters import play_parameters

Array = NDArray[np.float64]
Point = tuple[float, float]
SAMPLE = 0.1
"""Distance between samples of a path [m]; numerical, not a figure of the game."""
LEAST_SAMPLES = 8
"""A leg has at least so many samples, so that he can gather speed and brake on it; numerical."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SkatingModel:
    """What is alike at every level."""

    first_acceleration: float = parameter(known.FIRST_ACCELERATION)
    first_acceleration_top: float = parameter(known.FIRST_ACCELERATION_TOP)
    backward_share: float = parameter(known.BACKWARD_SHARE)
    carry_share: float = parameter(known.CARRY_SHARE)
    walk_share: float = parameter(known.WALK_SHARE)
    half_share: float = parameter(known.HALF_SHARE)
    full_share: float = parameter(known.FULL_SHARE)
    braking: float = parameter(known.BRAKING)
    turning: float = parameter(known.TURNING)
    corner_cut: float = parameter(known.CORNER_CUT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Skating:
    """A skater of one level: top speed [m/s] and the model."""

    top_speed: float
    model: SkatingModel

    @property
    def time_constant(self) -> float:
        """Return T [s]: top speed over first acceleration."""
        return self.model.first_acceleration_top / self.model.first_acceleration

    def pace_speed(self, pace: Pace | None, *, carrying: bool, backward: bool) -> float:
        """Return the speed aimed at [m/s]; full speed when nothing is said."""
        if pace is not None and pace.word is None:
            return pace.speed
        shares = {
            SpeedWord.WALK: self.model.walk_share,
            SpeedWord.HALF: self.model.half_share,
            SpeedWord.FULL: self.model.full_share,
        }
        word = pace.word if pace is not None and pace.word else SpeedWord.FULL
        speed = self.top_speed * shares[word]
        if carrying:
            speed *= self.model.carry_share
        return speed * self.model.backward_share if backward else speed


@lru_cache(maxsize=64)
def skating_of(level: Level, settings: Settings = DEFAULT_SETTINGS) -> Skating:
    """Return the skater of a level with the coach's settings."""
    top = play_parameters(level, settings).top_speed
    return Skating(top_speed=top, model=build(SkatingModel, settings))


@dataclass(frozen=True, slots=True, eq=False)
class Glide:
    """A path on the clock, from 0: sample times [s] and places [m]."""

    time: Array
    x: Array
    y: Array
    speed: Array

    @property
    def duration(self) -> float:
        """Return the time it takes [s]."""
        return float(self.time[-1])

    @property
    def length(self) -> float:
        """Return the way [m]."""
        return float(np.hypot(np.diff(self.x), np.diff(self.y)).sum())

    @property
    def end_speed(self) -> float:
        """Return the speed at the end [m/s]."""
        return float(self.speed[-1])

    def at(self, time: float) -> Point:
        """Return the place at a time since the start; the ends beyond."""
        return float(np.interp(time, self.time, self.x)), float(np.interp(time, self.time, self.y))

    def velocity_at(self, time: float) -> Point:
        """Return the velocity [m/s]; zero outside the path's time."""
        if not 0.0 <= time <= self.duration or len(self.time) < 2:
            return 0.0, 0.0
        k = min(max(int(np.searchsorted(self.time, time)), 1), len(self.time) - 1)
        step = float(self.time[k] - self.time[k - 1])
        if step <= 0.0:
            return 0.0, 0.0
        return (
            float(self.x[k] - self.x[k - 1]) / step,
            float(self.y[k] - self.y[k - 1]) / step,
        )

    def time_nearest(self, place: Point) -> float:
        """Return when the path is nearest to a place [s]."""
        away = np.hypot(self.x - place[0], self.y - place[1])
        return float(self.time[int(np.argmin(away))])


def turn_speed(before: Point, corner: Point, after: Point, skating: Skating) -> float:
    """Return the speed at which a corner between two legs can be taken [m/s]."""
    radius = _corner_radius(before, corner, after, skating.model.corner_cut)[0]
    return math.sqrt(skating.model.turning * radius) if math.isfinite(radius) else math.inf


@lru_cache(maxsize=20000)
def glide(
    points: tuple[Point, ...],
    skating: Skating,
    *,
    speed: float,
    start_speed: float = 0.0,
    end_speed: float = 0.0,
) -> Glide:
    """Return the path through ``points`` skated at ``speed`` at most, from and to given speeds.

    A path of no length takes no time. ``end_speed`` is an upper bound: he may be slower.
    """
    x, y, cap = _sampled(points, skating.model)
    if len(x) < 2:
        one = np.array([points[-1][0]]), np.array([points[-1][1]])
        return Glide(np.zeros(1), *one, np.zeros(1))
    step = np.hypot(np.diff(x), np.diff(y))
    limit = np.minimum(cap, speed)
    limit[-1] = min(limit[-1], max(end_speed, 0.0))
    v = _profile(limit, step, max(start_speed, 0.0), skating)
    mean = 0.5 * (v[1:] + v[:-1])
    time = np.concatenate([[0.0], np.cumsum(step / np.maximum(mean, 1e-6))])
    return Glide(time, x, y, v)


def _profile(limit: Array, step: Array, start: float, skating: Skating) -> Array:
    """Return the speed at each sample: never over the limit, gathering and braking as he can."""
    braking = 2.0 * skating.model.braking
    most = limit.tolist()
    ways = step.tolist()
    for k in range(len(most) - 2, -1, -1):
        most[k] = min(most[k], math.sqrt(most[k + 1] ** 2 + braking * ways[k]))
    first = skating.top_speed / skating.time_constant
    top = skating.top_speed
    v = [min(start, max(most[0], 0.0)) if start > most[0] else start]
    for k, way in enumerate(ways):
        now = v[-1]
        push = first * max(0.0, 1.0 - now / top)
        v.append(min(most[k + 1], math.sqrt(now * now + 2.0 * push * way)))
    return np.array(v)


def _sampled(points: tuple[Point, ...], model: SkatingModel) -> tuple[Array, Array, Array]:
    """Return places every 0.1 m along the path with rounded corners, and the speed cap there."""
    legs = [points[0]]
    for point in points[1:]:
        if math.dist(point, legs[-1]) > 1e-6:
            legs.append(point)
    if len(legs) < 2:
        return np.array([legs[0][0]]), np.array([legs[0][1]]), np.array([math.inf])
    xs: list[Array] = []
    ys: list[Array] = []
    caps: list[Array] = []
    here = legs[0]
    for before, corner, after in zip(legs, legs[1:], legs[2:], strict=False):
        radius, cut = _corner_radius(before, corner, after, model.corner_cut)
        if not math.isfinite(radius) or radius < 1e-6:
            _add_line(xs, ys, caps, here, corner, 0.0 if radius < 1e-6 else math.inf)
            here = corner
            continue
        enter = _toward(corner, before, cut)
        leave = _toward(corner, after, cut)
        _add_line(xs, ys, caps, here, enter, math.inf)
        _add_arc(xs, ys, caps, enter, corner, leave, math.sqrt(model.turning * radius))
        here = leave
    _add_line(xs, ys, caps, here, legs[-1], math.inf)
    xs.append(np.array([legs[-1][0]]))
    ys.append(np.array([legs[-1][1]]))
    caps.append(np.array([math.inf]))
    return np.concatenate(xs), np.concatenate(ys), np.concatenate(caps)


def _corner_radius(
    before: Point, corner: Point, after: Point, most_cut: float
) -> tuple[float, float]:
    """Return radius of the rounding arc and the length it cuts off each leg [m]."""
    a = (corner[0] - before[0], corner[1] - before[1])
    b = (after[0] - corner[0], after[1] - corner[1])
    la, lb = math.hypot(*a), math.hypot(*b)
    if la < 1e-9 or lb < 1e-9:
        return math.inf, 0.0
    turn = abs(math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]))
    if turn < 1e-3:
        return math.inf, 0.0
    cut = min(most_cut, 0.5 * la, 0.5 * lb)
    half = math.tan(0.5 * turn)
    return (cut / half if half < 1e6 else 0.0), cut


def _toward(start: Point, end: Point, way: float) -> Point:
    length = math.dist(start, end)
    share = way / length
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _add_line(
    xs: list[Array], ys: list[Array], caps: list[Array], start: Point, end: Point, cap: float
) -> None:
    """Add samples of a straight leg without its last point; ``cap`` holds at the end."""
    count = max(LEAST_SAMPLES, math.ceil(math.dist(start, end) / SAMPLE))
    share = np.arange(count) / count
    xs.append(start[0] + share * (end[0] - start[0]))
    ys.append(start[1] + share * (end[1] - start[1]))
    limit = np.full(count, math.inf)
    if math.isfinite(cap):
        limit[-1] = max(cap, 0.3)
    caps.append(limit)


def _add_arc(
    xs: list[Array], ys: list[Array], caps: list[Array],
    enter: Point, corner: Point, leave: Point, cap: float,
) -> None:  # fmt: skip
    """Add samples of the rounded corner (a quadratic through its three points)."""
    length = math.dist(enter, corner) + math.dist(corner, leave)
    count = max(2, math.ceil(length / SAMPLE))
    t = np.arange(count) / count
    xs.append((1 - t) ** 2 * enter[0] + 2 * t * (1 - t) * corner[0] + t**2 * leave[0])
    ys.append((1 - t) ** 2 * enter[1] + 2 * t * (1 - t) * corner[1] + t**2 * leave[1])
    caps.append(np.full(count, max(cap, 0.3)))


def sprint_time(distance: float, skating: Skating) -> float:
    """Return the time over ``distance`` [m] from a standing start, by the closed law [s]."""
    top, constant = skating.top_speed, skating.time_constant
    time = distance / top + constant
    for _ in range(60):
        covered = top * (time - constant * (1.0 - math.exp(-time / constant)))
        speed = top * (1.0 - math.exp(-time / constant))
        step = (covered - distance) / max(speed, 1e-9)
        time -= step
        if abs(step) < 1e-10:
            break
    return time


def skating_constants() -> tuple[Constant, ...]:
    """Return the constants behind skating."""
    return constants_of(SkatingModel)


__all__ = [
    "Glide", "Skating", "glide", "skating_constants", "skating_of", "sprint_time", "turn_speed",
]  # fmt: skip
