"""Which piece of gear lies over which, by casting lines of sight at her segments."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from tendline.body import Capsules
from tendline.draw.figure_camera import Camera, Floats

SIDE = 56
"""Lines of sight along the longer side of the picture; a few millimetres of gear between them."""


def depths(body: Capsules, camera: Camera, rays: tuple[Floats, Floats]) -> Floats:
    """Return how far along each line of sight each segment is met (n, m) [m]; inf where it is not.

    Taken where the line passes nearest to the segment's axis, less the half chord there: exact for
    a ball, and within the radius elsewhere. It is used to tell what is in front, not how far.
    """
    origin, way = rays
    axis = body.end - body.start
    from_origin = body.start[:, None, :] - origin[None]
    flat_axis = axis[:, None, :] - np.einsum("nk,mk->nm", axis, way)[..., None] * way[None]
    along = np.einsum("nmk,mk->nm", from_origin, way)
    flat = from_origin - along[..., None] * way[None]
    length = np.einsum("nmk,nmk->nm", flat_axis, flat_axis)
    lengths = np.where(length < 1e-12, 1.0, length)
    share = np.clip(-np.einsum("nmk,nmk->nm", flat, flat_axis) / lengths, 0.0, 1.0)
    share = np.where(length < 1e-12, 0.0, share)
    gap = flat + share[..., None] * flat_axis
    chord = body.radius[:, None] ** 2 - np.einsum("nmk,nmk->nm", gap, gap)
    met = along + share * np.einsum("nk,mk->nm", axis, way) - np.sqrt(np.maximum(chord, 0.0))
    return np.where(chord > 0.0, met, np.inf)


def picture_grid(low: Floats, high: Floats, side: int = SIDE) -> Floats:
    """Return picture points (n, 2) spread evenly over a rectangle."""
    span = high - low
    step = float(span.max()) / side
    x = np.arange(float(low[0]) + 0.5 * step, float(high[0]), step)
    y = np.arange(float(low[1]) + 0.5 * step, float(high[1]), step)
    across, down = np.meshgrid(x, y)
    return np.column_stack([across.ravel(), down.ravel()])


def back_to_front(
    body: Capsules,
    camera: Camera,
    pieces: Sequence[Sequence[int]],
    points: Floats,
    always: Iterable[tuple[int, int]] = (),
) -> list[int]:
    """Return the order in which to draw pieces, the furthest first.

    ``pieces`` holds the segments of each piece. Of two pieces that overlap in the picture the one
    that is nearer along more lines of sight is drawn later. ``always`` names pairs (under, over)
    that hold whatever the lines say. Where pieces go round in a circle the weakest vote gives way.
    """
    met = depths(body, camera, camera.rays(points))
    first = np.array([met[list(piece)].min(axis=0) for piece in pieces])
    count = len(pieces)
    over = np.zeros((count, count))
    for one in range(count):
        nearer = first < first[one]
        both = np.isfinite(first) & np.isfinite(first[one])
        over[:, one] = (nearer & both).sum(axis=1) - (~nearer & both).sum(axis=1)
    np.fill_diagonal(over, 0.0)
    for under, above in always:
        over[above, under], over[under, above] = 1e6, -1e6
    left, order = list(range(count)), []
    while left:
        weight = [sum(max(over[one, other], 0.0) for other in left) for one in left]
        order.append(left.pop(int(np.argmin(weight))))
    return order
