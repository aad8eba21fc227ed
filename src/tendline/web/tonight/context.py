"""What the page shows, and what it was asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, time
from typing import TypeVar

from tendline.base import InputError, Settings
from tendline.ice import Rink, rink
from tendline.practice import RULES, Check, PlanKind, Segment, Sheet, spaces
from tendline.store import Store
from tendline.web.shell.urls import with_query
from tendline.work.drills import all_drills
from tendline.work.names import names
from tendline.work.tonight import Evening, Tonight, team_of

T = TypeVar("T")
PLAIN = Evening()
MOST_LETTERS, MOST_STATIONS = 30, 6
"""Letters of the name of somebody who runs a station, and how many of them are asked for."""


@dataclass(frozen=True, slots=True)
class Theme:
    """One theme to train: the counts first, then how sure, then what is meant."""

    name: str
    counts: str
    sure: str
    words: str
    cue: str


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose, and whether it is chosen."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Count:
    """A number that may be left open: then ``usual`` holds, whatever else is changed."""

    name: str
    label: str
    given: int | None
    usual: int


@dataclass(frozen=True, slots=True)
class EveningForm:
    """The few decisions of tonight."""

    teams: tuple[Choice, ...]
    goaltenders: tuple[Choice, ...]
    focus: tuple[Choice, ...]
    kinds: tuple[Choice, ...]
    places: tuple[Choice, ...]
    block_places: tuple[Choice, ...]
    day: str
    start: str
    minutes: int
    counts: tuple[Count, ...]
    run_by: str
    state: str


@dataclass(frozen=True, slots=True)
class NotKept:
    """A rule that tonight's sheet does not keep: what happened, its limit, where to change it."""

    rule: str
    name: str
    text: str
    limit: str
    key: str


@dataclass(frozen=True, slots=True)
class TonightPage:
    """Tonight's answer, the sheet, and the few decisions behind it."""

    form: EveningForm
    headline: str
    sentences: tuple[str, ...]
    themes: tuple[Theme, ...]
    focus: str
    stage: str
    games: tuple[str, ...]
    sheet: Sheet
    not_kept: tuple[NotKept, ...]
    linked: frozenset[str]


def evening_of(query: list[tuple[str, str]]) -> Evening:
    """Return the evening that an address asks for."""
    one = dict(query)
    present = tuple(value for name, value in query if name == "present" and value)
    return Evening(
        team=one.get("team", ""),
        day=_read(date.fromisoformat, one.get("day", ""), "day", "2026-11-25"),
        start=_read(time.fromisoformat, one.get("start", ""), "start", "18:00") or time(18, 0),
        minutes=_read(int, one.get("minutes", ""), "minutes", "55") or 55,
        kind=PlanKind(one["kind"]) if one.get("kind") else PlanKind.PRACTICE,
        place=one.get("place") or PLAIN.place,
        block_place=one.get("block_place") or PLAIN.block_place,
        present=present,
        focus=one.get("focus", ""),
        nets=_read(int, one.get("nets", ""), "number of nets", "2"),
        skaters=_read(int, one.get("skaters", ""), "number of skaters", "15"),
        helpers=_read(int, one.get("helpers", ""), "number of people to serve the block", "1"),
        run_by=_names_in(one.get("run_by", "")),
    )


def _names_in(text: str) -> tuple[str, ...]:
    """Return names separated by commas; a blank between two commas leaves a station open."""
    names = [one.strip()[:MOST_LETTERS] for one in text.split(",")][:MOST_STATIONS]
    return tuple(names) if any(names) else ()


def _read(kind: Callable[[str], T], text: str, name: str, example: str) -> T | None:
    if not text:
        return None
    try:
        return kind(text)
    except ValueError:
        raise InputError(f"the {name} cannot be read", came=text, allowed=example) from None


def pairs_of(evening: Evening) -> list[tuple[str, str]]:
    """Return the evening as name and value pairs for an address."""
    pairs = [
        ("team", evening.team),
        ("day", evening.day.isoformat() if evening.day else ""),
        ("start", f"{evening.start:%H:%M}"),
        ("minutes", str(evening.minutes)),
        ("kind", evening.kind.value),
        ("place", evening.place),
        ("block_place", evening.block_place),
        ("focus", evening.focus),
        ("run_by", ", ".join(evening.run_by)),
        *(
            (name, "" if number is None else str(number))
            for name, number in (
                ("nets", evening.nets),
                ("skaters", evening.skaters),
                ("helpers", evening.helpers),
            )
        ),
        *(("present", one) for one in evening.present),
    ]
    return [pair for pair in pairs if pair[1]]


def form_of(store: Store, evening: Evening) -> EveningForm:
    """Return the choices that the page offers."""
    known = names(store)
    sheet = rink(store.club.get().rule_set)
    team = team_of(store, evening.team)
    present = evening.present or team.goaltenders
    return EveningForm(
        teams=tuple(Choice(t.name, t.name, t.name == team.name) for t in store.club.teams()),
        goaltenders=tuple(Choice(i, known[i], i in present) for i in known),
        focus=tuple(Choice(i, known[i], i == evening.focus) for i in known),
        kinds=tuple(Choice(k.value, k.value, k is evening.kind) for k in PlanKind),
        places=tuple(Choice(p, p, p == evening.place) for p in spaces(sheet)),
        block_places=tuple(Choice(p, p, p == evening.block_place) for p in spaces(sheet)),
        day=evening.day.isoformat() if evening.day else "",
        start=f"{evening.start:%H:%M}",
        minutes=evening.minutes,
        counts=(
            Count("nets", "Nets on that ice", evening.nets, _usual_nets(sheet, evening)),
            Count("skaters", "Skaters", evening.skaters, team.skaters),
            Count("helpers", "People free to serve the block", evening.helpers, team.helpers),
        ),
        run_by=", ".join(evening.run_by),
        state=with_query("", pairs_of(evening)).removeprefix("?"),
    )


def _usual_nets(sheet: Rink, evening: Evening) -> int:
    usual = spaces(sheet).get(evening.place)
    return usual.nets if usual else 0


def tonight_page(store: Store, made: Tonight) -> TonightPage:
    """Return the page for tonight's answer."""
    found = made.findings.themes if made.findings else ()
    library = {one.id for one in all_drills(store)}
    return TonightPage(
        form=form_of(store, made.evening),
        headline=made.headline,
        sentences=made.answer,
        themes=tuple(
            Theme(one.theme, f"{one.count} of {one.of} goals", one.sure, one.words, one.cue)
            for one in found
        ),
        focus=made.focus_name,
        stage=made.stage,
        games=made.games,
        sheet=made.sheet,
        not_kept=tuple(_not_kept(one, store.choices.settings()) for one in made.sheet.broken),
        linked=frozenset(_drills(made.sheet.segments) & library),
    )


def _not_kept(one: Check, settings: Settings) -> NotKept:
    """Return a broken rule with its limit in words; no limit for a rule that has no number."""
    limit = RULES[one.rule].limit if one.rule in RULES else None
    words = ""
    if limit is not None:
        unit = "" if limit.unit in ("ratio", "count") else f" {limit.unit}"
        words = f"{limit.label}: {settings.value_of(limit):g}{unit} ({limit.origin})"
    return NotKept(one.rule, one.name, one.text, words, limit.key if limit else "")


def _drills(segments: tuple[Segment, ...]) -> set[str]:
    return {one.drill_id for one in segments if one.drill_id}
