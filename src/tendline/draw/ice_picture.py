"""The ice as every picture shows it: the defended net at the bottom, looking out.

Drawing plane: metres, screen right = -y, screen up = +x, so a point (x, y) of the rink lies at
(-y, -x) of the picture. Markings are thin and tinted; what matters is drawn over them in ink.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tendline.draw.hatching import hatch
from tendline.draw.svg import Picture, Point, path_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.ice import IceFormat, Rink

MARKING_PX = 1.4
BOARDS_PX = 2.0
FRAME_PX = 2.6
POST_PX = 3.2
"""Stroke widths, in CSS pixels at nominal size."""


@dataclass(frozen=True, slots=True)
class Window:
    """The part of the ice shown, in the rink's frame [m]; ``x`` out, ``y`` to her left."""

    x_low: float
    x_high: float
    y_low: float
    y_high: float

    @property
    def across(self) -> float:
        """Return the width on screen [m]."""
        return self.y_high - self.y_low

    @property
    def along(self) -> float:
        """Return the height on screen [m]."""
        return self.x_high - self.x_low

    def holds(self, x: float, y: float, margin: float = 0.0) -> bool:
        """Return whether a place lies inside, at least ``margin`` metres from the edge."""
        return (
            self.x_low + margin <= x <= self.x_high - margin
            and self.y_low + margin <= y <= self.y_high - margin
        )

    def as_text(self) -> str:
        """Return the window as ``x_low,x_high,y_low,y_high`` for an address or an attribute."""
        return ",".join(f"{v:g}" for v in (self.x_low, self.x_high, self.y_low, self.y_high))


EDGE = 0.5
"""Ice shown beyond the boards or the outermost person [m]."""
CLOSE_ALONG = 7.6
CLOSE_HALF = 4.4
"""The window close to the net: how far out and how far to each side it reaches [m]."""
SMALLEST_ALONG = 6.0
"""No window chosen from positions shows less than this out from the goal line [m]."""
ROOM = 1.3
"""Ice kept around the outermost person in a window chosen from positions [m]."""


def zone_window(rink: Rink) -> Window:
    """Return the whole end zone: boards to just beyond the blue line."""
    return Window(
        rink.x_min - EDGE,
        min(rink.blue_line_x + 2.0, rink.x_max + EDGE),
        -rink.half_width - EDGE,
        rink.half_width + EDGE,
    )


def sheet_window(rink: Rink) -> Window:
    """Return the whole playing area."""
    side = rink.half_width + EDGE
    return Window(rink.x_min - EDGE, rink.x_max + EDGE, -side, side)


def close_window(rink: Rink) -> Window:
    """Return the window close to the net, where net and crease have room."""
    low = max(rink.x_min - EDGE, -1.9)
    half = min(CLOSE_HALF, rink.half_width + EDGE)
    return Window(low, min(CLOSE_ALONG, rink.x_max + EDGE), -half, half)


def window_for(rink: Rink, places: Iterable[Point], *, aspect: float = 0.9) -> Window:
    """Return a window that shows the net and all ``places`` with room around them.

    The closer the play, the larger the net. ``aspect`` is across / along; the window grows to reach
    it as far as the ice allows.
    """
    points = [(x, y) for x, y in places]
    whole = zone_window(rink)
    deepest = min([-1.0, *(x - ROOM for x, _ in points)])
    x_low = max(min(whole.x_low, deepest), min(-1.9, deepest), rink.x_min - EDGE)
    furthest = max([SMALLEST_ALONG, *(x + ROOM for x, _ in points)])
    x_high = min(furthest, rink.x_max + EDGE)
    left = max([3.0, *(y + ROOM for _, y in points)])
    right = min([-3.0, *(y - ROOM for _, y in points)])
    side = rink.half_width + EDGE
    y_low, y_high = max(right, -side), min(left, side)
    wanted = aspect * (x_high - x_low)
    if y_high - y_low < wanted:
        middle = 0.5 * (y_low + y_high)
        half = min(0.5 * wanted, side)
        middle = min(max(middle, half - side), side - half)
        y_low, y_high = middle - half, middle + half
    else:
        missing = (y_high - y_low) / aspect - (x_high - x_low)
        x_high = min(x_high + missing, rink.x_max + EDGE, max(whole.x_high, x_high))
    return Window(x_low, x_high, y_low, y_high)


