"""The plain numpy twin of the kernel: the same answer in double precision, written for reading."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tendline.sight.grid import Floats

LIMBS = 7
FAR = 99.0
TINY = 1e-18


@dataclass(frozen=True, slots=True)
class Nearest:
    """Nearest points of lines and capsule axes, all (targets, capsules): ``distance`` between the
    line and the axis (m), ``along`` the line and ``on`` the axis (shares)."""

    distance: Floats
    along: Floats
    on: Floats


def nearest_points(
    puck: Floats, targets: Floats, start: Floats, end: Floats, rise: Floats | float = 0.0
) -> Nearest:
    """Return the nearest points of every line puck -> target and every axis.

    ``puck`` (3,), ``targets`` (m, 3), ``start`` and ``end`` (n, 3); ``rise`` (m,) or a number
    lifts the start of each line (m). Nearest points of two segments as in C. Ericson, Real-Time
    Collision Detection (2005), section 5.1.9, clamped in the order that minimises on the square.
    """
    origin = np.broadcast_to(puck, targets.shape).copy()
    origin[:, 2] += rise
    d = (targets - origin)[:, None, :]
    e = (end - start)[None, :, :]
    r = origin[:, None, :] - start[None, :, :]
    a, b, c = (d * d).sum(-1), (d * e).sum(-1), (d * r).sum(-1)
    f, g = (e * r).sum(-1), (e * e).sum(-1)
    s = np.clip((b * f - c * g) / np.maximum(a * g - b * b, TINY), 0.0, 1.0)
    t = np.clip((b * s + f) / np.maximum(g, TINY), 0.0, 1.0)
    s = np.clip((b * t - c) / a, 0.0, 1.0)
    apart = r + s[..., None] * d - t[..., None] * e
    return Nearest(np.sqrt((apart * apart).sum(-1)), s, t)


def gaps_reference(
    puck: Floats,
    targets: Floats,
    start: Floats,
    end: Floats,
    radius: Floats,
    limb: NDArray[np.intp],
    rise: Floats | float = 0.0,
) -> tuple[Floats, Floats]:
    """Return gap (m) and along (share of the line), each (limbs, targets).

    Arguments as in :func:`nearest_points`, with ``radius`` and ``limb`` (n,) of the capsules. A
    limb without capsules keeps ``FAR``.
    """
    near = nearest_points(puck, targets, start, end, rise)
    distance = near.distance - radius
    gap = np.full((LIMBS, len(targets)), FAR)
    along = np.ones((LIMBS, len(targets)))
    rows = np.arange(len(targets))
    for group in range(LIMBS):
        members = np.flatnonzero(limb == group)
        if members.size:
            best = members[np.argmin(distance[:, members], axis=1)]
            gap[group] = distance[rows, best]
            along[group] = near.along[rows, best]
    return gap, along
