"""Hatching as real lines, so that it prints, scales and photocopies everywhere alike."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from tendline.draw.svg import Point

Segment = tuple[Point, Point]


def hatch(
    rings: Iterable[Sequence[Point]], *, spacing: float, angle_deg: float = 45.0
) -> list[Segment]:
    """Return the lines of a hatch inside closed ``rings``; inner rings are holes (even-odd).

    ``spacing`` is the distance between lines in the unit of the rings, ``angle_deg`` their
    direction from the first axis. Lines lie on a grid fixed in the plane, so neighbouring areas
    join. No rings, or rings of fewer than three points, give no lines.
    """
    cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    turned = [
        [(cos * u + sin * v, cos * v - sin * u) for u, v in ring]
        for ring in rings
        if len(ring) >= 3
    ]
    if not turned:
        return []
    low = min(v for ring in turned for _, v in ring)
    high = max(v for ring in turned for _, v in ring)
    lines: list[Segment] = []
    level = (math.floor(low / spacing) + 0.5) * spacing
    while level < high:
        crossings = sorted(_crossings(turned, level))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if end - start > 1e-9:
                lines.append(
                    (
                        (cos * start - sin * level, sin * start + cos * level),
                        (cos * end - sin * level, sin * end + cos * level),
                    )
                )
        level += spacing
    return lines


def _crossings(rings: Sequence[Sequence[Point]], level: float) -> list[float]:
    found: list[float] = []
    for ring in rings:
        u0, v0 = ring[-1]
        for u1, v1 in ring:
            if (v0 <= level) != (v1 <= level):
                found.append(u0 + (level - v0) * (u1 - u0) / (v1 - v0))
            u0, v0 = u1, v1
    return found
