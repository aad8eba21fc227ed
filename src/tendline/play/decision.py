"""Where to stand, given what each place costs against each option: the decision alone.

Everything here works on a loss table ``table`` of shape (places, options): the chance of a goal
if she stands at that place and the attack takes that option. A place is judged by

    (1 - e) * sum_o p_o L(g, o) + e * max_o L(g, o),        e = n0 / (n0 + n)

which is the Bayes loss under the habits ``p`` known from ``n`` observed choices, made robust
against habits that are wrong (the worst case over a share ``e`` of contamination). With nothing
observed e = 1: the attack sees where she stands and takes what costs most, the minimax of the
zero-sum game. With e = 0 it is the plain expected loss.

She does not come to stand where she is told to the centimetre. A depth is therefore judged by the
mean over a normal error round it, and of all depths that are as good as the best (the *band*) the
middle one is advised: a place at the edge of a cliff is no advice.

An attack does not always find its best option. A small share t, the *tremble*, takes any option,
all alike, so that the loss becomes ``(1 - t) * (the above) + t * mean_o L(g, o)``. Where one
option costs the same wherever she stands (she can get back in time from anywhere), this lets the
other options decide, as they should.

References
----------
Berger J O, Statistical Decision Theory and Bayesian Analysis, 2nd ed., Springer 1985, section
3.5.3 and 4.7 (epsilon-contamination); Huber P J, Ann. Math. Statist. 35:73-101, 1964; Selten R,
Int. J. Game Theory 4:25-55, 1975 (trembling hand).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError

Array = NDArray[np.float64]
SPREAD_ENDS = 3.0
"""The spread of where she stands is cut off at this many standard deviations."""


def worst_case_share(observed: float, habit_weight: float) -> float:
    """Return e, the share that the worst case keeps after ``observed`` choices were seen."""
    if observed < 0:
        raise InputError("observed choices", came=f"{observed:g}", allowed="0 or more")
    if habit_weight <= 0:
        raise InputError("habit weight", came=f"{habit_weight:g}", allowed="more than 0")
    return habit_weight / (habit_weight + observed)


def combined_loss(table: Array, weights: Array, worst_share: float, tremble: float = 0.0) -> Array:
    """Return the loss (places,) of each place: habits and worst case together.

    ``weights`` (options,) are the habits, not negative, summing to 1. A place with a NaN in its
    row has no answer and gets NaN. Raises :class:`InputError` if there is nothing to weigh.
    """
    if table.ndim != 2 or table.shape[1] == 0:
        raise InputError(
            "no option left to weigh", came=f"a table of shape {table.shape}",
            allowed="at least one option", hint="Switch one of the attack's options on again.",
        )  # fmt: skip
    if weights.shape != (table.shape[1],):
        raise InputError(
            "one weight per option is needed",
            came=f"{weights.shape}",
            allowed=f"({table.shape[1]},)",
        )
    if np.any(weights < 0) or not np.isclose(weights.sum(), 1.0):
        raise InputError("habits must be shares that sum to 1", came=f"{weights}")
    for name, share in (("worst-case share", worst_share), ("tremble", tremble)):
        if not 0.0 <= share <= 1.0:
            raise InputError(name, came=f"{share:g}", allowed="0 to 1")
    expected = table @ weights
    worst = table.max(axis=1)
    robust = (1.0 - worst_share) * expected + worst_share * worst
    return np.asarray((1.0 - tremble) * robust + tremble * table.mean(axis=1))


def habit_shares(kinds: tuple[str, ...], counts: dict[str, int]) -> tuple[Array, int]:
    """Return the share (options,) of each option and how many choices they rest on.

    ``kinds`` names the kind of each option on the table, ``counts`` how often each kind was
    seen. A kind seen n times is spread evenly over its options (two mates, one count). Choices
    that are not on the table now are left out. With nothing seen every option gets one share.
    """
    for kind, count in counts.items():
        if count < 0:
            raise InputError("a count of observed choices", came=f"{count}", allowed="0 or more",
                             item=kind)  # fmt: skip
    present = {kind: kinds.count(kind) for kind in kinds}
    seen = sum(counts.get(kind, 0) for kind in present)
    if not seen:
        return np.full(len(kinds), 1.0 / max(len(kinds), 1)), 0
    return np.array([counts.get(kind, 0) / present[kind] / seen for kind in kinds]), seen


@dataclass(frozen=True, slots=True)
class DepthBand:
    """Depths [m] from ``low`` to ``high`` that cost at most ``cost`` more than the best."""

    low: float
    high: float
    cost: float

    @property
    def width(self) -> float:
        """Return how much room the band leaves [m]."""
        return self.high - self.low

    @property
    def middle(self) -> float:
        """Return the depth in its middle [m]."""
        return 0.5 * (self.low + self.high)


def depth_band(depths: Array, combined: Array, cost: float) -> DepthBand:
    """Return the band round the best depth; its ends are interpolated between the depths.

    ``depths`` (n,) [m] rises; ``combined`` (n,) is the loss at each. The band is the unbroken
    stretch round the best: a second stretch further out, as good, is not part of it.
    """
    if np.all(np.isnan(combined)):
        raise InputError("no depth has an answer", came="NaN at every depth")
    best = int(np.nanargmin(combined))
    limit = float(combined[best]) + cost

    def edge(step: int) -> float:
        index = best
        while 0 <= index + step < len(depths):
            beyond = float(combined[index + step])
            if not beyond <= limit:
                if np.isnan(beyond):
                    return float(depths[index])
                here = float(combined[index])
                part = (limit - here) / (beyond - here)
                return float(depths[index] + part * (depths[index + step] - depths[index]))
            index += step
        return float(depths[index])

    return DepthBand(low=edge(-1), high=edge(+1), cost=cost)


@dataclass(frozen=True, slots=True)
class Weights:
    """What the decision weighs with.

    Habits as ``shares`` (options,), the worst case's and the tremble's share, choices ``observed``;
    ``place_error`` [m] is how far from the place she is told she comes to stand; depths that cost
    at most ``band_cost`` more than the best, and offsets that cost at most ``tie`` more, are as
    good.
    """

    shares: Array
    worst_share: float
    tremble: float
    observed: int
    place_error: float = 0.0
    band_cost: float = 0.0
    tie: float = 0.0

    def loss(self, table: Array) -> Array:
        """Return the combined loss (places,) of a loss table (places, options)."""
        return combined_loss(table, self.shares, self.worst_share, self.tremble)


def spread(losses: Array, step: float, error: float) -> Array:
    """Return the expected loss (..., n) of being told each place and standing ``error`` [m] off it.

    The last axis of ``losses`` (..., n) lies ``step`` [m] apart. The error is normal with that
    standard deviation; what would lie beyond either end counts as the end. Places without an
    answer (NaN) are left out of the mean and stay without one.
    """
    count = losses.shape[-1]
    if error <= 0.0 or count < 2:
        return losses.copy()
    shares = _spread_shares(count, step, error).T
    known = np.isfinite(losses)
    if known.all():
        return np.asarray(losses @ shares)
    mean = (np.where(known, losses, 0.0) @ shares) / np.maximum(known @ shares, 1e-12)
    return np.asarray(np.where(known, mean, np.nan))


@lru_cache(maxsize=256)
def _spread_shares(count: int, step: float, error: float) -> Array:
    """Return how often (told, stood) she comes to stand at each of ``count`` depths."""
    beyond = math.ceil(SPREAD_ENDS * error / step)
    stood = np.arange(-beyond, count + beyond)
    away = step * (stood[None, :] - np.arange(count)[:, None])
    density = np.exp(-0.5 * (away / error) ** 2)
    shares = density[:, beyond : beyond + count].copy()
    shares[:, 0] += density[:, :beyond].sum(axis=1)
    shares[:, -1] += density[:, beyond + count :].sum(axis=1)
    shares /= shares.sum(axis=1, keepdims=True)
    shares.flags.writeable = False
    return np.asarray(shares)
