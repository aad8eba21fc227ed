"""What a drill's diagram shows, as plain values: who stands where, which lines, in which order.

The diagram follows the script, not the clock: each line starts where its person was last, passes
go to where the receiver then is, lines that start together share a number, and every branch of a
choice carries its letter.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from tendline.base import NotFoundError
from tendline.draw.svg import Point
from tendline.drill.places import xy_of
from tendline.drill.types import Action, Choice, Drill, Item, Place
from tendline.drill.vocabulary import GOALTENDER_ONLY, Role, ThingKind, TriggerKind, Verb
from tendline.ice import Rink


class StrokeKind(StrEnum):
    """A line or mark of the notation."""

    SKATE = "skating"
    BACKWARD = "skating backward"
    CARRY = "skating with the puck"
    CARRY_BACKWARD = "backward with the puck"
    PASS = "pass"
    TOSS = "toss"
    SHOT = "shot"
    MOVE = "goaltender's move"


MOVE_LETTERS = {
    Verb.SHUFFLE: "S",
    Verb.PUSH: "T",
    Verb.C_CUT: "C",
    Verb.SLIDE: "SL",
    Verb.BUTTERFLY_PUSH: "BP",
    Verb.DROP: "BF",
    Verb.RECOVER: "R",
    Verb.RE_AIM: "OR",
    Verb.SEAL: "PI",
    Verb.SET: "set",
    Verb.POKE: "P",
    Verb.COVER: "cover",
}
MOVE_WORDS = {
    "S": "shuffle",
    "T": "T-push",
    "C": "C-cut",
    "SL": "butterfly slide",
    "BP": "butterfly push",
    "BF": "butterfly",
    "R": "recover to feet",
    "OR": "turn on the knees",
    "PI": "on the post",
    "set": "set: stopped, square",
    "P": "poke",
    "cover": "cover the puck",
}
_IN_PLACE = frozenset({Verb.DROP, Verb.RECOVER, Verb.RE_AIM, Verb.SET, Verb.POKE, Verb.COVER})
_SILENT = frozenset({Verb.WAIT, Verb.CALL, Verb.LOOK})


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One line of the diagram through ``points`` (rink frame, m); ``branch`` its letter or ''."""

    kind: StrokeKind
    who: str
    points: tuple[Point, ...]
    number: int
    branch: str = ""
    letter: str = ""
    stops: bool = False
    first: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A mark at a place: a goaltender's letter, a screen, a tip, or a point of choice."""

    kind: str
    who: str
    at: Point
    number: int
    branch: str = ""
    letter: str = ""
    toward: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A person at the start."""

    name: str
    role: Role
    at: Point
    has_puck: bool
    facing: Point | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """A thing on the ice; ``count`` of pucks; ``facing`` for nets."""

    kind: ThingKind
    at: Point
    name: str
    count: int
    facing: Point | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchLine:
    """One branch in words: its letter and what calls for it."""

    letter: str
    words: str


@dataclass(slots=True)
class Scene:
    """Everything the diagram shows."""

    people: list[Standing] = field(default_factory=list)
    things: list[Lying] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    branches: list[BranchLine] = field(default_factory=list)

    def places(self) -> list[Point]:
        """Return every place that must be visible."""
        found = [one.at for one in self.people] + [one.at for one in self.things]
        found += [point for one in self.strokes for point in one.points]
        return found + [one.at for one in self.marks]


GOAL: Point = (0.0, 0.0)


class _Builder:
    def __init__(self, drill: Drill, rink: Rink) -> None:
        self.drill = drill
        self.rink = rink
        self.scene = Scene()
        self.number = 0

    def place(self, place: Place) -> Point:
        return xy_of(place, self.drill, self.rink)

    def build(self) -> Scene:
        where: dict[str, Point] = {}
        for person in self.drill.people:
            at = self.place(person.at)
            where[person.name] = at
            facing = self.place(person.facing) if person.facing else None
            self.scene.people.append(
                Standing(name=person.name, role=person.role, at=at,
                         has_puck=person.has_puck, facing=facing)
            )  # fmt: skip
        for thing in self.drill.things:
            facing = self.place(thing.facing) if thing.facing else None
            self.scene.things.append(
                Lying(kind=thing.kind, at=self.place(thing.at), name=thing.name,
                      count=thing.count, facing=facing)
            )  # fmt: skip
        self.items(self.drill.play, where, "")
        return self.scene

    def items(self, items: Sequence[Item], where: dict[str, Point], branch: str) -> None:
        for item in items:
            if isinstance(item, Choice):
                self.choice(item, where, branch)
            else:
                self.action(item, where, branch)

    def choice(self, choice: Choice, where: dict[str, Point], branch: str) -> None:
        at = where.get(choice.who)
        if at is not None:
            self.scene.marks.append(
                Mark(kind="choice", who=choice.who, at=at, number=self.number, branch=branch)
            )
        start = self.number
        ends: list[int] = []
        for index, one in enumerate(choice.branches):
            letter = f"{branch}{chr(ord('a') + index % 26)}"
            words = one.name if not one.when else f"{one.name}: {one.when}"
            self.scene.branches.append(BranchLine(letter=letter, words=words))
            self.number = start
            self.items(one.items, dict(where), letter)
            ends.append(self.number)
        self.number = max(ends, default=start)

    def next_number(self, action: Action) -> int:
        together = action.trigger.kind is TriggerKind.MEANWHILE and self.number > 0
        if not together:
            self.number += 1
        return self.number

    def action(self, action: Action, where: dict[str, Point], branch: str) -> None:
        who = action.who
        start = where.get(who)
        if start is None or action.verb in _SILENT:
            return
        if action.verb is Verb.STOP:
            self.stop(who, branch)
            return
        number = self.next_number(action)
        if action.verb in (Verb.SCREEN, Verb.TIP):
            self.block(action, start, where, number, branch)
        elif action.verb in GOALTENDER_ONLY:
            self.move(action, start, where, number, branch)
        else:
            self.stroke(action, start, where, number, branch)

    def stop(self, who: str, branch: str) -> None:
        for index in range(len(self.scene.strokes) - 1, -1, -1):
            one = self.scene.strokes[index]
            if one.who == who and one.branch in ("", branch):
                self.scene.strokes[index] = Stroke(
                    kind=one.kind, who=one.who, points=one.points, number=one.number,
                    branch=one.branch, letter=one.letter, stops=True, first=one.first,
                )  # fmt: skip
                return

    def block(
        self, action: Action, start: Point, where: dict[str, Point], number: int, branch: str
    ) -> None:
        at = start
        if action.to is not None:
            at = self.place(action.to)
            self.add(StrokeKind.SKATE, action, (start, at), number, branch)
            where[action.who] = at
        self.scene.marks.append(
            Mark(kind=action.verb.value, who=action.who, at=at, number=number, branch=branch,
                 toward=GOAL)
        )  # fmt: skip

    def move(
        self, action: Action, start: Point, where: dict[str, Point], number: int, branch: str
    ) -> None:
        letter = MOVE_LETTERS.get(action.verb, "")
        at = start
        if action.to is not None and action.verb not in _IN_PLACE:
            at = self.place(action.to)
            where[action.who] = at
        if math.dist(at, start) > 0.05:
            self.add(StrokeKind.MOVE, action, (start, at), number, branch, letter=letter)
        elif letter:
            self.scene.marks.append(
                Mark(kind="letter", who=action.who, at=at, number=number, branch=branch,
                     letter=letter)
            )  # fmt: skip

    def stroke(
        self, action: Action, start: Point, where: dict[str, Point], number: int, branch: str
    ) -> None:
        verb = action.verb
        via = tuple(self.place(one) for one in action.via)
        if verb is Verb.SHOOT:
            aim = self.place(action.to) if action.to else GOAL
            self.add(StrokeKind.SHOT, action, (start, aim), number, branch)
            return
        target = self.end_of(action, where)
        if target is None:
            return
        if verb in (Verb.PASS, Verb.TOSS):
            kind = StrokeKind.PASS if verb is Verb.PASS else StrokeKind.TOSS
            self.add(kind, action, (start, *via, target), number, branch)
            return
        if verb is Verb.CARRY:
            kind = StrokeKind.CARRY_BACKWARD if action.backward else StrokeKind.CARRY
        else:
            kind = StrokeKind.BACKWARD if action.backward else StrokeKind.SKATE
        self.add(kind, action, (start, *via, target), number, branch)
        where[action.who] = target

    def end_of(self, action: Action, where: dict[str, Point]) -> Point | None:
        if action.to is not None:
            return self.place(action.to)
        if action.partner:
            if action.partner in where:
                return where[action.partner]
            try:
                return self.place(Place(action.partner))
            except NotFoundError:
                return None
        return None

    def add(
        self, kind: StrokeKind, action: Action, points: tuple[Point, ...], number: int,
        branch: str, letter: str = "",
    ) -> None:  # fmt: skip
        first = not any(one.who == action.who for one in self.scene.strokes)
        self.scene.strokes.append(
            Stroke(kind=kind, who=action.who, points=points, number=number, branch=branch,
                   letter=letter, first=first)
        )  # fmt: skip


def scene_of(drill: Drill, rink: Rink) -> Scene:
    """Return what the diagram of ``drill`` shows on ``rink``."""
    return _Builder(drill, rink).build()
