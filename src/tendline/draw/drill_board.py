"""The ice on which a drill is written: every person, thing, line and point can be taken hold of.

The same signs as the diagram, but each stands exactly where the script puts it, in a group of its
own that a page can move, with a transparent disc or line around it that a finger finds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, fields

from tendline.draw.drill_diagram import LINE_WIDE, Diagram
from tendline.draw.drill_scene import MOVE_WORDS, Scene, Standing, Stroke, StrokeKind, _Builder
from tendline.draw.drill_tidy import shared_strokes
from tendline.draw.ice_picture import IcePicture, Window, sheet_window, zone_window
from tendline.draw.notation import PERSON_PX
from tendline.draw.strokes import at_length, length_of, smooth
from tendline.draw.svg import Point, path_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.drill.places import spot_names, xy_of
from tendline.drill.play_lines import show_action
from tendline.drill.types import Action, Drill, Place
from tendline.drill.vocabulary import IceUse, Role, Verb
from tendline.ice import Rink

HIT_PX = 22.0
HANDLE_PX = 7.0
SMALL_PX = 5.0
SPOT_PX = 3.0
"""Half the size of what a finger takes hold of (44 pixels); radii of handles and spots."""
LEAST_HIT = 0.55
"""Nothing is smaller to take hold of than this radius on the ice [m]."""
PATH_VERBS = frozenset({Verb.SKATE, Verb.CARRY})


@dataclass(frozen=True, slots=True, kw_only=True)
class RowStroke(Stroke):
    """A line of the diagram that knows which row of the play it shows, and in words."""

    row: int = -1
    said: str = ""


@dataclass(frozen=True, slots=True)
class Handle:
    """A point of a path that can be dragged: the row, its number in the path, and what it is.

    ``kind`` is "point" (on the way), "end", or "between" (a new point would go before ``index``);
    ``whom`` whether it may be dropped on a person.
    """

    row: int
    index: int
    kind: str
    at: Point
    whom: bool = False


class _RowBuilder(_Builder):
    """Builds the scene and remembers which row each line came from."""

    def __init__(self, drill: Drill, rink: Rink, rows: Sequence[int]) -> None:
        super().__init__(drill, rink)
        self.rows = rows
        self.count = 0
        self.said = ""

    def action(self, action: Action, where: dict[str, Point], branch: str) -> None:
        self.said = show_action(action)
        super().action(action, where, branch)
        self.count += 1

    def add(
        self, kind: StrokeKind, action: Action, points: tuple[Point, ...], number: int,
        branch: str, letter: str = "",
    ) -> None:  # fmt: skip
        super().add(kind, action, points, number, branch, letter)
        row = self.rows[self.count]
        self.scene.strokes[-1] = _with_row(self.scene.strokes[-1], row, self.said)

    def stop(self, who: str, branch: str) -> None:
        before = list(self.scene.strokes)
        super().stop(who, branch)
        for index, (old, new) in enumerate(zip(before, self.scene.strokes, strict=True)):
            if old is not new and isinstance(old, RowStroke):
                self.scene.strokes[index] = _with_row(new, old.row, old.said)


def _with_row(stroke: Stroke, row: int, said: str) -> RowStroke:
    values = {one.name: getattr(stroke, one.name) for one in fields(Stroke)}
    return RowStroke(**values, row=row, said=said)


def board_window(drill: Drill, rink: Rink, view: str = "") -> Window:
    """Return the part of the ice to write on: ``view`` "zone", "half" or "full"; "" chooses."""
    zone = zone_window(rink)
    half = Window(zone.x_low, min(rink.red_line_x + 3.0, rink.x_max), zone.y_low, zone.y_high)
    if view == "full":
        return sheet_window(rink)
    if view == "half":
        return half
    if view == "zone":
        return zone
    places = _Builder(drill, rink).build().places()
    furthest = max((x for x, _ in places), default=0.0)
    if drill.ice.use is IceUse.FULL_ICE or furthest > half.x_high - 0.5:
        return sheet_window(rink)
    wide = (IceUse.HALF_ICE, IceUse.NEUTRAL_ZONE)
    return half if drill.ice.use in wide or furthest > zone.x_high - 0.5 else zone


def drill_board_svg(
    drill: Drill,
    *,
    rink: Rink,
    rows: Sequence[int],
    window: Window | None = None,
    width: float = 620.0,
    chosen: str = "",
    palette: Palette = PAPER,
) -> str:
    """Return the ice picture of the editor.

    ``rows`` are the row numbers of the play's actions in the order of the script; ``chosen`` is a
    person, a thing's label or ``row N``. Groups that can be taken hold of carry ``data-name``
    (people and things), ``data-row`` (lines) or ``data-row`` and ``data-index`` (points).
    """
    shown = window or board_window(drill, rink)
    picture = IcePicture(
        rink, shown, width=width, title=f"The ice: {drill.title}",
        description="People, things and lines can be moved with the arrow keys.",
        kind="tl-board", palette=palette, interactive=True,
    )  # fmt: skip
    picture.draw_ice()
    builder = _RowBuilder(drill, rink, rows)
    Board(picture, builder.build(), drill, rink, chosen).draw()
    picture.draw_frame()
    return picture.svg()


class Board(Diagram):
    """Draws the scene so that it can be taken hold of."""

    def __init__(
        self, picture: IcePicture, scene: Scene, drill: Drill, rink: Rink, chosen: str
    ) -> None:
        super().__init__(picture, scene, 1.0)
        self.drill = drill
        self.rink = rink
        self.chosen = chosen
        self.sign_of = dict(self.home_of)
        self.hit = max(picture.px(HIT_PX), LEAST_HIT)

    def draw(self) -> None:
        self._spots()
        self._take_signs()
        for thing in self.scene.things:
            at = self.picture.at(*thing.at)
            self._take_thing(thing.kind, at)
            if thing.name:
                self.room.solid.append(self.pen.name_box(thing.kind, at, thing.name))
            self.things.append(at)
        with self.picture.group(classes="tl-answer"):
            drawn = self._lines()
            with self.picture.group(classes="tl-marks"):
                marks = self._marks()
            with self.picture.group(classes="tl-order"):
                self._place([*marks, *self._numbers(drawn)])
        with self.picture.group(classes="tl-things"):
            self._things()
        on_top = self.chosen.startswith("row ")
        if not on_top:
            self._handles()
        with self.picture.group(classes="tl-people"):
            for person in self.scene.people:
                self._taken(person)
        if on_top:
            self._handles()

    def _handles(self) -> None:
        with self.picture.group(classes="tl-handles"):
            for handle in self.handles():
                self._handle(handle)

    def _spots(self) -> None:
        with self.picture.group(classes="tl-spots", aria_hidden="true", visibility="hidden"):
            for name in spot_names():
                at = self.picture.at(*xy_of(Place(name), self.drill, self.rink))
                self.picture.circle(at, self.pen.px(SPOT_PX), fill=Paint.ADVICE, classes="tl-spot")

    def _lines(self) -> list[tuple[Stroke, list[Point]]]:
        drawn: list[tuple[Stroke, list[Point]]] = []
        with self.picture.group(classes="tl-strokes"):
            for stroke in shared_strokes(self.scene.strokes):
                row = stroke.row if isinstance(stroke, RowStroke) else -1
                said = stroke.said if isinstance(stroke, RowStroke) else ""
                with self.picture.group(
                    classes="tl-row", data_row=str(row), data_who=stroke.who, tabindex="0",
                    role="button", aria_label=said, aria_pressed=self._pressed(f"row {row}"),
                ):  # fmt: skip
                    self.picture.add(
                        "path", classes="tl-hit", hollow=True, pointer_events="stroke",
                        d=path_data(smooth(self._points(stroke))),
                        stroke_width=self.picture.px(HIT_PX),
                    )  # fmt: skip
                    line = self._stroke(stroke)
                if line:
                    drawn.append((stroke, line))
                    self.room.take_line(line, thickness=self.pen.px(LINE_WIDE))
        return drawn

    def _pressed(self, name: str) -> str:
        return "true" if name == self.chosen else "false"

    def _group(self, name: str, at: Point, kind: str, label: str) -> AbstractContextManager[None]:
        """Return the group of somebody or something that can be chosen and dragged."""
        return self.picture.group(
            classes=kind, data_name=name, tabindex="0", role="button", aria_label=label,
            aria_pressed=self._pressed(name), transform=f"translate({at[0]:.3f} {at[1]:.3f})",
        )  # fmt: skip

    def _disc(self) -> None:
        self._hit()
        self.picture.add(
            "circle", classes="tl-ring", stroke=Paint.ADVICE, hollow=True, visibility="hidden",
            cx=0.0, cy=0.0, r=self.pen.px(PERSON_PX + 6.0), stroke_width=self.pen.px(2.6),
        )  # fmt: skip

    def _hit(self) -> None:
        """Add the invisible disc that a finger finds."""
        self.picture.add(
            "circle", classes="tl-hit", hollow=True, pointer_events="all", cx=0.0, cy=0.0,
            r=self.hit,
        )  # fmt: skip

    def _taken(self, person: Standing) -> None:
        home = self.home_of[person.name]
        place = next(one.at for one in self.drill.people if one.name == person.name)
        label = f"{person.name}, at {place}" + (", with a puck" if person.has_puck else "")
        with self._group(person.name, home, "tl-person", label):
            self._disc()
            facing = None
            if person.role is Role.GOALTENDER:
                to = self.picture.at(*(person.facing or (8.0, 0.0)))
                facing = math.atan2(to[1] - home[1], to[0] - home[0])
            self.pen.person(person.role, person.name, (0.0, 0.0), facing=facing)
            if person.has_puck:
                away = self.pen.px(PERSON_PX + 5.0)
                turn = math.atan2(-home[1], -home[0])
                self.pen.puck((away * math.cos(turn), away * math.sin(turn)))

    def _things(self) -> None:
        for lying, thing in zip(self.scene.things, self.drill.things, strict=True):
            at = self.picture.at(*lying.at)
            facing = -math.pi / 2.0
            if lying.facing is not None:
                to = self.picture.at(*lying.facing)
                facing = math.atan2(to[1] - at[1], to[0] - at[0])
            label = f"{thing.label}, at {thing.at}"
            with self._group(thing.label, at, "tl-thing", label):
                self._disc()
                self.pen.thing(lying.kind, (0.0, 0.0), count=lying.count, facing=facing,
                               name=lying.name)  # fmt: skip

    # Points of paths ------------------------------------------------------------------------------

    def handles(self) -> list[Handle]:
        """Return the points that can be dragged now: of the chosen line, or of a chosen person."""
        found: list[Handle] = []
        seen: set[int] = set()
        for stroke in self.scene.strokes:
            if not isinstance(stroke, RowStroke) or stroke.row in seen:
                continue
            whole = self.chosen == f"row {stroke.row}"
            passed = stroke.kind in (StrokeKind.PASS, StrokeKind.TOSS)
            if whole or (self.chosen == stroke.who and not passed):
                seen.add(stroke.row)
                found += self._points_of(stroke, whole=whole)
        return found

    def _points_of(self, stroke: RowStroke, *, whole: bool) -> list[Handle]:
        if stroke.kind is StrokeKind.SHOT:
            return []
        points = [self.picture.at(*one) for one in stroke.points]
        last = len(points) - 2
        whom = stroke.kind in (StrokeKind.PASS, StrokeKind.TOSS)
        found = [Handle(stroke.row, last, "end", points[-1], whom)]
        if not whole or stroke.kind in (StrokeKind.MOVE, StrokeKind.TOSS):
            return found
        found += [Handle(stroke.row, k, "point", one) for k, one in enumerate(points[1:-1])]
        return found + self._between(stroke.row, points)

    def _between(self, row: int, points: list[Point]) -> list[Handle]:
        found = []
        for index in range(len(points) - 1):
            leg = [points[index], points[index + 1]]
            if length_of(leg) > self.picture.px(4.0 * HIT_PX):
                middle, _ = at_length(leg, length_of(leg) / 2.0)
                found.append(Handle(row, index, "between", middle))
        return found

    def _handle(self, handle: Handle) -> None:
        words = {"end": "end of the line", "point": "point on the way", "between": "new point"}
        with self.picture.group(
            classes=f"tl-handle tl-{handle.kind}", data_row=str(handle.row),
            data_index=str(handle.index), data_kind=handle.kind, tabindex="0", role="button",
            data_whom="yes" if handle.whom else None,
            aria_label=words[handle.kind],
            transform=f"translate({handle.at[0]:.3f} {handle.at[1]:.3f})",
        ):  # fmt: skip
            self._hit()
            small = handle.kind == "between"
            self.picture.circle(
                (0.0, 0.0), self.pen.px(SMALL_PX if small else HANDLE_PX),
                fill=Paint.ICE if small else Paint.ADVICE, stroke=Paint.ADVICE,
                width=self.pen.px(1.8),
            )  # fmt: skip


def spot_places(drill: Drill, rink: Rink) -> tuple[tuple[str, float, float], ...]:
    """Return every named spot, and every thing of the drill, with its place [m]: for snapping."""
    spots = [(name, *xy_of(Place(name), drill, rink)) for name in spot_names()]
    return (*spots, *((one.label, *xy_of(one.at, drill, rink)) for one in drill.things))


__all__ = [
    "MOVE_WORDS", "Board", "Handle", "RowStroke", "board_window", "drill_board_svg", "spot_places",
]  # fmt: skip
