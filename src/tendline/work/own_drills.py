"""The coach's own drills: kept from the editor, and taken in from a stranger's file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tendline.base import InputError
from tendline.drill import Drill, format_drill, library, parse_drill, parse_drills
from tendline.store import OwnDrill, Store

MOST_AT_ONCE = 60
"""Drills taken in from one file; a limit on size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Incoming:
    """A drill of a file, and the number under which it would be kept."""

    drill: Drill
    becomes: str

    @property
    def is_renamed(self) -> bool:
        """Return whether it would get another number than it says."""
        return self.becomes != self.drill.id


def keep(store: Store, script: str, *, base: str = "", replace: bool = False) -> Drill:
    """Put a drill among the coach's own and return it; it is on disk when this returns.

    ``base`` is the drill that was opened: its own number may be kept. Raises ``DrillScriptError``
    for a script with faults, ``InputError`` when another own drill has the number (unless
    ``replace``).
    """
    drill = parse_drill(script)
    taken = {one.id: one for one in store.drills.list()}
    if drill.id != base and not replace:
        other = taken.get(drill.id)
        titles = {one.id: one.title for one in library()}
        title = other.name if other else titles.get(drill.id)
        if title is not None:
            raise InputError(
                "another drill has this number", came=f"{drill.id}: {title}",
                allowed=f"a free one, such as {free_number(store)}",
                hint="Change the number on the first line of the script.",
            )  # fmt: skip
    store.drills.save(OwnDrill(id=drill.id, name=drill.title, script=format_drill(drill)))
    return drill


def free_number(store: Store, also: Mapping[str, object] | None = None) -> str:
    """Return the first of Y01, Y02, ... that no drill, no draft and nothing in ``also`` has."""
    taken = {one.id for one in library()} | {one.id for one in store.drills.list()}
    taken |= {number_of(one.script) for one in store.drafts.list()} | set(also or ())
    return next(name for name in (f"Y{n:02}" for n in range(1, 10_000)) if name not in taken)


def number_of(script: str) -> str:
    """Return the number on the first line of a script, empty if there is none."""
    words = script.split(":", 1)[0].split()
    return words[-1] if len(words) == 2 and words[0].lower() == "drill" else ""


def read_file(store: Store, text: str | bytes) -> tuple[Incoming, ...]:
    """Return the drills of a file with the numbers they would get; nothing is kept yet.

    A number that is taken, by the library, an own drill or an earlier drill of the file, is
    exchanged for a free one. Raises ``DrillScriptError`` with every fault and its line.
    """
    drills = parse_drills(text)
    if len(drills) > MOST_AT_ONCE:
        raise InputError(
            "there are too many drills in one file", came=str(len(drills)),
            allowed=f"at most {MOST_AT_ONCE}", hint="Bring them in with several files.",
        )  # fmt: skip
    taken = {one.id for one in library()} | {one.id for one in store.drills.list()}
    given: dict[str, Incoming] = {}
    for drill in drills:
        number = drill.id
        if number in taken or number in given:
            number = free_number(store, given)
        given[number] = Incoming(drill=drill, becomes=number)
    return tuple(given.values())


def take_in(store: Store, text: str | bytes) -> tuple[Drill, ...]:
    """Keep every drill of a file among the coach's own and return them."""
    found = []
    for one in read_file(store, text):
        drill = replace(one.drill, id=one.becomes)
        store.drills.save(OwnDrill(id=drill.id, name=drill.title, script=format_drill(drill)))
        found.append(drill)
    return tuple(found)
