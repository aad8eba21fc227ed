"""What the goaltender sees: bodies between her eyes and the puck, and how much they hide."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np

from tendline.body import Capsules, place, posed
from tendline.draw.chart import TEXT
from tendline.draw.hatching import hatch
from tendline.draw.situation_picture import body_place
from tendline.draw.svg import Picture, Point, path_data, rings_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.play import Read
from tendline.sight import View, eye_of, goaltender_eye, skater_body
from tendline.sight.pictures import Outline

PUCK_HEIGHT = 0.0127
HALF_ACROSS = 1.9
ABOVE, BELOW = 2.1, 0.45
WIDEST_TANGENT = 0.9
"""The picture reaches so far from the puck at the puck's distance: sideways, up, down [m]."""


def read_goaltender_eye_svg(read: Read, *, width: float = 420.0, palette: Palette = PAPER) -> str:
    """Return what she sees of the puck from the recommended spot, past everybody on the ice."""
    situation = read.situation
    own = posed(read.goaltender.build, read.spot)
    puck = np.array([*situation.puck_place, PUCK_HEIGHT])
    eye = eye_of(own)
    bodies: dict[str, Capsules] = {}
    standing = skater_body(settings=situation.rink.settings)
    for attacker in situation.attackers:
        x, y = body_place(attacker)
        bodies[attacker.name] = place(standing, x=x, y=y, facing=math.atan2(-y, -x))
    for defender in situation.defenders:
        x, y = defender.x, defender.y
        bodies[defender.name] = place(standing, x=x, y=y, facing=math.atan2(y, x))
    seen = goaltender_eye(eye, puck, bodies)
    return goaltender_eye_svg(seen, width=width, palette=palette)


def goaltender_eye_svg(view: View, *, width: float = 420.0, palette: Palette = PAPER) -> str:
    """Return a view from her eyes as SVG: bodies outlined and named, the puck ringed.

    A lens at the side shows the puck larger with its hidden part hatched.
    """
    scale = width / (2.0 * half_across(view))
    down = ABOVE * width / (2.0 * HALF_ACROSS)
    height = (ABOVE + BELOW) * width / (2.0 * HALF_ACROSS)
    hidden = f"{100.0 * view.hidden_share:.0f} %"
    by = ", ".join(name for name, share in view.by_whom.items() if share > 0.005)
    title = (
        f"What she sees: {hidden} of the puck hidden" + (f" by {by}" if by else "")
        if view.hidden_share > 0.005
        else "What she sees: the whole puck"
    )
    picture = Picture(
        width=width, height=height, title=title, kind="tl-goaltender-eye", palette=palette,
        description=" ".join(
            f"{name} alone hides {100.0 * share:.0f} %." for name, share in view.by_whom.items()
        ),
    )  # fmt: skip

    def at(point: Point) -> Point:
        return width / 2.0 + point[0] * scale, down - point[1] * scale

    picture.line((0.0, down), (width, down), paint=Paint.LINE, width=1.0)
    named: set[str] = set()
    for name in dict.fromkeys(outline.name for outline in view.outlines):
        rings = _whole([one for one in view.outlines if one.name == name])
        picture.path(rings_data([[at(p) for p in ring] for ring in rings]), fill=Paint.GEAR,
                     stroke=Paint.INK, width=1.8, classes="tl-body")  # fmt: skip
    for outline in view.outlines:
        rings = [[at(p) for p in ring] for ring in outline.rings]
        points = [p for ring in rings for p in ring]
        middle = sum(x for x, _ in points) / len(points)
        if outline.name not in named and 0.0 < middle < width:
            named.add(outline.name)
            _name(picture, view, outline.name, at)
    puck = [[at(p) for p in ring] for ring in view.puck]
    picture.path(rings_data(puck), fill=Paint.INK, stroke=Paint.INK, width=2.0, classes="tl-puck")
    centre = at((0.0, 0.0))
    picture.circle(centre, 13.0, stroke=Paint.ADVICE, width=2.0, classes="tl-ring")
    _lens(picture, view, hidden)
    picture.add(
        "rect", classes="tl-window", stroke=Paint.LINE, stroke_width=1.0, hollow=True, x=0.5, y=0.5,
        width=width - 1.0, height=height - 1.0,
    )  # fmt: skip
    return picture.svg()


def half_across(view: View) -> float:
    """Return half the width of the picture as a tangent at her eyes.

    As wide as two people at the puck's distance, more where somebody nearer to her would lose his
    head, up to a field of 84 degrees.
    """
    half = HALF_ACROSS / view.distance
    for name in dict.fromkeys(outline.name for outline in view.outlines):
        points = [p for one in view.outlines if one.name == name for r in one.rings for p in r]
        if min(x for x, _ in points) > half or max(x for x, _ in points) < -half:
            continue
        up = 1.1 * max(y for _, y in points) * HALF_ACROSS / ABOVE
        half = max(half, min(up, WIDEST_TANGENT))
    return half


def _whole(outlines: Sequence[Outline]) -> list[Sequence[Point]]:
    """Return one body as one outline, so that it reads as a person and not as its parts."""
    from shapely import Polygon
    from shapely.ops import unary_union

    joined = unary_union(
        [Polygon(ring).buffer(0.0) for one in outlines for ring in one.rings if len(ring) >= 4]
    )
    pieces = [one for one in getattr(joined, "geoms", [joined]) if not one.is_empty]
    return [
        [(float(x), float(y)) for x, y in ring.coords]
        for piece in pieces
        for ring in (piece.exterior, *piece.interiors)
    ]


def _name(picture: Picture, view: View, name: str, at: Callable[[Point], Point]) -> None:
    own = [one for one in view.outlines if one.name == name]
    points = [at(p) for one in own for ring in one.rings for p in ring]
    top = min(y for _, y in points)
    middle = 0.5 * (min(x for x, _ in points) + max(x for x, _ in points))
    y = max(top - 8.0, TEXT + 2.0)
    x = min(max(middle, 16.0), picture.width - 16.0)
    picture.text((x, y), name, size=TEXT, bold=True, anchor="middle", halo=True)


def _lens(picture: Picture, view: View, hidden: str) -> None:
    """Draw the puck enlarged in the corner, hatched over the share that is hidden."""
    points = [p for ring in view.puck for p in ring]
    across = max(x for x, _ in points) - min(x for x, _ in points)
    size = 46.0 / across if across > 0.0 else 1.0
    centre = (picture.width - 64.0, 44.0)
    ring = [(centre[0] + x * size, centre[1] - y * size) for x, y in points]
    picture.circle(centre, 34.0, fill=Paint.SHEET, stroke=Paint.ADVICE, width=2.0,
                   classes="tl-lens")  # fmt: skip
    picture.path(rings_data([ring]), fill=Paint.INK)
    if view.hidden_share > 0.0:
        left = min(x for x, _ in ring) - 2.0
        right = left + (max(x for x, _ in ring) + 2.0 - left) * view.hidden_share
        box = [(left, centre[1] - 20.0), (right, centre[1] - 20.0), (right, centre[1] + 20.0),
               (left, centre[1] + 20.0)]  # fmt: skip
        picture.path(path_data(box, closed=True), fill=Paint.RISK_WASH)
        lines = "".join(path_data(one) for one in hatch([box], spacing=4.5))
        picture.path(lines, stroke=Paint.RISK, width=1.2, classes="tl-hatch")
    words = f"{hidden} hidden" if view.hidden_share > 0.005 else "all of it"
    picture.text((centre[0], centre[1] + 34.0 + TEXT + 2.0), words, size=TEXT,
                 anchor="middle", halo=True)  # fmt: skip
