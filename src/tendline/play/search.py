"""Find the place that costs least: a coarse look everywhere, then ever smaller steps.

A place is given by its depth along the puck's line and its offset to the left of that line, both
on a lattice of ``STEP`` metres. The search first tries a few depths and offsets (or, warm, the
previous answer and a few depths), then moves to the best neighbour until none is better, halving
the step down to the lattice. The answer therefore has no better neighbour on the lattice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

import numpy as np

from tendline.base import InputError, NoConvergenceError
from tendline.play.ground import Line
from tendline.play.lanes import Array

STEP = 0.025
"""Finest step of the search [m]."""
TIE = 1e-6
"""A place must be better than the best so far by more than this (loss); nearer to the line wins."""
FIRST_DEPTHS = (12, 20, 28, 36, 48, 60, 76, 96, 120, 150)
"""Depths of the first look, in steps."""
FIRST_OFFSETS = (0, -12, 12)
"""Offsets of the first look, in steps."""
WIDE_OFFSETS = (0, -12, 12, -24, 24)
"""Offsets tried at every depth, in steps, where the first look finds no room."""
MOST_MOVES = 60

Cell = tuple[int, int]


def lowest_place(
    line: Line,
    losses: Callable[[Array], Array],
    *,
    near: tuple[float, float] | None = None,
    first_step: int = 8,
) -> tuple[float, float, float]:
    """Return depth, offset and loss of the best place; ``losses`` maps places (m, 2) to (m,).

    ``near`` (depth, offset) starts warm: only its surroundings and a few depths are looked at
    first. Raises :class:`InputError` if she can stand nowhere, and :class:`NoConvergenceError`
    if the steps do not come to an end.
    """
    known: dict[Cell, float] = {}

    def evaluate(cells: Iterable[Cell]) -> None:
        new = sorted({one for one in cells if one not in known and _allowed(line, one)})
        if not new:
            return
        places = np.array([line.place(d * STEP, o * STEP) for d, o in new])
        for cell, value in zip(new, losses(places), strict=True):
            known[cell] = math.inf if math.isnan(value) else float(value)

    lowest = math.ceil(line.least_depth / STEP - 1e-9)
    highest = math.floor(line.most_depth / STEP + 1e-9)
    depths = [one for one in FIRST_DEPTHS if lowest <= one <= highest] or [lowest]
    if near is None:
        evaluate((d, o) for d in depths for o in FIRST_OFFSETS)
        step = first_step
    else:
        home = (min(max(round(near[0] / STEP), lowest), highest), round(near[1] / STEP))
        step = max(first_step // 2, 1)
        near_home = _around(home, step, corners=False)
        evaluate([home, *near_home, *((d, 0) for d in depths[::3])])
    if not known:
        evaluate((d, o) for d in range(lowest, highest + 1) for o in WIDE_OFFSETS)
    if not known or math.isinf(min(known.values())):
        raise InputError(
            "there is no room for her to stand",
            came="skaters, the puck or the net in every place",
            hint="Move someone away from the crease.",
            item="goaltender",
        )
    best = _best(known)
    for _ in range(MOST_MOVES):
        evaluate(_around(best, step, corners=step == 1))
        better = _best(known)
        if known[better] < known[best] - TIE:
            best = better
        elif step > 1:
            step //= 2
        else:
            return best[0] * STEP, best[1] * STEP, known[best]
    raise NoConvergenceError(
        "the search for the best place did not come to an end", came=f"{MOST_MOVES} moves"
    )


def _allowed(line: Line, cell: Cell) -> bool:
    return line.allows(cell[0] * STEP, cell[1] * STEP)


def _best(known: dict[Cell, float]) -> Cell:
    """Return the best cell; ties go to the line, then further out, then to her left."""
    least = min(known.values())
    tied = [cell for cell, value in known.items() if value <= least + TIE]
    return min(tied, key=lambda cell: (abs(cell[1]), -cell[0], -cell[1]))


def _around(cell: Cell, step: int, *, corners: bool) -> list[Cell]:
    depth, offset = cell
    return [
        (depth + a * step, offset + b * step)
        for a in (-1, 0, 1)
        for b in (-1, 0, 1)
        if (a, b) != (0, 0) and (corners or a == 0 or b == 0)
    ]
