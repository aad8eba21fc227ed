"""Targets on the goal mouth: the centres of equal cells, rows up and columns to the left.

Frame: the mouth lies in the plane x = 0. Row 0 is at the ice; column 0 is at the goaltender's
right post (-y), the last column at her left post (+y).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]

LANES = 16  # flat target arrays are padded to a whole number of vector lanes


class Mouth(Protocol):
    """Whatever has the width and height of a goal mouth (m), such as ``ice.Goal``."""

    @property
    def width(self) -> float: ...

    @property
    def height(self) -> float: ...


@dataclass(frozen=True)
class MouthGrid:
    """Targets of one goal mouth, ``rows`` x ``columns`` cell centres; sizes in metres."""

    width: float
    height: float
    columns: int
    rows: int

    @cached_property
    def y(self) -> Floats:
        """Return the columns' y (columns,), from her right post to her left post."""
        half = self.width / 2
        return -half + (np.arange(self.columns) + 0.5) * self.width / self.columns

    @cached_property
    def z(self) -> Floats:
        """Return the rows' z (rows,), from the ice up."""
        return (np.arange(self.rows) + 0.5) * self.height / self.rows

    @cached_property
    def points(self) -> Floats:
        """Return all targets (rows * columns, 3), row by row."""
        z, y = np.meshgrid(self.z, self.y, indexing="ij")
        return np.stack([np.zeros(y.size), y.ravel(), z.ravel()], axis=1)

    @cached_property
    def flat_y(self) -> Singles:
        """Return the targets' y, row by row, padded with the last target to whole lanes."""
        return self._padded(self.points[:, 1])

    @cached_property
    def flat_z(self) -> Singles:
        """Return the targets' z, row by row, padded with the last target to whole lanes."""
        return self._padded(self.points[:, 2])

    @property
    def size(self) -> int:
        """Return the number of targets."""
        return self.rows * self.columns

    def _padded(self, values: Floats) -> Singles:
        missing = -len(values) % LANES
        return np.concatenate([values, np.full(missing, values[-1])]).astype(np.float32)


@lru_cache(maxsize=32)
def _grid(width: float, height: float, columns: int, rows: int) -> MouthGrid:
    return MouthGrid(width, height, columns, rows)


def mouth_grid(goal: Mouth, columns: int = 37, rows: int = 25) -> MouthGrid:
    """Return the grid of targets for a goal; the same object for the same question.

    Raises :class:`InputError` unless there are 2 to 400 columns and rows.
    """
    for name, count in (("columns", columns), ("rows", rows)):
        if not 2 <= count <= 400:
            raise InputError(f"number of {name}", came=str(count), allowed="2 to 400")
    return _grid(float(goal.width), float(goal.height), int(columns), int(rows))
