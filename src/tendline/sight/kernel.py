"""The hot kernel: from every line puck -> target, the gap to the nearest capsule of each limb.

Single precision, coordinates relative to the puck, everything that belongs to a limb alone taken
out of the inner loop, the inner loop over the targets so that it runs in vector lanes, nothing
allocated. Imported on first use (it loads numba); the plain numpy twin is in ``reference``.

For a line P + s d (0 <= s <= 1) and a capsule axis A + t e (0 <= t <= 1) with r = P - A the
nearest points follow from s0 = clamp((b f - c g) / (a g - b b)), t = clamp((b s0 + f) / g),
s = clamp((b t - c) / a), where a = d.d, b = d.e, c = d.r, f = e.r, g = e.e (the constrained
minimum of a convex quadratic on the unit square; parallel lines are safe because the last two
steps minimise whatever s0 was).
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from tendline.sight.compiled import kernel

LIMBS = 7
FAR = np.float32(99.0)
TINY = np.float32(1e-12)


@kernel
def gaps_into(
    puck: Any, target_y: Any, target_z: Any, rise: Any, axes: Any, limb: Any, gap: Any, along: Any
) -> None:
    """Fill ``gap`` and ``along`` (limbs, targets) for one puck and one placed body.

    ``puck`` (3,); ``target_y``, ``target_z`` (targets,); ``rise`` (targets,) lifts the start of
    the line to a target (m), zero for straight lines from the puck; ``axes`` (n, 7) start, end,
    radius of each capsule; ``limb`` (n,). ``along`` is the share of the line before the nearest
    point. A limb without capsules keeps ``FAR``.
    """
    zero = np.float32(0.0)
    one = np.float32(1.0)
    count = target_y.shape[0]
    for row in range(gap.shape[0]):
        for i in range(count):
            gap[row, i] = FAR
            along[row, i] = one
    dx = -puck[0]
    for n in range(axes.shape[0]):
        ex = axes[n, 3] - axes[n, 0]
        ey = axes[n, 4] - axes[n, 1]
        ez = axes[n, 5] - axes[n, 2]
        rx = puck[0] - axes[n, 0]
        ry = puck[1] - axes[n, 1]
        rz0 = puck[2] - axes[n, 2]
        g = ex * ex + ey * ey + ez * ez
        inverse_g = one / max(g, TINY)
        f0 = ex * rx + ey * ry + ez * rz0
        radius = axes[n, 6]
        b0 = dx * ex
        c0 = dx * rx
        a0 = dx * dx
        row = limb[n]
        for i in range(count):
            rz = rz0 + rise[i]
            dy = target_y[i] - puck[1]
            dz = target_z[i] - puck[2] - rise[i]
            a = a0 + dy * dy + dz * dz
            b = b0 + dy * ey + dz * ez
            c = c0 + dy * ry + dz * rz
            f = f0 + ez * rise[i]
            s = (b * f - c * g) / max(a * g - b * b, TINY)
            s = min(max(s, zero), one)
            t = min(max((b * s + f) * inverse_g, zero), one)
            s = min(max((b * t - c) / a, zero), one)
            x = rx + s * dx - t * ex
            y = ry + s * dy - t * ey
            z = rz + s * dz - t * ez
            distance = np.sqrt(x * x + y * y + z * z) - radius
            nearer = distance < gap[row, i]
            gap[row, i] = distance if nearer else gap[row, i]
            along[row, i] = s if nearer else along[row, i]


@kernel
def place_axes(body: Any, x: Any, y: Any, facing: Any, out: Any) -> None:
    """Fill ``out`` (n, 7) with capsules ``body`` (n, 7) turned by ``facing`` and moved."""
    cosine = np.float32(math.cos(facing))
    sine = np.float32(math.sin(facing))
    for n in range(body.shape[0]):
        for k in (0, 3):
            out[n, k] = x + cosine * body[n, k] - sine * body[n, k + 1]
            out[n, k + 1] = y + sine * body[n, k] + cosine * body[n, k + 1]
            out[n, k + 2] = body[n, k + 2]
        out[n, 6] = body[n, 6]


@kernel
def is_inside(puck: Any, axes: Any) -> Any:
    """Return whether a puck lies inside one of the placed capsules (n, 7)."""
    zero = np.float32(0.0)
    one = np.float32(1.0)
    for n in range(axes.shape[0]):
        ex = axes[n, 3] - axes[n, 0]
        ey = axes[n, 4] - axes[n, 1]
        ez = axes[n, 5] - axes[n, 2]
        rx = puck[0] - axes[n, 0]
        ry = puck[1] - axes[n, 1]
        rz = puck[2] - axes[n, 2]
        length = max(ex * ex + ey * ey + ez * ez, np.float32(1e-12))
        t = min(max((ex * rx + ey * ry + ez * rz) / length, zero), one)
        x = rx - t * ex
        y = ry - t * ey
        z = rz - t * ez
        if x * x + y * y + z * z < axes[n, 6] * axes[n, 6]:
            return True
    return False


@kernel
def shares_into(
    first: Any, last: Any, pucks: Any, poses: Any, body: Any, limb: Any, target_y: Any,
    target_z: Any, targets: Any, share: Any, level: Any, gap: Any, along: Any, axes: Any,
) -> None:  # fmt: skip
    """Fill ``share`` (m,) for placements ``first`` .. ``last`` - 1 of one body.

    ``pucks`` and ``poses`` (m, 3); ``body`` (n, 7) in its own frame; of the padded targets the
    first ``targets`` count. A puck inside the body gets NaN. The last four arrays are room.
    """
    zero = np.float32(0.0)
    for i in range(target_y.shape[0]):
        level[i] = zero
    for m in range(first, last):
        place_axes(body, poses[m, 0], poses[m, 1], poses[m, 2], axes)
        if is_inside(pucks[m], axes):
            share[m] = np.float32(np.nan)
            continue
        gaps_into(pucks[m], target_y, target_z, level, axes, limb, gap, along)
        covered = 0
        for i in range(targets):
            nearest = gap[0, i]
            for row in range(1, gap.shape[0]):
                nearest = min(nearest, gap[row, i])
            covered += 1 if nearest <= zero else 0
        share[m] = np.float32(covered) / np.float32(targets)
