"""What the puck sees of the net: gap from each of its lines to the nearest limb, covered share."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import InputError
from tendline.sight.constants import PUCK_THICKNESS
from tendline.sight.grid import Floats, MouthGrid, Singles
from tendline.sight.reference import LIMBS, gaps_reference

BLOCK = 256  # fewer placements than this are not worth a second thread


class Bodies(Protocol):
    """Sphere-swept segments, such as ``body.Capsules``: (n, 3), (n, 3), (n,), (n,)."""

    @property
    def start(self) -> NDArray[Any]: ...

    @property
    def end(self) -> NDArray[Any]: ...

    @property
    def radius(self) -> NDArray[Any]: ...

    @property
    def limb(self) -> NDArray[Any]: ...


@dataclass(frozen=True, slots=True)
class Cover:
    """What one puck sees: arrays are (rows, columns) of the grid, read-only, in metres.

    ``gap`` is the distance from the puck's line to the nearest limb's surface (<= 0: blocked),
    ``limb`` that limb, ``limb_gap`` and ``along`` (limbs, rows, columns) the gap to each limb and
    the share of the line travelled at the nearest point. ``share`` is the covered share of the
    mouth, counted over the targets.
    """

    share: float
    gap: Singles
    limb: NDArray[np.int8]
    limb_gap: Singles
    along: Singles


def axes_of(capsules: Bodies) -> tuple[Singles, NDArray[np.int64]]:
    """Return capsules as the kernel takes them: axes (n, 7) and limb (n,)."""
    axes = np.empty((len(capsules.radius), 7), np.float32)
    axes[:, 0:3] = capsules.start
    axes[:, 3:6] = capsules.end
    axes[:, 6] = capsules.radius
    return axes, np.ascontiguousarray(capsules.limb, dtype=np.int64)


def require_puck(puck: ArrayLike, capsules: Bodies) -> Floats:
    """Return the puck's centre as (3,) if the question makes sense; x and y alone mean on the ice.

    Raises :class:`InputError` when it is not two or three finite numbers, lies on or behind the
    goal line, below the ice, or inside the goaltender.
    """
    place = np.asarray(puck, dtype=float)
    if place.shape == (2,):
        place = np.append(place, PUCK_THICKNESS.value / 2)
    if place.shape != (3,) or not np.isfinite(place).all():
        raise InputError(
            "the puck needs finite coordinates x, y and perhaps z in metres",
            came=np.array2string(place, precision=3),
            item="puck",
        )
    if place[0] <= 0.0:
        raise InputError(
            "the puck must be in front of the goal line to see the goal mouth",
            came=f"x = {place[0]:.3g} m",
            allowed="x above 0 m",
            hint="From behind the line nothing of the mouth can be hit directly.",
            item="puck",
        )
    if place[2] < 0.0:
        raise InputError(
            "the puck must not be below the ice", came=f"z = {place[2]:.3g} m", item="puck"
        )
    if len(capsules.radius) and puck_depth_inside(place, capsules) > 0.0:
        raise InputError(
            "the puck lies inside the goaltender",
            came=f"x = {place[0]:.3g} m, y = {place[1]:.3g} m, z = {place[2]:.3g} m",
            hint="Move the puck or the goaltender.",
            item="puck",
        )
    return place


def puck_depth_inside(puck: Floats, capsules: Bodies) -> float:
    """Return how deep a point lies inside the nearest capsule (m); negative outside."""
    e = capsules.end - capsules.start
    r = puck - capsules.start
    g = np.maximum((e * e).sum(1), 1e-18)
    t = np.clip((e * r).sum(1) / g, 0.0, 1.0)
    distance = np.linalg.norm(r - t[:, None] * e, axis=1)
    return float((np.asarray(capsules.radius) - distance).max())


def _cover_from(limb_gap: NDArray[Any], along: NDArray[Any], grid: MouthGrid) -> Cover:
    shape = (LIMBS, grid.rows, grid.columns)
    gaps = np.ascontiguousarray(limb_gap[:, : grid.size].reshape(shape), dtype=np.float32)
    shares = np.ascontiguousarray(along[:, : grid.size].reshape(shape), dtype=np.float32)
    nearest = gaps.min(axis=0)
    limb = gaps.argmin(axis=0).astype(np.int8)
    for array in (gaps, shares, nearest, limb):
        array.flags.writeable = False
    return Cover(float(np.mean(nearest <= 0.0)), nearest, limb, gaps, shares)


def cover(puck: ArrayLike, capsules: Bodies, grid: MouthGrid) -> Cover:
    """Return what a puck at ``puck`` (3,) sees of the mouth past placed ``capsules``.

    Straight lines from the puck's centre to the centre of each cell; compiled, single precision
    (gaps good to about 0.01 mm on a rink). Raises :class:`InputError` as in ``require_puck``.
    """
    place = require_puck(puck, capsules)
    axes, limb = axes_of(capsules)
    gap = np.empty((LIMBS, len(grid.flat_y)), np.float32)
    along = np.empty_like(gap)
    from tendline.sight.kernel import gaps_into

    level = np.zeros(len(grid.flat_y), np.float32)
    gaps_into(place.astype(np.float32), grid.flat_y, grid.flat_z, level, axes, limb, gap, along)
    return _cover_from(gap, along, grid)


def cover_reference(puck: ArrayLike, capsules: Bodies, grid: MouthGrid) -> Cover:
    """Return the same as :func:`cover` from the plain numpy twin in double precision."""
    place = require_puck(puck, capsules)
    gap, along = gaps_reference(
        place,
        grid.points,
        np.asarray(capsules.start, float),
        np.asarray(capsules.end, float),
        np.asarray(capsules.radius, float),
        np.asarray(capsules.limb, np.intp),
    )
    return _cover_from(gap, along, grid)


def cover_many(
    pucks: ArrayLike, poses: ArrayLike, capsules: Bodies, grid: MouthGrid, *, threads: int = 1
) -> Floats:
    """Return the covered share of the mouth (m,) for many placements of one body at once.

    ``pucks`` (m, 3) or (3,); ``poses`` (m, 3) or (3,): x, y, facing of ``capsules``, which are in
    the body frame. The same numbers as :func:`cover`; NaN where a placement has no answer (NaN in,
    puck on or behind the goal line, below the ice or inside her). Raises :class:`InputError` for
    shapes that do not fit.
    """
    shots, places = pair_rows(pucks, poses)
    usable = usable_rows(shots, places)
    count = len(shots)
    start = np.where(usable[:, None], shots, 1.0).astype(np.float32)
    pose = np.where(usable[:, None], places, 0.0).astype(np.float32)
    axes, limb = axes_of(capsules)
    share = np.empty(count, np.float32)
    from tendline.sight.kernel import shares_into

    def work(first: int, last: int) -> None:
        cells = len(grid.flat_y)
        shares_into(
            first, last, start, pose, axes, limb, grid.flat_y, grid.flat_z, grid.size, share,
            np.empty(cells, np.float32), np.empty((LIMBS, cells), np.float32),
            np.empty((LIMBS, cells), np.float32), np.empty_like(axes),
        )  # fmt: skip

    run_blocks(work, count, threads)
    return share.astype(np.float64) + np.where(usable, 0.0, np.nan)


def pair_rows(pucks: ArrayLike, poses: ArrayLike) -> tuple[Floats, Floats]:
    """Return pucks and poses as two (m, 3) arrays; one row may stand for all.

    Raises :class:`InputError` for shapes that do not fit.
    """
    shots = np.atleast_2d(np.asarray(pucks, dtype=float))
    places = np.atleast_2d(np.asarray(poses, dtype=float))
    if shots.shape[-1] != 3 or places.shape[-1] != 3:
        raise InputError(
            "pucks and poses need three numbers each",
            came=f"shapes {shots.shape} and {places.shape}",
            allowed="(m, 3)",
        )
    count = max(len(shots), len(places))
    if len(shots) not in (1, count) or len(places) not in (1, count):
        raise InputError(
            "as many pucks as poses, or one of them",
            came=f"{len(shots)} pucks and {len(places)} poses",
        )
    return np.broadcast_to(shots, (count, 3)), np.broadcast_to(places, (count, 3))


def usable_rows(shots: Floats, places: Floats) -> NDArray[np.bool_]:
    """Return which placements have an answer at all: finite, in front of the line, on the ice."""
    finite = np.isfinite(shots).all(axis=1) & np.isfinite(places).all(axis=1)
    with np.errstate(invalid="ignore"):
        return np.asarray(finite & (shots[:, 0] > 0.0) & (shots[:, 2] >= 0.0))


def run_blocks(work: Callable[[int, int], None], count: int, threads: int) -> None:
    """Run ``work(first, last)`` over ``count`` rows, in blocks on several threads if it pays."""
    if threads <= 1 or count <= BLOCK:
        work(0, count)
        return
    edges = np.linspace(0, count, threads * 4 + 1).astype(int)
    with ThreadPoolExecutor(threads) as pool:
        list(pool.map(work, edges[:-1], edges[1:]))
