"""A map of the zone: how far out she should stand, or what it costs, by place of the puck."""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np

from tendline.base import LengthUnit, metres_to
from tendline.draw.hatching import hatch
from tendline.draw.ice_picture import IcePicture, Window
from tendline.draw.notation import Pen
from tendline.draw.svg import path_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.drill.vocabulary import Role
from tendline.play import DepthMap
from tendline.play.situation import Situation

LABEL_PX = 13.0
DEEPEST_TINT = 2.6
"""Depths from this on [m] have the full tint."""
WORST_HATCH = 20.0
"""Goals in 100 from which on the hatch is closest."""


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
    """Return the zone with a figure in every cell for a puck there.

    ``DEPTH``: how far out she should stand, the further the darker the tint. ``THREAT``: goals in
    100 from there, the more the closer the hatch. Cells without an answer stay empty. Everybody
    of ``situation`` but the carrier is drawn where he stands.
    """
    rink = situation.rink
    step = float(found.x[1] - found.x[0])
    window = Window(
        max(rink.x_min - 0.4, float(found.x[0]) - step), float(found.x[-1]) + step,
        -rink.half_width - 0.4, rink.half_width + 0.4,
    )  # fmt: skip
    values = found.depth if shows is MapShows.DEPTH else 100.0 * found.loss
    picture = IcePicture(
        rink, window, width=width, kind=f"tl-map tl-map-{shows.value}", palette=palette,
        title="How far out for every place of the puck" if shows is MapShows.DEPTH
        else "Goals in 100 for every place of the puck",
        description=_describe(found, shows, unit),
    )  # fmt: skip
    picture.draw_ice()
    half = step / 2.0
    size = min(picture.px(LABEL_PX), 0.42 * step)
    with picture.group(classes="tl-cells"):
        for row, x in enumerate(found.x):
            for column, y in enumerate(found.y):
                value = float(values[row, column])
                if not math.isfinite(value):
                    continue
                x0, y0 = picture.at(float(x) + half, float(y) + half)
                corners = [(x0, y0), (x0 + step, y0), (x0 + step, y0 + step), (x0, y0 + step)]
                with picture.group(classes="tl-cell"):
                    _ground(picture, corners, value, shows)
                    words = _words(value, shows, unit)
                    picture.text((x0 + half, y0 + half + 0.34 * size), words, size=size,
                                 anchor="middle", halo=shows is MapShows.THREAT)  # fmt: skip
    pen = Pen(picture)
    with picture.group(classes="tl-people"):
        for mate in situation.mates:
            pen.person(Role.FORWARD, mate.name[:4], picture.at(mate.x, mate.y))
        for defender in situation.defenders:
            pen.person(Role.DEFENDER, defender.name[:4], picture.at(defender.x, defender.y))
    picture.draw_frame()
    return picture.svg()


def _ground(
    picture: IcePicture,
    corners: list[tuple[float, float]],
    value: float,
    shows: MapShows,
) -> None:
    if shows is MapShows.DEPTH:
        picture.path(path_data(corners, closed=True), fill=Paint.ADVICE,
                     opacity=0.34 * min(max(value, 0.0) / DEEPEST_TINT, 1.0))  # fmt: skip
        return
    share = min(value / WORST_HATCH, 1.0)
    if share < 0.02:
        return
    spacing = picture.px(13.0 - 9.0 * math.sqrt(share))
    lines = hatch([corners], spacing=spacing, angle_deg=-45.0)
    picture.path("".join(path_data(one) for one in lines), stroke=Paint.RISK,
                 width=picture.px(0.9), classes="tl-hatch")  # fmt: skip


def _words(value: float, shows: MapShows, unit: LengthUnit) -> str:
    if shows is MapShows.DEPTH:
        return f"{metres_to(value, unit):.1f}"
    return f"{value:.0f}" if value >= 0.5 else "0"


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
        f"{found.x[row]:.1f} m out and {abs(found.y[column]):.1f} m to her "
        f"{'left' if found.y[column] > 0 else 'right'}."
    )
