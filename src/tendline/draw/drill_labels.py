"""Places for all labels of a diagram at once, so that none stands on another or on a sign.

Each label brings places where it may stand, its dearest first. What must stay free (signs, the
picture's edge, other labels) counts before what should (lines), and that before how far away a
place is. Labels are placed one after the other; those that collide look again, in rounds, with
the places they lost made dearer, until none collides or the rounds are over.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from tendline.draw.labels import Box
from tendline.draw.strokes import at_length, length_of, resample
from tendline.draw.svg import Point

ROUNDS = 12
"""How often colliding labels look for another place at most; numerical."""
ON_LINE, FAR = 2.0, 0.5
"""Cost of a label wholly on lines, and of standing one label's reach from its dearest place; ours.
"""
CELLS = 300
"""Cells along the picture in which lines are counted; numerical."""
MOST_ALONG = 14
"""Places along one line at most; numerical."""
ANGLES = (-90, -45, -135, 0, 180, 45, 135, 90, -67, -113, -22, -158, 22, 158, 67, 113)
"""Directions round a sign in which a label looks for a place [degrees], the dearest first."""

Boxes = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Wish:
    """A label looking for a place: ``spots`` are (centre, how far from the dearest, 0 to 1)."""

    spots: tuple[tuple[Point, float], ...]
    half_width: float
    half_height: float

    def boxes(self) -> Boxes:
        """Return the label's box at every place, (n, 4)."""
        centres = np.array([at for at, _ in self.spots])
        half = np.array([self.half_width, self.half_height])
        return np.hstack([centres - half, centres + half])


@dataclass(slots=True)
class Room:
    """The picture and what is taken in it: ``solid`` must not be covered, ``soft`` should not."""

    bounds: Box
    solid: list[Box] = field(default_factory=list)
    soft: list[Box] = field(default_factory=list)

    def _on_lines(self, boxes: Boxes) -> Boxes:
        """Return which share of each box lines take, about: counted in cells (n,)."""
        left, top = self.bounds.left, self.bounds.top
        wide, high = self.bounds.right - left, self.bounds.bottom - top
        cell = max(wide, high) / CELLS
        rows, columns = math.ceil(high / cell), math.ceil(wide / cell)
        taken = np.zeros((rows + 1, columns + 1))
        corner = np.array([left, top, left, top])
        for x0, y0, x1, y1 in np.rint((_rows(self.soft) - corner) / cell).astype(int):
            taken[max(y0, 0) + 1 : max(y1, 0) + 1, max(x0, 0) + 1 : max(x1, 0) + 1] = 1.0
        sums = taken.cumsum(axis=0).cumsum(axis=1)
        at = np.rint((boxes - corner) / cell).astype(int)
        x0, x1 = np.clip(at[:, 0], 0, columns), np.clip(at[:, 2], 0, columns)
        y0, y1 = np.clip(at[:, 1], 0, rows), np.clip(at[:, 3], 0, rows)
        count = sums[y1, x1] - sums[y0, x1] - sums[y1, x0] + sums[y0, x0]
        area = np.maximum((at[:, 2] - at[:, 0]) * (at[:, 3] - at[:, 1]), 1)
        return np.asarray(count / area)

    def take_line(self, points: Sequence[Point], *, thickness: float) -> None:
        """Mark the neighbourhood of a line as better left free."""
        if len(points) > 1 and length_of(points) > 0.0:
            half = thickness / 2.0
            self.soft += [Box.around(at, half, half) for at, _ in resample(points, thickness)]

    def settle(self, wishes: Sequence[Wish]) -> list[Point]:
        """Return a place for each label."""
        if not wishes:
            return []
        boxes = [one.boxes() for one in wishes]
        lines = np.split(
            self._on_lines(np.vstack(boxes)), np.cumsum([len(one) for one in boxes])[:-1]
        )
        solid, edge = _rows(self.solid), _rows([self.bounds])
        fixed, cost = [], []
        for one, box, on_lines in zip(wishes, boxes, lines, strict=True):
            area = 4.0 * one.half_width * one.half_height
            outside = 1.0 - _shared(box, edge)[:, 0] / area
            fixed.append(_shared(box, solid).sum(axis=1) / area + outside)
            far = np.array([away for _, away in one.spots])
            cost.append(ON_LINE * on_lines + FAR * far)
        return [
            one.spots[at][0] for one, at in zip(wishes, _chosen(boxes, fixed, cost), strict=True)
        ]


