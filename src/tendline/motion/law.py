"""How long a move takes and where she is during it: one speed law in closed form.

A move starts after ``start_delay``, speeds up at ``acceleration`` to at most ``top_speed``, slows
down at ``braking`` to rest, and is set ``settle`` later. Over a short distance top speed is never
reached and the speed over time is a triangle; otherwise it is a trapezoid. With
``h = 1/acceleration + 1/braking`` and ``peak = min(top_speed, sqrt(2 d / h))`` the travel time is

    t(d) = peak * h + (d - peak**2 * h / 2) / top_speed

(the second term is the time at top speed, zero for a triangle). Elementary kinematics.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeLaw:
    """Start delay [s], acceleration [m/s2], top speed [m/s], braking [m/s2], settle [s].

    For turning the same law holds with rad in place of m. Raises ``InputError`` unless
    acceleration, top speed and braking are positive and the two times are not negative.
    """

    start_delay: float
    acceleration: float
    top_speed: float
    braking: float
    settle: float
    ramp: float = field(init=False, repr=False, compare=False)
    """1/acceleration + 1/braking [s2/m]."""

    def __post_init__(self) -> None:
        for name in ("acceleration", "top_speed", "braking"):
            if not (math.isfinite(getattr(self, name)) and getattr(self, name) > 0.0):
                raise InputError(
                    f"the {name.replace('_', ' ')} of a move must be above zero",
                    came=f"{getattr(self, name)}",
                    allowed="a positive number",
                )
        for name in ("start_delay", "settle"):
            if not (math.isfinite(getattr(self, name)) and getattr(self, name) >= 0.0):
                raise InputError(
                    f"the {name.replace('_', ' ')} of a move must not be negative",
                    came=f"{getattr(self, name)}",
                    allowed="zero or more seconds",
                )
        object.__setattr__(self, "ramp", 1.0 / self.acceleration + 1.0 / self.braking)

    def travel(self, distance: float) -> float:
        """Return the time from first motion to rest over ``distance`` >= 0 [m] -> [s]."""
        return float(_travel(distance, self, math.sqrt, min))

    def duration(self, distance: float) -> float:
        """Return start delay + travel time [s]; zero distance still costs the start delay."""
        return self.start_delay + self.travel(distance)

    def travel_many(self, distance: Floats) -> Floats:
        """Return :meth:`travel` for an array of any shape; NaN stays NaN."""
        return np.asarray(_travel(distance, self, np.sqrt, np.minimum), dtype=np.float64)

    def peak(self, distance: float) -> float:
        """Return the highest speed reached over ``distance`` [m/s]."""
        return min(self.top_speed, math.sqrt(2.0 * distance / self.ramp))

    def covered(self, distance: float, time: float) -> float:
        """Return how far along ``distance`` she is ``time`` after the move began [m].

        The inverse of :meth:`duration`; 0 before the start delay has passed, ``distance`` at
        the end and after it.
        """
        return float(_covered(distance, time, self, math.sqrt, min, max))

    def covered_many(self, distance: Any, time: Any) -> Floats:
        """Return :meth:`covered` for arrays (shapes broadcast); NaN stays NaN."""
        way = np.asarray(distance, dtype=np.float64)
        moment = np.asarray(time, dtype=np.float64)
        return np.asarray(
            _covered(way, moment, self, np.sqrt, np.minimum, np.maximum), dtype=np.float64
        )

    def speed(self, distance: float, time: float) -> float:
        """Return her speed ``time`` after the move began [m/s]; 0 before and after it."""
        peak = self.peak(distance)
        moving = time - self.start_delay
        left = self.travel(distance) - moving
        if moving <= 0.0 or left <= 0.0:
            return 0.0
        return min(peak, self.acceleration * moving, self.braking * left)

    def scaled(self, share: float) -> TimeLaw:
        """Return the law of someone whose speeds and accelerations are ``share`` of these.

        The delays grow by ``1/share``. Raises ``InputError`` unless ``share`` is above zero.
        """
        _require_positive("share of pace", share)
        return TimeLaw(
            start_delay=self.start_delay / share,
            acceleration=self.acceleration * share,
            top_speed=self.top_speed * share,
            braking=self.braking * share,
            settle=self.settle / share,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """A law followed over a planned ``distance`` [m or rad], from ``skipped`` [s] into it.

    A whole move has ``skipped`` 0; a stop begins in the middle of a law, and a move that is cut
    short keeps the distance it was planned for.
    """

    law: TimeLaw
    distance: float
    skipped: float = 0.0

    def covered(self, time: float) -> float:
        """Return what is covered ``time`` [s] after the course began [m or rad]."""
        before = self.law.covered(self.distance, self.skipped) if self.skipped else 0.0
        return self.law.covered(self.distance, time + self.skipped) - before

    def speed(self, time: float) -> float:
        """Return the speed ``time`` [s] after the course began [m/s or rad/s]."""
        return self.law.speed(self.distance, time + self.skipped)


def braking_course(law: TimeLaw, speed: float) -> Course:
    """Return the course from ``speed`` [m/s] to rest at the law's braking."""
    return Course(
        law=law,
        distance=0.5 * speed * speed * law.ramp,
        skipped=law.start_delay + speed / law.acceleration,
    )


