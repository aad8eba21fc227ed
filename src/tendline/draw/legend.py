"""The legend printed under every diagram: only the signs that it uses, each with its word."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tendline.draw.drill_scene import MOVE_WORDS, Scene, StrokeKind
from tendline.draw.fontfiles import text_width
from tendline.draw.notation import Pen
from tendline.draw.svg import Picture, Point
from tendline.drill.vocabulary import Role, ThingKind

TEXT_PX = 13.5
ROW_PX = 25.0
GAP_PX = 20.0
SAMPLE_PX = 44.0
SIGN_PX = 26.0

ROLE_WORDS = {
    Role.FORWARD: ("F", "attacker"),
    Role.DEFENDER: ("D", "defender"),
    Role.COACH: ("C", "coach"),
    Role.HELPER: ("H", "helper"),
    Role.GOALTENDER: ("G", "goaltender"),
}
THING_WORDS = {
    ThingKind.CONE: "cone",
    ThingKind.PUCKS: "pucks",
    ThingKind.NET: "net",
    ThingKind.TARGET: "target",
    ThingKind.LINE: "line",
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry: a drawing in a box ``width`` CSS pixels wide, and its words."""

    words: str
    width: float
    draw: Callable[[Pen, Point], None]


def _line_entry(kind: StrokeKind, *, stops: bool = False, words: str = "") -> Entry:
    def draw(pen: Pen, at: Point) -> None:
        reach = pen.px(SAMPLE_PX - (14.0 if stops else 4.0))
        pen.stroke(kind, [at, (at[0] + reach, at[1])], stops=stops)

    return Entry(words or kind.value, SAMPLE_PX, draw)


def _role_entry(role: Role) -> Entry:
    letter, words = ROLE_WORDS[role]

    def draw(pen: Pen, at: Point) -> None:
        pen.person(role, letter, (at[0] + pen.px(SIGN_PX / 2.0), at[1]))

    return Entry(words, SIGN_PX, draw)


def _thing_entry(kind: ThingKind) -> Entry:
    def draw(pen: Pen, at: Point) -> None:
        pen.thing(kind, (at[0] + pen.px(SIGN_PX / 2.0), at[1]), count=4)

    return Entry(THING_WORDS[kind], SIGN_PX, draw)


def _letter_entry(letter: str) -> Entry:
    width = text_width(letter, size=TEXT_PX, bold=True) + 4.0

    def draw(pen: Pen, at: Point) -> None:
        pen.words(at, letter, size=TEXT_PX, anchor="start")

    return Entry(MOVE_WORDS.get(letter, letter), width, draw)


def _screen(pen: Pen, at: Point) -> None:
    middle = (at[0] + pen.px(SIGN_PX / 2.0 + 16.0), at[1])
    pen.screen(middle, (middle[0] + pen.px(40.0), at[1]))


def _tip(pen: Pen, at: Point) -> None:
    pen.tip((at[0] + pen.px(SIGN_PX / 2.0), at[1]))


def _choice(pen: Pen, at: Point) -> None:
    pen.choice((at[0] + pen.px(SIGN_PX / 2.0), at[1]))


def _number(pen: Pen, at: Point) -> None:
    pen.words((at[0] + pen.px(4.0), at[1]), "1 2", size=TEXT_PX, anchor="start")


def _tag(pen: Pen, at: Point) -> None:
    pen.tag((at[0] + pen.px(SIGN_PX / 2.0), at[1]), "a")


def entries(scene: Scene) -> list[Entry]:
    """Return the legend of a scene: people, things, lines, marks, letters, numbers."""
    found = [_role_entry(role) for role in Role if any(p.role is role for p in scene.people)]
    if any(p.has_puck for p in scene.people) and not any(
        t.kind is ThingKind.PUCKS for t in scene.things
    ):
        found.append(Entry("puck", SIGN_PX, lambda pen, at: pen.puck(
            (at[0] + pen.px(SIGN_PX / 2.0), at[1]))))  # fmt: skip
    found += [_thing_entry(kind) for kind in ThingKind if any(t.kind is kind for t in scene.things)]
    kinds = {one.kind for one in scene.strokes}
    found += [_line_entry(kind) for kind in StrokeKind if kind in kinds]
    if any(one.stops for one in scene.strokes):
        found.append(_line_entry(StrokeKind.SKATE, stops=True, words="stop"))
    marks = {one.kind for one in scene.marks}
    for name, draw in (("screens", _screen), ("tips", _tip), ("choice", _choice)):
        if name in marks:
            words = {"screens": "screen", "tips": "tip", "choice": "he reads and chooses"}[name]
            found.append(Entry(words, SIGN_PX, draw))
    letters = {one.letter for one in scene.strokes if one.letter}
    letters |= {one.letter for one in scene.marks if one.letter}
    found += [_letter_entry(letter) for letter in MOVE_WORDS if letter in letters]
    if scene.branches:
        found.append(Entry("branch", SIGN_PX, _tag))
    if any(one.number > 1 for one in scene.strokes):
        found.append(Entry("order", SIGN_PX, _number))
    return found


def rows_of(found: list[Entry], width: float) -> list[list[Entry]]:
    """Return the entries broken into rows no wider than ``width`` CSS pixels."""
    rows: list[list[Entry]] = []
    used = 0.0
    for one in found:
        wide = one.width + 7.0 + text_width(one.words, size=TEXT_PX) + GAP_PX
        if not rows or used + wide - GAP_PX > width:
            rows.append([])
            used = 0.0
        rows[-1].append(one)
        used += wide
    return rows


def draw_legend(picture: Picture, scale: float, rows: list[list[Entry]], at: Point) -> None:
    """Draw legend rows with their top left corner ``at``."""
    pen = Pen(picture, scale)
    with picture.group(classes="tl-legend"):
        for index, row in enumerate(rows):
            x = at[0]
            y = at[1] + pen.px(ROW_PX * (index + 0.5))
            for one in row:
                one.draw(pen, (x, y))
                x += pen.px(one.width + 7.0)
                pen.words((x, y), one.words, size=TEXT_PX, bold=False, anchor="start")
                x += pen.px(text_width(one.words, size=TEXT_PX) + GAP_PX)
