"""Where to stand, given what each place costs against each option: the decision alone.

Everything here works on a loss table ``table`` of shape (places, options): the chance of a goal
if she stands at that place and the attack takes that option. A place is judged by

    (1 - e) * sum_o p_o L(g, o) + e * max_o L(g, o),        e = n0 / (n0 + n)

which is the Bayes loss under the habits ``p`` known from ``n`` observed choices, made robust
against habits that are wrong (the worst case over a share ``e`` of contamination). With nothing
observed e = 1: the attack sees where she stands and takes what costs most, the minimax of the
zero-sum game. With e = 0 it is the plain expected loss.

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

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError

Array = NDArray[np.float64]


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


def lowest_on_line(
    places: Array, table: Array, weights: Array, worst_share: float, tremble: float = 0.0
) -> float:
    """Return the place along a line where the combined loss is least, exactly.

    Between neighbouring ``places`` (n,) the table is taken as straight; the combined loss is then
    convex between them, made of straight pieces, and is least at a place or where two options
    cost the same. Those crossings are found in closed form.
    """
    losses = combined_loss(table, weights, worst_share, tremble)
    best_place, best_loss = float(places[int(np.nanargmin(losses))]), float(np.nanmin(losses))
    for left in range(len(places) - 1):
        low, high = table[left], table[left + 1]
        level = low[:, None] - low[None, :]
        slope = (high - low)[:, None] - (high - low)[None, :]
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            part = -level / slope
        inside = part[(part > 0.0) & (part < 1.0)]
        if not inside.size:
            continue
        rows = low[None, :] + inside[:, None] * (high - low)[None, :]
        crossing = combined_loss(rows, weights, worst_share, tremble)
        if np.isnan(crossing).all():
            continue
        index = int(np.nanargmin(crossing))
        if crossing[index] < best_loss:
            best_loss = float(crossing[index])
            best_place = float(places[left] + inside[index] * (places[left + 1] - places[left]))
    return best_place
