"""A goaltender in gear, drawn from her segments: from the front, the side, above or the puck.

Each piece of gear is the exact shadow of its segments (convex hulls of projected spheres, joined),
laid from back to front. Lines on pads, mask, glove and blocker lie on the segments too, so that a
picture can never show gear that the computation does not have.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, TypeAlias

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError
from tendline.body import Build, Capsules, Part, Stance, capsules
from tendline.draw.svg import Picture, Point, path_data, rings_data
from tendline.draw.tokens import PAPER, Paint, Palette

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Floats: TypeAlias = NDArray[np.float64]
Rings: TypeAlias = tuple[tuple[Point, ...], ...]

_AROUND = np.linspace(0.0, 2.0 * math.pi, 48, endpoint=False)
_CLOSE = 0.025  # metres: notches between joined segments narrower than twice this are filled
_WIDER = {Part.CHEST: 3.0, Part.GLOVE: 3.0}


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

    def nearness(self, places: Floats) -> Floats:
        """Return how near places (n, 3) are to the viewer; larger is nearer."""
        if self.eye is None:
            return places @ self.toward
        return -np.asarray(np.linalg.norm(places - self.eye, axis=1), dtype=np.float64)

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One piece of gear in the picture: outer rings and holes, and lines drawn on it."""

    part: Part
    rings: Rings
    lines: Rings


def _shadow(body: Capsules, index: Sequence[int], camera: Camera) -> BaseGeometry:
    from shapely import MultiPoint
    from shapely.ops import unary_union

    hulls = []
    for one in index:
        rim = [camera.rim(end[one], float(body.radius[one])) for end in (body.start, body.end)]
        hulls.append(MultiPoint(camera.points(np.vstack(rim))).convex_hull)
    joined = unary_union(hulls)
    close = _CLOSE * _WIDER.get(Part(int(body.part[index[0]])), 1.0)
    return joined.buffer(close).buffer(-close)


def _rings(area: BaseGeometry) -> Rings:
    pieces = getattr(area, "geoms", [area])
    found: list[tuple[Point, ...]] = []
    for piece in pieces:
        if piece.is_empty:
            continue
        found.extend(
            tuple((float(x), float(y)) for x, y in ring.simplify(0.001).coords)
            for ring in (piece.exterior, *piece.interiors)
        )
    return tuple(found)


def _project(camera: Camera, places: Sequence[Floats]) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in camera.points(np.asarray(places)))


def _pad_lines(body: Capsules, index: list[int], camera: Camera) -> list[tuple[Point, ...]]:
    """Return the seams of a pad: down its middle, and across at the boot and at the knee."""
    edges = [(body.start[i], body.end[i], float(body.radius[i])) for i in index[:2]]
    face = _face_of(edges[0], edges[1])
    if float(face @ _toward(camera, edges[0][0])) < 0.15:
        return []
    lift = edges[0][2] * face
    lines = [
        [start + share * (end - start) + lift for start, end, _ in edges]
        for share in (0.1, 0.66, 0.84)
    ]
    lines.append([0.5 * (edges[0][k] + edges[1][k]) + lift for k in (0, 1)])
    return [_project(camera, line) for line in lines]


def _face_of(one: tuple[Floats, Floats, float], other: tuple[Floats, Floats, float]) -> Floats:
    """Return the direction a flat set of parallel segments faces (the one with more +x)."""
    normal = np.cross(one[1] - one[0], other[0] - one[0])
    normal /= np.linalg.norm(normal)
    return normal if normal[0] >= 0.0 else -normal


def _toward(camera: Camera, place: Floats) -> Floats:
    if camera.eye is None:
        return camera.toward
    way = camera.eye - place
    return np.asarray(way / np.linalg.norm(way), dtype=np.float64)


def _mask_lines(body: Capsules, index: list[int], camera: Camera) -> list[tuple[Point, ...]]:
    """Return the opening of the mask and its bars, on the front of the head."""
    one = index[0]
    low, high, radius = body.start[one], body.end[one], 1.01 * float(body.radius[one])
    axis = high - low
    axis = axis / np.linalg.norm(axis)
    front = np.array([1.0, 0.0, -0.15])
    front = front - float(front @ axis) * axis
    front /= np.linalg.norm(front)
    side = np.cross(axis, front)

    def on_mask(turn: float, tilt: float) -> Floats:
        way = math.cos(tilt) * (math.cos(turn) * front + math.sin(turn) * side)
        way = way + math.sin(tilt) * axis
        return np.asarray(0.5 * (low + high) + radius * way, dtype=np.float64)

    def arc(pairs: Iterable[tuple[float, float]]) -> list[Floats]:
        return [on_mask(turn, tilt) for turn, tilt in pairs]

    wide, brow, chin = 0.92, 0.5, -0.72
    opening = [
        (wide * math.cos(a), 0.5 * (brow + chin) + 0.5 * (brow - chin) * math.sin(a))
        for a in np.linspace(0.0, 2.0 * math.pi, 49)
    ]  # fmt: skip
    middle, half = 0.5 * (brow + chin), 0.5 * (brow - chin)

    def chord(tilt: float) -> list[tuple[float, float]]:
        reach = wide * math.sqrt(max(1.0 - ((tilt - middle) / half) ** 2, 0.0))
        return [(turn, tilt) for turn in np.linspace(-reach, reach, 15)]

    def post(turn: float) -> list[tuple[float, float]]:
        reach = half * math.sqrt(1.0 - (turn / wide) ** 2)
        return [(turn, tilt) for tilt in np.linspace(middle - reach, middle + reach, 15)]

    lines = [arc(opening), *(arc(chord(tilt)) for tilt in (0.22, -0.1, -0.42))]
    lines += [arc(post(turn)) for turn in (-0.5, -0.17, 0.17, 0.5)]
    seen: list[tuple[Point, ...]] = []
    centre = 0.5 * (low + high)
    for line in lines:
        run: list[Floats] = []
        for place in line:
            if float((place - centre) @ _toward(camera, centre)) > 0.05 * radius:
                run.append(place)
            elif run:
                seen.append(_project(camera, run))
                run = []
        if len(run) > 1:
            seen.append(_project(camera, run))
    return [line for line in seen if len(line) > 1]


