"""Drawing a drill's scene: lines, marks, signs and numbers, each where it can be read."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from tendline.draw.drill_labels import Room, Wish, along_a_line, round_a_sign
from tendline.draw.drill_scene import GOAL, Scene, Standing, Stroke, StrokeKind
from tendline.draw.drill_tidy import gathered_marks, shared_strokes, signs_apart
from tendline.draw.fontfiles import text_width
from tendline.draw.ice_picture import IcePicture
from tendline.draw.labels import Box, Placer
from tendline.draw.notation import LABEL_PX, NAME_PX, PERSON_PX, WORD_HALF, Pen
from tendline.draw.strokes import at_length, length_of
from tendline.draw.svg import Point
from tendline.drill.vocabulary import Role, ThingKind

_AROUND = ((1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (0.75, -0.75), (-0.75, -0.75))

SHOT_STOPS_OUT = 2.3
"""A shot's arrow ends this far from the goal's centre [m], so that the crease stays readable."""


GAPS = (5.5, 9.5, 14.0, 20.0, 27.0)
"""How far from its line a label may stand [CSS px]."""
LINE_WIDE = 10.0
"""How wide a line with its waves or loops is taken to be [CSS px]."""


@dataclass(frozen=True, slots=True)
class Label:
    """A label of the diagram: where it may stand and how it is drawn once it has a place."""

    wish: Wish
    draw: Callable[[Point], None]


class Diagram:
    """Draws one scene on one ice picture."""

    def __init__(self, picture: IcePicture, scene: Scene, scale: float) -> None:
        self.picture = picture
        self.scene = scene
        self.pen = Pen(picture, scale)
        view = picture.view
        bounds = Box(view[0], view[1], view[0] + view[2], view[1] + picture.window.along)
        self.room = Room(bounds)
        self.placer = Placer(bounds)
        apart = signs_apart(
            [(picture.at(*one.at), one.role is Role.GOALTENDER) for one in scene.people],
            least=self.pen.px(2.0 * PERSON_PX + 5.0),
        )
        self.sign_of = {one.name: at for one, at in zip(scene.people, apart, strict=True)}
        self.things: list[Point] = []
        self.home_of = {one.name: picture.at(*one.at) for one in scene.people}

    def draw(self) -> None:
        self._take_signs()
        for thing in self.scene.things:
            at = self._aside(self.picture.at(*thing.at))
            facing = -math.pi / 2.0
            if thing.kind is ThingKind.NET and thing.facing is not None:
                to = self.picture.at(*thing.facing)
                facing = math.atan2(to[1] - at[1], to[0] - at[0])
            self.pen.thing(thing.kind, at, count=thing.count, facing=facing)
            self._take_thing(thing.kind, at)
            self.things.append(at)
        drawn: list[tuple[Stroke, list[Point]]] = []
        with self.picture.group(classes="tl-strokes"):
            for stroke in shared_strokes(self.scene.strokes):
                line = self._stroke(stroke)
                if line:
                    drawn.append((stroke, line))
                    self.room.take_line(line, thickness=self.pen.px(LINE_WIDE))
        with self.picture.group(classes="tl-marks"):
            marks = self._marks()
        with self.picture.group(classes="tl-people"):
            for person in self.scene.people:
                self._person(person)
        with self.picture.group(classes="tl-order"):
            self._place([*self._names(), *marks, *self._numbers(drawn)])

    # What is taken --------------------------------------------------------------------------------

    def _take_signs(self) -> None:
        """Mark people, their pucks and the goals as taken."""
        for person in self.scene.people:
            at = self.sign_of[person.name]
            boxes = self.pen.person_boxes(person.role, at, facing=self._facing(person, at))
            self.placer.take(self._sign_box(person))
            if person.has_puck:
                boxes.append(Box.around(self._puck_of(at), self.pen.px(3.6), self.pen.px(3.6)))
            self.room.solid += boxes
        goal = self.picture.rink.goal
        edge = self.pen.px(2.0)
        self.room.solid.append(Box(-goal.half_width - edge, -edge, goal.half_width + edge,
                                   goal.depth + edge))  # fmt: skip

    def _take_thing(self, kind: ThingKind, at: Point) -> None:
        box = self.pen.thing_box(kind, at)
        self.placer.take(box)
        self.room.solid.append(box)

    def _aside(self, at: Point) -> Point:
        """Return a place beside the sign of a person who stands where a thing lies."""
        near = self.pen.px(PERSON_PX + 3.0)
        for sign in self.sign_of.values():
            if math.dist(sign, at) < near:
                away = self.pen.px(PERSON_PX + 12.0)
                ring = [(sign[0] + dx * away, sign[1] + dy * away) for dx, dy in _AROUND]
                return self.placer.best(ring, self.pen.px(9.0), self.pen.px(9.0))
        return at

    def _sign_box(self, person: Standing) -> Box:
        size = self.pen.px(PERSON_PX + 2.0)
        return Box.around(self.sign_of[person.name], size, size)

    # Signs and lines ------------------------------------------------------------------------------

    def _facing(self, person: Standing, at: Point) -> float | None:
        if person.role is not Role.GOALTENDER:
            return None
        to = self.picture.at(*(person.facing or (8.0, 0.0)))
        return math.atan2(to[1] - at[1], to[0] - at[0])

    def _puck_of(self, at: Point) -> Point:
        """Return where the puck of somebody whose sign is at a place is drawn."""
        away = self.pen.px(PERSON_PX + 5.0)
        goal = self.picture.at(*GOAL)
        turn = math.atan2(goal[1] - at[1], goal[0] - at[0])
        return at[0] + away * math.cos(turn), at[1] + away * math.sin(turn)

    def _person(self, person: Standing) -> None:
        at = self.sign_of[person.name]
        self.pen.person(person.role, person.name, at, facing=self._facing(person, at))
        if person.has_puck:
            self.pen.puck(self._puck_of(at))

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
        home = self.home_of.get(stroke.who)
        if home is not None and math.dist(points[0], home) < 1e-6:
            points[0] = self.sign_of[stroke.who]
        signs = self.sign_of.values()
        begins_at_sign = any(math.dist(points[0], one) < sign for one in signs)
        ends_at_sign = any(math.dist(points[-1], one) < sign for one in signs)
        ends_at_thing = any(math.dist(points[-1], one) < self.pen.px(9.0) for one in self.things)
        return self.pen.stroke(
            stroke.kind, points, stops=stroke.stops,
            start_gap=sign if begins_at_sign else self.pen.px(3.0),
            end_gap=sign + self.pen.px(2.0) if ends_at_sign
            else self.pen.px(10.0 if ends_at_thing else 2.0),
            classes=f"tl-branch-{stroke.branch}" if stroke.branch else "",
        )  # fmt: skip

    # Labels ---------------------------------------------------------------------------------------

    def _place(self, labels: Sequence[Label]) -> None:
        """Draw labels where none covers another or a sign, if that can be."""
        for one, at in zip(labels, self.room.settle([one.wish for one in labels]), strict=True):
            one.draw(at)

    def _marks(self) -> list[Label]:
        """Draw the marks that have their place; return the others as labels."""
        found = []
        for mark in gathered_marks(self.scene.marks):
            at = self.picture.at(*mark.at)
            home = self.home_of.get(mark.who)
            if home is not None and math.dist(at, home) < self.pen.px(PERSON_PX + 2.0):
                at = self.sign_of[mark.who]
            if mark.kind == "screens" and mark.toward is not None:
                bar = self.pen.screen(at, self.picture.at(*mark.toward))
                self.room.solid.append(Box.about(bar, self.pen.px(2.4)))
            elif mark.kind == "tips":
                star = (at[0], at[1] + self.pen.px(PERSON_PX + 9.0))
                self.pen.tip(star)
                self.room.solid.append(Box.around(star, self.pen.px(9.0), self.pen.px(9.0)))
            elif mark.kind == "choice":
                found.append(self._beside(at, (8.0, 8.0), self.pen.choice))
            else:
                half = text_width(mark.letter, size=LABEL_PX, bold=True) / 2.0 + 1.0
                found.append(
                    self._beside(at, (half, WORD_HALF), self._writer(mark.letter, "tl-move-letter"))
                )
        return found

    def _names(self) -> list[Label]:
        """Return the names of things as labels."""
        return [
            self._beside(
                at, (text_width(thing.name, size=NAME_PX, bold=True) / 2.0 + 1.0, WORD_HALF),
                self._writer(thing.name, "tl-thing-name", NAME_PX), reach=9.0,
            )
            for thing, at in zip(self.scene.things, self.things, strict=True) if thing.name
        ]  # fmt: skip

    def _writer(self, words: str, classes: str, size: float = LABEL_PX) -> Callable[[Point], None]:
        return lambda at: self.pen.words(at, words, size=size, halo=True, classes=classes)

    def _beside(
        self, at: Point, half: Point, draw: Callable[[Point], None], reach: float = PERSON_PX
    ) -> Label:
        """Return a label beside a sign; ``half`` its half sizes [CSS px]."""
        size = (self.pen.px(half[0]), self.pen.px(half[1]))
        spots = round_a_sign(
            at, least=self.pen.px(reach + 2.0), most=self.pen.px(reach + 22.0), half=size
        )
        return Label(Wish(tuple(spots), *size), draw)

    def _numbers(self, drawn: Sequence[tuple[Stroke, list[Point]]]) -> list[Label]:
        """Return the numbers of lines, and the plates of branches, as labels."""
        several = len({stroke.number for stroke, _ in drawn}) > 1
        found = []
        for stroke, line in drawn:
            number = str(stroke.number) if several else ""
            draw: Callable[[Point], None]
            if stroke.branch:
                words = f"{number}{stroke.branch} {stroke.letter}".strip()
                half = (Pen.tag_width(words) + 0.5, 8.5)
                draw = partial(self.pen.tag, letter=words)
            else:
                words = f"{number} {stroke.letter}".strip()
                half = (text_width(words, size=LABEL_PX, bold=True) / 2.0 + 1.0, WORD_HALF)
                draw = self._writer(words, "tl-number")
            if words:
                found.append(self._near_line(line, half, draw))
        return found

    def _near_line(self, line: list[Point], half: Point, draw: Callable[[Point], None]) -> Label:
        size = (self.pen.px(half[0]), self.pen.px(half[1]))
        spots = along_a_line(
            line, start=min(self.pen.px(20.0), 0.35 * length_of(line)), step=self.pen.px(9.0),
            gaps=[self.pen.px(one) for one in GAPS], half=size,
        )  # fmt: skip
        # a short line between signs: round its middle, if nothing beside it is free
        middle, _ = at_length(line, 0.5 * length_of(line))
        ring = round_a_sign(
            middle, least=self.pen.px(GAPS[0]), most=self.pen.px(2.0 * GAPS[-1]), half=size
        )
        spots += [(at, 1.0 + far) for at, far in ring]
        return Label(Wish(tuple(spots), *size), draw)
