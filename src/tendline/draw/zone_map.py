"""A map of the zone: how far out she should stand, or what it costs, by place of the puck.

Depths are shown in steps of about half a metre, because between neighbouring depths there is often
nothing to choose; the steps are tints that stay apart in grey. Threat is hatched from five goals in
100 on, the closer the more.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from tendline.base import LengthUnit, metres_to
from tendline.draw.fontfiles import text_width
from tendline.draw.hatching import hatch
from tendline.draw.ice_picture import IcePicture, Window, boards_outline
from tendline.draw.notation import Pen
from tendline.draw.svg import Point, path_data
from tendline.draw.tokens import PAPER, PICTURE_TEXT_PX, Paint, Palette
from tendline.drill.vocabulary import Role
from tendline.play import DepthMap
from tendline.play.situation import Situation

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

DEPTH_STEPS = {LengthUnit.METRES: (0.5, 1.0, 1.5, 2.0), LengthUnit.FEET: (2.0, 3.5, 5.0, 6.5)}
"""Bounds between the steps of depth, in the unit shown."""
TINTS = (0.05, 0.14, 0.24, 0.35, 0.48)
THREAT_STEPS = (5.0, 10.0, 15.0)
HATCH_PX = (11.0, 6.5, 3.8)
"""Goals in 100 from which a cell is hatched, and the distance of the lines, in CSS pixels."""
LEGEND_PX = 44.0
"""Room under the ice for the legend."""


class MapShows(StrEnum):
    """What a map of the zone shows."""

    DEPTH = "depth"
    THREAT = "threat"


def zone_map_svg(
    found: DepthMap,
    situation: Situation,
    *,
    shows: MapShows = MapShows.DEPTH,
    width: float = 560.0,
    unit: LengthUnit = LengthUnit.METRES,
    palette: Palette = PAPER,
) -> str:
    """Return the zone tinted or hatched for a puck at each place, with a legend.

    ``DEPTH``: how far out she should stand, the further the darker the tint, a rounded figure in
    every other cell. ``THREAT``: goals in 100 from there where they are five or more, the more the
    closer the hatch. Places without an answer stay empty. Everybody of ``situation`` but the
    carrier is drawn where he stands.
    """
    rink = situation.rink
    step = float(found.x[1] - found.x[0])
    side = rink.half_width + 0.4
    low = max(rink.x_min - 0.4, float(found.x[0]) - step)
    foot = LEGEND_PX * 2.0 * side / width
    window = Window(low - foot, float(found.x[-1]) + step, -side, side)
    picture = IcePicture(
        rink, window, width=width, kind=f"tl-map tl-map-{shows.value}", palette=palette,
        title="How far out for every place of the puck" if shows is MapShows.DEPTH
        else "Goals in 100 for every place of the puck",
        description=_describe(found, shows, unit),
    )  # fmt: skip
    picture.draw_ice()
    with picture.group(classes="tl-cells"):
        _cells(picture, found, shows, unit, step)
    _people(picture, situation)
    picture.path(
        picture.ice_path(boards_outline(rink), closed=True), stroke=Paint.INK,
        width=picture.px(2.0), classes="tl-boards-over",
    )  # fmt: skip
    _legend(picture, shows, unit, Window(low - foot, low, -side, side))
    picture.draw_frame()
    return picture.svg()


def step_of(value: float, steps: Sequence[float]) -> int:
    """Return in which step a value lies: 0 below the first bound."""
    return int(np.searchsorted(np.asarray(steps), value, side="right"))


def rounded_depth(value: float, unit: LengthUnit) -> str:
    """Return a depth to half a metre or half a foot, without useless digits."""
    half = round(2.0 * metres_to(value, unit)) / 2.0
    return f"{half:.0f}" if half == int(half) else f"{half:.1f}"


def _cells(
    picture: IcePicture, found: DepthMap, shows: MapShows, unit: LengthUnit, step: float
) -> None:

    from shapely import Polygon

    boards = Polygon([picture.at(x, y) for x, y in boards_outline(picture.rink)])
    values = found.depth if shows is MapShows.DEPTH else 100.0 * found.loss
    half = step / 2.0
    size = min(picture.px(PICTURE_TEXT_PX), 0.62 * step)
    words: list[tuple[Point, str, bool]] = []
    for row, x in enumerate(found.x):
        for column, y in enumerate(found.y):
            value = float(values[row, column])
            if not math.isfinite(value):
                continue
            cx, cy = picture.at(float(x), float(y))
            cell = Polygon(
                [(cx - half, cy - half), (cx + half, cy - half), (cx + half, cy + half),
                 (cx - half, cy + half)]
            ).intersection(boards)  # fmt: skip
            with picture.group(classes="tl-cell"):
                _ground(picture, cell, value, shows, unit)
            if not boards.buffer(-0.55 * size).contains(Polygon(_square((cx, cy), 0.4 * size))):
                continue
            if shows is MapShows.DEPTH and (row + column) % 2 == 0:
                words.append(((cx, cy), rounded_depth(value, unit), False))
            elif shows is MapShows.THREAT and value >= THREAT_STEPS[0]:
                words.append(((cx, cy), f"{value:.0f}", value >= THREAT_STEPS[-1]))
    for (cx, cy), text, bold in words:
        picture.text(
            (cx, cy + 0.34 * size), text, size=size, anchor="middle", bold=bold,
            halo=shows is MapShows.THREAT, classes="tl-cell-figure",
        )  # fmt: skip


def _square(middle: Point, half: float) -> list[Point]:
    x, y = middle
    return [(x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)]


def _ground(
    picture: IcePicture, cell: BaseGeometry, value: float, shows: MapShows, unit: LengthUnit
) -> None:
    if cell.is_empty or not hasattr(cell, "exterior"):
        return
    ring = [(float(x), float(y)) for x, y in cell.exterior.coords]
    if shows is MapShows.DEPTH:
        tint = TINTS[step_of(metres_to(value, unit), DEPTH_STEPS[unit])]
        picture.path(path_data(ring, closed=True), fill=Paint.ADVICE, opacity=tint)
        return
    rank = step_of(value, THREAT_STEPS)
    if rank:
        _hatched(picture, ring, HATCH_PX[rank - 1])


def _hatched(picture: IcePicture, ring: list[Point], spacing: float) -> None:
    lines = hatch([ring], spacing=picture.px(spacing), angle_deg=-45.0)
    picture.path("".join(path_data(one) for one in lines), stroke=Paint.RISK,
                 width=picture.px(1.0), classes="tl-hatch")  # fmt: skip


def _people(picture: IcePicture, situation: Situation) -> None:
    pen = Pen(picture)
    with picture.group(classes="tl-people"):
        for mate in situation.mates:
            pen.person(Role.FORWARD, mate.name[:4], picture.at(mate.x, mate.y))
        for defender in situation.defenders:
            pen.person(Role.DEFENDER, defender.name[:4], picture.at(defender.x, defender.y))


def legend_words(shows: MapShows, unit: LengthUnit) -> list[str]:
    """Return what each step stands for, the least first."""
    steps = DEPTH_STEPS[unit] if shows is MapShows.DEPTH else THREAT_STEPS
    name = f" {unit.value}" if shows is MapShows.DEPTH else ""
    texts = [f"{one:g}" for one in steps]
    between = [f"{a} to {b}" for a, b in pairwise(texts)]
    return [f"under {texts[0]}", *between, f"over {texts[-1]}{name}"]


def _legend(picture: IcePicture, shows: MapShows, unit: LengthUnit, room: Window) -> None:
    """Draw the steps in a row below the ice."""
    left, top = picture.at(room.x_high, room.y_high)
    right, bottom = picture.at(room.x_low, room.y_low)
    picture.path(
        path_data([(left, top), (right, top), (right, bottom), (left, bottom)], closed=True),
        fill=Paint.SHEET,
    )  # fmt: skip
    size, box = picture.px(14.0), picture.px(16.0)
    words = legend_words(shows, unit)
    gap = picture.px(6.0)
    spans = [box + gap + text_width(one, size=size) for one in words]
    between = max((right - left - 2.0 * gap - sum(spans)) / max(len(spans) - 1, 1), gap)
    x, middle = left + gap, 0.5 * (top + bottom)
    for rank, (one, span) in enumerate(zip(words, spans, strict=True)):
        ring = _square((x + box / 2.0, middle), box / 2.0)
        if shows is MapShows.DEPTH:
            picture.path(path_data(ring, closed=True), fill=Paint.ADVICE, opacity=TINTS[rank])
        elif rank:
            _hatched(picture, ring, HATCH_PX[rank - 1])
        picture.path(path_data(ring, closed=True), stroke=Paint.INK_SOFT, width=picture.px(1.0))
        picture.text((x + box + gap, middle + 0.34 * size), one, size=size,
                     classes="tl-legend")  # fmt: skip
        x += span + min(between, picture.px(40.0))


def _describe(found: DepthMap, shows: MapShows, unit: LengthUnit) -> str:
    values = found.depth if shows is MapShows.DEPTH else 100.0 * found.loss
    if not np.isfinite(values).any():
        return "No place has an answer."
    row, column = np.unravel_index(int(np.nanargmax(values)), values.shape)
    low, high = float(np.nanmin(values)), float(np.nanmax(values))
    what = f"{unit.value} out" if shows is MapShows.DEPTH else "goals in 100"
    scale = metres_to(1.0, unit) if shows is MapShows.DEPTH else 1.0
    return (
        f"From {low * scale:.1f} to {high * scale:.1f} {what}; most with the puck "
        f"{metres_to(float(found.x[row]), unit):.1f} {unit.value} out and "
        f"{metres_to(abs(float(found.y[column])), unit):.1f} {unit.value} to her "
        f"{'left' if found.y[column] > 0 else 'right'}."
    )
