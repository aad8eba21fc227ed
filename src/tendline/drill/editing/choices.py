"""Edits of choices and their branches."""

from __future__ import annotations

import re
from dataclasses import replace

from tendline.base import InputError
from tendline.drill import limits
from tendline.drill.editing.lines import _where, said_of
from tendline.drill.editing.request import Asked, Edited, names_in
from tendline.drill.editing.rows import Row, inserted, row_of, rows_of, with_row
from tendline.drill.phrases import TAG
from tendline.drill.types import Branch, Choice, Drill

FIRST_WAYS = ("one", "two")
"""What the two ways of a new choice are called until the coach names them."""
MOST_WEIGHT = 99


def add_choice(drill: Drill, asked: Asked) -> Edited:
    """Let ``who`` choose between two ways, still empty."""
    who = asked.text("who")
    if who not in names_in(drill).people:
        raise InputError("nobody of that name is on the ice", came=who)
    container, index = _where(drill, asked)
    if len(container) // 2 >= limits.MAX_DEPTH:
        raise InputError(
            "choices stand too deep inside each other", allowed=f"{limits.MAX_DEPTH} deep"
        )
    choice = Choice(who=who, branches=tuple(Branch(name=name) for name in FIRST_WAYS))
    made = inserted(drill, container, index, choice)
    path = (*container, index)
    number = next(one.number for one in rows_of(made.play) if one.path == path)
    return Edited(made, f"{who} chooses between two ways.", f"row {number}")


def set_choice(drill: Drill, asked: Asked) -> Edited:
    """Change who chooses, what he reads, or whether she is told: ``field`` who, reading, told."""
    row, choice = _choice(drill, asked)
    value = asked.text("value", "").replace('"', "")
    match asked.text("field"):
        case "who":
            made = replace(choice, who=value)
        case "reading":
            made = replace(choice, reading=value)
        case "told":
            made = replace(choice, told=asked.flag("value"))
        case other:
            raise InputError("this is not known of a choice", came=other)
    return Edited(with_row(drill, row, made), f"Changed: {said_of(row)}.", f"row {row.number}")


def set_branch(drill: Drill, asked: Asked) -> Edited:
    """Change a way's ``name``, what calls for it (``when``), or how often it comes (``weight``)."""
    row, branch = _branch(drill, asked)
    value = asked.text("value", "").replace('"', "")
    match asked.text("field"):
        case "name":
            made = replace(branch, name=as_name(value))
        case "when":
            made = replace(branch, when=value)
        case "weight":
            weight = asked.whole("value")
            if not 1 <= weight <= MOST_WEIGHT:
                raise InputError("a weight is a whole number", came=value,
                                 allowed=f"1 to {MOST_WEIGHT}")  # fmt: skip
            made = replace(branch, weight=weight)
        case other:
            raise InputError("this is not known of a way", came=other)
    return Edited(with_row(drill, row, made), f"Changed: {said_of(row)}.", f"row {row.number}")


def add_branch(drill: Drill, asked: Asked) -> Edited:
    """Give a choice one more way, still empty."""
    row, choice = _choice(drill, asked)
    if len(choice.branches) >= limits.MAX_BRANCHES:
        raise InputError("a choice has ways enough", allowed=f"at most {limits.MAX_BRANCHES}")
    taken = {one.name for one in choice.branches}
    words = ("three", "four", "five", "six", "seven", "eight", *FIRST_WAYS)
    name = next(one for one in words if one not in taken)
    made = replace(choice, branches=(*choice.branches, Branch(name=name)))
    changed = with_row(drill, row, made)
    path = (*row.path, len(choice.branches))
    number = next(one.number for one in rows_of(changed.play) if one.path == path)
    return Edited(changed, f"One more way: {name}.", f"row {number}")


def as_name(words: str) -> str:
    """Return a name for a branch from what somebody wrote: small letters, hyphens for spaces."""
    name = re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")[:30].strip("-")
    if not TAG.fullmatch(name):
        raise InputError(
            "a way has a name, one word in small letters", came=f"'{words}'", allowed="across"
        )
    return name


def _choice(drill: Drill, asked: Asked) -> tuple[Row, Choice]:
    row = row_of(drill, asked.whole("row"))
    if not isinstance(row.holds, Choice):
        raise InputError("this line is no choice", came=said_of(row))
    return row, row.holds


def _branch(drill: Drill, asked: Asked) -> tuple[Row, Branch]:
    row = row_of(drill, asked.whole("row"))
    if not isinstance(row.holds, Branch):
        raise InputError("this line is no way of a choice", came=said_of(row))
    return row, row.holds