class IcePicture(Picture):
    """A picture whose plane is the ice; :meth:`at` turns a place into a picture point."""

    def __init__(
        self,
        rink: Rink,
        window: Window,
        *,
        width: float,
        title: str,
        description: str = "",
        kind: str = "",
        palette: Palette = PAPER,
        interactive: bool = False,
        foot_px: float = 0.0,
    ) -> None:
        unit = window.across / width
        super().__init__(
            width=width,
            height=window.along / unit + foot_px,
            view=(-window.y_high, -window.x_high, window.across, window.along + foot_px * unit),
            title=title,
            description=description,
            kind=f"tl-ice {kind}".strip(),
            palette=palette,
            interactive=interactive,
            data={"window": window.as_text()},
        )
        self.rink = rink
        self.window = window

    def at(self, x: float, y: float) -> Point:
        """Return the picture point of a place on the ice [m]."""
        return -y, -x

    def ice_path(self, places: Iterable[Point], *, closed: bool = False) -> str:
        """Return the path data through places on the ice [m]."""
        return path_data([self.at(x, y) for x, y in places], closed=closed)

    def draw_ice(self) -> None:
        """Draw the sheet, its markings, the creases and the nets."""
        with self.group(classes="tl-rink", aria_hidden="true"):
            self._boards()
            if self.rink.has_markings:
                self._lines()
                self._circles()
            self._end(mirror=False)
            if self._shows_far_end():
                self._end(mirror=True)
        with self.group(classes="tl-nets", aria_hidden="true"):
            self._net(mirror=False)
            if self._shows_far_end():
                self._net(mirror=True)

    @property
    def _full(self) -> bool:
        return self.rink.ice_format is IceFormat.FULL

    def draw_frame(self) -> None:
        """Draw a hairline round the window, over everything that it cuts."""
        edge = self.px(1.0)
        self.add(
            "rect", classes="tl-window", stroke=Paint.LINE, stroke_width=edge, hollow=True,
            x=self.view[0] + edge / 2, y=self.view[1] + edge / 2,
            width=self.window.across - edge, height=self.window.along - edge,
        )  # fmt: skip

    def _shows_far_end(self) -> bool:
        far = self.rink.far_net_x
        return self.window.x_high > far - 3.0 and self.rink.x_max > far

    def _turned(self, x: float, y: float, mirror: bool) -> Point:
        return self.at(self.rink.far_net_x - x, -y) if mirror else self.at(x, y)

    def _boards(self) -> None:
        self.path(
            self.ice_path(boards_outline(self.rink), closed=True), fill=Paint.ICE, stroke=Paint.INK,
            width=self.px(BOARDS_PX), classes="tl-boards",
        )  # fmt: skip

    def _line_across(self, x: float, thickness: float, paint: Paint, classes: str) -> None:
        half = _half_width_at(self.rink, x)
        self.line(
            self.at(x, half), self.at(x, -half), paint=paint, classes=classes,
            width=max(thickness, self.px(MARKING_PX)),
        )  # fmt: skip

    def _lines(self) -> None:
        rink = self.rink
        thick = rink.blue_line_width
        blue = [rink.blue_line_x - thick / 2.0]
        if self._full:
            blue.append(rink.far_net_x - rink.blue_line_x + thick / 2.0)
        for x in blue:
            self._line_across(x, thick, Paint.RINK_BLUE, "tl-blue-line")
        if rink.red_line_x <= rink.x_max:
            self._line_across(rink.red_line_x, thick, Paint.RINK_RED, "tl-red-line")

    def _circles(self) -> None:
        rink = self.rink
        dot = max(rink.spot_diameter / 2.0, self.px(2.0))
        ends = [False, True] if self._full and self._shows_far_end() else [False]
        for mirror in ends:
            for side in (1.0, -1.0):
                centre = self._turned(rink.spot_x, side * rink.spot_y, mirror)
                self.circle(centre, rink.circle_radius, stroke=Paint.RINK_RED,
                            width=self.px(MARKING_PX), classes="tl-circle")  # fmt: skip
                self.circle(centre, dot, fill=Paint.RINK_RED, classes="tl-dot")
                self._hash_marks(side, mirror)
                spot = self._turned(rink.neutral_spot_x, side * rink.spot_y, mirror)
                self.circle(spot, dot, fill=Paint.RINK_RED, classes="tl-dot")
        centre = self.at(rink.red_line_x, 0.0)
        if rink.red_line_x < rink.x_max:
            self.circle(centre, rink.circle_radius, stroke=Paint.RINK_BLUE,
                        width=self.px(MARKING_PX), classes="tl-circle")  # fmt: skip
            self.circle(centre, dot / 2.0, fill=Paint.RINK_BLUE, classes="tl-dot")

    def _hash_marks(self, side: float, mirror: bool) -> None:
        rink = self.rink
        offset = math.sqrt(max(rink.circle_radius**2 - (rink.hash_spacing / 2.0) ** 2, 0.0))
        for inward in (1.0, -1.0):
            for along in (0.5, -0.5):
                x = rink.spot_x + along * rink.hash_spacing
                y = side * rink.spot_y + inward * offset
                self.line(
                    self._turned(x, y, mirror),
                    self._turned(x, y + inward * rink.hash_length, mirror),
                    paint=Paint.RINK_RED, width=self.px(MARKING_PX), classes="tl-hash",
                )  # fmt: skip

    def _end(self, *, mirror: bool) -> None:
        rink, crease = self.rink, self.rink.crease
        thin = self.px(MARKING_PX)
        if rink.has_markings and (self._full or not mirror):
            half = _half_width_at(rink, 0.0)
            self.line(self._turned(0.0, half, mirror), self._turned(0.0, -half, mirror),
                      paint=Paint.RINK_RED, width=max(rink.line_width, thin),
                      classes="tl-goal-line")  # fmt: skip
            self._trapezoid(mirror)
        corner_x, corner_y = crease.corner
        if crease.side_length > 0.0:
            turn = math.degrees(math.atan2(corner_y, corner_x))
            places = [(0.0, crease.half_width), *_arc(0.0, 0.0, crease.radius, turn, -turn)]
            places.append((0.0, -crease.half_width))
        else:
            places = _arc(0.0, 0.0, crease.radius, 90.0, -90.0)
        self.path(
            path_data([self._turned(x, y, mirror) for x, y in places], closed=True),
            fill=Paint.CREASE, stroke=Paint.RINK_RED, width=max(rink.line_width * 0.6, thin),
            classes="tl-crease",
        )  # fmt: skip

    def _trapezoid(self, mirror: bool) -> None:
        rink = self.rink
        if rink.trapezoid_goal_line <= 0.0:
            return
        for side in (0.5, -0.5):
            self.line(
                self._turned(0.0, side * rink.trapezoid_goal_line, mirror),
                self._turned(rink.x_min, side * rink.trapezoid_boards, mirror),
                paint=Paint.RINK_RED, width=self.px(MARKING_PX), classes="tl-trapezoid",
            )  # fmt: skip

    def _net(self, *, mirror: bool) -> None:
        goal = self.rink.goal
        half = goal.half_width + goal.post_diameter / 2.0
        back = half * 0.86
        corner = 0.22 * goal.depth
        outline = [
            (0.0, half),
            (-goal.depth + corner, back + 0.02 * half),
            *_arc(-goal.depth + corner, back - corner, corner, 90.0, 180.0),
            *_arc(-goal.depth + corner, -back + corner, corner, 180.0, 270.0),
            (-goal.depth + corner, -back - 0.02 * half),
            (0.0, -half),
        ]
        self.path(
            path_data([self._turned(x, y, mirror) for x, y in outline], closed=True),
            fill=Paint.SHEET, classes="tl-net-inside",
        )  # fmt: skip
        self._mesh(outline, mirror)
        self.path(
            path_data([self._turned(x, y, mirror) for x, y in outline]), stroke=Paint.INK,
            width=self.px(FRAME_PX), classes="tl-net",
        )  # fmt: skip
        radius = max(goal.post_diameter / 2.0, self.px(POST_PX))
        for side in (half, -half):
            self.circle(self._turned(0.0, side, mirror), radius, fill=Paint.INK, classes="tl-post")

    def _mesh(self, outline: list[Point], mirror: bool) -> None:
        step = max(0.14, self.px(7.0))
        lines = hatch([outline], spacing=step, angle_deg=45.0)
        lines += hatch([outline], spacing=step, angle_deg=-45.0)
        data = "".join(
            path_data([self._turned(*start, mirror), self._turned(*end, mirror)])
            for start, end in lines
        )
        self.path(data, stroke=Paint.LINE, width=self.px(0.8), classes="tl-mesh")