def _pair_lines(body: Capsules, index: list[int], camera: Camera) -> list[tuple[Point, ...]]:
    """Return the inner border of glove or blocker: a smaller outline of the same segments."""
    area = _shadow(body, index, camera)
    inner = area.buffer(-0.3 * float(body.radius[index[0]]))
    return [(*ring, ring[0]) for ring in _rings(inner)]


_OVER = {
    Part.GLOVE: Part.CATCHING_ARM,
    Part.BLOCKER: Part.BLOCKER_ARM,
    Part.LEFT_PAD: Part.LEFT_SKATE,
    Part.RIGHT_PAD: Part.RIGHT_SKATE,
}
"""Gear that always lies over another piece: hands in gloves, pads over skates."""
_DETAIL = {
    Part.LEFT_PAD: _pad_lines,
    Part.RIGHT_PAD: _pad_lines,
    Part.MASK: _mask_lines,
    Part.GLOVE: _pair_lines,
    Part.BLOCKER: _pair_lines,
}


def figure_shapes(body: Capsules, camera: Camera) -> tuple[Shape, ...]:
    """Return the pieces of gear as seen by a camera, from back to front."""
    middles = 0.5 * (body.start + body.end)
    found = {part: [int(i) for i in np.flatnonzero(body.part == int(part))] for part in Part}
    near = {
        part: float(camera.nearness(middles[index]).mean())
        for part, index in found.items()
        if index
    }
    for part, under in _OVER.items():
        if part in near and under in near:
            near[part] = max(near[part], near[under] + 1e-6)
    shapes = []
    for part in sorted(near, key=lambda one: near[one]):
        detail = _DETAIL.get(part)
        lines = tuple(detail(body, found[part], camera)) if detail else ()
        rings = _rings(_shadow(body, found[part], camera))
        shapes.append(Shape(part=part, rings=rings, lines=lines))
    return tuple(shapes)


_FILL = {
    Part.CHEST: Paint.GEAR,
    Part.PANTS: Paint.LINE,
    Part.CATCHING_ARM: Paint.GEAR,
    Part.BLOCKER_ARM: Paint.GEAR,
    Part.SHAFT: Paint.SHEET,
    Part.BLADE: Paint.SHEET,
}


def draw_shapes(picture: Picture, shapes: Sequence[Shape], *, line: float) -> None:
    """Add figure shapes to a picture; ``line`` is the width of outlines in the picture's unit."""
    for shape in shapes:
        picture.path(
            rings_data(shape.rings), fill=_FILL.get(shape.part, Paint.SHEET), stroke=Paint.INK,
            width=line, classes=f"tl-gear-{shape.part.name.lower().replace('_', '-')}",
        )  # fmt: skip
        for one in shape.lines:
            picture.path(path_data(one), stroke=Paint.INK_SOFT, width=0.5 * line)


def figure_svg(
    build: Build,
    stance: Stance = Stance.READY,
    view: View = View.FRONT,
    *,
    glove_open: bool = True,
    distance: float = 6.0,
    width: float = 360.0,
    palette: Palette = PAPER,
) -> str:
    """Return the picture of a goaltender in a stance.

    ``distance`` is that of the puck for the puck's view (metres). Raises ``InputError`` for a puck
    nearer than her gear reaches.
    """
    body = capsules(build, Stance(stance), glove_open)
    if View(view) is View.PUCK and not distance > 2.0:
        raise InputError(
            "the puck must be clear of the goaltender", came=f"{distance:g} m", allowed="over 2 m"
        )
    shapes = figure_shapes(body, camera_for(view, distance=distance))
    every = np.array([point for shape in shapes for ring in shape.rings for point in ring])
    low, high = every.min(axis=0), every.max(axis=0)
    if view is not View.ABOVE:
        high[1] = max(float(high[1]), 0.0)
    margin = 0.05 * build.stature
    span = high - low + 2.0 * margin
    picture = Picture(
        width=width,
        height=width * float(span[1] / span[0]),
        view=(float(low[0] - margin), float(low[1] - margin), float(span[0]), float(span[1])),
        title=f"Goaltender, {Stance(stance).value}, seen from the {View(view).value}",
        kind="tl-figure",
        palette=palette,
    )
    if view in (View.FRONT, View.SIDE):
        left, right = float(low[0] - margin), float(high[0] + margin)
        picture.line((left, 0.0), (right, 0.0), paint=Paint.LINE, width=picture.px(1.0))
    draw_shapes(picture, shapes, line=picture.px(2.0))
    return picture.svg()
