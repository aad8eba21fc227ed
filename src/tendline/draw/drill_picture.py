"""The diagram of a drill in published notation, always with its legend."""

from __future__ import annotations

from tendline.draw.drill_diagram import Diagram
from tendline.draw.drill_scene import Scene, scene_of
from tendline.draw.fontfiles import text_width
from tendline.draw.ice_picture import (
    IcePicture,
    Window,
    close_window,
    sheet_window,
    window_for,
    zone_window,
)
from tendline.draw.legend import ROW_PX, TEXT_PX, Entry, draw_legend, entries, rows_of
from tendline.draw.notation import Pen
from tendline.draw.svg import Picture
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.drill.types import Drill
from tendline.drill.vocabulary import IceUse
from tendline.ice import Rink
from tendline.ice import rink as make_rink

BRANCH_ROW_PX = 22.0


def drill_window(drill: Drill, scene: Scene, rink: Rink) -> Window:
    """Return the part of the ice that the drill's diagram shows."""
    places = scene.places()
    furthest = max((x for x, _ in places), default=0.0)
    if drill.ice.use is IceUse.FULL_ICE or furthest > rink.red_line_x + 3.0:
        return sheet_window(rink)
    zone = zone_window(rink)
    wide = max((abs(y) for _, y in places), default=0.0)
    if furthest > 11.5 or wide > 9.0:
        high = max(zone.x_high, furthest + 1.2) if furthest > 17.0 else max(furthest + 1.5, 12.0)
        return Window(zone.x_low, high, zone.y_low, zone.y_high)
    if not places:
        return close_window(rink)
    return window_for(rink, places, aspect=1.15)


def drill_svg(
    drill: Drill,
    *,
    rink: Rink | None = None,
    width: float = 520.0,
    scale: float = 1.0,
    window: Window | None = None,
    legend: bool = True,
    palette: Palette = PAPER,
) -> str:
    """Return the diagram of ``drill`` as SVG.

    ``scale`` enlarges signs and words, for small prints; ``legend`` may only be left out where the
    same page prints one.
    """
    ground = rink or make_rink()
    scene = scene_of(drill, ground)
    shown = window or drill_window(drill, scene, ground)
    rows = rows_of(entries(scene), (width - 8.0) / scale) if legend else []
    foot = 0.0
    if legend:
        foot = scale * (10.0 + ROW_PX * len(rows) + BRANCH_ROW_PX * len(scene.branches))
    picture = IcePicture(
        ground, shown, width=width, title=f"Diagram: {drill.title}",
        description=_describe(drill, scene), kind="tl-drill", palette=palette, foot_px=foot,
    )  # fmt: skip
    picture.draw_ice()
    Diagram(picture, scene, scale).draw()
    picture.draw_frame()
    if legend:
        _foot(picture, scene, rows, scale)
    return picture.svg()


def _describe(drill: Drill, scene: Scene) -> str:
    steps = " ".join(f"{i}. {text}" for i, text in enumerate(drill.steps, start=1))
    branches = " ".join(f"({one.letter}) {one.words}" for one in scene.branches)
    return " ".join(part for part in (drill.purpose, steps, branches) if part)


def _foot(picture: IcePicture, scene: Scene, rows: list[list[Entry]], scale: float) -> None:
    window = picture.window
    pen = Pen(picture, scale)
    left, top = -window.y_high, -window.x_low
    picture.add(
        "rect", classes="tl-foot", fill=Paint.PAPER, x=left, y=top, width=window.across,
        height=picture.view[3] - window.along,
    )  # fmt: skip
    x, y = left + pen.px(4.0), top + pen.px(8.0)
    draw_legend(picture, scale, rows, (x, y))
    y += pen.px(ROW_PX * len(rows))
    for one in scene.branches:
        y += pen.px(BRANCH_ROW_PX)
        middle = y - pen.px(BRANCH_ROW_PX / 2.0)
        tag_width = 2.0 * Pen.tag_width(one.letter)
        pen.tag((x + pen.px(tag_width / 2.0), middle), one.letter)
        room = picture.width / scale - tag_width - 22.0
        pen.words(
            (x + pen.px(tag_width + 8.0), middle), fit(one.words, TEXT_PX, room), size=TEXT_PX,
            bold=False, anchor="start", classes="tl-branch-words",
        )  # fmt: skip


def fit(words: str, size: float, room: float) -> str:
    """Return ``words``, cut with an ellipsis where they would be wider than ``room``."""
    if text_width(words, size=size) <= room:
        return words
    while words and text_width(words + "…", size=size) > room:
        words = words[:-1]
    return words.rstrip() + "…"


def legend_svg(
    drill: Drill,
    *,
    rink: Rink | None = None,
    width: float = 520.0,
    scale: float = 1.0,
    palette: Palette = PAPER,
) -> str:
    """Return only the legend of a drill's diagram, for pages that show the diagram apart."""
    scene = scene_of(drill, rink or make_rink())
    found = entries(scene)
    rows = rows_of(found, width / scale)
    words = ", ".join(one.words for one in found)
    picture = Picture(
        width=width, height=scale * ROW_PX * max(len(rows), 1), kind="tl-legend-only",
        palette=palette, title="What the signs mean", description=words,
    )  # fmt: skip
    draw_legend(picture, scale, rows, (0.0, 0.0))
    return picture.svg()


__all__ = ["drill_svg", "drill_window", "fit", "legend_svg"]
