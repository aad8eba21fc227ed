"""Refit a goaltender's parameters from her own timed tests, with the uncertainty.

Each tested quality gets a factor on her level's default (1 = the default). The logarithms ``q`` of
the factors minimise

    sum(((predicted - timed) / s)^2) + sum((q / spread)^2)

``s`` is the scatter of repetitions of one test (pooled), ``spread`` how far goaltenders of one
level differ: few or uncertain times leave a quality near its default instead of anywhere. The
covariance is ``(J' J / s^2 + I / spread^2)^-1`` with ``J`` the derivative of predicted times, the
interval comes from Student's t on the repetitions' degrees of freedom (ordinary penalised least
squares; for the two push qualities, which trade against each other, from the profile of the
sum). Moves that were not tested follow their nearest kin.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from tendline.base import Constant, InputError, NoConvergenceError, assumed
from tendline.motion.kinds import MoveKind
from tendline.motion.law import TimeLaw
from tendline.motion.parameters import MotionParameters
from tendline.motion.timed import TimedTest, TimedTestKind, predicted_time

Floats = NDArray[np.float64]

CONFIDENCE = 0.95
"""Share of cases in which a stated interval should hold the true value."""

SPREAD = assumed(
    "motion.refit.spread", "how far goaltenders of one level differ (standard deviation of the "
    "logarithm)", 0.35, "1", low=0.05, high=1.0,
)  # fmt: skip
WATCH_SCATTER = assumed(
    "motion.refit.watch_scatter", "scatter of a single time when no test was repeated", 0.10, "s",
    low=0.02, high=0.5,
)  # fmt: skip
LEAST_SCATTER = assumed(
    "motion.refit.least_scatter", "scatter of a time cannot be less than", 0.02, "s",
    low=0.005, high=0.1, note="about one picture of a phone film",
)  # fmt: skip
LEAST_FACTOR = assumed(
    "motion.refit.least_factor", "slowest believable share of the default", 0.4, "1",
    low=0.25, high=1.0,
)  # fmt: skip
MOST_FACTOR = assumed(
    "motion.refit.most_factor", "fastest believable share of the default", 2.0, "1",
    low=1.0, high=4.0,
)  # fmt: skip
REFIT_CONSTANTS: tuple[Constant, ...] = (
    SPREAD, WATCH_SCATTER, LEAST_SCATTER, LEAST_FACTOR, MOST_FACTOR,
)  # fmt: skip
_EDGE = math.log(5.0)


class Quality(StrEnum):
    """What a set of timed tests settles about her."""

    SHUFFLE = "shuffle pace"
    PUSH = "push pace"
    PUSH_START = "start of her pushes"
    PUSH_SPEED = "top speed of her pushes"
    OUT = "pace out on the line"
    BACK = "pace back on the line"
    FORWARD_PUSH = "pace of the forward push"
    SLIDE = "pace of the slide"
    KNEES = "pace on the knees"
    RECOVERY = "pace of the recovery"


_TESTED_BY: dict[TimedTestKind, Quality] = {
    TimedTestKind.SHUFFLE: Quality.SHUFFLE,
    TimedTestKind.PUSH: Quality.PUSH,
    TimedTestKind.LONG_PUSH: Quality.PUSH,
    TimedTestKind.OUT: Quality.OUT,
    TimedTestKind.BACK: Quality.BACK,
    TimedTestKind.FORWARD_PUSH: Quality.FORWARD_PUSH,
    TimedTestKind.SLIDE: Quality.SLIDE,
    TimedTestKind.KNEES: Quality.KNEES,
    TimedTestKind.RECOVERY: Quality.RECOVERY,
}

_KIN: dict[Quality, tuple[MoveKind, ...]] = {
    Quality.SHUFFLE: (MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE),
    Quality.PUSH: (MoveKind.T_PUSH, MoveKind.POST_ENTRY),
    Quality.OUT: (MoveKind.C_CUT_FORWARD,),
    Quality.BACK: (MoveKind.C_CUT_BACK,),
    Quality.FORWARD_PUSH: (MoveKind.FORWARD_PUSH,),
    Quality.SLIDE: (MoveKind.BUTTERFLY_SLIDE,),
    Quality.KNEES: (MoveKind.BUTTERFLY_PUSH, MoveKind.KNEE_SHUFFLE),
}
_FOLLOWS: dict[Quality, Quality] = {
    Quality.BACK: Quality.OUT,
    Quality.OUT: Quality.BACK,
    Quality.FORWARD_PUSH: Quality.PUSH,
    Quality.SLIDE: Quality.PUSH,
}
"""An untested quality takes the factor of this one, if that was tested."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """One quality as a share of her level's default, with its interval."""

    quality: Quality
    factor: float
    low: float
    high: float
    tests: int

    @property
    def words(self) -> str:
        """Return the finding as a short line."""
        return (
            f"{self.quality.value}: {100 * self.factor:.0f} % of the level's default "
            f"({100 * self.low:.0f} to {100 * self.high:.0f} %)"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """Her own parameters, what was fitted, and how far single times scatter [s].

    ``untested`` are the qualities that keep the default or follow their kin; ``warnings`` name
    results to check before use.
    """

    parameters: MotionParameters
    fitted: tuple[Fitted, ...]
    scatter: float
    degrees_of_freedom: int
    untested: tuple[Quality, ...]
    warnings: tuple[str, ...]


def refit(tests: Iterable[TimedTest], parameters: MotionParameters) -> Refit:
    """Return ``parameters`` refitted to the times of ``tests``.

    Raises ``InputError`` without tests, ``NoConvergenceError`` when no believable goaltender
    (a fifth to five times the default) has such times.
    """
    given = tuple(tests)
    if not given:
        raise InputError("no timed tests", hint="Time every test of the sheet two to four times.")
    qualities = _qualities(given)
    times = np.array([time for one in given for time in one.times], dtype=np.float64)
    scatter, freedom = _scatter(given)

    def predictions(logs: Floats) -> Floats:
        hers = apply_factors(parameters, dict(zip(qualities, np.exp(logs), strict=True)))
        return np.array([predicted_time(one, hers) for one in given for _ in one.times])

    def misses(logs: Floats) -> Floats:
        return np.concatenate([(predictions(logs) - times) / scatter, logs / SPREAD.value])

    logs, covariance = _least_squares(misses, len(qualities))
    wide = _student(freedom)
    widths = np.sqrt(np.diag(covariance)) * wide
    lows, highs = logs - widths, logs + widths
    if Quality.PUSH_START in qualities:
        pair = (qualities.index(Quality.PUSH_START), qualities.index(Quality.PUSH_SPEED))
        for one, other in (pair, pair[::-1]):
            lows[one], highs[one] = _profile(misses, logs, one, other, float(widths[one]), wide)
    counts = _counts(given, qualities)
    fitted = tuple(
        Fitted(
            quality=quality,
            factor=math.exp(log),
            low=math.exp(low),
            high=math.exp(high),
            tests=counts[quality],
        )
        for quality, log, low, high in zip(qualities, logs, lows, highs, strict=True)
    )
    return Refit(
        parameters=apply_factors(parameters, {one.quality: one.factor for one in fitted}),
        fitted=fitted,
        scatter=scatter,
        degrees_of_freedom=freedom,
        untested=tuple(q for q in _ALL if q not in qualities and not _split(q, qualities)),
        warnings=_warnings(fitted),
    )


def _scatter(tests: tuple[TimedTest, ...]) -> tuple[float, int]:
    """Return the pooled standard deviation of repetitions [s] and its degrees of freedom."""
    freedom = sum(len(one.times) - 1 for one in tests)
    if freedom == 0:
        return WATCH_SCATTER.value, 0
    squares = sum(
        (time - math.fsum(one.times) / len(one.times)) ** 2 for one in tests for time in one.times
    )
    return max(LEAST_SCATTER.value, math.sqrt(squares / freedom)), freedom


_ALL = tuple(one for one in Quality if one not in (Quality.PUSH_START, Quality.PUSH_SPEED))


def _split(quality: Quality, qualities: tuple[Quality, ...]) -> bool:
    return quality is Quality.PUSH and Quality.PUSH_START in qualities


def _qualities(tests: tuple[TimedTest, ...]) -> tuple[Quality, ...]:
    """Return what the tests settle; start and top speed apart when two distances were pushed."""
    kinds = {one.kind for one in tests}
    found = {_TESTED_BY[kind] for kind in kinds}
    if {TimedTestKind.PUSH, TimedTestKind.LONG_PUSH} <= kinds:
        found = (found - {Quality.PUSH}) | {Quality.PUSH_START, Quality.PUSH_SPEED}
    return tuple(one for one in Quality if one in found)


def _counts(tests: tuple[TimedTest, ...], qualities: tuple[Quality, ...]) -> dict[Quality, int]:
    counts = dict.fromkeys(qualities, 0)
    for one in tests:
        quality = _TESTED_BY[one.kind]
        both = (Quality.PUSH_START, Quality.PUSH_SPEED)
        for name in both if _split(quality, qualities) else (quality,):
            counts[name] += len(one.times)
    return counts


def apply_factors(parameters: MotionParameters, factors: dict[Quality, float]) -> MotionParameters:
    """Return parameters with each quality at its share of what it was; the rest follow kin."""
    start = factors.get(Quality.PUSH_START, factors.get(Quality.PUSH, 1.0))
    speed = factors.get(Quality.PUSH_SPEED, factors.get(Quality.PUSH, 1.0))
    made = parameters
    for quality, kinds in _KIN.items():
        for kind in kinds:
            law = parameters.law(kind)
            if quality in factors and quality is not Quality.PUSH:
                law = law.scaled(factors[quality])
            elif quality is Quality.PUSH or _FOLLOWS.get(quality) is Quality.PUSH:
                law = _pushed(law, start, speed)
            elif quality in _FOLLOWS:
                law = law.scaled(factors.get(_FOLLOWS[quality], 1.0))
            made = made.with_law(kind, law)
    slower = 1.0 / factors.get(Quality.RECOVERY, 1.0)
    return replace(
        made,
        recovery=parameters.recovery * slower,
        recovery_settle=parameters.recovery_settle * slower,
        on_ice_recovery=parameters.on_ice_recovery * slower,
    )


def _pushed(law: TimeLaw, start: float, speed: float) -> TimeLaw:
    return TimeLaw(
        start_delay=law.start_delay / start,
        acceleration=law.acceleration * start,
        top_speed=law.top_speed * speed,
        braking=law.braking * start,
        settle=law.settle / start,
    )


def _profile(
    misses: Callable[[Floats], Floats],
    logs: Floats,
    one: int,
    other: int,
    width: float,
    wide: float,
) -> tuple[float, float]:
    """Return the interval of one quality, the best of the other at every value of it.

    Start and top speed of a push trade against each other, and a top speed that she never
    reaches leaves no trace: the sum of squares is followed to where it has grown by ``wide**2``.
    """
    from scipy.optimize import brentq, minimize_scalar

    least = float(np.sum(misses(logs) ** 2))

    def excess(step: float) -> float:
        trial = logs.copy()
        trial[one] += step

        def squares(value: float) -> float:
            trial[other] = value
            return float(np.sum(misses(trial) ** 2))

        best = minimize_scalar(squares, bounds=(-_EDGE, _EDGE), method="bounded",
                               options={"xatol": 1e-4})  # fmt: skip
        return float(best.fun) - least - wide**2

    ends = []
    for side in (-1.0, 1.0):
        far = side * width
        while excess(far) < 0.0 and abs(far) < 2.0 * _EDGE:
            far *= 1.5
        ends.append(float(brentq(excess, 0.0, far, xtol=1e-4)) if excess(far) > 0.0 else far)
    return float(logs[one]) + ends[0], float(logs[one]) + ends[1]


def _least_squares(misses: Callable[[Floats], Floats], count: int) -> tuple[Floats, Floats]:
    """Return log factors and their covariance."""
    from scipy.optimize import least_squares

    found = least_squares(
        misses, np.zeros(count), bounds=(-_EDGE, _EDGE), xtol=1e-10, ftol=1e-12, gtol=1e-12
    )
    logs = np.asarray(found.x, dtype=np.float64)
    if not found.success or np.abs(logs).max() > _EDGE - 1e-3:
        raise NoConvergenceError(
            "the timed tests do not fit any believable goaltender",
            hint="Check the distances and that times are in seconds.",
        )
    slopes = np.asarray(found.jac, dtype=np.float64)
    covariance = np.asarray(np.linalg.inv(slopes.T @ slopes), dtype=np.float64)
    return logs, covariance


def _student(freedom: int) -> float:
    """Return the half width of the interval in standard deviations; normal without repetitions."""
    from scipy.stats import norm, t

    tail = 0.5 + 0.5 * CONFIDENCE
    return float(t.ppf(tail, freedom)) if freedom else float(norm.ppf(tail))


def _warnings(fitted: tuple[Fitted, ...]) -> tuple[str, ...]:
    found = []
    for one in fitted:
        if not LEAST_FACTOR.value <= one.factor <= MOST_FACTOR.value:
            found.append(f"{one.words}: far from the default; check the distance and the watch")
        elif one.high / one.low > 2.0:
            found.append(f"{one.words}: too uncertain to use; time it again")
    return tuple(found)
