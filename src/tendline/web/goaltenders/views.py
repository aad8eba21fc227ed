"""The goaltenders' pages: who they are, their record with honest spans, notes."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from tendline.draw import interval_svg
from tendline.log import Record, records_of
from tendline.store import Store
from tendline.web.shell.render import data, page
from tendline.work.names import names

router = APIRouter()


@dataclass(frozen=True, slots=True)
class PersonRow:
    """One goaltender in the list."""

    id: str
    name: str
    level: str
    teams: str
    games: int


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """The list of goaltenders."""

    people: tuple[PersonRow, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """Goals of shots in one division, with the span drawn."""

    name: str
    counts: str
    span: str
    picture: str


@dataclass(frozen=True, slots=True)
class FilePage:
    """One goaltender's file."""

    id: str
    name: str
    level: str
    hand: str
    stature: str
    games: int
    total: str
    rebounds: str
    situations: tuple[Cell, ...]
    zones: tuple[Cell, ...]
    notes: tuple[tuple[str, str], ...]


def cell(one: Record) -> Cell:
    """Return one division of a record as shown."""
    share = one.scored
    span = f"{100 * share.low:.0f} to {100 * share.high:.0f} in 100"
    words = f"{one.name}: {share.words}"
    picture = interval_svg(share.low, share.value, share.high, words=words)
    return Cell(one.name, f"{one.goals} of {one.shots}", span, picture)


def people_page(store: Store) -> PeoplePage:
    """Return the list of goaltenders."""
    files = store.people.all()
    known = names(store)
    teams = store.club.teams()
    return PeoplePage(
        tuple(
            PersonRow(
                id=one,
                name=known[one],
                level=str(file.get("level", "")),
                teams=", ".join(t.name for t in teams if one in t.goaltenders),
                games=len(store.games.headers(goaltender=one)),
            )
            for one, file in files.items()
        )
    )


def file_page(store: Store, person: str) -> FilePage:
    """Return one goaltender's file; raises ``NotFoundError`` for an unknown one."""
    file = store.people.get(person)
    counted = records_of(store.games.of(person), person)
    stature = file.get("stature")
    return FilePage(
        id=person,
        name=names(store)[person],
        level=str(file.get("level", "")),
        hand=str(file.get("catching_hand", "")),
        stature=f"{float(stature):.2f} m" if isinstance(stature, (int, float)) else "",
        games=counted.games,
        total=counted.total.scored.words,
        rebounds=counted.rebounds_controlled.words,
        situations=tuple(cell(one) for one in counted.situations if one.shots),
        zones=tuple(cell(one) for one in counted.zones if one.shots),
        notes=tuple((one.day.isoformat(), one.text) for one in store.notes.about(person)),
    )


@router.get("/goaltenders")
def people(request: Request) -> HTMLResponse:
    """Return the list of goaltenders."""
    return page("goaltenders/list.html", people_page(request.app.state.store))


@router.get("/goaltenders.json")
def people_data(request: Request) -> Response:
    """Return the list as data."""
    return data(people_page(request.app.state.store))


@router.get("/goaltenders/{person}.json")
def file_data(request: Request, person: str) -> Response:
    """Return a goaltender's file as data."""
    return data(file_page(request.app.state.store, person))


@router.get("/goaltenders/{person}")
def file_view(request: Request, person: str) -> HTMLResponse:
    """Return a goaltender's file."""
    return page("goaltenders/file.html", file_page(request.app.state.store, person))
