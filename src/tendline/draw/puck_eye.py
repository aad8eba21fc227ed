"""The goal mouth as the puck sees it: her outline exact, open parts hatched by how dangerous."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from tendline.base import ShotType
from tendline.body import Capsules, posed
from tendline.draw.figure import Camera, Shape, draw_shapes, figure_shapes, moved
from tendline.draw.hatching import Segment, hatch
from tendline.draw.opening_labels import ROW, label_below, label_beside
from tendline.draw.svg import Picture, Point, path_data, rings_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.ice import Goal
from tendline.play import Read
from tendline.shot import ShotParameters, goal_chance, puck_speed, shot_parameters
from tendline.sight import OpenArea, mouth_grid, open_areas

PUCK_HEIGHT = 0.0127
"""Height of the puck's middle when it lies on the ice [m]; half its thickness."""
SEES_FROM = 0.1
"""A puck nearer to the goal line than this [m], or behind it, sees none of the mouth."""
HEAD_ROOM = 0.42
FOOT_ROOM = 0.34
"""Room above the crossbar and below the goal line, as shares of the mouth's height."""
MOST_HEAD_ROOM = 1.1
WIDEST_SHOWN = 2.2
"""A goaltender near the puck fills its sight: so much of her is shown above the crossbar and, in
widths of the mouth, aside; the rest is cut."""
LABEL_COLUMN = 152.0
NARROW = 600.0
MOUTH_SHARE = 0.72
"""Narrower pictures have their labels below; the mouth then has this share of the width."""
WIDEST_HATCH, CLOSEST_HATCH = 12.0, 4.0
"""Distance between hatch lines where a shot never and always goes in, in CSS pixels."""

