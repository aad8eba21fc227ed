"""Edits of who and what stands on the ice."""

from __future__ import annotations

import re
from dataclasses import replace

from tendline.base import InputError, Side
from tendline.drill.editing.references import renamed, without_person, without_thing
from tendline.drill.editing.request import Asked, Edited, refused
from tendline.drill.phrases import NAME, Wrong, read_whole, read_word
from tendline.drill.types import Drill, Person, Place, Span, Thing
from tendline.drill.vocabulary import Role, ThingKind

ROLE_WORDS = {
    Role.FORWARD: "a forward",
    Role.DEFENDER: "a defender",
    Role.COACH: "the coach",
    Role.HELPER: "a helper",
    Role.GOALTENDER: "the goaltender",
}
_NUMBERED = (Role.FORWARD, Role.DEFENDER)
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
PUCKS = 10
"""How many pucks lie where some are put."""
_MOST_PUCKS = 200


def add_person(drill: Drill, asked: Asked) -> Edited:
    """Put somebody on the ice; the next free name of his role."""
    role = _role(asked.text("role"))
    name = free_name(drill, role)
    person = Person(name=name, at=asked.place("at", drill))
    made = _counted(replace(drill, people=(*drill.people, person)))
    return Edited(made, f"{name} stands at {person.at}.", name)


def free_name(drill: Drill, role: Role) -> str:
    """Return the first name of a role that nobody has."""
    taken = {one.name for one in drill.people}
    first = 1 if role in _NUMBERED else 0
    for number in range(first, 100):
        name = role.value if number == 0 else f"{role.value}{number + (0 if first else 1)}"
        if name not in taken and NAME.fullmatch(name):
            return name
    raise InputError("everybody of this kind is on the ice", came=role.value)


def add_thing(drill: Drill, asked: Asked) -> Edited:
    """Put a cone, pucks, a net, a target or a line of people on the ice."""
    kind = _kind(asked.text("kind"))
    thing = _named(drill, kind, asked.place("at", drill))
    made = replace(drill, things=(*drill.things, thing))
    return Edited(made, f"{thing.label} at {thing.at}.", thing.label)


def _named(drill: Drill, kind: ThingKind, at: Place) -> Thing:
    labels = {one.label for one in drill.things}
    plain = Thing(kind=kind, at=at, count=PUCKS if kind is ThingKind.PUCKS else 1)
    if kind in (ThingKind.PUCKS, ThingKind.LINE) and plain.label not in labels:
        return plain
    names = [str(n) for n in range(2, 100)] if kind is ThingKind.NET else list(_LETTERS)
    for name in names:
        made = replace(plain, name=name, count=1)
        if made.label not in labels:
            return made
    raise InputError("there are too many of these on the ice", came=kind.value)


def move(drill: Drill, asked: Asked) -> Edited:
    """Put a person or a thing somewhere else."""
    what, at = asked.text("what"), asked.place("at", drill)
    person = drill.person(what)
    if person is not None:
        return Edited(_with_person(drill, replace(person, at=at)), f"{what} stands at {at}.", what)
    thing = _thing(drill, what)
    if at.name == thing.label:
        raise InputError("a thing cannot lie at itself", came=what)
    return Edited(_with_thing(drill, thing, replace(thing, at=at)), f"{what} at {at}.", what)


def set_person(drill: Drill, asked: Asked) -> Edited:
    """Change what is said of a person: ``field`` shoots, puck, facing, words or name."""
    what, value = asked.text("what"), asked.text("value", "")
    person = _person(drill, what)
    match asked.text("field"):
        case "shoots":
            try:
                side = read_word(Side, value, "the side he shoots") if value else None
            except Wrong as wrong:
                raise refused(wrong) from None
            made = replace(person, shoots=side)
        case "puck":
            made = replace(person, has_puck=asked.flag("value"))
        case "facing":
            made = replace(person, facing=asked.place("value", drill) if value else None)
        case "words":
            made = replace(person, words=value.replace('"', ""))
        case "name":
            return _rename_person(drill, person, value)
        case other:
            raise InputError("this is not known of a person", came=other)
    return Edited(_with_person(drill, made), f"{what} changed.", what)


