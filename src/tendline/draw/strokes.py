"""Lines of the published coaching notation, as points: wave, loops, double line, bars, arrow head.

Every function takes and gives lists of points in one plane and one unit; which unit is the
caller's. Angles in radians, lengths in that unit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from tendline.draw.svg import Point

Line = list[Point]


def length_of(points: Sequence[Point]) -> float:
    """Return the length of a line through ``points``."""
    return sum(math.dist(a, b) for a, b in pairwise(points))


def smooth(points: Sequence[Point], *, per_span: int = 14) -> Line:
    """Return a smooth line through all ``points`` (centripetal Catmull-Rom); two stay straight.

    Points that coincide are taken once. Fewer than two points give what came.
    """
    kept: Line = []
    for one in points:
        if not kept or math.dist(kept[-1], one) > 1e-6:
            kept.append(one)
    if len(kept) < 3:
        return kept
    first = (2 * kept[0][0] - kept[1][0], 2 * kept[0][1] - kept[1][1])
    last = (2 * kept[-1][0] - kept[-2][0], 2 * kept[-1][1] - kept[-2][1])
    padded = [first, *kept, last]
    line: Line = [kept[0]]
    for a, b, c, d in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        line.extend(_span(a, b, c, d, per_span))
    return line


def _span(a: Point, b: Point, c: Point, d: Point, count: int) -> Line:
    knots = [0.0]
    for one, two in ((a, b), (b, c), (c, d)):
        knots.append(knots[-1] + max(math.sqrt(math.dist(one, two)), 1e-6))
    t0, t1, t2, t3 = knots
    found: Line = []
    for i in range(1, count + 1):
        t = t1 + (t2 - t1) * i / count
        ab = _mix(a, b, (t - t0) / (t1 - t0))
        bc = _mix(b, c, (t - t1) / (t2 - t1))
        cd = _mix(c, d, (t - t2) / (t3 - t2))
        low = _mix(ab, bc, (t - t0) / (t2 - t0))
        high = _mix(bc, cd, (t - t1) / (t3 - t1))
        found.append(_mix(low, high, (t - t1) / (t2 - t1)))
    return found


def _mix(a: Point, b: Point, share: float) -> Point:
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def at_length(points: Sequence[Point], distance: float) -> tuple[Point, float]:
    """Return the point ``distance`` along a line and the direction there [rad].

    Before the start and beyond the end it is the end point with the direction there.
    """
    left = max(distance, 0.0)
    for a, b in pairwise(points):
        step = math.dist(a, b)
        if left <= step and step > 0.0:
            return _mix(a, b, left / step), math.atan2(b[1] - a[1], b[0] - a[0])
        left -= step
    if len(points) < 2:
        return points[0], 0.0
    a, b = points[-2], points[-1]
    return b, math.atan2(b[1] - a[1], b[0] - a[0])


def trim(points: Sequence[Point], *, start: float = 0.0, end: float = 0.0) -> Line:
    """Return the line without its first ``start`` and last ``end``; what is too short is empty."""
    total = length_of(points)
    if total <= start + end or len(points) < 2:
        return []
    head, _ = at_length(points, start)
    tail, _ = at_length(points, total - end)
    line = [head]
    walked = 0.0
    for a, b in pairwise(points):
        walked += math.dist(a, b)
        if start < walked < total - end:
            line.append(b)
    line.append(tail)
    return line


def resample(points: Sequence[Point], step: float) -> list[tuple[Point, float]]:
    """Return points and directions about every ``step`` along a line, both ends included."""
    total = length_of(points)
    count = max(1, round(total / step))
    return [at_length(points, total * i / count) for i in range(count + 1)]


def wave(points: Sequence[Point], *, height: float, wavelength: float, calm: float) -> Line:
    """Return a wavy line along ``points`` (with the puck); the last ``calm`` is straight."""
    total = length_of(points)
    active = total - calm
    if active < wavelength:
        return list(points)
    waves = max(1, round(active / wavelength))
    line: Line = []
    samples = waves * 12
    for i in range(samples + 1):
        walked = active * i / samples
        (x, y), turn = at_length(points, walked)
        aside = height * math.sin(2.0 * math.pi * waves * i / samples)
        line.append((x - aside * math.sin(turn), y + aside * math.cos(turn)))
    return [*line, *trim(points, start=active)[1:]]


def loops(points: Sequence[Point], *, radius: float, pitch: float, calm: float) -> Line:
    """Return a line of small loops along ``points`` (skating backward), straight at the end."""
    total = length_of(points)
    active = total - calm
    if active < pitch:
        return list(points)
    count = max(1, round(active / pitch))
    samples = count * 16
    line: Line = []
    for i in range(samples + 1):
        angle = 2.0 * math.pi * count * i / samples
        (x, y), turn = at_length(points, active * i / samples + radius * math.sin(angle))
        aside = radius * (1.0 - math.cos(angle))
        line.append((x - aside * math.sin(turn), y + aside * math.cos(turn)))
    return [*line, *trim(points, start=active)[1:]]


def beside(points: Sequence[Point], aside: float) -> Line:
    """Return the line moved sideways by ``aside`` (positive: to its left where y is up)."""
    if len(points) < 2:
        return list(points)
    line: Line = []
    for i, (x, y) in enumerate(points):
        before, after = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
        turn = math.atan2(after[1] - before[1], after[0] - before[0])
        line.append((x - aside * math.sin(turn), y + aside * math.cos(turn)))
    return line


def arrow_head(points: Sequence[Point], *, length: float, width: float) -> Line:
    """Return the triangle of an arrow head at the end of a line."""
    tip = points[-1]
    back, _ = at_length(points, length_of(points) - length)
    turn = math.atan2(tip[1] - back[1], tip[0] - back[0])
    base = (tip[0] - length * math.cos(turn), tip[1] - length * math.sin(turn))
    dx, dy = -math.sin(turn) * width / 2.0, math.cos(turn) * width / 2.0
    return [tip, (base[0] + dx, base[1] + dy), (base[0] - dx, base[1] - dy)]


def bar_across(points: Sequence[Point], *, back: float, width: float) -> Line:
    """Return a short bar across a line, ``back`` before its end (half of a stop mark)."""
    (x, y), turn = at_length(points, length_of(points) - back)
    dx, dy = -math.sin(turn) * width / 2.0, math.cos(turn) * width / 2.0
    return [(x + dx, y + dy), (x - dx, y - dy)]
