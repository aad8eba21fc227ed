"""What the list of drills shows, and the conditions that its address holds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from tendline.base import InputError, Level, ScoringSituation
from tendline.drill import Drill
from tendline.drill.vocabulary import Family, Theme
from tendline.ice import rink
from tendline.store import Store
from tendline.web.drills.context import ages_of
from tendline.work.drill_search import Wish, find_drills, in_turns, named, needs_of, rooms

FIELDS = {
    "words": "words", "theme": "theme", "goaltenders": "goaltenders", "skaters": "skaters",
    "serving": "helpers", "ice": "room", "nets": "nets", "minutes": "minutes", "age": "level",
    "situation": "situation", "family": "family",
}  # fmt: skip
"""Names in the address, and the conditions of a wish that they stand for."""
MOST = {"goaltenders": 12, "skaters": 40, "serving": 12, "nets": 6, "minutes": 120}
"""The largest numbers that the form takes."""
LONGEST_WORDS = 80


@dataclass(frozen=True, slots=True)
class DrillRow:
    """One drill in the list."""

    id: str
    title: str
    family: str
    purpose: str
    ages: str
    minutes: str
    themes: str
    needs: str
    turns: str
    own: bool


@dataclass(frozen=True, slots=True)
class Filters:
    """What the address asks, as it was given, and what may be asked."""

    given: dict[str, str]
    themes: tuple[str, ...]
    situations: tuple[str, ...]
    ages: tuple[str, ...]
    families: tuple[str, ...]
    rooms: tuple[str, ...]
    most: dict[str, int]

    @property
    def rare(self) -> bool:
        """Return whether a condition is asked that the form keeps under 'More'."""
        return bool(self.given["situation"] or self.given["family"])


@dataclass(frozen=True, slots=True)
class LeaveOut:
    """Conditions that can be left out: in words, the address without them, what that gives."""

    words: str
    query: str
    count: int | None = None


@dataclass(frozen=True, slots=True)
class DrillsPage:
    """The list of drills that fit, what was asked, and what to loosen if nothing fits."""

    rows: tuple[DrillRow, ...]
    total: int
    filters: Filters
    asked: tuple[LeaveOut, ...]
    loosen: tuple[LeaveOut, ...]
    query: str


def given_of(query: Mapping[str, str]) -> dict[str, str]:
    """Return the conditions of an address, blank ones as ''."""
    return {name: query.get(name, "").strip() for name in FIELDS}


def clean_query(given: Mapping[str, str]) -> str:
    """Return the conditions as the shortest address that says the same."""
    return urlencode([(name, given[name]) for name in FIELDS if given.get(name)])


def wish_of(given: Mapping[str, str]) -> Wish:
    """Return what an address asks.

    Raises ``NotFoundError`` for an unknown word and ``InputError`` for a number that is none.
    """
    return Wish(
        words=given["words"][:LONGEST_WORDS],
        goaltenders=_number(given, "goaltenders"),
        skaters=_number(given, "skaters"),
        helpers=_number(given, "serving"),
        room=given["ice"],
        nets=_number(given, "nets"),
        minutes=_number(given, "minutes"),
        level=named(Level, "age", given["age"]),
        theme=named(Theme, "theme", given["theme"]),
        situation=named(ScoringSituation, "situation", given["situation"]),
        family=named(Family, "family", given["family"]),
    )


def drills_page(store: Store, query: Mapping[str, str]) -> DrillsPage:
    """Return the drills that fit what an address asks."""
    given = given_of(query)
    wish = wish_of(given)
    found = find_drills(store, wish)
    own = {one.id for one in store.drills.list()}
    name_of = {field: name for name, field in FIELDS.items()}

    def leave_out(names: tuple[str, ...], words: str, count: int | None = None) -> LeaveOut:
        rest = {**given, **{name_of[name]: "" for name in names}}
        return LeaveOut(words, clean_query(rest), count)

    return DrillsPage(
        rows=tuple(_row(one, own, wish.goaltenders) for one in found.drills),
        total=found.total,
        filters=_filters(store, given),
        asked=tuple(leave_out((name,), wish.says(name)) for name in wish.asked),
        loosen=tuple(leave_out(one.names, one.words, one.count) for one in found.loosen),
        query=clean_query(given),
    )


def fitting_drills(store: Store, query: Mapping[str, str]) -> tuple[Drill, ...]:
    """Return the drills that fit what an address asks."""
    return find_drills(store, wish_of(given_of(query))).drills


def _filters(store: Store, given: dict[str, str]) -> Filters:
    return Filters(
        given=given,
        themes=tuple(one.value for one in Theme),
        situations=tuple(one.value for one in ScoringSituation),
        ages=tuple(one.value for one in Level),
        families=tuple(one.value for one in Family),
        rooms=tuple(rooms(rink(store.club.get().rule_set))),
        most=MOST,
    )


def _number(given: Mapping[str, str], name: str) -> int | None:
    text = given[name]
    if not text:
        return None
    if not text.isdecimal() or int(text) > MOST[name]:
        raise InputError(
            "a whole number is needed", item=name, came=f"'{text[:20]}'",
            allowed=f"0 to {MOST[name]}", hint="Leave it empty if it does not matter.",
        )  # fmt: skip
    return int(text)


def _row(one: Drill, own: set[str], goaltenders: int | None) -> DrillRow:
    return DrillRow(
        id=one.id,
        title=one.title,
        family=one.family.value,
        purpose=one.purpose,
        ages=ages_of(one),
        minutes=str(one.minutes),
        themes=", ".join(theme.value for theme in one.themes),
        needs=needs_of(one),
        turns=in_turns(one, goaltenders),
        own=one.id in own,
    )