def _travel(
    distance: Any, law: TimeLaw, root: Callable[..., Any], least: Callable[..., Any]
) -> Any:
    """Return the travel time; the one home of the formula, for numbers and for arrays."""
    ramp = law.ramp
    peak = least(law.top_speed, root(2.0 * distance / ramp))
    return peak * ramp + (distance - 0.5 * ramp * peak * peak) / law.top_speed


def _covered(
    distance: Any,
    time: Any,
    law: TimeLaw,
    root: Callable[..., Any],
    least: Callable[..., Any],
    most: Callable[..., Any],
) -> Any:
    """Return what is covered while speeding up, at top speed and while braking."""
    ramp = law.ramp
    peak = least(law.top_speed, root(2.0 * distance / ramp))
    rise, fall = peak / law.acceleration, peak / law.braking
    cruise = most((distance - 0.5 * ramp * peak * peak) / law.top_speed, 0.0)
    moving = most(time - law.start_delay, 0.0)
    up = least(moving, rise)
    steady = least(most(moving - rise, 0.0), cruise)
    down = least(most(moving - rise - cruise, 0.0), fall)
    gone = 0.5 * law.acceleration * up * up + peak * (steady + down)
    return least(gone - 0.5 * law.braking * down * down, distance)


def _require_positive(name: str, value: float) -> None:
    if not (math.isfinite(value) and value > 0.0):
        raise InputError(f"the {name} must be above zero", came=f"{value}",
                         allowed="a positive number")  # fmt: skip


def _require_height(height: float) -> None:
    if not (math.isfinite(height) and height >= 0.0):
        raise InputError("a height to fall must not be negative", came=f"{height} m",
                         allowed="0 m or more")  # fmt: skip


def free_fall_time(height: float, gravity: float) -> float:
    """Return the time to fall ``height`` [m] from rest under ``gravity`` [m/s2] -> [s].

    Raises ``InputError`` for a negative height or a gravity that is not above zero.
    """
    _require_height(height)
    _require_positive("gravity", gravity)
    return math.sqrt(2.0 * height / gravity)


def drop_time(height: float, end_speed: float) -> float:
    """Return the time to fall ``height`` [m] from rest, reaching ``end_speed`` [m/s] -> [s].

    Constant acceleration: mean speed is half the end speed, so ``t = 2 h / v``. Raises
    ``InputError`` for a negative height or a speed that is not above zero.
    """
    _require_height(height)
    _require_positive("end speed", end_speed)
    return 2.0 * height / end_speed