ToPicture: TypeAlias = Callable[[Sequence[float]], Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """An open part of the net with how dangerous it is: the chance that a shot there goes in."""

    area: OpenArea
    danger: float


def openings_of(
    puck: tuple[float, float],
    body: Capsules,
    goal: Goal,
    parameters: ShotParameters,
    *,
    speed: float,
) -> tuple[Opening, ...]:
    """Return the open parts as the puck sees them, each with the mean chance of a goal there."""
    place = np.array([puck[0], puck[1], PUCK_HEIGHT])
    grid = mouth_grid(goal)
    chance = goal_chance(place, body, grid, parameters, speed=speed).by_target
    across, up = np.meshgrid(grid.y, grid.z)
    found = []
    for area in open_areas(place, body, goal):
        inside = inside_rings(area.rings, across, up)
        danger = float(chance[inside].mean()) if inside.any() else float(chance.max())
        found.append(Opening(area=area, danger=danger))
    return tuple(found)


def inside_rings(
    rings: Sequence[Sequence[Point]], x: NDArray[np.float64], y: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Return which points lie inside closed rings by the even-odd rule, in the shape of ``x``."""
    inside = np.zeros(np.shape(x), bool)
    for ring in rings:
        corners = np.asarray(ring, float)
        for (x0, y0), (x1, y1) in zip(np.roll(corners, 1, axis=0), corners, strict=True):
            if y0 == y1:
                continue
            crossed = ((y0 <= y) != (y1 <= y)) & (x < x0 + (y - y0) * (x1 - x0) / (y1 - y0))
            inside ^= crossed
    return inside


def camera_at(puck: tuple[float, float]) -> Camera:
    """Return the level camera at the puck looking at the middle of the goal line."""
    distance = math.hypot(*puck)
    toward = np.array([puck[0] / distance, puck[1] / distance, 0.0])
    up = np.array([0.0, 0.0, 1.0])
    eye = np.array([puck[0], puck[1], PUCK_HEIGHT])
    return Camera(right=np.cross(-toward, up), down=-up, toward=toward, eye=eye)


def read_puck_eye_svg(
    read: Read,
    *,
    parameters: ShotParameters | None = None,
    width: float = 640.0,
    palette: Palette = PAPER,
    labels: bool = True,
) -> str:
    """Return what the puck sees of the net with her on the recommended spot.

    A puck behind the goal line sees nothing of it; then the picture shows what it sees from where
    the costliest shot would be taken, with her where her reply has brought her.
    """
    situation = read.situation
    shot = parameters or shot_parameters(situation.level, situation.rink.settings)
    puck, pose, prefix = situation.puck_place, read.spot, "What the puck sees"
    if puck[0] < SEES_FROM:
        threat = next((one for one in read.options if one.release[0] >= SEES_FROM), None)
        if threat is None:
            return _sees_nothing(width, palette)
        puck, pose = threat.release, threat.reply.at_release
        prefix = f"What the puck sees after '{threat.words}'"
    body = posed(read.goaltender.build, pose)
    speed = puck_speed(situation.level, ShotType.WRIST, situation.rink.settings)
    found = openings_of(puck, body, situation.rink.goal, shot, speed=speed)
    return puck_eye_svg(
        puck, body, situation.rink.goal, found, width=width, palette=palette, labels=labels,
        name=prefix,
    )  # fmt: skip


def _sees_nothing(width: float, palette: Palette) -> str:
    words = "The puck is behind the goal line and sees none of the net"
    picture = Picture(width=width, height=48.0, title=words, kind="tl-puck-eye", palette=palette)
    picture.text((4.0, 30.0), "None of the net, from behind the goal line.", size=16.0)
    return picture.svg()


def puck_eye_svg(
    puck: tuple[float, float],
    body: Capsules,
    goal: Goal,
    openings: Sequence[Opening],
    *,
    width: float = 640.0,
    palette: Palette = PAPER,
    labels: bool = True,
    name: str = "What the puck sees",
) -> str:
    """Return the goal mouth as a puck on the ice at ``puck`` [m] sees it.

    ``body`` is her body, placed; ``openings`` come from :func:`openings_of`. The closer the hatch
    lines, the more dangerous the opening; labels give its share of the net. In a picture narrower
    than 600 pixels the openings are numbered and named in a list below. Without ``labels`` only
    the picture is drawn.
    """
    camera = camera_at(puck)
    mouth = _flat(camera, _corners(goal))
    left, right = float(mouth[:, 0].min()), float(mouth[:, 0].max())
    top, bottom = float(mouth[:, 1].min()), float(mouth[:, 1].max())
    narrow = width < NARROW or not labels
    room = MOUTH_SHARE * width if narrow else width - 2.0 * LABEL_COLUMN
    tall = bottom - top
    shapes = figure_shapes(body, camera)
    places = np.array([p for shape in shapes for ring in shape.rings for p in ring])
    head = top - float(places[:, 1].min())
    across = 2.0 * max(float(places[:, 0].max()) - 0.5 * (left + right),
                       0.5 * (left + right) - float(places[:, 0].min()))  # fmt: skip
    scale = min(
        room / (right - left), (0.6 if narrow else 0.46) * width / tall,
        (width - 8.0 if narrow else room) / min(across, WIDEST_SHOWN * (right - left)),
    )  # fmt: skip
    head_room = min(max(HEAD_ROOM, head / tall + 0.06), MOST_HEAD_ROOM)
    high, low = top - head_room * tall, bottom + (0.06 if narrow else FOOT_ROOM) * tall
    foot = ROW * len(openings) + 8.0 if narrow and labels else 0.0
    middle = 0.5 * (left + right)
    share = sum(one.area.share for one in openings)
    picture = Picture(
        width=width, height=(low - high) * scale + foot, kind="tl-puck-eye", palette=palette,
        title=f"{name}: {100.0 * share:.0f} % of the net open",
        description=_describe(openings),
    )  # fmt: skip

    def at(point: Sequence[float]) -> Point:
        return (width / 2.0 + (point[0] - middle) * scale, (point[1] - high) * scale)

    tips = _draw(picture, camera, shapes, goal, openings, at)
    ground = at((0.0, bottom))[1]
    labelled = [(one.area.name, one.area.share) for one in openings]
    if not labels:
        return picture.svg()
    if narrow:
        label_below(picture, labelled, tips, top=picture.height - foot)
    else:
        label_beside(picture, labelled, tips, column=LABEL_COLUMN, ground=ground)
    return picture.svg()


def _corners(goal: Goal) -> NDArray[np.float64]:
    half = goal.half_width
    return np.array(
        [[0, -half, 0], [0, -half, goal.height], [0, half, goal.height], [0, half, 0]], float
    )


def _flat(camera: Camera, places: NDArray[np.float64]) -> NDArray[np.float64]:
    return camera.points(np.asarray(places, float))


def _describe(openings: Sequence[Opening]) -> str:
    return " ".join(
        f"{one.area.name}: {100.0 * one.area.share:.0f} % of the net, a shot there goes in "
        f"{10.0 * one.danger:.0f} times in 10."
        for one in openings
    )


def _draw(
    picture: Picture,
    camera: Camera,
    shapes: Sequence[Shape],
    goal: Goal,
    openings: Sequence[Opening],
    at: ToPicture,
) -> list[Point]:
    """Draw everything but labels; return a point inside each opening."""
    mouth = [at(one) for one in _flat(camera, _corners(goal))]
    picture.path(path_data(mouth, closed=True), fill=Paint.SHEET, classes="tl-mouth")
    tips = _openings(picture, camera, openings, at)
    _frame(picture, mouth, goal, camera, at)
    _her(picture, shapes, at)
    picture.path(path_data(mouth), stroke=Paint.INK, width=1.1, dash="3 4", classes="tl-mouth-over")
    return tips


def _openings(
    picture: Picture, camera: Camera, openings: Sequence[Opening], at: ToPicture
) -> list[Point]:
    """Hatch the open parts; return a point inside each for its label's leader."""
    tips: list[Point] = []
    for one in openings:
        rings = [
            [at(p) for p in _flat(camera, np.array([[0.0, y, z] for y, z in ring]))]
            for ring in one.area.rings
        ]
        gap = WIDEST_HATCH + one.danger * (CLOSEST_HATCH - WIDEST_HATCH)
        lines = hatch(rings, spacing=gap, angle_deg=-45.0)
        with picture.group(classes="tl-opening", data_name=one.area.name):
            picture.path(rings_data(rings), fill=Paint.RISK_WASH)
            picture.path("".join(path_data(line) for line in lines), stroke=Paint.RISK, width=1.3,
                         classes="tl-hatch")  # fmt: skip
        tips.append(_inside_point(rings, lines))
    return tips


def _inside_point(rings: Sequence[Sequence[Point]], lines: Sequence[Segment]) -> Point:
    if lines:
        (x0, y0), (x1, y1) = max(lines, key=lambda line: math.dist(*line))
        return 0.5 * (x0 + x1), 0.5 * (y0 + y1)
    return rings[0][0] if rings and rings[0] else (0.0, 0.0)


def _her(picture: Picture, shapes: Sequence[Shape], at: ToPicture) -> None:
    with picture.group(classes="tl-her"):
        draw_shapes(picture, [moved(shape, at) for shape in shapes], line=1.6)


def _frame(
    picture: Picture, mouth: Sequence[Point], goal: Goal, camera: Camera, at: ToPicture
) -> None:
    """Draw posts and crossbar at their true thickness, and the ice."""
    half = goal.half_width + goal.post_diameter
    edge = _flat(camera, np.array([[0.0, half, 0.0], [0.0, goal.half_width, 0.0]]))
    thick = max(math.dist(at(edge[0]), at(edge[1])), 3.0)
    (x0, y0), (_, y1), (_, y2), (x3, y3) = mouth
    ring = [(x0 - thick / 2, y0), (x0 - thick / 2, y1 - thick / 2),
            (x3 + thick / 2, y2 - thick / 2), (x3 + thick / 2, y3)]  # fmt: skip
    ground = max(y0, y3)
    picture.line((0.0, ground), (picture.width, ground), paint=Paint.INK_SOFT, width=1.4,
                 classes="tl-ice-line")  # fmt: skip
    picture.path(path_data(ring), stroke=Paint.INK, width=thick, classes="tl-frame", cap="butt")
