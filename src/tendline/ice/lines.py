"""Lines from the puck to the goal: opening angle, width to cover, and where the line runs.

Plane geometry on the ice, metres and radians, all functions broadcast over numpy arrays and give
a plain float for plain floats.

The *line* of a puck runs from the centre of the goal line to the puck. A goaltender at ``depth``
on it stands ``depth`` metres from the centre of the goal line and faces the puck. By similar
triangles the strip she must fill there, across the line, is cut out by the two lines from the puck
to the posts.
"""

from __future__ import annotations

from typing import Any, TypeAlias, overload

import numpy as np
from numpy.typing import NDArray

from tendline.ice.types import Goal

Floats: TypeAlias = NDArray[np.float64]


def _plain(value: Floats) -> float | Floats:
    return float(value) if np.ndim(value) == 0 else value


@overload
def opening_angle(x: float, y: float, goal: Goal) -> float: ...
@overload
def opening_angle(x: Floats, y: Floats, goal: Goal) -> Floats: ...
def opening_angle(x: float | Floats, y: float | Floats, goal: Goal) -> float | Floats:
    """Return the horizontal angle between the directions to the two posts (radians).

    Zero on and behind the goal line, where the mouth is not seen; NaN stays NaN.
    """
    px, py = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    half = goal.half_width
    angle = np.arctan2(2.0 * half * px, px * px + py * py - half * half)
    return _plain(np.where(px > 0.0, angle, np.where(np.isnan(px), np.nan, 0.0)))


@overload
def line_spot(x: float, y: float, depth: float) -> tuple[float, float, float]: ...
@overload
def line_spot(x: Floats, y: Floats, depth: float | Floats) -> tuple[Floats, Floats, Floats]: ...
def line_spot(
    x: float | Floats, y: float | Floats, depth: float | Floats
) -> tuple[float | Floats, float | Floats, float | Floats]:
    """Return ``(x, y, facing)`` of the spot ``depth`` metres out on the line to a puck.

    ``facing`` looks along the line toward the puck. NaN for a puck on the centre of the goal line.
    """
    px, py = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    distance = np.hypot(px, py)
    with np.errstate(invalid="ignore", divide="ignore"):
        share = np.asarray(depth) / np.where(distance > 0.0, distance, np.nan)
    facing = np.where(distance > 0.0, np.arctan2(py, px), np.nan)
    return _plain(px * share), _plain(py * share), _plain(facing)


@overload
def width_to_cover(x: float, y: float, depth: float, half_width: float) -> float: ...
@overload
def width_to_cover(x: Floats, y: Floats, depth: float | Floats, half_width: float) -> Floats: ...
def width_to_cover(
    x: float | Floats, y: float | Floats, depth: float | Floats, half_width: float
) -> float | Floats:
    """Return how wide the goal is, across the line, ``depth`` metres out (m).

    With the puck at distance d in a direction t off straight out, the posts lie +-w cos t across
    and +-w sin t along the line, so the strip is
    ``w cos t (d - depth) (1/(d - w sin t) + 1/(d + w sin t))``. For a puck straight out this is
    the plain similar triangle ``2 w (d - depth) / d``. Holds for a puck in front of the goal line
    and a depth short of the puck, with both posts nearer the line's foot than the puck; else NaN.
    """
    px, py = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    distance = np.hypot(px, py)
    out = np.asarray(depth, dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        across = half_width * px / distance
        along = half_width * np.abs(py) / distance
        strip = across * (distance - out) * (1.0 / (distance - along) + 1.0 / (distance + along))
    fits = (px > 0.0) & (out <= distance) & (distance > along)
    return _plain(np.where(fits, strip, np.nan))


@overload
def on_angle_distance(a: tuple[float, float], b: tuple[float, float], depth: float) -> float: ...
@overload
def on_angle_distance(
    a: tuple[Floats, Floats], b: tuple[Floats, Floats], depth: float | Floats
) -> Floats: ...
def on_angle_distance(
    a: tuple[Any, Any], b: tuple[Any, Any], depth: float | Floats
) -> float | Floats:
    """Return the straight distance between the line spots of two pucks at one depth (m)."""
    ax, ay, _ = line_spot(a[0], a[1], depth)
    bx, by, _ = line_spot(b[0], b[1], depth)
    return _plain(np.hypot(ax - bx, ay - by))


@overload
def distance_to_goal(x: float, y: float) -> float: ...
@overload
def distance_to_goal(x: Floats, y: Floats) -> Floats: ...
def distance_to_goal(x: float | Floats, y: float | Floats) -> float | Floats:
    """Return the distance from a point to the centre of the goal line (m)."""
    return _plain(np.hypot(x, y))


@overload
def off_line(x: float, y: float, puck: tuple[float, float]) -> float: ...
@overload
def off_line(x: Floats, y: Floats, puck: tuple[Any, Any]) -> Floats: ...
def off_line(x: float | Floats, y: float | Floats, puck: tuple[Any, Any]) -> float | Floats:
    """Return how far a point lies to the left of the line to a puck (m; right is negative).

    Left is as the goaltender sees it when she faces the puck. NaN for a puck on the goal centre.
    """
    px, py = (np.asarray(one, dtype=np.float64) for one in puck)
    distance = np.hypot(px, py)
    aside = px * np.asarray(y, dtype=np.float64) - py * np.asarray(x, dtype=np.float64)
    return _plain(np.where(distance > 0.0, aside / np.where(distance > 0.0, distance, 1.0), np.nan))
