"""Drawing a drill's scene: lines, marks, signs and numbers, each where it can be read."""

from __future__ import annotations

import math

from tendline.draw.drill_scene import GOAL, Mark, Scene, Standing, Stroke, StrokeKind
from tendline.draw.drill_tidy import gathered_marks, shared_strokes, signs_apart
from tendline.draw.fontfiles import text_width
from tendline.draw.ice_picture import IcePicture
from tendline.draw.labels import Box, Placer
from tendline.draw.notation import PERSON_PX, Pen
from tendline.draw.strokes import at_length, length_of
from tendline.draw.svg import Point
from tendline.drill.vocabulary import Role, ThingKind

_AROUND = ((1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (0.75, -0.75), (-0.75, -0.75))

SHOT_STOPS_OUT = 2.3
"""A shot's arrow ends this far from the goal's centre [m], so that the crease stays readable."""


class Diagram:
    """Draws one scene on one ice picture."""

    def __init__(self, picture: IcePicture, scene: Scene, scale: float) -> None:
        self.picture = picture
        self.scene = scene
        self.pen = Pen(picture, scale)
        view = picture.view
        self.placer = Placer(
            Box(view[0], view[1], view[0] + view[2], view[1] + picture.window.along)
        )
        apart = signs_apart(
            [(picture.at(*one.at), one.role is Role.GOALTENDER) for one in scene.people],
            least=self.pen.px(2.0 * PERSON_PX + 5.0),
        )
        self.sign_of = {one.name: at for one, at in zip(scene.people, apart, strict=True)}
        self.things: list[Point] = []
        self.home_of = {one.name: picture.at(*one.at) for one in scene.people}

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
            self.things.append(at)
        drawn: list[tuple[Stroke, list[Point]]] = []
        with self.picture.group(classes="tl-strokes"):
            for stroke in shared_strokes(self.scene.strokes):
                line = self._stroke(stroke)
                if line:
                    drawn.append((stroke, line))
                    self.placer.take_line(line, thickness=self.pen.px(7.0))
        with self.picture.group(classes="tl-marks"):
            for mark in gathered_marks(self.scene.marks):
                self._mark(mark)
        with self.picture.group(classes="tl-people"):
            for person in self.scene.people:
                self._person(person)
        with self.picture.group(classes="tl-order"):
            self._numbers(drawn)

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

    def _person(self, person: Standing) -> None:
        at = self.sign_of[person.name]
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

    def _mark(self, mark: Mark) -> None:
        at = self.picture.at(*mark.at)
        home = self.home_of.get(mark.who)
        if home is not None and math.dist(at, home) < self.pen.px(PERSON_PX + 2.0):
            at = self.sign_of[mark.who]
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
