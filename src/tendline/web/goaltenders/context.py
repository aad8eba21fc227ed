"""What the goaltenders' pages show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tendline.base import Level
from tendline.draw import interval_svg
from tendline.log import Record, records_of
from tendline.people import FileView, Reader, view
from tendline.store import Store
from tendline.work.names import names


@dataclass(frozen=True, slots=True)
class PersonRow:
    """One goaltender in the list."""

    id: str
    name: str
    teams: str
    games: int


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """The list of goaltenders, and what a new one needs."""

    people: tuple[PersonRow, ...]
    levels: tuple[str, ...]
    teams: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """Goals of shots in one division, with the span drawn."""

    name: str
    counts: str
    span: str
    picture: str


@dataclass(frozen=True, slots=True)
class FilePage:
    """One goaltender's file as one reader sees it; records only for coach and goaltender."""

    id: str
    name: str
    reader: str
    readers: tuple[str, ...]
    file: FileView | None
    games: int
    total: str
    rebounds: str
    situations: tuple[Cell, ...]
    zones: tuple[Cell, ...]
    notes: tuple[tuple[str, str], ...]


def people_page(store: Store) -> PeoplePage:
    """Return the list of goaltenders."""
    teams = store.club.teams()
    rows = tuple(
        PersonRow(
            id=one,
            name=name,
            teams=", ".join(t.name for t in teams if one in t.goaltenders),
            games=len(store.games.headers(goaltender=one)),
        )
        for one, name in names(store).items()
    )
    return PeoplePage(rows, tuple(one.value for one in Level), tuple(one.name for one in teams))


def file_page(store: Store, person: str, reader: Reader, day: date) -> FilePage:
    """Return one goaltender's file; raises ``NotFoundError`` for an unknown one."""
    store.people.get(person)
    known = names(store)
    others = [word for one, name in known.items() if one != person for word in (one, name)]
    counted = records_of(store.games.of(person), person)
    own = reader in (Reader.COACH, Reader.GOALTENDER)
    notes = store.notes.about(person) if reader is Reader.COACH else ()
    return FilePage(
        id=person,
        name=known[person],
        reader=reader.value,
        readers=tuple(one.value for one in Reader),
        file=view(store.people.file(person), reader, day, others=others),
        games=counted.games,
        total=counted.total.scored.words,
        rebounds=counted.rebounds_controlled.words,
        situations=tuple(cell(one) for one in counted.situations if one.shots) if own else (),
        zones=tuple(cell(one) for one in counted.zones if one.shots) if own else (),
        notes=tuple((one.day.isoformat(), one.text) for one in notes),
    )


def cell(one: Record) -> Cell:
    """Return one division of a record as shown."""
    share = one.scored
    span = f"{100 * share.low:.0f} to {100 * share.high:.0f} in 100"
    words = f"{one.name}: {share.words}"
    picture = interval_svg(share.low, share.value, share.high, words=words)
    return Cell(one.name, f"{one.goals} of {one.shots}", span, picture)
