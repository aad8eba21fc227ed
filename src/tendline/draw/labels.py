"""Finding a free place for words in a picture, and keeping end labels of curves apart."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from tendline.draw.svg import Point


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of the drawing plane: left, top, right, bottom."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def around(cls, centre: Point, half_width: float, half_height: float) -> Box:
        """Return the box centred on a point."""
        x, y = centre
        return cls(x - half_width, y - half_height, x + half_width, y + half_height)

    @classmethod
    def about(cls, points: Sequence[Point], margin: float = 0.0) -> Box:
        """Return the box that holds all points, with a margin round them."""
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return cls(min(xs) - margin, min(ys) - margin, max(xs) + margin, max(ys) + margin)

    def overlap(self, other: Box) -> float:
        """Return the shared area."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across * down if across > 0.0 and down > 0.0 else 0.0

    @property
    def area(self) -> float:
        """Return the area."""
        return (self.right - self.left) * (self.bottom - self.top)


class Placer:
    """Remembers what is taken and puts each new word where it covers least.

    ``bounds`` is the picture; leaving it is as bad as covering something fully.
    """

    def __init__(self, bounds: Box) -> None:
        self.bounds = bounds
        self.taken: list[Box] = []

    def take(self, box: Box) -> None:
        """Mark a box as taken."""
        self.taken.append(box)

    def take_line(self, points: Sequence[Point], *, thickness: float) -> None:
        """Mark the neighbourhood of a line as taken."""
        half = thickness / 2.0
        for a, b in pairwise(points):
            steps = max(1, int(max(abs(b[0] - a[0]), abs(b[1] - a[1])) / thickness))
            for i in range(steps + 1):
                x = a[0] + (b[0] - a[0]) * i / steps
                y = a[1] + (b[1] - a[1]) * i / steps
                self.taken.append(Box.around((x, y), half, half))

    def cost(self, box: Box) -> float:
        """Return how bad a place is: covered area plus area outside the picture."""
        outside = box.area - box.overlap(self.bounds)
        return sum(box.overlap(one) for one in self.taken) + 4.0 * outside

    def _costs(self, boxes: Sequence[Box]) -> NDArray[np.float64]:
        """Return :meth:`cost` of many boxes at once."""
        tried = np.array([(b.left, b.top, b.right, b.bottom) for b in boxes])
        every = [self.bounds, *self.taken]
        taken = np.array([(b.left, b.top, b.right, b.bottom) for b in every])
        low = np.maximum(tried[:, None, :2], taken[None, :, :2])
        high = np.minimum(tried[:, None, 2:], taken[None, :, 2:])
        shared = np.prod(np.maximum(high - low, 0.0), axis=2)
        area = np.prod(tried[:, 2:] - tried[:, :2], axis=1)
        return np.asarray(shared[:, 1:].sum(axis=1) + 4.0 * (area - shared[:, 0]))

    def best(self, candidates: Iterable[Point], half_width: float, half_height: float) -> Point:
        """Return the candidate centre that covers least, the first of equals, and take it."""
        choices = list(candidates)
        costs = self._costs([Box.around(one, half_width, half_height) for one in choices])
        # equal to the last digit is equal: the first of equals stays, however the sum was made
        at = choices[int(np.argmax(costs <= costs.min() + 1e-9))]
        self.take(Box.around(at, half_width, half_height))
        return at


def around(point: Point, *, across: float, down: float) -> list[Point]:
    """Return eight centres around a point: right, left, above, below, then the corners."""
    x, y = point
    return [
        (x + across, y), (x - across, y), (x, y - down), (x, y + down),
        (x + across, y - down), (x - across, y - down),
        (x + across, y + down), (x - across, y + down),
    ]  # fmt: skip


def spread(wanted: Sequence[float], *, gap: float, low: float, high: float) -> list[float]:
    """Return positions as near as possible to ``wanted``, at least ``gap`` apart, within bounds.

    The order is kept. If there is no room for all at ``gap``, they share the room evenly. Least
    squares by pooling neighbours that would collide.
    """
    count = len(wanted)
    if count == 0:
        return []
    if (count - 1) * gap > high - low:
        step = (high - low) / max(count - 1, 1)
        places = [low + i * step for i in range(count)]
        ranks = sorted(range(count), key=wanted.__getitem__)
        return [places[ranks.index(i)] for i in range(count)]
    order = sorted(range(count), key=wanted.__getitem__)
    blocks: list[list[float]] = []
    for rank, index in enumerate(order):
        blocks.append([wanted[index] - rank * gap, 1.0])
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            value, weight = blocks.pop()
            before, mass = blocks[-1]
            blocks[-1] = [(before * mass + value * weight) / (mass + weight), mass + weight]
    bases = [value for value, weight in blocks for _ in range(round(weight))]
    top = high - (count - 1) * gap
    result = [0.0] * count
    for rank, index in enumerate(order):
        result[index] = min(max(bases[rank], low), top) + rank * gap
    return result
