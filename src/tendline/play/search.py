"""Find the place that costs least: one look at the whole table of places, then arithmetic.

A place is given by its depth along the puck's line and its offset to the left of that line. The
loss table is asked once, at *knots* (depths) of a few offsets; each option runs straight between
them, on a lattice of ``STEP`` metres. There the options are put together and the whole is spread
over where she really comes to stand (``decision.spread``). The best offset is taken, or the line
itself where that is as good, and along it the middle of the depths that are as good as the best.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from tendline.base import InputError
from tendline.play import constants as known
from tendline.play.decision import DepthBand, Weights, depth_band, spread
from tendline.play.ground import BODY_RADIUS, Line
from tendline.play.lanes import Array

TIGHT_SHARE = known.TIGHT_SHARE.value
STEP = 0.05
"""Spacing of the lattice [m]."""
KNOT, FINE_KNOT = 0.27, 0.1
"""Spacing of the knots [m], while searching and for the answer."""
OFFSETS = (0.0, 0.3, 0.6)
"""Distances from the line that are looked at [m]; beyond the last, every ``FAR_OFFSET``."""
FAR_OFFSET = 0.35
EQUAL = 1e-6
"""Losses nearer to each other than this are equal."""

Table = Callable[[Array], Array]


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """Every place that was weighed, and the best of them.

    ``depth`` (n,) and ``offsets`` (m,) [m] span the lattice, ``loss`` (m, n) is all options
    together, spread over where she comes to stand; infinity where she may not stand. ``knots``
    (k,) [m] with ``table`` (k, options) are the plain losses at ``offset`` [m], the best; ``band``
    are the depths along it that are as good as the best of them.
    """

    depth: Array
    offsets: Array
    loss: Array
    knots: Array
    table: Array
    offset: float
    band: DepthBand

    @property
    def row(self) -> Array:
        """Return the loss (n,) by depth at the best offset."""
        return np.asarray(self.loss[int(np.argmin(np.abs(self.offsets - self.offset)))])

    @property
    def least(self) -> float:
        """Return the least loss at the best offset."""
        return float(self.row.min())

    def at(self, depths: Array) -> Array:
        """Return the loss at ``depths`` (k,) [m] and the best offset; NaN where she may not be."""
        return np.interp(depths, self.depth, np.where(np.isinf(self.row), np.nan, self.row))


def lowest_place(
    line: Line,
    table: Table,
    weights: Weights,
    *,
    only: float | None = None,
    knot: float = KNOT,
) -> Field:
    """Return all places weighed; ``table`` maps places (m, 2) to losses (m, options).

    ``only`` [m] looks at one offset alone. Raises :class:`InputError` if she can stand nowhere, or
    nowhere behind the puck.
    """
    if line.at_her_feet:
        raise InputError(
            "the puck lies at her feet",
            came=f"x = {line.puck[0]:g} m, y = {line.puck[1]:g} m",
            allowed=f"more than {line.least_depth + BODY_RADIUS:.2f} m from the goal's centre",
            hint="There she covers it; move it further out.",
            item="puck",
        )
    offsets = _offsets(line, only)
    found = _field(line, table, weights, offsets, knot)
    if found is None and line.people:
        found = _field(replace(line, room=TIGHT_SHARE * line.room), table, weights, offsets, knot)
    if found is None:
        raise InputError(
            "there is no room for her to stand",
            came="skaters, the puck or the net in every place",
            hint="Move someone away from the crease.",
            item="goaltender",
        )
    return found


def _offsets(line: Line, only: float | None) -> tuple[float, ...]:
    if only is not None:
        return (only,)
    most = line.most_offset
    further = np.arange(OFFSETS[-1] + FAR_OFFSET, most + 1e-9, FAR_OFFSET)
    right = [one for one in (*OFFSETS, *further) if one < most - 1e-9] + [most]
    return tuple(sorted({sign * float(one) for one in right for sign in (-1.0, 1.0)}))


def _field(
    line: Line, table: Table, weights: Weights, offsets: tuple[float, ...], knot: float
) -> Field | None:
    """Return the field over ``offsets``, or None if she may stand nowhere in it."""
    lattice = _lattice(line.least_depth, line.most_depth, knot, offsets)
    places = [
        np.column_stack(line.place(lattice.knots, np.full(len(lattice.knots), one)))
        for one in offsets
    ]
    losses = table(np.concatenate(places)).reshape(len(offsets), len(lattice.knots), -1)
    together = weights.loss(_between(lattice, losses).reshape(-1, losses.shape[2]))
    plain = together.reshape(len(lattice.offsets), len(lattice.depth))
    loss = spread(spread(plain, STEP, weights.place_error).T, STEP, weights.place_error).T
    free = line.allowed(lattice.depth[None, :], lattice.offsets[:, None])
    loss = np.where(free & np.isfinite(loss), loss, np.inf)
    if not np.isfinite(loss).any():
        return None
    row = _best_offset(lattice.offsets, loss.min(axis=1), weights.tie)
    return Field(
        depth=lattice.depth,
        offsets=lattice.offsets,
        loss=loss,
        knots=lattice.knots,
        table=np.tensordot(lattice.across[row], losses, axes=1),
        offset=float(lattice.offsets[row]),
        band=depth_band(
            lattice.depth, np.where(np.isinf(loss[row]), np.nan, loss[row]), weights.band_cost
        ),
    )


def _best_offset(offsets: Array, least: Array, tie: float) -> int:
    """Return the row of the best offset: the line itself unless another is better than a tie.

    Of equal ones the nearest to the line counts, then the one to her left.
    """
    on_line = int(np.argmin(np.abs(offsets)))
    if least[on_line] <= least.min() + tie:
        return on_line
    good = np.flatnonzero(least <= least.min() + EQUAL)
    return int(min(good, key=lambda row: (round(abs(float(offsets[row])), 9), -offsets[row])))


@dataclass(frozen=True, slots=True, eq=False)
class _Lattice:
    """Knots (k,), depths (n,) and offsets (m,) [m] of the lattice, and the straight lines between
    what is asked and the lattice: ``along`` (n, k), ``across`` (m, offsets asked)."""

    knots: Array
    depth: Array
    offsets: Array
    along: Array
    across: Array


@lru_cache(maxsize=512)
def _lattice(least: float, most: float, knot: float, asked: tuple[float, ...]) -> _Lattice:
    knots = np.linspace(least, most, max(2, math.ceil((most - least) / knot - 1e-9) + 1))
    depth = _steps(least, most)
    offsets = _steps(asked[0], asked[-1]) if len(asked) > 1 else np.array(asked)
    along, across = _straight(depth, knots), _straight(offsets, np.array(asked))
    made = _Lattice(knots, depth, offsets, along, across)
    for array in (knots, depth, offsets, along, across):
        array.flags.writeable = False
    return made


def _steps(first: float, last: float) -> Array:
    """Return places ``STEP`` apart, counted from zero so that left and right are alike."""
    low, high = math.ceil(first / STEP - 1e-9), math.floor(last / STEP + 1e-9)
    if high < low:
        return np.array([first])
    return np.asarray(STEP * np.arange(low, high + 1), dtype=np.float64)


def _straight(at: Array, knots: Array) -> Array:
    """Return the shares (m, k) of the knots at each place."""
    return np.asarray(np.column_stack([np.interp(at, knots, one) for one in np.eye(len(knots))]))


def _between(lattice: _Lattice, losses: Array) -> Array:
    """Return the losses (m, n, options) on the lattice; NaN beside a knot without an answer."""
    blank = np.isnan(losses)
    clean = np.where(blank, 0.0, losses) if blank.any() else losses
    made = _spanned(lattice, clean)
    if blank.any():
        made = np.where(_spanned(lattice, blank.astype(float)) > 1e-9, np.nan, made)
    return made


def _spanned(lattice: _Lattice, values: Array) -> Array:
    by_depth = np.matmul(lattice.along, values)
    return np.asarray(np.tensordot(lattice.across, by_depth, axes=1))
