"""The diagram of a drill in published notation, always with its legend."""

from __future__ import annotations

import math

from tendline.draw.drill_scene import GOAL, Mark, Scene, Standing, Stroke, StrokeKind, scene_of
from tendline.draw.fontfiles import text_width
from tendline.draw.ice_picture import (
    IcePicture,
    Window,
    close_window,
    sheet_window,
    window_for,
    zone_window,
)
from tendline.draw.labels import Box, Placer
from tendline.draw.legend import ROW_PX, TEXT_PX, draw_legend, entries, rows_of
from tendline.draw.notation import PERSON_PX, Pen
from tendline.draw.strokes import at_length, length_of
from tendline.draw.svg import Picture, Point
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.drill.types import Drill
from tendline.drill.vocabulary import IceUse, Role, ThingKind
from tendline.ice import Rink
from tendline.ice import rink as make_rink

_AROUND = ((1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (0.75, -0.75), (-0.75, -0.75))

SHOT_STOPS_OUT = 2.3
"""A shot's arrow ends this far from the goal's centre [m], so that the crease stays readable."""
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
    _Diagram(picture, scene, scale).draw()
    picture.draw_frame()
    if legend:
        _foot(picture, scene, rows, scale)
    return picture.svg()


def _describe(drill: Drill, scene: Scene) -> str:
    steps = " ".join(f"{i}. {text}" for i, text in enumerate(drill.steps, start=1))
    branches = " ".join(f"({one.letter}) {one.words}" for one in scene.branches)
    return " ".join(part for part in (drill.purpose, steps, branches) if part)


def _foot(picture: IcePicture, scene: Scene, rows: list, scale: float) -> None:  # type: ignore[type-arg]
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


class _Diagram:
    def __init__(self, picture: IcePicture, scene: Scene, scale: float) -> None:
        self.picture = picture
        self.scene = scene
        self.pen = Pen(picture, scale)
        view = picture.view
        self.placer = Placer(
            Box(view[0], view[1], view[0] + view[2], view[1] + picture.window.along)
        )
        self.start_of = {one.name: one.at for one in scene.people}

    def draw(self) -> None:
        for person in self.scene.people:
            self.placer.take(self._sign_box(person))
        for thing in self.scene.things:
            at = self._aside(self.picture.at(*thing.at))
            facing = -math.pi / 2.0
            if thing.kind is ThingKind.NET and thing.facing is not None:
                to = self.picture.at(*thing.facing)
                facing = math.atan2(to[1] - at[1], to[0] - at[0])
            self.pen.thing(thing.kind, at, count=thing.count, facing=facing, name=thing.name)
            self.placer.take(Box.around(at, self.pen.px(10.0), self.pen.px(10.0)))
        drawn: list[tuple[Stroke, list[Point]]] = []
        with self.picture.group(classes="tl-strokes"):
            for stroke in self.scene.strokes:
                line = self._stroke(stroke)
                if line:
                    drawn.append((stroke, line))
                    self.placer.take_line(line, thickness=self.pen.px(7.0))
        with self.picture.group(classes="tl-marks"):
            for mark in self.scene.marks:
                self._mark(mark)
        with self.picture.group(classes="tl-people"):
            for person in self.scene.people:
                self._person(person)
        with self.picture.group(classes="tl-order"):
            self._numbers(drawn)

    def _aside(self, at: Point) -> Point:
        """Return a place beside the sign of a person who stands where a thing lies."""
        near = self.pen.px(PERSON_PX + 3.0)
        for person in self.scene.people:
            sign = self.picture.at(*person.at)
            if math.dist(sign, at) < near:
                away = self.pen.px(PERSON_PX + 12.0)
                ring = [(sign[0] + dx * away, sign[1] + dy * away) for dx, dy in _AROUND]
                return self.placer.best(ring, self.pen.px(9.0), self.pen.px(9.0))
        return at

    def _sign_box(self, person: Standing) -> Box:
        size = self.pen.px(PERSON_PX + 2.0)
        return Box.around(self.picture.at(*person.at), size, size)

    def _person(self, person: Standing) -> None:
        at = self.picture.at(*person.at)
        facing = None
        if person.role is Role.GOALTENDER:
            to = self.picture.at(*(person.facing or (8.0, 0.0)))
            facing = math.atan2(to[1] - at[1], to[0] - at[0])
        self.pen.person(person.role, person.name, at, facing=facing)
        if person.has_puck:
            away = self.pen.px(PERSON_PX + 5.0)
            goal = self.picture.at(*GOAL)
            turn = math.atan2(goal[1] - at[1], goal[0] - at[0])
            self.pen.puck((at[0] + away * math.cos(turn), at[1] + away * math.sin(turn)))

    def _points(self, stroke: Stroke) -> list[Point]:
        points = list(stroke.points)
        if stroke.kind is StrokeKind.SHOT and math.dist(points[-1], GOAL) < 1.0:
            (x0, y0), (x1, y1) = points[-2], points[-1]
            total = math.dist((x0, y0), (x1, y1))
            keep = total - min(SHOT_STOPS_OUT, 0.45 * total)
            share = keep / total if total > 0.0 else 1.0
            points[-1] = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
        return [self.picture.at(x, y) for x, y in points]

    def _stroke(self, stroke: Stroke) -> list[Point]:
        points = self._points(stroke)
        sign = self.pen.px(PERSON_PX + 3.0)
        start = self.picture.at(*stroke.points[0])
        begins_at_sign = any(math.dist(start, self.picture.at(*p.at)) < sign
                             for p in self.scene.people)  # fmt: skip
        ends_at_sign = any(math.dist(points[-1], self.picture.at(*p.at)) < sign
                           for p in self.scene.people)  # fmt: skip
        return self.pen.stroke(
            stroke.kind, points, stops=stroke.stops,
            start_gap=sign if begins_at_sign else self.pen.px(3.0),
            end_gap=sign + self.pen.px(2.0) if ends_at_sign else self.pen.px(2.0),
            classes=f"tl-branch-{stroke.branch}" if stroke.branch else "",
        )  # fmt: skip

    def _mark(self, mark: Mark) -> None:
        at = self.picture.at(*mark.at)
        if mark.kind == "screens" and mark.toward is not None:
            self.pen.screen(at, self.picture.at(*mark.toward))
        elif mark.kind == "tips":
            self.pen.tip((at[0], at[1] + self.pen.px(PERSON_PX + 9.0)))
        elif mark.kind == "choice":
            spot = self._beside(at, PERSON_PX + 12.0, 8.0, 8.0)
            self.pen.choice(spot)
        else:
            half = self.pen.px(text_width(mark.letter, size=13.0, bold=True) / 2.0 + 2.0)
            spot = self._beside(at, PERSON_PX + 10.0, half / self.pen.px(1.0), 8.0)
            self.pen.words(spot, mark.letter, halo=True, classes="tl-move-letter")

    def _beside(self, at: Point, away: float, half_width: float, half_height: float) -> Point:
        ring = [
            (at[0] + self.pen.px(away * math.cos(a)), at[1] + self.pen.px(away * math.sin(a)))
            for a in (math.radians(d) for d in (-90, -45, -135, 0, 180, 45, 135, 90))
        ]
        return self.placer.best(ring, self.pen.px(half_width), self.pen.px(half_height))

    def _numbers(self, drawn: list[tuple[Stroke, list[Point]]]) -> None:
        several = len({stroke.number for stroke, _ in drawn}) > 1
        for stroke, line in drawn:
            number = str(stroke.number) if several else ""
            near = min(self.pen.px(20.0), 0.35 * length_of(line))
            if stroke.branch:
                words = f"{number}{stroke.branch} {stroke.letter}".strip()
                half = Pen.tag_width(words)
                spot = self._near_line(line, near + self.pen.px(4.0), half, away=half + 5.0)
                self.pen.tag(spot, words)
                continue
            words = f"{number} {stroke.letter}".strip()
            if words:
                half = text_width(words, size=13.0, bold=True) / 2.0 + 1.5
                spot = self._near_line(line, near, half)
                self.pen.words(spot, words, halo=True, classes="tl-number")

    def _near_line(
        self, line: list[Point], walked: float, half: float, away: float = 12.0
    ) -> Point:
        spots = []
        for extra in (0.0, 10.0, 22.0, 36.0, 54.0, 80.0):
            (x, y), turn = at_length(line, walked + self.pen.px(extra))
            for side in (1.0, -1.0):
                dx, dy = -side * math.sin(turn), side * math.cos(turn)
                reach = self.pen.px(min(away, 12.0) + abs(dx) * max(away - 12.0, 0.0))
                spots.append((x + reach * dx, y + reach * dy))
        return self.placer.best(spots, self.pen.px(half), self.pen.px(7.5))


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
    picture = Picture(
        width=width, height=scale * ROW_PX * len(rows), kind="tl-legend-only", palette=palette,
        title="What the signs mean", description=", ".join(one.words for one in found),
    )  # fmt: skip
    draw_legend(picture, scale, rows, (0.0, 0.0))
    return picture.svg()


__all__ = ["drill_svg", "drill_window", "fit", "legend_svg"]
