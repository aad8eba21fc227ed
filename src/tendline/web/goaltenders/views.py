"""Addresses of the goaltenders' pages."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from tendline.base import InputError, Level, Side
from tendline.draw import timed_test_sheet_pdf
from tendline.people import Reader
from tendline.store import Store, erase_person, export_person
from tendline.web.goaltenders.context import file_page, people_page
from tendline.web.shell import urls
from tendline.web.shell.render import data, page
from tendline.work.day import today
from tendline.work.goaltenders import save_goaltender

router = APIRouter()
Text = Annotated[str, Form()]


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


@router.get("/goaltenders")
def people(request: Request) -> HTMLResponse:
    """Return the list of goaltenders."""
    return page("goaltenders/list.html", people_page(_store(request)))


@router.get("/goaltenders.json")
def people_data(request: Request) -> Response:
    """Return the list as data."""
    return data(people_page(_store(request)))


@router.post("/goaltenders")
def add(
    request: Request,
    short: Text,
    name: Text = "",
    born: Text = "",
    catches: Text = Side.LEFT.value,
    level: Text = "",
    stature: Text = "",
    team: Text = "",
) -> Response:
    """Add a goaltender, or change what is given of her."""
    store = _store(request)
    save_goaltender(
        store, short.strip(), day=today(store), name=name.strip(),
        level=Level(level) if level else None, catching_hand=Side(catches),
        stature=_number(stature, "height"), birth_year=_year(born), team=team.strip(),
    )  # fmt: skip
    return RedirectResponse(urls.goaltender(short.strip()), status_code=303)


@router.get("/goaltenders/{person}.json")
def export(request: Request, person: str) -> Response:
    """Return everything kept about one person, to take away."""
    name = {"Content-Disposition": f'attachment; filename="{person}.json"'}
    return JSONResponse(export_person(_store(request), person), headers=name)


@router.get("/goaltenders/{person}/tests.pdf")
def tests(request: Request, person: str) -> Response:
    """Return the sheet of timed tests, without a name on it."""
    _store(request).people.get(person)
    return Response(timed_test_sheet_pdf(), media_type="application/pdf")


@router.get("/goaltenders/{person}")
def file_view(request: Request, person: str, reader: str = Reader.COACH.value) -> HTMLResponse:
    """Return a goaltender's file as one reader may see it."""
    chosen = Reader(reader) if reader in {one.value for one in Reader} else Reader.PARENT
    store = _store(request)
    return page("goaltenders/file.html", file_page(store, person, chosen, today(store)))


@router.post("/goaltenders/{person}/erase")
def erase(request: Request, person: str, confirm: Text) -> Response:
    """Erase a person for good; her short name must be typed to confirm."""
    if confirm.strip() != person:
        raise InputError(
            "erasing cannot be undone, so her short name must be typed", came=f"'{confirm}'",
            allowed=f"'{person}'", hint="Take her data out first if it may be needed.",
        )  # fmt: skip
    done = erase_person(_store(request), person)
    return page("goaltenders/erased.html", done)


def _number(text: str, label: str) -> float | None:
    if not text.strip():
        return None
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise InputError(f"the {label} is a number", came=f"'{text}'") from None


def _year(text: str) -> int | None:
    year = _number(text, "year of birth")
    return None if year is None else int(year)