def _rename_person(drill: Drill, person: Person, name: str) -> Edited:
    if not NAME.fullmatch(name):
        raise InputError(
            "a person's name is a letter and a number", came=f"'{name}'",
            allowed="F forwards, D defenders, C coach, H helper, G goaltender, as in F1, D2, C, G",
        )  # fmt: skip
    if drill.person(name) is not None:
        raise InputError("two people have one name", came=f"'{name}'", allowed="another name")
    made = renamed(drill, person.name, name)
    if name[0] != person.name[0]:
        made = _counted(made)
    return Edited(made, f"{person.name} is now {name}.", name)


def set_thing(drill: Drill, asked: Asked) -> Edited:
    """Change what is said of a thing: ``field`` name, count or facing."""
    what, value = asked.text("what"), asked.text("value", "")
    thing = _thing(drill, what)
    match asked.text("field"):
        case "name":
            if value and not re.fullmatch(r"[A-Za-z0-9]{1,12}", value):
                raise InputError("a thing's name is one short word", came=f"'{value}'")
            made = replace(thing, name=value, count=1 if value else thing.count)
        case "count":
            try:
                count = read_whole(value, "how many", low=1, high=_MOST_PUCKS)
            except Wrong as wrong:
                raise refused(wrong) from None
            made = replace(thing, count=count)
        case "facing":
            made = replace(thing, facing=asked.place("value", drill) if value else None)
        case other:
            raise InputError("this is not known of a thing", came=other)
    return Edited(_with_thing(drill, thing, made), f"{what} changed.", made.label)


def remove(drill: Drill, asked: Asked) -> Edited:
    """Take a person or a thing off the ice, and every line that cannot do without."""
    what = asked.text("what")
    person = drill.person(what)
    if person is None:
        return Edited(without_thing(drill, _thing(drill, what)), f"{what} is off the ice.", "")
    made, lines = without_person(drill, what)
    also = f", and {lines} line{'s' if lines > 1 else ''} of the play with him" if lines else ""
    return Edited(made, f"{what} is off the ice{also}.", "")


def _counted(drill: Drill) -> Drill:
    """Return the drill with its counts of people raised to those on the ice."""
    skaters = sum(one.role in _NUMBERED for one in drill.people)
    helpers = sum(one.role in (Role.COACH, Role.HELPER) for one in drill.people)
    return replace(
        drill, skaters=_reaching(drill.skaters, skaters), helpers=_reaching(drill.helpers, helpers)
    )


def _reaching(span: Span, count: int) -> Span:
    if span.high >= count:
        return span
    return Span(count if span.low == span.high else span.low, count)


def _person(drill: Drill, name: str) -> Person:
    person = drill.person(name)
    if person is None:
        raise InputError(
            "nobody of that name is on the ice", came=name,
            allowed=", ".join(one.name for one in drill.people),
        )  # fmt: skip
    return person


def _thing(drill: Drill, label: str) -> Thing:
    for one in drill.things:
        if one.label == label:
            return one
    raise InputError(
        "nothing of that name is on the ice", came=label,
        allowed=", ".join(one.label for one in drill.things),
    )  # fmt: skip


def _with_person(drill: Drill, person: Person) -> Drill:
    people = tuple(person if one.name == person.name else one for one in drill.people)
    return replace(drill, people=people)


def _with_thing(drill: Drill, thing: Thing, made: Thing) -> Drill:
    if made.label != thing.label:
        if any(one.label == made.label for one in drill.things):
            raise InputError("two things have one name", came=made.label, allowed="another name")
        drill = renamed(drill, thing.label, made.label)
        thing = replace(thing, name=made.name)
    things = tuple(made if one.label == thing.label else one for one in drill.things)
    return replace(drill, things=things)


def _role(letter: str) -> Role:
    try:
        return Role(letter)
    except ValueError:
        raise InputError(
            "nobody is of that kind", came=letter, allowed=", ".join(one.value for one in Role)
        ) from None


def _kind(word: str) -> ThingKind:
    try:
        return read_word(ThingKind, word, "the thing")
    except Wrong as wrong:
        raise refused(wrong) from None
