"""A goaltender in gear, drawn from her segments: from the front, the side, above or the puck.

Each piece of gear is the shadow of its segments, laid from back to front as lines of sight meet
them. Pieces that are one board in life (pads, chest, glove, blocker) are drawn as the convex
outline of their segments; the rest exactly, but for notches of a few centimetres. Lines on the
gear lie on the segments, so that a picture never shows gear that the computation does not have.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from tendline.base import InputError, Side
from tendline.body import Build, Capsules, Limb, Part, Stance, capsules, post_pose, sealed_post
from tendline.draw.figure_camera import Camera, View, camera_for
from tendline.draw.figure_lines import DETAILS, NO_DETAILS, Details
from tendline.draw.figure_order import back_to_front, depths, picture_grid
from tendline.draw.svg import Picture, Point, path_data, rings_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.ice import Goal, goal

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

__all__ = [
    "Camera", "Shape", "View", "camera_for", "draw_shapes", "figure_shapes", "figure_svg", "moved",
    "outline_of",
]  # fmt: skip

Rings: TypeAlias = tuple[tuple[Point, ...], ...]

_CLOSE = 0.025  # metres: notches between joined segments narrower than twice this are filled
_BOARDS = (Part.CHEST, Part.GLOVE, Part.BLOCKER, Part.LEFT_PAD, Part.RIGHT_PAD)
"""Pieces that are one convex body in life."""
_SINGLE = (Part.PANTS, Part.SHAFT)
"""Parts whose segments are drawn one by one."""
_AT_JOINT = 1.5
"""Outlines are left out this far round a joint of two pieces, in radii of the first."""
CROSSBAR_SHOWN = 0.45
"""How much of the crossbar is drawn beside a sealed post [m]."""
FINE_DETAIL = 110.0
"""Below this many pixels a metre fine lines would run together and are left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One piece of gear in the picture: outer rings and holes, and what is drawn on it.

    ``edges`` are the lines of its outline that are drawn, None for all of it.
    """

    part: Part
    rings: Rings
    details: Details = NO_DETAILS
    edges: Rings | None = None

    @property
    def lines(self) -> Rings:
        """Return every line drawn on it."""
        return (*self.details.bold, *self.details.fine)


def _shadow(body: Capsules, index: Sequence[int], camera: Camera) -> BaseGeometry:
    from shapely import MultiPoint
    from shapely.ops import unary_union

    rims = [
        np.vstack([camera.rim(end[one], float(body.radius[one])) for end in (body.start, body.end)])
        for one in index
    ]
    if Part(int(body.part[index[0]])) in _BOARDS:
        return MultiPoint(camera.points(np.vstack(rims))).convex_hull
    joined = unary_union([MultiPoint(camera.points(rim)).convex_hull for rim in rims])
    return joined.buffer(_CLOSE).buffer(-_CLOSE)


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


_OVER = {
    Part.MASK: Part.CHEST,
    Part.GLOVE: Part.CATCHING_ARM,
    Part.BLOCKER: Part.BLOCKER_ARM,
    Part.LEFT_PAD: Part.LEFT_SKATE,
    Part.RIGHT_PAD: Part.RIGHT_SKATE,
}
"""Gear that always lies over another piece: chin before the chest, hands in gloves, pads over
skates."""


def pieces_of(body: Capsules) -> tuple[tuple[int, ...], ...]:
    """Return the segments of each piece drawn as one.

    Each thigh is its own piece, and so are paddle and shaft: the hand lies between them, and one
    may pass before her and the other behind.
    """
    found: list[tuple[int, ...]] = []
    for part in Part:
        index = tuple(int(one) for one in np.flatnonzero(body.part == int(part)))
        if part in _SINGLE:
            found.extend((one,) for one in index)
        elif index:
            found.append(index)
    return tuple(found)


def figure_shapes(body: Capsules, camera: Camera) -> tuple[Shape, ...]:
    """Return the pieces of gear as seen by a camera, from back to front."""
    pieces = pieces_of(body)
    parts = [Part(int(body.part[piece[0]])) for piece in pieces]
    shadows = [_shadow(body, piece, camera) for piece in pieces]
    bounds = np.array([shadow.bounds for shadow in shadows])
    points = picture_grid(bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0))
    always = [
        (parts.index(under), parts.index(over))
        for over, under in _OVER.items()
        if over in parts and under in parts
    ]
    order = back_to_front(body, camera, pieces, points, always)
    shapes = []
    for rank, one in enumerate(order):
        detail = DETAILS.get(parts[one])
        under = {parts[other]: shadows[other] for other in order[:rank]}
        shapes.append(
            Shape(
                part=parts[one],
                rings=_rings(shadows[one]),
                details=detail(body, pieces[one], camera) if detail else NO_DETAILS,
                edges=_joined_edges(body, camera, parts[one], shadows[one], under),
            )
        )
    return tuple(shapes)


_JOINTS = (
    (Part.CATCHING_ARM, Part.CHEST),
    (Part.BLOCKER_ARM, Part.CHEST),
    (Part.SHAFT, Part.BLADE),
)
"""Pieces that are one thing in life, joined where the first segment of the first begins: sleeve
and jersey at the shoulder, paddle and blade at the heel."""


def _joined_edges(
    body: Capsules,
    camera: Camera,
    part: Part,
    shadow: BaseGeometry,
    under: dict[Part, BaseGeometry],
) -> Rings | None:
    """Return the outline without the seam at a joint, or None where there is none.

    Only what lies over the other piece is left out; the piece drawn first keeps its outline.
    """
    from shapely import Point as Spot
    from shapely.ops import unary_union

    hidden = []
    for first, second in _JOINTS:
        other = {first: second, second: first}.get(part)
        index = np.flatnonzero(body.part == int(first))
        if other is None or other not in under or not index.size:
            continue
        joint, radius = body.start[index[:1]], float(body.radius[index[0]])
        (x, y), (x1, y1) = (camera.points(p)[0] for p in (joint, joint + radius * camera.right))
        near = Spot(x, y).buffer(_AT_JOINT * math.hypot(x1 - x, y1 - y))
        since = list(under).index(other) + 1
        over_it = unary_union(list(under.values())[since:])
        hidden.append(near.intersection(under[other].buffer(0.004)).difference(over_it))
    if not hidden:
        return None
    seen = shadow.boundary.difference(unary_union(hidden))
    lines = getattr(seen, "geoms", [seen])
    return tuple(
        tuple((float(x), float(y)) for x, y in line.simplify(0.001).coords)
        for line in lines
        if not line.is_empty
    )


def moved(shape: Shape, to: Callable[[Point], Point]) -> Shape:
    """Return a shape with every point carried elsewhere."""

    def carried(lines: Rings) -> Rings:
        return tuple(tuple(to(point) for point in line) for line in lines)

    detail = shape.details
    return Shape(
        part=shape.part,
        rings=carried(shape.rings),
        details=Details(carried(detail.bold), carried(detail.fine), carried(detail.dark)),
        edges=None if shape.edges is None else carried(shape.edges),
    )


def outline_of(shapes: Sequence[Shape]) -> Rings:
    """Return the outline of all pieces together, without the holes of single pieces."""
    from shapely import Polygon
    from shapely.ops import unary_union

    rings = [ring for shape in shapes for ring in shape.rings[:1] if len(ring) >= 4]
    return _rings(unary_union([Polygon(ring).buffer(0.0) for ring in rings]))


_FILL = {
    Part.CHEST: Paint.GEAR,
    Part.PANTS: Paint.LINE,
    Part.CATCHING_ARM: Paint.GEAR,
    Part.BLOCKER_ARM: Paint.GEAR,
}


def draw_shapes(
    picture: Picture,
    shapes: Sequence[Shape],
    *,
    line: float,
    fine: bool = True,
) -> None:
    """Add figure shapes to a picture; ``line`` is the width of outlines in the picture's unit.

    The outline of the whole is heavier, so that it reads from afar. Without ``fine`` the lines
    that need a large picture are left out.
    """
    picture.path(
        rings_data(outline_of(shapes)),
        stroke=Paint.INK,
        width=2.6 * line,
        classes="tl-figure-outline",
    )
    for shape in shapes:
        name = f"tl-gear-{shape.part.name.lower().replace('_', '-')}"
        ink = _FILL.get(shape.part, Paint.SHEET)
        whole = shape.edges is None
        picture.path(
            rings_data(shape.rings), fill=ink, stroke=Paint.INK if whole else None, width=line,
            classes=name,
        )  # fmt: skip
        if shape.edges is not None:
            data = "".join(path_data(edge) for edge in shape.edges)
            picture.path(data, stroke=Paint.INK, width=line)
        for ring in shape.details.dark:
            picture.path(path_data(ring, closed=True), fill=Paint.LINE if fine else Paint.INK_SOFT)
        for one in shape.details.bold:
            picture.path(path_data(one), stroke=Paint.INK, width=0.55 * line)
        for one in shape.details.fine if fine else ():
            picture.path(path_data(one), stroke=Paint.INK_SOFT, width=0.45 * line)


def goal_frame(build: Build, stance: Stance, the_goal: Goal) -> Capsules | None:
    """Return the sealed post and the near end of the crossbar in her frame, or None."""
    side = sealed_post(stance)
    if side is None:
        return None
    pose = post_pose(build, stance, the_goal)
    sign = 1.0 if side is Side.LEFT else -1.0
    radius = 0.5 * the_goal.post_diameter
    y = sign * (the_goal.half_width + radius)
    top = the_goal.height + radius
    places = np.array([[0.0, y, radius], [0.0, y, top], [0.0, y - sign * CROSSBAR_SHOWN, top]])
    turn = np.array([[math.cos(pose.facing), -math.sin(pose.facing)],
                     [math.sin(pose.facing), math.cos(pose.facing)]])  # fmt: skip
    places[:, :2] = (places[:, :2] - [pose.x, pose.y]) @ turn
    return Capsules.of(places[:2], places[1:], [radius] * 2, [int(Limb.STICK)] * 2)


def _draw_frame(picture: Picture, frame: Capsules, camera: Camera, *, line: float) -> None:
    from shapely import MultiPoint

    for start, end, radius in zip(frame.start, frame.end, frame.radius, strict=True):
        rim = np.vstack([camera.rim(one, float(radius)) for one in (start, end)])
        ring = _rings(MultiPoint(camera.points(rim)).convex_hull)
        picture.path(rings_data(ring), fill=Paint.RINK_RED, stroke=Paint.INK_SOFT,
                     width=0.7 * line, classes="tl-goal-frame")  # fmt: skip


def _frame_in_front(body: Capsules, frame: Capsules, camera: Camera) -> bool:
    """Return whether the post hides her more than she hides it."""
    ends = camera.points(np.vstack([frame.start, frame.end]))
    points = picture_grid(ends.min(axis=0) - 0.05, ends.max(axis=0) + 0.05)
    rays = camera.rays(points)
    post, her = depths(frame, camera, rays).min(axis=0), depths(body, camera, rays).min(axis=0)
    both = np.isfinite(post) & np.isfinite(her)
    return bool((post < her)[both].sum() > (her < post)[both].sum())


def figure_svg(
    build: Build,
    stance: Stance = Stance.READY,
    view: View = View.FRONT,
    *,
    glove_open: bool = True,
    small_goal: bool = False,
    distance: float = 6.0,
    width: float = 360.0,
    palette: Palette = PAPER,
) -> str:
    """Return the picture of a goaltender in a stance.

    In a stance that seals a post the post is drawn too (that of the ``small_goal`` if asked for).
    ``distance`` is that of the puck for the puck's view (metres). A picture of 76 CSS pixels is
    20 mm on paper: there fine lines are left out. Raises ``InputError`` for a puck nearer than her
    gear reaches.
    """
    the_stance, the_view = Stance(stance), View(view)
    body = capsules(build, the_stance, glove_open)
    if the_view is View.PUCK and not distance > 2.0:
        raise InputError(
            "the puck must be clear of the goaltender", came=f"{distance:g} m", allowed="over 2 m"
        )
    camera = camera_for(the_view, distance=distance)
    shapes = figure_shapes(body, camera)
    frame = goal_frame(build, the_stance, goal(build.rule_set, small_goal))
    every = np.array([point for shape in shapes for ring in shape.rings for point in ring])
    if frame is not None:
        every = np.vstack([every, camera.points(np.vstack([frame.start, frame.end]))])
    low, high = every.min(axis=0), every.max(axis=0)
    if the_view is not View.ABOVE:
        high[1] = max(float(high[1]), 0.0)
    margin = 0.05 * build.stature
    span = high - low + 2.0 * margin
    picture = Picture(
        width=width,
        height=width * float(span[1] / span[0]),
        view=(float(low[0] - margin), float(low[1] - margin), float(span[0]), float(span[1])),
        title=f"Goaltender, {the_stance.value}, seen from the {the_view.value}",
        kind="tl-figure",
        palette=palette,
    )
    line = picture.px(min(max(width / 200.0, 1.0), 2.2))
    if the_view in (View.FRONT, View.SIDE):
        left, right = float(low[0] - margin), float(high[0] + margin)
        picture.line((left, 0.0), (right, 0.0), paint=Paint.INK_SOFT, width=0.5 * line)
    before = frame is not None and _frame_in_front(body, frame, camera)
    if frame is not None and not before:
        _draw_frame(picture, frame, camera, line=line)
    draw_shapes(picture, shapes, line=line, fine=1.0 / picture.unit >= FINE_DETAIL)
    if frame is not None and before:
        _draw_frame(picture, frame, camera, line=line)
    return picture.svg()
