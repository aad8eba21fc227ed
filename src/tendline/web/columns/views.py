"""Addresses of the columns page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response
from starlette.concurrency import run_in_threadpool

from tendline.base import InputError, Level, NotFoundError, TendlineError
from tendline.log import Table, mapping_to_dict, read_table
from tendline.store import Store
from tendline.web.columns.context import ColumnsPage, columns_page, started_page, upload_page
from tendline.web.columns.forms import Sent, picks_in, sent_of
from tendline.web.games.context import import_page
from tendline.web.shell.render import data, page
from tendline.work.imports import import_games, known_mappings
from tendline.work.mapping_desk import Picks, keep_picks, refused_table, try_picks

router = APIRouter()
PICKS = "columns/picks.html"


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


@router.get("/games/columns")
def upload(request: Request) -> HTMLResponse:
    """Return the page on which a table is given."""
    return page("columns/upload.html", upload_page(_store(request)))


@router.get("/games/columns/kept.json")
def kept(request: Request, name: str) -> Response:
    """Return kept columns as data: the mapping file that the command line takes."""
    found = next((one for one in known_mappings(_store(request)) if one.name == name), None)
    if found is None:
        raise NotFoundError("no columns are kept under that name", came=f"'{name[:60]}'")
    return data(mapping_to_dict(found))


@router.post("/games/columns")
async def start(request: Request) -> HTMLResponse:
    """Read a table and show our first guess at its columns; nothing is kept."""
    sent = await sent_of(request)
    return page(PICKS, await run_in_threadpool(started_page, _store(request), sent.text))


@router.post("/games/columns/look")
async def look(request: Request) -> HTMLResponse:
    """Show what the picks make of the table; nothing is kept.

    The page's own script holds the table already, so it is not sent back to it.
    """
    asked = await _Asked.of(request)
    shown = await run_in_threadpool(asked.shown)
    return page(PICKS, replace(shown, text="") if "x-fragment" in request.headers else shown)


@router.post("/games/columns/refused.csv")
async def refused(request: Request) -> Response:
    """Return the rows that cannot be used, each with its reason, as a table to mend."""
    asked = await _Asked.of(request)
    trial = await run_in_threadpool(try_picks, asked.store, asked.table, asked.picks)
    return Response(
        refused_table(asked.table, trial.refused), media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="refused-rows.csv"'},
    )  # fmt: skip


@router.post("/games/columns/keep")
async def keep(request: Request) -> HTMLResponse:
    """Keep the picks under their name."""
    asked = await _Asked.of(request)
    try:
        found = await run_in_threadpool(asked.keep)
    except InputError as fault:
        return page(PICKS, await run_in_threadpool(asked.shown, fault.message), status=422)
    said = f"Kept as '{found}'. The next file of its kind is read with it."
    return page(PICKS, await run_in_threadpool(asked.shown, said))


@router.post("/games/columns/import")
async def bring_in(request: Request) -> HTMLResponse:
    """Keep the picks under their name and import the table with them, all or none."""
    asked = await _Asked.of(request)
    try:
        name = await run_in_threadpool(asked.keep)
    except InputError as fault:
        return page(PICKS, await run_in_threadpool(asked.shown, fault.message), status=422)
    try:
        words = await run_in_threadpool(asked.bring_in, name)
    except TendlineError as fault:
        said = f"The columns are kept as '{name}', nothing was imported: {fault.message}"
        return page(PICKS, await run_in_threadpool(asked.shown, said), status=422)
    return page("games/import.html", import_page(asked.store, words))


class _Asked:
    """What the page sent: the table, the picks, and how to import."""

    def __init__(self, store: Store, sent: Sent) -> None:
        self.store = store
        self.sent = sent
        self.table: Table = read_table(sent.text)
        self.picks: Picks = picks_in(sent, self.table)

    @classmethod
    async def of(cls, request: Request) -> _Asked:
        return await run_in_threadpool(cls, _store(request), await sent_of(request))

    def shown(self, words: str = "") -> ColumnsPage:
        said = self.sent.said
        return columns_page(
            self.store, self.sent.text, self.table, self.picks, said=words,
            replacing=said("replace") == "yes", day=said("day"), level=said("level"),
            goaltender=said("only"), person=said("person"),
        )  # fmt: skip

    def keep(self) -> str:
        replacing = self.sent.said("replace") == "yes"
        return keep_picks(self.store, self.table, self.picks, replacing=replacing).name

    def bring_in(self, mapping: str) -> str:
        only, person = self.sent.said("only"), self.sent.said("person")
        try:
            day, level = date.fromisoformat(self.sent.said("day")), Level(self.sent.said("level"))
        except ValueError as fault:
            raise InputError("a day and an age are needed", came=str(fault)) from fault
        done = import_games(
            self.store, self.sent.text.encode(), day=day, mapping=mapping, level=level,
            goaltenders=(only,) if only else (), people={only: person} if person else None,
            leave_out_bad_rows=self.sent.said("leave_out") == "yes",
        )  # fmt: skip
        return done.words
