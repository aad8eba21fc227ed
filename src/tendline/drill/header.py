"""The header of a script: one table of keys, each with how it is read and how it is written."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, TypeVar

from tendline.base import Level, ScoringSituation, nearest_name
from tendline.drill import limits
from tendline.drill.phrases import (
    Names,
    Wrong,
    read_number,
    read_seconds,
    read_trigger,
    read_whole,
    read_word,
    show_list,
    show_trigger,
    split_outside,
)
from tendline.drill.types import (
    Ages,
    Correction,
    Ice,
    Link,
    Mark,
    Repeats,
    Span,
    Trigger,
    show_number,
)
from tendline.drill.vocabulary import DrillKind, Family, IceUse, MarkKind, Sides, Stage, Theme

E = TypeVar("E", bound=StrEnum)
DRILL_ID = re.compile(r"[A-Za-z][A-Za-z0-9-]{0,19}")
_LINKED = re.compile(r"([A-Z]{1,3}\d{2,3}[a-z]?)(?:,\s*(.+))?")


@dataclass(frozen=True, slots=True)
class HeaderKey:
    """One key of the header: field of the drill, reader, writer, whether it may be repeated."""

    key: str
    field: str
    read: Callable[[str, Names], Any]
    show: Callable[[Any], str]
    many: bool = False
    needed: bool = False
    example: str = ""


def _text(text: str, names: Names) -> str:
    return text


def _words(kind: type[E], what: str) -> Callable[[str, Names], tuple[E, ...]]:
    def read(text: str, names: Names) -> tuple[E, ...]:
        found = tuple(read_word(kind, part, what) for part in split_outside(text, ","))
        if len(set(found)) != len(found):
            raise Wrong(f"{what} stands twice", f"'{text}'", "each once")
        return found

    return read


def _word(kind: type[E], what: str) -> Callable[[str, Names], E]:
    def read(text: str, names: Names) -> E:
        return read_word(kind, text, what)

    return read


def _span(what: str, high: int) -> Callable[[str, Names], Span]:
    def read(text: str, names: Names) -> Span:
        ends = re.split(r"\s+to\s+", text.strip())
        if len(ends) > 2:
            raise Wrong(f"{what} must be a number or a range", f"'{text}'", "'4' or '4 to 6'")
        found = [read_whole(one, what, low=0, high=high) for one in ends]
        if found[0] > found[-1]:
            raise Wrong(f"{what}: the range runs backwards", f"'{text}'", "low to high")
        return Span(found[0], found[-1])

    return read


def _whole(what: str, low: int, high: int) -> Callable[[str, Names], int]:
    return lambda text, names: read_whole(text, what, low=low, high=high)


def read_ages(text: str, names: Names) -> Ages:
    """Return ages from 'all', 'U11 and up', 'U9' or 'U9 to U13'."""
    plain = " ".join(text.split())
    if plain.lower() in ("all", "all ages"):
        return Ages()
    if plain.lower().endswith(" and up"):
        return Ages(read_word(Level, plain[:-7], "the age class"))
    ends = [read_word(Level, one, "the age class") for one in plain.split(" to ")]
    order = list(Level)
    if len(ends) > 2 or order.index(ends[0]) > order.index(ends[-1]):
        raise Wrong("ages run from young to old", f"'{text}'", "U11 and up, U9 to U13, U9, all")
    return Ages(ends[0], ends[-1])


def show_ages(ages: Ages) -> str:
    """Return ages as the script writes them."""
    if ages.oldest is None:
        return "all" if ages.youngest is Level.U9 else f"{ages.youngest.value} and up"
    if ages.oldest is ages.youngest:
        return ages.youngest.value
    return f"{ages.youngest.value} to {ages.oldest.value}"


def read_ice(text: str, names: Names) -> Ice:
    """Return the ice used from 'end zone' or 'a patch 5 x 5 m'."""
    found = re.fullmatch(r"(.*?)\s+([\d.]+)\s*x\s*([\d.]+)\s*m", text.strip())
    use = read_word(IceUse, found[1] if found else text, "the part of the ice")
    if not found:
        return Ice(use)
    length = read_number(found[2], "the length", low=1, high=limits.MAX_COORDINATE, unit="m")
    width = read_number(found[3], "the width", low=1, high=limits.MAX_COORDINATE, unit="m")
    return Ice(use, length, width)


def show_ice(ice: Ice) -> str:
    """Return the ice used as the script writes it."""
    if ice.length is None or ice.width is None:
        return ice.use.value
    return f"{ice.use.value} {show_number(ice.length)} x {show_number(ice.width)} m"


_ON_AND_ON = "until the time is up"


def read_repeats(text: str, names: Names) -> Repeats:
    """Return repetitions from '6 x 2, rest 35 s' or 'until the time is up'."""
    form = "6 x 2, rest 35 s; 12 x 1, rest 20 s after each; until the time is up"
    parts = split_outside(text, ",")
    found = re.fullmatch(r"(\d+)\s*x\s*(\d+)", parts[0])
    if parts[0].lower() == _ON_AND_ON:
        reps, sets = 0, 1
    elif not found:
        raise Wrong("repetitions are 'reps x sets'", f"'{parts[0]}'", form)
    else:
        reps = read_whole(found[1], "repetitions", low=1, high=60)
        sets = read_whole(found[2], "sets", low=1, high=20)
    rest, each = 0.0, 0.0
    for part in parts[1:]:
        rested = re.fullmatch(r"rest (.+? s)( after each)?", part)
        if not rested:
            raise Wrong("rest is not understood", f"'{part}'", form)
        if rested[2]:
            each = read_seconds(rested[1], "the rest")
        else:
            rest = read_seconds(rested[1], "the rest")
    return Repeats(reps, sets, rest, each)


def show_repeats(repeats: Repeats) -> str:
    """Return repetitions as the script writes them."""
    text = f"{repeats.reps} x {repeats.sets}" if repeats.reps else _ON_AND_ON
    if repeats.rest:
        text += f", rest {show_number(repeats.rest)} s"
    if repeats.rest_each:
        text += f", rest {show_number(repeats.rest_each)} s after each"
    return text


def _correction(text: str, names: Names) -> Correction:
    parts = re.split(r"\s*->\s*", text)
    if len(parts) != 2 or not all(parts):
        raise Wrong("an error names its correction", f"'{text}'", "what goes wrong -> what helps")
    return Correction(parts[0], parts[1])


def _mark(text: str, names: Names) -> Mark:
    found = re.fullmatch(r"([^,]+),\s*because\s+(.+)", text)
    form = ", ".join(one.value for one in MarkKind)
    if not found:
        raise Wrong("a mark says why", f"'{text}'", f"KIND, because REASON; kinds: {form}")
    return Mark(read_word(MarkKind, found[1], "the mark"), found[2])


def _link(text: str, names: Names) -> Link:
    found = _LINKED.fullmatch(text)
    return Link(found[1], found[2] or "") if found else Link("", text)


def _show_link(link: Link) -> str:
    return ", ".join(one for one in (link.drill, link.words) if one)


def _next(text: str, names: Names) -> Trigger:
    return read_trigger(text, names)


def _equipment(text: str, names: Names) -> tuple[str, ...]:
    found = tuple(one for one in split_outside(text, ",") if one)
    if len(found) > limits.MAX_TEXTS:
        raise Wrong("too many things", str(len(found)), f"at most {limits.MAX_TEXTS}")
    return found


def _yes(text: str, names: Names) -> bool:
    if text.strip().lower() != "yes":
        raise Wrong("this key is 'yes' or left out", f"'{text}'", "yes")
    return True


def _plain(value: object) -> str:
    return str(value)


HEADER: tuple[HeaderKey, ...] = (
    HeaderKey(
        "family", "family", _word(Family, "the family"), _plain, needed=True, example="lateral"
    ),
    HeaderKey("kind", "kind", _word(DrillKind, "the kind"), _plain, needed=True, example="read"),
    HeaderKey(
        "themes",
        "themes",
        _words(Theme, "the theme"),
        show_list,
        needed=True,
        example="lateral, angle",
    ),
    HeaderKey(
        "situations",
        "situations",
        _words(ScoringSituation, "the situation"),
        show_list,
        example="east-west",
    ),
    HeaderKey("ages", "ages", read_ages, show_ages, needed=True, example="U11 and up"),
    HeaderKey(
        "stages", "stages", _words(Stage, "the stage"), show_list, example="beginner, intermediate"
    ),
    HeaderKey("level", "level", _word(Level, "the level"), _plain, example="U13"),
    HeaderKey("minutes", "minutes", _span("minutes", 90), _plain, needed=True, example="5"),
    HeaderKey("ice", "ice", read_ice, show_ice, needed=True, example="end zone"),
    HeaderKey("nets", "nets", _whole("nets", 0, 4), _plain, example="1"),
    HeaderKey("by turns", "by_turns", _yes, lambda one: "yes", example="yes"),
    HeaderKey(
        "goaltenders",
        "goaltenders",
        _span("goaltenders", 12),
        _plain,
        needed=True,
        example="1 to 2",
    ),
    HeaderKey("skaters", "skaters", _span("skaters", 40), _plain, example="2 to 8"),
    HeaderKey("helpers", "helpers", _span("helpers", 12), _plain, example="0 to 1"),
    HeaderKey("equipment", "equipment", _equipment, show_list, example="10 pucks, 2 cones"),
    HeaderKey(
        "purpose",
        "purpose",
        _text,
        _plain,
        needed=True,
        example="Arrive on the new line before the puck does.",
    ),
    HeaderKey(
        "aim of the shooters",
        "shooters_aim",
        _text,
        _plain,
        example="Hard flat pass; shoot only when it lies still.",
    ),
    HeaderKey(
        "aim of the goaltender",
        "goaltender_aim",
        _text,
        _plain,
        needed=True,
        example="Stopped and square before the shot.",
    ),
    HeaderKey(
        "set-up",
        "set_up",
        _text,
        _plain,
        many=True,
        example="Passer on the left dot, shooter on the right dot, pucks beside the passer.",
    ),
    HeaderKey("step", "steps", _text, _plain, many=True, example="Eyes first, then the push."),
    HeaderKey("rule", "rules", _text, _plain, many=True, example="No shot while she looks away."),
    HeaderKey("next", "next_rep", _next, show_trigger, example="when the rebound is cleared"),
    HeaderKey("repeat", "repeats", read_repeats, show_repeats, example="6 x 2, rest 35 s"),
    HeaderKey(
        "rotation",
        "rotation",
        _text,
        _plain,
        example="Passer becomes shooter after six; goaltenders change after each set.",
    ),
    HeaderKey("sides", "sides", _word(Sides, "the sides"), _plain, example="change every set"),
    HeaderKey("cue", "cues", _text, _plain, many=True, example="line before depth"),
    HeaderKey("key point", "key_points", _text, _plain, many=True, example="Stop, then the shot."),
    HeaderKey(
        "error",
        "errors",
        _correction,
        lambda one: f"{one.error} -> {one.correction}",
        many=True,
        example="drifts through the shot -> push a little softer and stop on an edge",
    ),
    HeaderKey("easier", "easier", _link, _show_link, many=True, example="M03"),
    HeaderKey("harder", "harder", _link, _show_link, many=True, example="L04, one-timer"),
    HeaderKey(
        "off-ice",
        "off_ice",
        _text,
        _plain,
        many=True,
        example="Two chalk lines, a ball rolled across; step, stop, hands ready.",
    ),
    HeaderKey(
        "mark",
        "marks",
        _mark,
        lambda one: f"{one.kind}, because {one.because}",
        many=True,
        example="late on purpose, because this trains the slide when feet are too slow",
    ),
    HeaderKey("remark", "remarks", _text, _plain, many=True, example="Went well with a slow pass."),
    HeaderKey("mirrored", "mirrored", _yes, lambda one: "yes"),
)

BY_KEY = {one.key: one for one in HEADER}


def find_key(key: str) -> HeaderKey:
    """Return a header key by its word in the script."""
    found = BY_KEY.get(" ".join(key.lower().split()))
    if found is None:
        raise Wrong(
            "the script has no such key",
            f"'{key}'",
            ", ".join(BY_KEY),
            nearest_name(key.lower(), BY_KEY),
        )
    return found
