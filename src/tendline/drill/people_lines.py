"""Lines under ``people``: who and what stands where at the start."""

from __future__ import annotations

import re
from dataclasses import replace

from tendline.base import Side
from tendline.drill.phrases import (
    NAME,
    Names,
    Wrong,
    read_place,
    read_whole,
    read_word,
    split_outside,
)
from tendline.drill.types import NO_NOTE, Note, Person, Place, Thing
from tendline.drill.vocabulary import ThingKind

_FORM = "F1 at left dot, shoots left, with a puck"
_THING_FORM = "cone A at (12, 0); pucks 10 at high slot; net 2 at (19, -9) facing (10, -9)"


def read_person_line(text: str, names: Names, note: Note = NO_NOTE) -> Person:
    """Return a person from a line such as ``F1 at left dot, shoots left, with a puck``."""
    parts = split_outside(text, ",")
    found = re.fullmatch(r"(\S+)\s+at\s+(.+)", parts[0])
    if not found:
        raise Wrong("a person stands somewhere", f"'{text}'", _FORM)
    if not NAME.fullmatch(found[1]):
        raise Wrong(
            "a person's name is a letter and a number",
            f"'{found[1]}'",
            "F forwards, D defenders, C coach, H helper, G goaltender, as in F1, D2, C, G",
        )
    place = read_place(found[2], names)
    made = Person(name=found[1], at=place, note=note)
    for part in parts[1:]:
        plain = " ".join(part.lower().split())
        if plain in ("with a puck", "with the puck"):
            made = replace(made, has_puck=True)
        elif plain.startswith("shoots "):
            made = replace(made, shoots=read_word(Side, plain[7:], "the side he shoots"))
        elif plain.startswith("facing "):
            made = replace(made, facing=read_place(part[7:], names))
        elif re.fullmatch(r'"[^"]+"', part):
            made = replace(made, words=part[1:-1].strip())
        else:
            raise Wrong(
                "this is not known of a person",
                f"'{part}'",
                'shoots left, shoots right, with a puck, facing PLACE, "words in quotes"',
            )
    return made


def show_person(person: Person) -> str:
    """Return a person as the script writes it."""
    text = f"{person.name} at {person.at}"
    if person.shoots is not None:
        text += f", shoots {person.shoots.value}"
    if person.has_puck:
        text += ", with a puck"
    if person.facing is not None:
        text += f", facing {person.facing}"
    return f'{text}, "{person.words}"' if person.words else text


def read_thing_line(text: str, names: Names, note: Note = NO_NOTE) -> Thing:
    """Return a thing from a line such as ``cone A at (12, 0)`` or ``pucks 10 at high slot``."""
    found = re.fullmatch(r"(\S+)(?:\s+(\S+))?\s+at\s+(.+?)(?:\s+facing\s+(.+))?", text)
    if not found:
        raise Wrong("a thing lies somewhere", f"'{text}'", _THING_FORM)
    kind = read_word(ThingKind, found[1], "the thing")
    place: Place = read_place(found[3], names)
    facing = read_place(found[4], names) if found[4] else None
    word = found[2] or ""
    if kind in (ThingKind.PUCKS, ThingKind.LINE) and word.isdigit():
        count = read_whole(word, "how many", low=1, high=200)
        return Thing(kind=kind, at=place, count=count, facing=facing, note=note)
    if word and not re.fullmatch(r"[A-Za-z0-9]{1,12}", word):
        raise Wrong("a thing's name is one short word", f"'{word}'", _THING_FORM)
    return Thing(kind=kind, at=place, name=word, facing=facing, note=note)


def show_thing(thing: Thing) -> str:
    """Return a thing as the script writes it."""
    words = [thing.kind.value]
    if thing.name:
        words.append(thing.name)
    elif thing.count != 1:
        words.append(str(thing.count))
    words.append(f"at {thing.at}")
    if thing.facing is not None:
        words.append(f"facing {thing.facing}")
    return " ".join(words)
