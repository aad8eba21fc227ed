"""What the columns page shows: picks, the words of the file, and what they make of its rows."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Level
from tendline.draw import shot_map_svg
from tendline.ice import RuleSet, rink
from tendline.log import Table, read_table
from tendline.log.guessing import MOST_WORDS, shot_rows, words_in
from tendline.store import Store
from tendline.web.columns import labels
from tendline.web.columns.forms import NOT_SAID, VOCABULARIES
from tendline.work.day import today
from tendline.work.imports import known_mappings
from tendline.work.mapping_desk import (
    SHOWN_ROWS,
    Picks,
    RefusedRow,
    Trial,
    carried_over,
    start_picks,
    try_picks,
)
from tendline.work.names import names

MAP_WIDTH = 380.0
SAMPLE_LETTERS = 26
FIRST_LINES = 4
Option = tuple[str, str]


@dataclass(frozen=True, slots=True)
class WordPick:
    """One word of the file, how often it stands there, and what it is taken for."""

    raw: str
    count: int
    says: str


@dataclass(frozen=True, slots=True)
class WordPicks:
    """The words of one field's column; ``others`` are words that only other files hold."""

    field: str
    label: str
    column: str
    words: tuple[WordPick, ...]
    others: tuple[WordPick, ...]
    choices: tuple[Option, ...]
    too_many: bool


@dataclass(frozen=True, slots=True)
class WherePick:
    """Which rows are shots: a column, and its words with whether each means a shot."""

    column: str
    words: tuple[tuple[str, int, bool], ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """Columns that are kept under a name."""

    name: str
    about: str
    own: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class UploadPage:
    """The page on which a table is given, and the columns kept so far."""

    kept: tuple[Kept, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnsPage:
    """The page on which columns are picked."""

    text: str
    said: str
    started: str
    head: tuple[str, ...]
    first: tuple[tuple[str, ...], ...]
    options: tuple[Option, ...]
    picks: Picks
    words: tuple[WordPicks, ...]
    where: WherePick
    trial: Trial
    refused: tuple[RefusedRow, ...]
    picture: str
    carried: str
    replacing: bool
    day: str
    level: str
    goaltender: str
    person: str
    people: tuple[Option, ...]
    levels: tuple[str, ...] = tuple(one.value for one in Level)
    rule_sets: tuple[str, ...] = tuple(one.value for one in RuleSet)
    groups: tuple[tuple[str, tuple[Option, ...]], ...] = (
        ("needed", labels.NEEDED), ("usual", labels.USUAL), ("rare", labels.RARE),
    )  # fmt: skip
    units: tuple[Option, ...] = labels.UNITS
    origins: tuple[Option, ...] = labels.ORIGINS
    ends: tuple[Option, ...] = labels.ENDS
    x_grows: tuple[Option, ...] = labels.X_GROWS
    y_grows: tuple[Option, ...] = labels.Y_GROWS
    first_end: tuple[Option, ...] = labels.FIRST_END


def upload_page(store: Store) -> UploadPage:
    """Return the page on which a table is given."""
    own = set(store.mappings.all())
    return UploadPage(
        kept=tuple(Kept(one.name, one.about, one.name in own) for one in known_mappings(store))
    )


def started_page(store: Store, text: str) -> ColumnsPage:
    """Return the picks page for a table, with our guess or the kept columns that fit it."""
    table = read_table(text)
    found = start_picks(store, table)
    told = (
        f"These columns are known: '{found.picks.name}'."
        if found.kept
        else "What is picked below is a guess from the heading, the words and the places."
    )
    return columns_page(store, text, table, found.picks, started=told)


def columns_page(
    store: Store,
    text: str,
    table: Table,
    picks: Picks,
    *,
    said: str = "",
    started: str = "",
    replacing: bool = False,
    day: str = "",
    level: str = "",
    goaltender: str = "",
    person: str = "",
) -> ColumnsPage:
    """Return the picks page as things stand."""
    trial = try_picks(store, table, picks)
    return ColumnsPage(
        text=text,
        said=said,
        started=started,
        head=table.columns,
        first=tuple(
            tuple(row.cells.get(one, "") for one in table.columns)
            for row in table.rows[:FIRST_LINES]
        ),
        options=tuple((one, _sample(table, one)) for one in table.columns if one),
        picks=picks,
        words=_words(shot_rows(table, picks.where), picks),
        where=_where(table, picks),
        trial=trial,
        refused=trial.refused[:SHOWN_ROWS],
        picture=shot_map_svg(rink(picks.rule_set), trial.places, width=MAP_WIDTH)
        if trial.places
        else "",
        carried=carried_over(store, picks),
        replacing=replacing,
        day=day or today(store).isoformat(),
        level=level or Level.ADULT.value,
        goaltender=goaltender,
        person=person,
        people=tuple(sorted(names(store).items(), key=lambda one: one[1])),
    )


def _sample(table: Table, column: str) -> str:
    """Return the first different words of a column, as many as there is room for."""
    seen: dict[str, None] = {}
    for row in table.rows[:50]:
        if cell := row.cells.get(column, ""):
            seen[cell] = None
    text = ", ".join(seen)
    return text if len(text) <= SAMPLE_LETTERS else f"{text[: SAMPLE_LETTERS - 1]}\u2026"


def _words(table: Table, picks: Picks) -> tuple[WordPicks, ...]:
    found = []
    for field, column in picks.columns.items():
        told = picks.values.get(field, {})
        known = VOCABULARIES.get(field)
        if known is None and not told:
            continue
        counted = dict(words_in(table, column))
        there = tuple(
            WordPick(raw, count, told.get(raw, raw.lower()))
            for raw, count in counted.items()
            if known is not None or raw in told
        )
        others = tuple(WordPick(raw, 0, says) for raw, says in told.items() if raw not in counted)
        plain = field != "result" and known is not None and not told
        too_many = (
            known is not None
            and not counted
            and any(row.cells.get(column, "") for row in table.rows)
        )
        if plain and not too_many:
            continue
        choices = tuple((one, one or "leave it unsaid") for one in known or ())
        if field == "result":
            choices = (*choices, (NOT_SAID, "refuse such rows"))
        found.append(
            WordPicks(field, labels.LABELS[field], column, there, others, choices, too_many)
        )
    return tuple(found)


def _where(table: Table, picks: Picks) -> WherePick:
    column = picks.where_column
    kept = picks.where.get(column)
    words = words_in(table, column) if column else ()
    return WherePick(
        column, tuple((word, count, kept is None or word in kept) for word, count in words)
    )


__all__ = ["MOST_WORDS", "ColumnsPage", "UploadPage", "columns_page", "started_page", "upload_page"]
