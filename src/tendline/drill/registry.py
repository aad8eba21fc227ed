"""The drills that come with the program, and the public checker that every drill must pass."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from tendline.base import NotFoundError, TendlineError, nearest_name
from tendline.drill.check import check_drill, standing
from tendline.drill.findings import Finding
from tendline.drill.formatter import format_drill
from tendline.drill.mirror import mirror_drill
from tendline.drill.script import parse_drill
from tendline.drill.simulate import simulate
from tendline.drill.types import Drill
from tendline.drill.vocabulary import DrillKind, IceUse


@cache
def library() -> tuple[Drill, ...]:
    """Return the built-in drills, by number."""
    folder = files("tendline.drill").joinpath("library")
    texts = sorted(
        (one.name, one.read_text("utf-8")) for one in folder.iterdir() if one.name[-6:] == ".drill"
    )
    return tuple(parse_drill(text) for _, text in texts)


def drill_by_id(name: str, drills: tuple[Drill, ...] = ()) -> Drill:
    """Return a drill by its number, the coach's own before the built-in ones.

    Raises ``NotFoundError`` with the nearest number.
    """
    known = {one.id: one for one in (*library(), *drills)}
    found = known.get(name) or known.get(name.upper())
    if found is None:
        raise NotFoundError(
            "no drill of that number", came=f"'{name}'",
            allowed=f"{len(known)} drills, from {min(known)} to {max(known)}",
            hint=nearest_name(name.upper(), known),
        )  # fmt: skip
    return found


@dataclass(frozen=True, slots=True)
class Fault:
    """Something wrong with a drill as a card: its number and what."""

    drill: str
    text: str


_IDIOMS = re.compile(
    r"\b(right away|right after|right before|all right|right now|right one|right place|"
    r"right time|right way|right choice|right moment|is right|are right)\b", re.IGNORECASE,
)  # fmt: skip


def card_faults(drill: Drill, known: frozenset[str]) -> tuple[Fault, ...]:
    """Return what a card lacks: aims, links, corrections, texts that a mirror would spoil."""
    found: list[str] = []
    if not drill.set_up:
        found.append("no set-up")
    if not drill.errors:
        found.append("no error with its correction")
    if not drill.easier:
        found.append("no easier step")
    if not drill.harder:
        found.append("no harder step")
    if not 1 <= len(drill.key_points) <= 3:
        found.append(f"{len(drill.key_points)} key points, one to three wanted")
    if not drill.play and drill.kind is not DrillKind.ROUTINE and drill.ice.use != IceUse.OFF_ICE:
        found.append("nothing happens on the clock, and it is no routine")
    found += [
        f"links to {link.drill}, which is not there"
        for link in (*drill.easier, *drill.harder)
        if link.drill and link.drill not in known
    ]
    found += [f"'{hit}' would be spoilt by a mirror" for hit in sorted(_idioms(drill))]
    return tuple(Fault(drill.id, one) for one in found)


def _idioms(drill: Drill) -> set[str]:
    text = format_drill(drill)
    return {hit.lower() for hit in _IDIOMS.findall(text)}


def check_one(drill: Drill, known: frozenset[str]) -> tuple[Fault, ...]:
    """Return every fault of a drill: card, script, mirror, run, rules not marked on purpose."""
    found = list(card_faults(drill, known))
    text = format_drill(drill)
    if parse_drill(text) != drill:
        found.append(Fault(drill.id, "its script does not give it back"))
    if format_drill(mirror_drill(mirror_drill(drill))) != text:
        found.append(Fault(drill.id, "mirrored twice it is another drill"))
    try:
        run = simulate(drill)
        findings = check_drill(drill, run)
    except TendlineError as fault:
        return (*found, Fault(drill.id, f"cannot be run: {fault}"))
    found += [Fault(drill.id, one.words) for one in standing(findings)]
    return tuple(found)


def idle_marks(drill: Drill, findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Return marks of a drill that no finding needs at these speeds; for the report."""
    return tuple(
        mark.kind.value
        for mark in drill.marks
        if not any(one.on_purpose.startswith(mark.kind.value) for one in findings)
    )


def check_library(drills: tuple[Drill, ...] | None = None) -> tuple[Fault, ...]:
    """Return the faults of a set of drills (the built-in ones when None); empty if none.

    The same check serves a coach's own drills and a file from a stranger.
    """
    every = library() if drills is None else drills
    known = frozenset(one.id for one in (*library(), *every))
    faults = [fault for one in every for fault in check_one(one, known)]
    seen: set[str] = set()
    for one in every:
        if one.id in seen:
            faults.append(Fault(one.id, "the number is used twice"))
        seen.add(one.id)
    return tuple(faults)
