"""Small phrases of a script line: places, times, paces, triggers. Reading and writing side by side.

Every reader raises :class:`Wrong` with what came, what is allowed and the nearest match; the
caller adds the line number.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from typing import TypeVar

from tendline.base import nearest_name
from tendline.drill import limits
from tendline.drill.types import Pace, Place, Trigger, show_number
from tendline.drill.vocabulary import SpeedWord, TriggerKind

E = TypeVar("E", bound=StrEnum)

NAME = re.compile(r"[FDCHG]\d{0,2}")
TAG = re.compile(r"[a-z][a-z0-9-]{0,29}")
_NUMBER = r"[-+]?\d+(?:\.\d+)?"
_PAIR = re.compile(rf"\(\s*({_NUMBER})\s*,\s*({_NUMBER})\s*\)")
_SECONDS = re.compile(rf"({_NUMBER})\s*s")


@dataclass(slots=True)
class Wrong(Exception):  # noqa: N818 - carries the parts of an error until the line is known
    """A phrase that cannot be read."""

    asked: str
    came: str = ""
    allowed: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Names:
    """What a line may refer to: people, places, tags already given."""

    people: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()


def read_word(kind: type[E], text: str, what: str) -> E:
    """Return the member of a closed vocabulary that ``text`` names (capitals do not matter)."""
    wanted = " ".join(text.lower().split())
    for member in kind:
        if member.value.lower() == wanted:
            return member
    known = [member.value for member in kind]
    raise Wrong(f"{what} is not known", f"'{text}'", ", ".join(known), nearest_of(wanted, known))


def nearest_of(word: str, known: Iterable[str]) -> str:
    """Return a hint with the known word most like ``word``, whatever the capitals."""
    plain = {one.lower(): one for one in known}
    close = get_close_matches(word.lower(), plain, n=1, cutoff=0.5)
    return f"Did you mean '{plain[close[0]]}'?" if close else ""


def read_number(text: str, what: str, *, low: float, high: float, unit: str = "") -> float:
    """Return a number within bounds, to three decimals."""
    allowed = f"{low:g} to {high:g} {unit}".rstrip()
    try:
        value = round(float(text), 3) + 0.0
    except ValueError:
        raise Wrong(f"{what} must be a number", f"'{text}'", allowed) from None
    if not low <= value <= high:
        raise Wrong(f"{what} is out of range", f"{text} {unit}".rstrip(), allowed)
    return value


def read_whole(text: str, what: str, *, low: int, high: int) -> int:
    """Return a whole number within bounds."""
    if not re.fullmatch(r"\d{1,6}", text.strip()) or not low <= int(text) <= high:
        raise Wrong(f"{what} must be a whole number", f"'{text}'", f"{low} to {high}")
    return int(text)


def read_seconds(text: str, what: str = "the time") -> float:
    """Return seconds from a phrase such as ``'1.6 s'``."""
    found = _SECONDS.fullmatch(text.strip())
    if not found:
        raise Wrong(f"{what} must be seconds", f"'{text}'", "a number and s, such as '1.5 s'")
    return read_number(found[1], what, low=0.0, high=limits.MAX_SECONDS, unit="s")


def read_place(text: str, names: Names) -> Place:
    """Return a place from a spot name, the name of a thing, or ``(x, y)`` in metres."""
    wanted = " ".join(text.split())
    pair = _PAIR.fullmatch(wanted)
    bound = limits.MAX_COORDINATE
    if pair:
        x = read_number(pair[1], "x", low=-bound, high=bound, unit="m")
        y = read_number(pair[2], "y", low=-bound, high=bound, unit="m")
        return Place("", x, y)
    for name in names.places:
        if name.lower() == wanted.lower():
            return Place(name)
    raise Wrong(
        "the place is not known",
        f"'{wanted}'",
        "a spot by name, a cone, net, target or line named under 'people', or (x, y) in metres",
        nearest_name(wanted.lower(), names.places),
    )


def read_person(text: str, names: Names) -> str:
    """Return the name of somebody listed under ``people``."""
    if text in names.people:
        return text
    known = ", ".join(names.people) or "nobody is listed under 'people' yet"
    raise Wrong("nobody of that name", f"'{text}'", known, nearest_name(text, names.people))


_PACES = {
    "a walk": SpeedWord.WALK,
    "walk": SpeedWord.WALK,
    "half speed": SpeedWord.HALF,
    "half": SpeedWord.HALF,
    "full speed": SpeedWord.FULL,
    "full": SpeedWord.FULL,
}
_PACE_TEXT = {
    SpeedWord.WALK: "a walk",
    SpeedWord.HALF: "half speed",
    SpeedWord.FULL: "full speed",
}


def read_pace(text: str) -> Pace | None:
    """Return a speed from 'a walk', 'half speed', 'full speed' or '5 m/s'; None if it is none."""
    wanted = " ".join(text.lower().split())
    if wanted in _PACES:
        return Pace(_PACES[wanted])
    found = re.fullmatch(rf"({_NUMBER})\s*m/s", wanted)
    if not found:
        return None
    speed = read_number(found[1], "the speed", low=0.1, high=limits.MAX_SPEED, unit="m/s")
    return Pace(None, speed)


def show_pace(pace: Pace) -> str:
    """Return a speed as the script writes it."""
    return _PACE_TEXT[pace.word] if pace.word else f"{show_number(pace.speed)} m/s"


TRIGGER_FORMS = (
    "at the whistle",
    "then",
    "meanwhile",
    "on the pass",
    "on the shot",
    "on the call",
    "when F2 has the puck",
    "when F1 reaches left dot",
    "when she is set",
    "when the rebound is cleared",
    "when TAG starts",
    "when TAG ends",
    "2 s after the pass (or any other of these)",
    "2 s later",
)


def read_trigger(text: str, names: Names) -> Trigger:
    """Return a trigger from its phrase."""
    wanted = " ".join(text.split())
    plain = wanted.lower()
    if plain == "then":
        return Trigger()
    if plain == "meanwhile":
        return Trigger(kind=TriggerKind.MEANWHILE)
    late = re.fullmatch(rf"({_NUMBER})\s*s\s+(later|after\s+(.+))", wanted, re.IGNORECASE)
    if late:
        delay = read_number(late[1], "the delay", low=0, high=limits.MAX_SECONDS, unit="s")
        if late[2].lower() == "later":
            return Trigger(delay=delay)
        return _read_event(late[3], names, delay=delay, whole=wanted)
    led = re.fullmatch(r"(?:at|on|when)\s+(.+)", wanted, re.IGNORECASE)
    if led:
        return _read_event(led[1], names, delay=0.0, whole=wanted)
    raise _no_trigger(wanted)


def _read_event(text: str, names: Names, *, delay: float, whole: str) -> Trigger:
    plain = text.lower()
    for kind in (TriggerKind.WHISTLE, TriggerKind.SET, TriggerKind.CLEARED, TriggerKind.CALL):
        if plain == kind.value:
            return Trigger(kind=kind, delay=delay)
    found = re.fullmatch(r"the (pass|shot)(?:\s+by\s+(\S+))?", text, re.IGNORECASE)
    if found:
        kind = TriggerKind.PASS if found[1].lower() == "pass" else TriggerKind.SHOT
        who = read_person(found[2], names) if found[2] else ""
        return Trigger(kind=kind, delay=delay, who=who)
    found = re.fullmatch(r"(\S+)\s+has\s+the\s+puck", text)
    if found:
        who = read_person(found[1], names)
        return Trigger(kind=TriggerKind.HAS_PUCK, delay=delay, who=who)
    found = re.fullmatch(r"(\S+)\s+reaches\s+(.+)", text)
    if found:
        who = read_person(found[1], names)
        place = read_place(found[2], names)
        return Trigger(kind=TriggerKind.REACHES, delay=delay, who=who, place=place)
    found = re.fullmatch(r"(\S+)\s+(starts|ends)", text)
    if found:
        if found[1] not in names.tags:
            known = ", ".join(names.tags) or "no line above has a name: end it with 'as NAME'"
            raise Wrong(
                "no line above has that name",
                f"'{found[1]}'",
                known,
                nearest_name(found[1], names.tags),
            )
        kind = TriggerKind.TAG_STARTS if found[2] == "starts" else TriggerKind.TAG_ENDS
        return Trigger(kind=kind, delay=delay, tag=found[1])
    raise _no_trigger(whole)


def _no_trigger(text: str) -> Wrong:
    return Wrong(
        "the start of the line is no trigger that the script knows",
        f"'{text}'",
        "; ".join(TRIGGER_FORMS),
        nearest_name(text.lower(), TRIGGER_FORMS),
    )


_LEADS = {TriggerKind.WHISTLE: "at", TriggerKind.PASS: "on", TriggerKind.SHOT: "on"}
_LEADS[TriggerKind.CALL] = "on"


def show_trigger(trigger: Trigger) -> str:
    """Return a trigger as the script writes it; empty for 'then' without a delay."""
    kind = trigger.kind
    if kind is TriggerKind.THEN:
        return f"{show_number(trigger.delay)} s later" if trigger.delay else ""
    if kind is TriggerKind.MEANWHILE:
        return "meanwhile"
    event = _event_text(trigger)
    if trigger.delay:
        return f"{show_number(trigger.delay)} s after {event}"
    return f"{_LEADS.get(kind, 'when')} {event}"


def _event_text(trigger: Trigger) -> str:
    kind = trigger.kind
    if kind in (TriggerKind.PASS, TriggerKind.SHOT):
        return f"{kind.value} by {trigger.who}" if trigger.who else kind.value
    if kind is TriggerKind.HAS_PUCK:
        return f"{trigger.who} has the puck"
    if kind is TriggerKind.REACHES:
        return f"{trigger.who} reaches {trigger.place}"
    if kind in (TriggerKind.TAG_STARTS, TriggerKind.TAG_ENDS):
        return f"{trigger.tag} {kind.value}"
    return kind.value


def split_outside(text: str, mark: str) -> list[str]:
    """Return the parts of ``text`` between marks that stand outside quotes and brackets."""
    parts, depth, quoted, start = [], 0, False, 0
    for place, letter in enumerate(text):
        if letter == '"':
            quoted = not quoted
        elif not quoted and letter == "(":
            depth += 1
        elif not quoted and letter == ")":
            depth = max(0, depth - 1)
        elif letter == mark and not quoted and depth == 0:
            parts.append(text[start:place].strip())
            start = place + 1
    parts.append(text[start:].strip())
    return parts


def take_phrase(kind: type[E], words: Sequence[str]) -> tuple[E | None, list[str]]:
    """Return the vocabulary member that stands in ``words``, and the words left over."""
    text = list(words)
    for member in sorted(kind, key=lambda one: -len(one.value)):
        parts = member.value.split()
        for place in range(len(text) - len(parts) + 1):
            if [w.lower() for w in text[place : place + len(parts)]] == parts:
                return member, text[:place] + text[place + len(parts) :]
    return None, text


def show_list(items: Iterable[object]) -> str:
    """Return items as a comma-separated list."""
    return ", ".join(str(one) for one in items)
