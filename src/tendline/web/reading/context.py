"""What the page shows: the answer in words, the pictures, the table, the assumptions."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Settings
from tendline.play import Attacker, Defender
from tendline.web.reading.forms import Person, ReadForm
from tendline.work.reading import Question


@dataclass(frozen=True, slots=True)
class OptionRow:
    """One row of the options table."""

    he_may: str
    she_answers: str
    in_time: str
    in_good_time: bool
    comes_off: str
    goals: str
    span: str
    key: str


@dataclass(frozen=True, slots=True)
class Assumption:
    """One setting that the answer rests on, and how far it moves the answer."""

    key: str
    label: str
    moves: str


@dataclass(frozen=True, slots=True)
class Said:
    """A piece of a sentence and the figure that its numbers stand for."""

    text: str
    figure: str


@dataclass(frozen=True, slots=True)
class ReadPage:
    """Everything that the page and its data twin hold."""

    state: str
    other_view: str
    kind_of_play: str
    tall: str
    headline: str
    headline_figure: str
    sentences: tuple[Said, ...]
    ice: str
    puck_eye: str
    puck_sees: str
    her_eye: str
    she_sees: str
    curve: str
    time_line: str
    band: str
    shown: str
    signs: str
    options: tuple[OptionRow, ...]
    reasons: tuple[tuple[str, str], ...]
    assumptions: tuple[Assumption, ...]
    form: ReadForm
    x_low: float
    x_high: float
    y_low: float
    y_high: float


def question_of(form: ReadForm) -> Question:
    """Return what to ask the engine."""
    return Question(
        attackers=tuple(_attacker(one) for one in form.attackers),
        defenders=tuple(Defender(name=p.name, x=p.x, y=p.y) for p in form.defenders),
        level=form.level,
        stature=form.stature,
        catching_hand=form.catching_hand,
        rule_set=form.rule_set,
        settings=Settings.of(dict(form.changed)),
    )


def _attacker(one: Person) -> Attacker:
    return Attacker(name=one.name, x=one.x, y=one.y, hand=one.hand)


@dataclass(frozen=True, slots=True)
class MapPage:
    """The zone, a figure for every place of the puck."""

    state: str
    unit: str
    depth: str
    threat: str