def boards_outline(rink: Rink) -> list[Point]:
    """Return the inside of the boards as a ring of places [m]."""
    near, far = rink.corner_radius, rink.far_corner_radius
    side, low, high = rink.half_width, rink.x_min, rink.x_max
    places = [(low + near, side), (high - far, side)]
    places += _arc(high - far, side - far, far, 90.0, 0.0)
    places += _arc(high - far, -side + far, far, 0.0, -90.0)
    places += [(low + near, -side)]
    places += _arc(low + near, -side + near, near, -90.0, -180.0)
    places += _arc(low + near, side - near, near, 180.0, 90.0)
    return places


def _half_width_at(rink: Rink, x: float) -> float:
    """Return half the width of the ice at ``x`` [m], the rounded corners counted."""
    for radius, over in (
        (rink.corner_radius, rink.x_min + rink.corner_radius - x),
        (rink.far_corner_radius, x - rink.x_max + rink.far_corner_radius),
    ):
        if over > 0.0:
            return rink.half_width - radius + math.sqrt(max(radius**2 - over**2, 0.0))
    return rink.half_width


def _arc(x: float, y: float, radius: float, start_deg: float, end_deg: float) -> list[Point]:
    """Return points of an arc in the rink's frame; angles from +x toward +y."""
    steps = max(2, math.ceil(abs(end_deg - start_deg) / 4.0))
    angles = [math.radians(start_deg + (end_deg - start_deg) * i / steps) for i in range(steps + 1)]
    return [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles]
