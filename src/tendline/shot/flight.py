"""How a puck flies and slides: time with drag, arc with gravity, speed left, what is in reach.

Flat flight loses speed to drag: with k = rho C A / (2 m) the speed after a way d is
``v exp(-k d)`` and the time ``(exp(k d) - 1) / (k v)``. The path of a flat throw then is
``z = x tan(a) - g / (4 k^2 u^2) (exp(2 k x) - 1 - 2 k x)`` with u the level speed at the start
(drag taken along the level way). A puck on the ice is slowed by friction. The drag coefficient
and the friction are from memory, with wide ranges; over a shot from the blue line drag costs
about 4 % of the time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import DEFAULT_SETTINGS, InputError, Settings, require_number
from tendline.shot.constants import FRICTION, GRAVITY
from tendline.shot.parameters import drag_per_metre

Floats = NDArray[np.float64]
STEPS = 200
STEEPEST = 1.0  # slope of the launch; the lower of two paths never needs more
CLOSE = 1e-9


@dataclass(frozen=True, slots=True)
class Flight:
    """One puck from blade to target. Seconds, radians above level, metres, m/s.

    ``arc`` is how high the path passes above the straight line from puck to target at most.
    """

    time: float
    launch_angle: float
    arrival_speed: float
    arc: float
    highest: float


def flight_time(
    distance: ArrayLike, speed: ArrayLike, *, settings: Settings = DEFAULT_SETTINGS
) -> Floats:
    """Return the time (s) over ``distance`` (m) from a release at ``speed`` (m/s), with drag.

    Broadcasts; NaN in, NaN out. Raises :class:`InputError` for a speed of zero or less or a
    distance below zero.
    """
    way, start = _ways(distance), np.asarray(speed, float)
    if (start <= 0.0).any():
        raise InputError("a puck needs speed", came=f"{start.min():g} m/s", allowed="above 0 m/s")
    k = drag_per_metre(settings)
    return np.asarray(np.expm1(k * way) / (k * start) if k > 0.0 else way / start)


def _ways(distance: ArrayLike) -> Floats:
    way = np.asarray(distance, float)
    if (way < 0.0).any():
        raise InputError(
            "a way cannot be negative", came=f"{np.nanmin(way):g} m", allowed="0 m or more"
        )
    return way


def slide_time(distance: float, speed: float, *, settings: Settings = DEFAULT_SETTINGS) -> float:
    """Return the time (s) a puck on the ice needs over ``distance`` (m); infinity if it stops.

    Raises :class:`InputError` for a distance or a speed out of range.
    """
    way = require_number("distance", distance, low=0.0, high=100.0, unit="m")
    start = require_number("puck speed", speed, low=0.1, high=60.0, unit="m/s")
    return float(slide_times(way, start, settings=settings))


def slide_times(
    distance: ArrayLike, speed: ArrayLike, *, settings: Settings = DEFAULT_SETTINGS
) -> Floats:
    """Return the same for arrays: infinity where the puck stops on the way, NaN for NaN.

    Friction alone: ``d = v t - mu g t^2 / 2``. Broadcasts; raises as ``flight_time`` does.
    """
    way, start = _ways(distance), np.asarray(speed, float)
    if (start <= 0.0).any():
        raise InputError("a puck needs speed", came=f"{start.min():g} m/s", allowed="above 0 m/s")
    slowing = settings.value_of(FRICTION) * settings.value_of(GRAVITY)
    left = start * start - 2.0 * slowing * way
    time = (start - np.sqrt(np.maximum(left, 0.0))) / slowing
    return np.asarray(np.where(left < 0.0, np.inf, time))


def flight(
    puck: ArrayLike, target: ArrayLike, *, speed: float, settings: Settings = DEFAULT_SETTINGS
) -> Flight:
    """Return the flat (lower) path of a puck in the air from ``puck`` (3,) to ``target`` (3,).

    Raises :class:`InputError` for places that are not finite and for a target that this speed
    cannot reach with a launch of 45 degrees or less.
    """
    start, end = np.asarray(puck, float), np.asarray(target, float)
    if start.shape != (3,) or end.shape != (3,) or not np.isfinite([start, end]).all():
        raise InputError("a flight needs two places of three finite numbers in metres")
    speed = require_number("puck speed", speed, low=0.1, high=60.0, unit="m/s")
    k, g = drag_per_metre(settings), settings.value_of(GRAVITY)
    way, climb = float(np.hypot(*(end - start)[:2])), float(end[2] - start[2])
    if way < CLOSE:
        raise InputError(
            "a flight needs a way over the ice", came=f"{way:g} m from {start} to {end}",
            hint="Straight up is no shot.",
        )  # fmt: skip
    level = speed
    for _ in range(STEPS):
        slope = (climb + _drop(way, level, k, g)) / way
        better = speed / math.sqrt(1.0 + slope * slope)
        if abs(better - level) < CLOSE * speed:
            break
        level = better
    else:
        raise _out_of_reach(speed, way, climb)
    slope = (climb + _drop(way, level, k, g)) / way
    if slope > STEEPEST:
        raise _out_of_reach(speed, way, climb)
    time = math.expm1(k * way) / (k * level)
    steps = np.linspace(0.0, way, 201)
    height = steps * slope - _drop(steps, level, k, g)
    falling = slope - g / (2.0 * k * level * level) * math.expm1(2.0 * k * way)
    return Flight(
        time=time,
        launch_angle=math.atan(slope),
        arrival_speed=level * math.exp(-k * way) * math.hypot(1.0, falling),
        arc=float((height - steps * climb / way).max()),
        highest=float(start[2] + height.max()),
    )


def _drop(way: Any, level: float, k: float, g: float) -> Any:
    """Return how far a level throw has fallen (m) after ``way`` (m), with drag."""
    return g / (4.0 * k * k * level * level) * (np.expm1(2.0 * k * way) - 2.0 * k * way)


def _out_of_reach(speed: float, way: float, climb: float) -> InputError:
    return InputError(
        "the puck cannot reach the target in the air",
        came=f"{speed:g} m/s over {way:.1f} m and {climb:.1f} m up",
        hint="A slower puck must stay on the ice or start nearer.",
    )


def highest_at(
    distance: ArrayLike, speed: float, *, settings: Settings = DEFAULT_SETTINGS
) -> Floats:
    """Return the greatest height (m above the blade) reachable at ``distance`` (m), without drag.

    The envelope of all throws: ``v^2 / 2g - g d^2 / 2 v^2``; negative where only the ice is left.
    NaN in, NaN out. Raises :class:`InputError` for a speed out of range or a distance below zero.
    """
    g = settings.value_of(GRAVITY)
    speed = require_number("puck speed", speed, low=0.1, high=60.0, unit="m/s")
    way = _ways(distance)
    return np.asarray(speed * speed / (2.0 * g) - g * way * way / (2.0 * speed * speed))
