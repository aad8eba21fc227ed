"""Small invented bodies for tests that need capsules but no real goaltender."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True)
class Figure:
    """Sphere-swept segments: start and end (n, 3), radius (n,), limb (n,)."""

    start: NDArray[np.float64]
    end: NDArray[np.float64]
    radius: NDArray[np.float64]
    limb: NDArray[np.intp]

    def placed(self, x: float, y: float, facing: float) -> "Figure":
        """Return the figure turned by ``facing`` and moved to (x, y)."""
        c, s = np.cos(facing), np.sin(facing)
        turn = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
        shift = np.array([x, y, 0.0])
        return Figure(
            self.start @ turn.T + shift, self.end @ turn.T + shift, self.radius, self.limb
        )

    def mirrored(self) -> "Figure":
        """Return the mirror image in the plane y = 0; legs and hands keep their numbers."""
        flip = np.array([1.0, -1.0, 1.0])
        return Figure(self.start * flip, self.end * flip, self.radius, self.limb)


def figure(rows: list[tuple[float, ...]]) -> Figure:
    """Return a figure from rows (limb, x0, y0, z0, x1, y1, z1, radius)."""
    table = np.array(rows, float)
    return Figure(
        table[:, 1:4].copy(), table[:, 4:7].copy(), table[:, 7].copy(), table[:, 0].astype(np.intp)
    )


READY = figure([
    (0, 0.00, 0.00, 0.72, 0.10, 0.00, 1.10, 0.20),
    (0, 0.05, -0.12, 1.10, 0.05, 0.12, 1.10, 0.14),
    (1, 0.20, 0.00, 1.38, 0.20, 0.00, 1.42, 0.13),
    (2, 0.05, 0.25, 0.12, 0.18, 0.18, 0.50, 0.14),
    (2, 0.18, 0.18, 0.50, -0.02, 0.14, 0.72, 0.13),
    (3, 0.05, -0.25, 0.12, 0.18, -0.18, 0.50, 0.14),
    (3, 0.18, -0.18, 0.50, -0.02, -0.14, 0.72, 0.13),
    (4, 0.05, 0.22, 1.10, 0.15, 0.36, 0.85, 0.08),
    (4, 0.15, 0.36, 0.85, 0.40, 0.42, 0.75, 0.11),
    (5, 0.05, -0.22, 1.10, 0.15, -0.36, 0.85, 0.08),
    (5, 0.15, -0.36, 0.85, 0.40, -0.40, 0.70, 0.11),
    (6, 0.40, -0.30, 0.60, 0.35, -0.10, 0.06, 0.04),
    (6, 0.35, -0.10, 0.05, 0.35, 0.22, 0.05, 0.04),
])  # fmt: skip

BUTTERFLY = figure([
    (0, -0.05, 0.00, 0.45, 0.02, 0.00, 0.85, 0.21),
    (0, 0.00, -0.12, 0.85, 0.00, 0.12, 0.85, 0.14),
    (1, 0.10, 0.00, 1.08, 0.10, 0.00, 1.12, 0.13),
    (2, 0.10, 0.08, 0.14, 0.02, 0.78, 0.12, 0.14),
    (2, 0.10, 0.10, 0.18, -0.05, 0.14, 0.48, 0.13),
    (3, 0.10, -0.08, 0.14, 0.02, -0.78, 0.12, 0.14),
    (3, 0.10, -0.10, 0.18, -0.05, -0.14, 0.48, 0.13),
    (4, 0.00, 0.24, 0.84, 0.12, 0.38, 0.60, 0.08),
    (4, 0.12, 0.38, 0.60, 0.30, 0.44, 0.50, 0.11),
    (5, 0.00, -0.24, 0.84, 0.12, -0.38, 0.60, 0.08),
    (5, 0.12, -0.38, 0.60, 0.30, -0.44, 0.48, 0.11),
    (6, 0.30, -0.35, 0.40, 0.32, -0.10, 0.05, 0.04),
    (6, 0.32, -0.10, 0.05, 0.32, 0.22, 0.05, 0.04),
])  # fmt: skip
