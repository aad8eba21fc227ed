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
