"""Her figure from above, worked once for each build and stance, then only turned and moved."""

from __future__ import annotations

import math
from functools import lru_cache

from tendline.body import Build, Part, Pose, Stance, capsules
from tendline.draw.figure import View, camera_for, figure_shapes
from tendline.draw.svg import Point
from tendline.draw.tokens import Paint

Ring = tuple[Point, ...]

_LIMB_PAINT = {
    Part.CHEST: Paint.ADVICE,
    Part.PANTS: Paint.ADVICE,
    Part.CATCHING_ARM: Paint.ADVICE,
    Part.BLOCKER_ARM: Paint.ADVICE,
}


def figure_paint(part: Part) -> tuple[Paint, Paint]:
    """Return fill and outline of a piece of her gear as seen from above."""
    fill = _LIMB_PAINT.get(part, Paint.SHEET)
    return fill, Paint.SHEET if fill is Paint.ADVICE else Paint.INK


@lru_cache(maxsize=64)
def pieces_above(build: Build, stance: Stance) -> tuple[tuple[Part, tuple[Ring, ...]], ...]:
    """Return her pieces from above in her own frame (picture plane, m), from back to front."""
    shapes = figure_shapes(capsules(build, stance), camera_for(View.ABOVE))
    return tuple((shape.part, tuple(tuple(ring) for ring in shape.rings)) for shape in shapes)


@lru_cache(maxsize=64)
def silhouette_above(build: Build, stance: Stance) -> tuple[Ring, ...]:
    """Return the outline of all her pieces from above in her own frame (picture plane, m)."""
    from shapely import Polygon
    from shapely.ops import unary_union

    rings = [ring for _, rings in pieces_above(build, stance) for ring in rings if len(ring) >= 4]
    joined = unary_union([Polygon(ring).buffer(0.02) for ring in rings]).simplify(0.012)
    parts = getattr(joined, "geoms", [joined])
    return tuple(tuple((float(x), float(y)) for x, y in part.exterior.coords) for part in parts)


def placed(ring: Ring, pose: Pose, *, growth: float = 1.0) -> list[Point]:
    """Return a ring of her own frame where a pose puts it, grown about her place.

    In the picture plane (x right = -y of the rink, y down = -x) her facing turns clockwise as seen
    on screen for a positive angle of the rink.
    """
    cos, sin = growth * math.cos(pose.facing), growth * math.sin(pose.facing)
    x0, y0 = -pose.y, -pose.x
    return [(x0 + cos * x + sin * y, y0 + cos * y - sin * x) for x, y in ring]
