"""Outlines of sphere-swept segments seen from a point: the shadow each throws on a plane.

A ball seen from a point fills a round cone; a sphere-swept segment fills the convex hull of the
cones of its two end balls, so on a plane its shadow is the convex hull of two conics. The conics
are taken as polygons of ``SIDES`` corners scaled to keep the cone's solid section area, which
makes the area of a union exact to a few parts in 100,000. Where a cone runs past the plane's
horizon it is cut there; where a segment reaches through the plane, only what lies before the
plane counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from tendline.sight.grid import Floats

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Ring = tuple[tuple[float, float], ...]

SIDES = 128
STEPS = 33
HORIZON = 1e-4  # smallest cosine against the view axis that is still projected
UPRIGHT = 1e-9  # sine of the angle to the vertical below which a view has no level
_TURN = 2.0 * np.pi * np.arange(SIDES) / SIDES
_SWELL = float(np.sqrt((2.0 * np.pi / SIDES) / np.sin(2.0 * np.pi / SIDES)))


@dataclass(frozen=True, slots=True)
class Camera:
    """A point and a plane before it. ``axes`` (3, 3) rows: right, up, ahead; ``far`` m ahead.

    Pictures use ``far = 1``: coordinates are then tangents of angles. ``stops`` says whether the
    plane hides what lies behind it (a goal mouth does, a picture does not).
    """

    eye: Floats
    axes: Floats
    far: float
    stops: bool

    def flat(self, points: Floats) -> Floats:
        """Return points (n, 3) ahead of the eye as (n, 2) on the plane."""
        seen = (points - self.eye) @ self.axes.T
        return seen[:, :2] * (self.far / seen[:, 2:3])


def camera_on_mouth(puck: Floats) -> Camera:
    """Return the camera whose plane is the goal mouth; plane coordinates are y and z less the
    puck's."""
    axes = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0]])
    return Camera(puck, axes, float(puck[0]), stops=True)


def camera_towards(eye: Floats, aim: Floats) -> Camera:
    """Return a level camera at ``eye`` looking at ``aim``; plane coordinates are tangents.

    Looking straight down or up there is no level: the picture's right is then her right when she
    faces out (-y).
    """
    ahead = aim - eye
    ahead = ahead / np.linalg.norm(ahead)
    right = np.cross(ahead, [0.0, 0.0, 1.0])
    size = float(np.linalg.norm(right))
    right = right / size if size > UPRIGHT else np.array([0.0, -1.0, 0.0])
    return Camera(eye, np.array([right, np.cross(right, ahead), ahead]), 1.0, stops=False)


def _cut_at_horizon(rays: Floats) -> Floats:
    """Return a polygon of rays (n, 3) cut where it passes the horizon (Sutherland-Hodgman)."""
    ahead = rays[:, 2] - HORIZON
    if (ahead > 0.0).all():
        return rays
    kept = []
    for here in range(len(rays)):
        there = (here + 1) % len(rays)
        if ahead[here] > 0.0:
            kept.append(rays[here])
        if (ahead[here] > 0.0) != (ahead[there] > 0.0):
            share = ahead[here] / (ahead[here] - ahead[there])
            kept.append(rays[here] + share * (rays[there] - rays[here]))
    return np.array(kept).reshape(-1, 3)


def ball_shadow(camera: Camera, centre: Floats, radius: float) -> Floats:
    """Return corners (k, 2) whose convex hull is a ball's shadow; none if it throws none."""
    to_centre = camera.axes @ (centre - camera.eye)
    distance = float(np.linalg.norm(to_centre))
    sine = radius / distance
    cosine = float(np.sqrt(max(1.0 - sine * sine, 0.0)))
    axis = to_centre / distance
    side = np.cross(axis, np.eye(3)[int(np.argmin(np.abs(axis)))])
    side = side / np.linalg.norm(side)
    rim = np.outer(np.cos(_TURN), side) + np.outer(np.sin(_TURN), np.cross(axis, side))
    rays = cosine * axis + _SWELL * sine * rim
    if camera.stops and to_centre[2] + radius > camera.far:
        return _shadow_through(camera, to_centre, radius, rays, distance * cosine)
    rays = _cut_at_horizon(rays)
    if not len(rays):
        return np.empty((0, 2))
    return rays[:, :2] * (camera.far / rays[:, 2:3])


def _shadow_through(
    camera: Camera, to_centre: Floats, radius: float, rays: Floats, reach: float
) -> Floats:
    """Return corners of the shadow of the part of a ball that lies before the plane."""
    before = rays[(rays[:, 2] * reach <= camera.far) & (rays[:, 2] > HORIZON)]
    corners = [before[:, :2] * (camera.far / before[:, 2:3])]
    beyond = abs(to_centre[2] - camera.far)
    if beyond < radius:
        circle = _SWELL * np.sqrt(radius * radius - beyond * beyond)
        corners.append(to_centre[:2] + circle * np.column_stack([np.cos(_TURN), np.sin(_TURN)]))
    return np.concatenate(corners)


def capsule_shadow(camera: Camera, start: Floats, end: Floats, radius: float) -> BaseGeometry:
    """Return the shadow of one sphere-swept segment as a convex shapely polygon (or empty)."""
    from shapely.geometry import MultiPoint

    deep = (np.stack([start, end]) - camera.eye) @ camera.axes[2]
    plain = deep.min() - radius > HORIZON and (
        not camera.stops or deep.max() + radius <= camera.far
    )
    shares = (0.0, 1.0) if plain else np.linspace(0.0, 1.0, STEPS)
    corners = [ball_shadow(camera, start + s * (end - start), radius) for s in shares]
    return MultiPoint(np.concatenate(corners)).convex_hull


def rings_of(shape: BaseGeometry, *, smallest: float = 0.0) -> tuple[Ring, ...]:
    """Return the rings of a shape, outer and inner alike, to be filled by the even-odd rule.

    Pieces with an area up to ``smallest`` are left out.
    """
    rings: list[Ring] = []
    for part in getattr(shape, "geoms", [shape]):
        if part.geom_type == "Polygon" and part.area > smallest:
            rings.extend(_ring(line) for line in (part.exterior, *part.interiors))
    return tuple(rings)


def _ring(line: Any) -> Ring:
    return tuple((float(a), float(b)) for a, b in line.coords[:-1])
