"""From where a figure is seen, and how its places become a picture."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]

FAR = 50.0
"""From how far away parallel lines of sight begin [m]; beyond any body."""
_AROUND = np.linspace(0.0, 2.0 * math.pi, 48, endpoint=False)


class View(StrEnum):
    """From where a figure is seen."""

    FRONT = "front"
    SIDE = "side"
    ABOVE = "above"
    PUCK = "puck"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Camera:
    """How points become a picture; metres in, picture plane out (x right, y down).

    ``right``, ``down`` and ``toward`` (to the viewer) are unit vectors. With an ``eye`` the picture
    is in perspective on the plane through the origin at right angles to ``toward``.
    """

    right: Floats
    down: Floats
    toward: Floats
    eye: Floats | None = None

    def points(self, places: Floats) -> Floats:
        """Return picture points (n, 2) of places (n, 3)."""
        seen = places
        if self.eye is not None:
            depth = (self.eye - places) @ self.toward
            scale = float(self.eye @ self.toward) / depth
            seen = self.eye + (places - self.eye) * scale[:, None]
        return np.asarray(np.column_stack([seen @ self.right, seen @ self.down]), dtype=np.float64)

    def way_to(self, place: Floats) -> Floats:
        """Return the direction of length one from a place to the viewer."""
        if self.eye is None:
            return self.toward
        way = self.eye - place
        return np.asarray(way / np.linalg.norm(way), dtype=np.float64)

    def rays(self, points: Floats) -> tuple[Floats, Floats]:
        """Return origins and directions (n, 3) of lines of sight through picture points (n, 2)."""
        on_plane = points[:, :1] * self.right + points[:, 1:] * self.down
        if self.eye is None:
            return on_plane + FAR * self.toward, np.broadcast_to(-self.toward, on_plane.shape)
        way = on_plane - self.eye
        way = way / np.linalg.norm(way, axis=1)[:, None]
        return np.broadcast_to(self.eye, on_plane.shape), way

    def rim(self, centre: Floats, radius: float) -> Floats:
        """Return points (m, 3) on a sphere where it turns away from the viewer."""
        if self.eye is None:
            axis, middle, size = self.toward, centre, radius
        else:
            way = self.eye - centre
            distance = float(np.linalg.norm(way))
            axis = way / distance
            middle = centre + axis * (radius * radius / distance)
            size = radius * math.sqrt(max(1.0 - (radius / distance) ** 2, 0.0))
        seed = np.array([0.0, 0.0, 1.0]) if abs(axis[2]) < 0.9 else np.array([1.0, 0.0, 0.0])
        one = np.cross(axis, seed)
        one /= np.linalg.norm(one)
        two = np.cross(axis, one)
        around = np.cos(_AROUND)[:, None] * one + np.sin(_AROUND)[:, None] * two
        return np.asarray(middle + size * around, dtype=np.float64)


def camera_for(view: View, *, distance: float = 6.0, puck_height: float = 0.0127) -> Camera:
    """Return the camera of a view of a body in its own frame.

    From the front and the puck her left is on the right of the picture; from the side she looks to
    the right; from above the picture lies as an ice picture does, her left on the left.
    """
    ahead, left, up = np.eye(3)
    match View(view):
        case View.FRONT:
            return Camera(right=left, down=-up, toward=ahead)
        case View.SIDE:
            return Camera(right=ahead, down=-up, toward=-left)
        case View.ABOVE:
            return Camera(right=-left, down=-ahead, toward=up)
        case View.PUCK:
            eye = np.array([distance, 0.0, puck_height])
            return Camera(right=left, down=-up, toward=ahead, eye=eye)
