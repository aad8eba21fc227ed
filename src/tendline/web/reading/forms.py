"""The state of the page, held by the address bar: who stands where, and what is assumed.

``F1`` carries the puck; ``F2`` to ``F5`` are his mates; ``D1`` to ``D5`` defend. Each is
``x,y`` in metres (origin at the centre of the goal line, +x out, +y to the goaltender's left),
for attackers with the hand they shoot with: ``F1=6.1,-6.7,left``. ``set.KEY=value`` changes a
setting for this question only.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeVar

from tendline.base import InputError, LengthUnit, Level, Side, unknown_name
from tendline.ice import RuleSet

NEAR_X = 16.0
NEAR_Y = 9.5
"""The near view reaches this far out and to each side [m]; a picture's frame, not a figure."""
CLOSE_X = 7.6
CLOSE_Y = 4.85
"""The close view, of the same shape, for a play at the net [m]."""
NAMES = re.compile(r"[FD][1-5]")
SETTING = "set."
DEFAULT_STATURE = 1.70
DEFAULT_LEVEL = Level.U18


class View(StrEnum):
    """How much ice the picture shows."""

    NEAR = "near"
    ZONE = "zone"


@dataclass(frozen=True, slots=True)
class Person:
    """One person on the ice, as the address says it."""

    name: str
    x: float
    y: float
    hand: Side = Side.LEFT

    @property
    def attacks(self) -> bool:
        """Return whether this is an attacker."""
        return self.name.startswith("F")

    @property
    def text(self) -> str:
        """Return the value for the address bar."""
        place = f"{self.x:.2f},{self.y:.2f}"
        return f"{place},{self.hand.value}" if self.attacks else place


@dataclass(frozen=True, slots=True)
class ReadForm:
    """Everything that the page asks the engine with."""

    people: tuple[Person, ...]
    level: Level = DEFAULT_LEVEL
    stature: float = DEFAULT_STATURE
    catching_hand: Side = Side.LEFT
    rule_set: RuleSet = RuleSet.NHL
    goaltender: str = ""
    asked_view: View | None = None
    unit: LengthUnit = LengthUnit.METRES
    changed: tuple[tuple[str, float], ...] = ()

    @property
    def view(self) -> View:
        """Return the view asked for; else the near one where everyone fits into it."""
        if self.asked_view is not None:
            return self.asked_view
        near = all(one.x <= NEAR_X - 2 and abs(one.y) <= NEAR_Y - 1 for one in self.people)
        return View.NEAR if near else View.ZONE

    @property
    def is_close(self) -> bool:
        """Return whether everyone is near enough to the net to be seen in the close view."""
        return self.view is View.NEAR and all(
            -1.0 <= one.x <= CLOSE_X - 1.4 and abs(one.y) <= CLOSE_Y - 1.2 for one in self.people
        )

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Return the form as name and value pairs for an address."""
        people = tuple((one.name, one.text) for one in self.people)
        settings = tuple((f"{SETTING}{key}", f"{value:g}") for key, value in self.changed)
        who = (("goaltender", self.goaltender),) if self.goaltender else ()
        return (
            *people,
            ("level", self.level.value),
            ("stature", f"{self.stature:.2f}"),
            ("hand", self.catching_hand.value),
            ("rink", self.rule_set.value),
            ("view", self.view.value),
            ("unit", self.unit.value),
            *who,
            *settings,
        )

    @property
    def attackers(self) -> tuple[Person, ...]:
        """Return the attackers, the carrier first."""
        return tuple(sorted((p for p in self.people if p.attacks), key=lambda p: p.name))

    @property
    def defenders(self) -> tuple[Person, ...]:
        """Return the defenders."""
        return tuple(p for p in self.people if not p.attacks)

    def mirrored(self) -> ReadForm:
        """Return the same play on the other side; hands stay as they are."""
        return replace(self, people=tuple(replace(p, y=-p.y) for p in self.people))

    def turned(self) -> ReadForm:
        """Return the same play in the other view."""
        other = View.ZONE if self.view is View.NEAR else View.NEAR
        return replace(self, asked_view=other)

    def without(self, names: Iterable[str]) -> ReadForm:
        """Return the same play with some people gone."""
        gone = set(names)
        return replace(self, people=tuple(p for p in self.people if p.name not in gone))

    def with_person(self, person: Person) -> ReadForm:
        """Return the same play with one more person, or with that person moved."""
        rest = [p for p in self.people if p.name != person.name]
        return replace(self, people=tuple(sorted([*rest, person], key=lambda p: p.name)))


DEFAULT_FORM = ReadForm(
    people=(
        Person("D1", 4.4, 0.0),
        Person("F1", 5.0, -4.0, Side.LEFT),
        Person("F2", 5.2, 3.4, Side.RIGHT),
    )
)


def read_form(query: Iterable[tuple[str, str]], unit: LengthUnit = LengthUnit.METRES) -> ReadForm:
    """Return the form that an address asks for; anything left out keeps its default.

    ``unit`` is the club's, in force unless the address names one.

    Raises :class:`InputError` naming the part of the address that cannot be read.
    """
    form = replace(DEFAULT_FORM, unit=unit)
    people: list[Person] = []
    changed: dict[str, float] = {}
    for name, value in query:
        if NAMES.fullmatch(name):
            people.append(_person(name, value))
        elif name == "level":
            form = replace(form, level=_one_of(Level, "level", value))
        elif name == "hand":
            form = replace(form, catching_hand=_one_of(Side, "catching hand", value))
        elif name == "rink":
            form = replace(form, rule_set=_one_of(RuleSet, "rink", value))
        elif name == "view":
            form = replace(form, asked_view=_one_of(View, "view", value))
        elif name == "unit":
            form = replace(form, unit=_one_of(LengthUnit, "unit", value))
        elif name == "stature":
            form = replace(form, stature=_number(name, value))
        elif name == "goaltender":
            form = replace(form, goaltender=value)
        elif name.startswith(SETTING):
            changed[name.removeprefix(SETTING)] = _number(name, value)
    if people:
        form = replace(form, people=tuple(sorted(people, key=lambda p: p.name)))
    if not any(p.name == "F1" for p in form.people):
        raise InputError(
            "somebody must have the puck", allowed="F1=x,y,hand", hint="Add F1, the carrier."
        )
    return replace(form, changed=tuple(sorted(changed.items())))


def _person(name: str, value: str) -> Person:
    parts = value.split(",")
    if len(parts) not in (2, 3):
        raise InputError(
            "a place is x,y in metres", came=f"'{value}'", allowed=f"{name}=6.1,-6.7", item=name
        )
    hand = _one_of(Side, "hand", parts[2]) if len(parts) == 3 else Side.LEFT
    return Person(name, _number(name, parts[0]), _number(name, parts[1]), hand)


def _number(name: str, value: str) -> float:
    try:
        return float(value)
    except ValueError:
        raise InputError("a number is needed", came=f"'{value}'", item=name) from None


T = TypeVar("T", Level, Side, RuleSet, View, LengthUnit)


def _one_of(kind: type[T], label: str, value: str) -> T:
    for one in kind:
        if value in (one.value, one.name):
            return one
    raise unknown_name(label, value, [one.value for one in kind])
