"""The signs of the published coaching notation, drawn so that they survive a photocopier.

Source of the set: the symbols that federations' manuals share (common practice); where manuals
differ a legend says what is meant, and every diagram prints one. Sizes are CSS pixels at the
picture's nominal width; ``scale`` of a :class:`Pen` enlarges them all.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tendline.draw.drill_scene import StrokeKind
from tendline.draw.fontfiles import text_width
from tendline.draw.labels import Box
from tendline.draw.strokes import (
    arrow_head,
    at_length,
    bar_across,
    beside,
    length_of,
    loops,
    smooth,
    trim,
    wave,
)
from tendline.draw.svg import Picture, Point, path_data
from tendline.draw.tokens import Paint
from tendline.drill.vocabulary import Role, ThingKind

PERSON_PX = 12.0
LABEL_PX = 13.0
LINE_PX = 1.9
HEAD_PX = 10.0
"""Radius of a person's sign, its letters, line width and length of an arrow head."""
NAME_PX = 12.0
WORD_HALF = 5.5
"""Size of a thing's name, and half the height of capitals with their halo."""

Q = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Pen:
    """Draws signs into ``picture``; ``scale`` enlarges every sign."""

    picture: Picture
    scale: float = 1.0

    def px(self, pixels: float) -> float:
        """Return pixels in the picture's unit, enlarged by the pen's scale."""
        return self.picture.px(pixels * self.scale)

    # ---- lines -------------------------------------------------------------------------------

    def stroke(
        self,
        kind: StrokeKind,
        points: Sequence[Point],
        *,
        start_gap: float = 0.0,
        end_gap: float = 0.0,
        stops: bool = False,
        classes: str = "",
        paint: Paint = Paint.INK,
    ) -> list[Point]:
        """Draw a line of the notation through picture points; return its middle line.

        ``start_gap`` and ``end_gap`` [picture unit] leave room for the signs at its ends.
        """
        line = trim(smooth(points), start=start_gap, end=end_gap)
        if len(line) < 2 or length_of(line) < self.px(4.0):
            return []
        name = kind.value.replace(" ", "-").replace("'", "")
        head = self.px(HEAD_PX * (1.25 if kind is StrokeKind.SHOT else 1.0))
        body = trim(line, end=head * 0.8) or line
        with self.picture.group(classes=f"tl-stroke tl-{name} {classes}".strip()):
            self._body(kind, body, paint)
            self._fill(arrow_head(line, length=head, width=head * 0.78), paint)
            if stops:
                for back in (-3.5, -8.0):
                    bar = bar_across(line, back=self.px(back), width=self.px(13.0))
                    self._shift_bar(line, bar, self.px(-back), paint)
        return line

    def _shift_bar(self, line: list[Point], bar: list[Point], ahead: float, paint: Paint) -> None:
        """Draw a bar ``ahead`` beyond the tip: the two bars of a stop."""
        _, turn = at_length(line, length_of(line))
        dx, dy = ahead * math.cos(turn), ahead * math.sin(turn)
        moved = [(x + dx, y + dy) for x, y in bar]
        self._plain(moved, paint, 2.2)

    def _body(self, kind: StrokeKind, body: list[Point], paint: Paint) -> None:
        calm = self.px(9.0)
        if kind in (StrokeKind.SKATE, StrokeKind.MOVE):
            self._plain(body, paint)
        elif kind is StrokeKind.CARRY:
            line = wave(body, height=self.px(4.2), wavelength=self.px(15.0), calm=calm)
            self._plain(line, paint)
        elif kind is StrokeKind.BACKWARD:
            line = loops(body, radius=self.px(3.4), pitch=self.px(12.0), calm=calm)
            self._plain(line, paint, 1.5)
        elif kind is StrokeKind.CARRY_BACKWARD:
            line = loops(body, radius=self.px(3.4), pitch=self.px(12.0), calm=calm)
            self._plain(line, paint, 1.5)
            self._dots(body, paint)
        elif kind is StrokeKind.PASS:
            self._plain(body, paint, dash=(8.0, 5.5))
        elif kind is StrokeKind.TOSS:
            self._plain(body, paint, 2.2, dash=(0.1, 5.5))
        else:
            for aside in (2.4, -2.4):
                self._plain(beside(body, self.px(aside)), paint)

    def _dots(self, body: list[Point], paint: Paint) -> None:
        step = self.px(24.0)
        walked = step / 2.0
        while walked < length_of(body):
            (x, y), turn = at_length(body, walked)
            aside = self.px(-4.5)
            at = (x - aside * math.sin(turn), y + aside * math.cos(turn))
            self.picture.circle(at, self.px(1.6), fill=paint)
            walked += step

    def _plain(
        self,
        line: Sequence[Point],
        paint: Paint,
        width: float = LINE_PX,
        *,
        dash: tuple[float, float] | None = None,
        classes: str = "",
    ) -> None:
        pattern = None
        if dash is not None:
            pattern = " ".join(f"{self.px(one):.4g}" for one in dash)
        self.picture.path(
            path_data(line), stroke=paint, width=self.px(width), dash=pattern, classes=classes,
            cap="round" if dash is None or dash[0] < 1.0 else "butt",
        )  # fmt: skip

    def _fill(self, ring: Sequence[Point], paint: Paint, classes: str = "") -> None:
        self.picture.path(path_data(ring, closed=True), fill=paint, classes=classes)

    # ---- people and things -------------------------------------------------------------------

    def words(
        self, at: Point, text: str, *, size: float = LABEL_PX, paint: Paint = Paint.INK,
        bold: bool = True, anchor: str = "middle", halo: bool = False, classes: str = "",
    ) -> None:  # fmt: skip
        """Write words centred in height on ``at``."""
        height = self.px(size)
        self.picture.text(
            (at[0], at[1] + height * 0.34), text, size=height, paint=paint, anchor=anchor,
            bold=bold, halo=halo, classes=classes,
        )  # fmt: skip

    def person(self, role: Role, name: str, at: Point, *, facing: float | None = None) -> None:
        """Draw a person: circle, triangle, square or filled disc by role, with the name inside.

        ``facing`` [rad, picture plane] adds a nose to a goaltender.
        """
        radius = self.px(PERSON_PX)
        size = LABEL_PX if len(name) <= 2 else LABEL_PX * 0.84
        width = self.px(1.7)
        classes = f"tl-sign tl-role-{role.name.lower()}"
        if role is Role.DEFENDER:
            self._triangle(at, radius * 1.5, width, classes)
            self.words((at[0], at[1] + radius * 0.2), name, size=size * 0.88)
        elif role is Role.GOALTENDER:
            if facing is not None:
                self._nose(at, radius, facing)
            self.picture.circle(at, radius, fill=Paint.INK, classes=classes)
            self.words(at, name, size=size, paint=Paint.ICE)
        elif role is Role.HELPER:
            side = radius * 0.9
            self.picture.add(
                "rect", classes=classes, fill=Paint.ICE, stroke=Paint.INK, stroke_width=width,
                x=at[0] - side, y=at[1] - side, width=2 * side, height=2 * side,
            )  # fmt: skip
            self.words(at, name, size=size)
        else:
            self.picture.circle(
                at, radius, fill=Paint.ICE, stroke=Paint.INK, width=width, classes=classes
            )
            if role is Role.COACH:
                self.picture.circle(at, radius - self.px(3.0), stroke=Paint.INK, width=self.px(0.9))
                size *= 0.86
            self.words(at, name, size=size)

    def _triangle(self, at: Point, radius: float, width: float, classes: str) -> None:
        corners = [
            (at[0] + radius * math.cos(math.radians(a)), at[1] + radius * math.sin(math.radians(a)))
            for a in (-90.0, 30.0, 150.0)
        ]
        self.picture.path(
            path_data(corners, closed=True), fill=Paint.ICE, stroke=Paint.INK, width=width,
            classes=classes,
        )  # fmt: skip

    @staticmethod
    def _nose_ring(at: Point, radius: float, facing: float) -> list[Point]:
        reach = 1.55
        touch = math.acos(1.0 / reach)
        return [
            (at[0] + r * math.cos(facing + turn), at[1] + r * math.sin(facing + turn))
            for r, turn in ((reach * radius, 0.0), (radius, touch), (radius, -touch))
        ]

    def _nose(self, at: Point, radius: float, facing: float) -> None:
        ring = self._nose_ring(at, radius, facing)
        self._fill(ring, Paint.INK, "tl-nose")

    def person_boxes(self, role: Role, at: Point, *, facing: float | None = None) -> list[Box]:
        """Return the boxes that a person's sign covers; two for a goaltender, body and nose."""
        radius = self.px(PERSON_PX)
        if role is Role.DEFENDER:
            corner = 1.5 * radius
            side = corner * math.cos(math.radians(30.0))
            return [Box(at[0] - side, at[1] - corner, at[0] + side, at[1] + corner / 2.0)]
        if role is Role.HELPER:
            return [Box.around(at, 0.9 * radius, 0.9 * radius)]
        found = [Box.around(at, radius, radius)]
        if role is Role.GOALTENDER and facing is not None:
            found.append(Box.about(self._nose_ring(at, radius, facing)))
        return found

    def thing_box(self, kind: ThingKind, at: Point) -> Box:
        """Return a box that a thing's sign stays within, whichever way it faces."""
        reach = {ThingKind.CONE: 7.0, ThingKind.PUCKS: 11.6, ThingKind.TARGET: 7.8}.get(kind, 14.0)
        return Box.around(at, self.px(reach), self.px(reach))

    def puck(self, at: Point) -> None:
        """Draw one puck."""
        self.picture.circle(at, self.px(3.4), fill=Paint.INK, classes="tl-puck")

    def thing(
        self, kind: ThingKind, at: Point, *, count: int = 1, facing: float = -math.pi / 2.0,
        name: str = "",
    ) -> None:  # fmt: skip
        """Draw a thing on the ice; ``facing`` [rad, picture plane] turns a net's mouth."""
        if kind is ThingKind.CONE:
            ring = [(at[0] + self.px(dx), at[1] + self.px(dy)) for dx, dy in _CONE]
            self.picture.path(path_data(ring, closed=True), fill=Paint.INK, classes="tl-cone")
        elif kind is ThingKind.PUCKS:
            shown = _CLUSTER[: min(max(count, 1), len(_CLUSTER))] if count > 1 else [(0.0, 0.0)]
            for dx, dy in shown:
                self.puck((at[0] + self.px(dx), at[1] + self.px(dy)))
        elif kind is ThingKind.NET:
            self._small_net(at, facing)
        elif kind is ThingKind.TARGET:
            for radius in (7.0, 3.0):
                self.picture.circle(
                    at, self.px(radius), stroke=Paint.INK, width=self.px(1.5), classes="tl-target"
                )
        else:
            ends = [(at[0] - self.px(12.0), at[1]), (at[0] + self.px(12.0), at[1])]
            self._plain(ends, Paint.INK, 2.6, classes="tl-mark-line")
        if name:
            start = (self.name_box(kind, at, name).left, at[1])
            self.words(start, name, size=NAME_PX, anchor="start", halo=True,
                       classes="tl-thing-name")  # fmt: skip

    def name_box(self, kind: ThingKind, at: Point, name: str) -> Box:
        """Return the box of a thing's name where nothing else decides: to its right."""
        start = self.thing_box(kind, at).right + self.px(2.0)
        half = self.px(WORD_HALF)
        wide = self.px(text_width(name, size=NAME_PX, bold=True))
        return Box(start, at[1] - half, start + wide, at[1] + half)

    def _small_net(self, at: Point, facing: float) -> None:
        cos, sin = math.cos(facing), math.sin(facing)

        def turned(ahead: float, aside: float) -> Point:
            a, b = self.px(ahead), self.px(aside)
            return at[0] + a * cos - b * sin, at[1] + a * sin + b * cos

        ring = [turned(0.0, 13.0), turned(-11.0, 10.0), turned(-11.0, -10.0), turned(0.0, -13.0)]
        self.picture.path(
            path_data(ring), fill=Paint.ICE, stroke=Paint.INK, width=self.px(2.2), classes="tl-net"
        )

    # ---- marks -------------------------------------------------------------------------------

    def screen(self, at: Point, toward: Point) -> list[Point]:
        """Draw a screen: a thick bar beside a player, between puck and goaltender; return it."""
        turn = math.atan2(toward[1] - at[1], toward[0] - at[0])
        away = self.px(PERSON_PX + 4.5)
        x, y = at[0] - away * math.cos(turn), at[1] - away * math.sin(turn)
        dx, dy = -math.sin(turn) * self.px(12.0), math.cos(turn) * self.px(12.0)
        bar = [(x + dx, y + dy), (x - dx, y - dy)]
        self._plain(bar, Paint.INK, 4.2, classes="tl-screen")
        return bar

    def tip(self, at: Point) -> None:
        """Draw a tip: a small four-pointed star."""
        ring = []
        for i in range(8):
            radius = self.px(9.0 if i % 2 == 0 else 3.2)
            angle = math.pi / 4.0 * i
            ring.append((at[0] + radius * math.cos(angle), at[1] + radius * math.sin(angle)))
        self.picture.path(path_data(ring, closed=True), fill=Paint.INK, classes="tl-tip")

    def choice(self, at: Point) -> None:
        """Draw a point of choice: a hollow diamond."""
        r = self.px(7.5)
        ring = [(at[0], at[1] - r), (at[0] + r, at[1]), (at[0], at[1] + r), (at[0] - r, at[1])]
        self.picture.path(
            path_data(ring, closed=True), fill=Paint.ICE, stroke=Paint.INK, width=self.px(1.7),
            classes="tl-choice",
        )  # fmt: skip

    @staticmethod
    def tag_width(letter: str) -> float:
        """Return half the width of a branch's plate, in CSS pixels before scaling."""
        return max(8.0, text_width(letter, size=12.5, bold=True) / 2.0 + 4.0)

    def tag(self, at: Point, letter: str) -> None:
        """Draw a branch's letter on its line: white letter on a small dark plate."""
        width = self.px(self.tag_width(letter))
        height = self.px(8.0)
        self.picture.add(
            "rect", classes="tl-branch-tag", fill=Paint.INK, x=at[0] - width, y=at[1] - height,
            width=2 * width, height=2 * height, rx=self.px(2.0),
        )  # fmt: skip
        self.words(at, letter, size=12.5, paint=Paint.ICE)


_CONE = ((0.0, -7.0), (6.0, 5.0), (-6.0, 5.0))
_CLUSTER = ((0.0, -4.6), (-4.6, 3.4), (4.6, 3.4), (0.0, 1.0), (-8.2, -3.4), (8.2, -3.4))