def _chosen(boxes: list[Boxes], fixed: list[Boxes], cost: list[Boxes]) -> list[int]:
    """Return which place each label takes; equal bids go to the dearer place."""
    count = len(boxes)
    blame = [np.zeros(len(one)) for one in boxes]
    at: list[int] = []
    best: tuple[float, list[int]] = (math.inf, [])
    hardest = sorted(range(count), key=lambda i: (int((fixed[i] < _TOUCH).sum()), i))
    at = [0] * count
    placed: list[int] = []

    def hits(i: int, others: Sequence[int]) -> Boxes:
        if not others:
            return np.zeros(len(boxes[i]))
        taken = np.array([boxes[j][at[j]] for j in others])
        area = float(np.prod(boxes[i][0, 2:] - boxes[i][0, :2]))
        return np.asarray(_shared(boxes[i], taken).sum(axis=1) / area)

    for i in hardest:
        hard = fixed[i] + hits(i, placed)
        at[i] = _least(_HARD * hard + cost[i])
        placed.append(i)
    for turn in range(ROUNDS):
        hard_of = [
            float(fixed[i][at[i]] + hits(i, [j for j in range(count) if j != i])[at[i]])
            for i in range(count)
        ]
        total = sum(hard_of)
        if total < best[0] - 1e-9:
            best = (total, list(at))
        worst = [i for i in range(count) if hard_of[i] > _TOUCH]
        if not worst:
            break
        for i in worst:
            blame[i][at[i]] += 1.0
            hard = fixed[i] + hits(i, [j for j in range(count) if j != i])
            at[i] = _least(_HARD * hard + cost[i] + (turn + 1.0) * blame[i])
    return best[1] or at


_TOUCH, _HARD = 1e-6, 40.0


def _least(cost: Boxes) -> int:
    """Return the first of the least; equal to the last digit is equal."""
    return int(np.argmax(cost <= cost.min() + 1e-9))


def _rows(boxes: Sequence[Box]) -> Boxes:
    return np.array([(b.left, b.top, b.right, b.bottom) for b in boxes]).reshape(-1, 4)


def _shared(tried: Boxes, taken: Boxes) -> Boxes:
    """Return the area that each tried box shares with each taken one, (n, m)."""
    low = np.maximum(tried[:, None, :2], taken[None, :, :2])
    high = np.minimum(tried[:, None, 2:], taken[None, :, 2:])
    return np.asarray(np.prod(np.maximum(high - low, 0.0), axis=2))


def round_a_sign(at: Point, *, least: float, most: float, half: Point) -> list[tuple[Point, float]]:
    """Return places round a sign whose label's nearest edge is ``least`` to ``most`` away.

    ``half`` is half the label's width and height; nearer places are dearer.
    """
    found = []
    steps = 4
    for k in range(steps):
        gap = least + (most - least) * k / (steps - 1)
        for rank, degrees in enumerate(ANGLES):
            cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
            reach = gap + abs(cos) * half[0] + abs(sin) * half[1]
            far = (k + rank / len(ANGLES)) / steps
            found.append(((at[0] + reach * cos, at[1] + reach * sin), far))
    return sorted(found, key=lambda one: one[1])


def along_a_line(
    line: Sequence[Point], *, start: float, step: float, gaps: Sequence[float], half: Point
) -> list[tuple[Point, float]]:
    """Return places beside a line, from ``start`` on, the nearest edge ``gaps`` away from it.

    The dearest is at the start and nearest to the line; the end of the line is dear enough.
    """
    total = length_of(line)
    step = max(step, total / MOST_ALONG)
    walked = [start]
    while walked[-1] + step < total - 0.3 * step:
        walked.append(walked[-1] + step)
    if start > step:
        walked.append(start / 2.0)
    found = []
    for way in walked:
        (x, y), turn = at_length(line, way)
        for side in (1.0, -1.0):
            dx, dy = -side * math.sin(turn), side * math.cos(turn)
            for rank, gap in enumerate(gaps):
                reach = gap + abs(dx) * half[0] + abs(dy) * half[1]
                far = 0.6 * abs(way - start) / max(total, step) + 0.4 * rank / len(gaps)
                far += 0.02 * (side < 0.0)
                found.append(((x + reach * dx, y + reach * dy), far))
    return sorted(found, key=lambda one: one[1])
