"""What an edit asks for: plain values from a page, checked one by one, and what an edit gives."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from tendline.base import InputError
from tendline.drill.phrases import Names, Wrong, read_place
from tendline.drill.places import spot_names
from tendline.drill.types import Action, Choice, Drill, Item, Place

MOST_LETTERS = 600
"""Longest text that an edit may bring; the longest line that a script may have."""


@dataclass(frozen=True, slots=True)
class Edited:
    """A drill after an edit: what was done in words, and what is chosen now.

    ``chosen`` is a person's name, a thing's label or ``row N``; ``None`` leaves the choice alone.
    """

    drill: Drill
    said: str
    chosen: str | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """The values of one edit. Every getter raises ``InputError`` naming the field."""

    values: Mapping[str, object]

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text of one line."""
        value = self.values.get(key, default)
        if not isinstance(value, str):
            raise InputError("the edit lacks a text", item=key, came=repr(value)[:60])
        if len(value) > MOST_LETTERS:
            raise InputError(
                "the text is too long", item=key, came=f"{len(value)} letters",
                allowed=f"at most {MOST_LETTERS}",
            )  # fmt: skip
        return " ".join(value.split())

    def number(self, key: str) -> float:
        """Return a finite number."""
        value = self.values.get(key)
        if isinstance(value, bool) or not isinstance(value, int | float | str):
            raise InputError("the edit lacks a number", item=key, came=repr(value)[:60])
        try:
            found = float(value)
        except ValueError:
            found = math.nan
        if not math.isfinite(found):
            raise InputError("this must be a number", item=key, came=repr(value)[:60])
        return found

    def whole(self, key: str, default: int | None = None) -> int:
        """Return a whole number."""
        if default is not None and self.values.get(key) is None:
            return default
        found = self.number(key)
        if found != int(found):
            raise InputError("this must be a whole number", item=key, came=f"{found:g}")
        return int(found)

    def flag(self, key: str) -> bool:
        """Return yes or no; no when it is not said."""
        return self.values.get(key, False) in (True, "yes", "on", "true")

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts; empty when it is not said."""
        value = self.values.get(key, ())
        if not isinstance(value, list | tuple) or not all(isinstance(v, str) for v in value):
            raise InputError("this must be a list of texts", item=key, came=repr(value)[:60])
        return tuple(value)

    def place(self, key: str, drill: Drill) -> Place:
        """Return a place: a spot, a thing of the drill, or '(x, y)' in metres."""
        return place_in(self.text(key), drill)


def names_in(drill: Drill) -> Names:
    """Return everything that a line of this drill may refer to."""
    people = tuple(one.name for one in drill.people)
    people = people if "G" in people else (*people, "G")
    places = (*spot_names(), *(one.label for one in drill.things))
    return Names(people, places, tuple(tags_of(drill.play)))


def tags_of(items: tuple[Item, ...]) -> list[str]:
    """Return the names that lines of a play have been given with 'as'."""
    found: list[str] = []
    for item in items:
        if isinstance(item, Choice):
            for branch in item.branches:
                found += tags_of(branch.items)
        elif isinstance(item, Action) and item.tag:
            found.append(item.tag)
    return found


def place_in(text: str, drill: Drill) -> Place:
    """Return the place that a phrase names; raises ``InputError`` with the nearest name."""
    try:
        return read_place(text, names_in(drill))
    except Wrong as wrong:
        raise refused(wrong) from None


def refused(wrong: Wrong) -> InputError:
    """Return what was wrong with a phrase as an error of ours."""
    return InputError(wrong.asked, came=wrong.came, allowed=wrong.allowed, hint=wrong.hint)
