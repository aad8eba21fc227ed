"""Addresses of the games pages."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any

from fastapi import APIRouter, Body, Form, Request, UploadFile
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from tendline.base import InputError, ScoringSituation, ShotResult, unknown_name
from tendline.draw import shot_chart_pdf
from tendline.ice import rink
from tendline.log import records
from tendline.store import Store
from tendline.web.games.context import game_page, games_page, import_page, log_page
from tendline.web.shell import urls
from tendline.web.shell.render import data, environment, page
from tendline.work.games import (
    add_documents,
    begin_game,
    change_goaltender,
    log_shot,
    start_period,
    undo_last,
)
from tendline.work.imports import import_games, known_mappings

router = APIRouter()
LARGEST_FILE = 50_000_000
Text = Annotated[str, Form()]


def store_of(request: Request) -> Store:
    """Return the store that the app was made over."""
    store: Store = request.app.state.store
    return store


def seen(address: str) -> Response:
    """Return a redirect to a page after something was done."""
    return RedirectResponse(address, status_code=303)


@router.get("/games")
def games_list(request: Request) -> HTMLResponse:
    """Return the list of games."""
    return page("games/list.html", games_page(store_of(request)))


@router.get("/games.json")
def games_data(request: Request) -> Response:
    """Return the list as data."""
    return data(games_page(store_of(request)).games)


@router.post("/games")
def start_game(
    request: Request, team: Text, opponent: Text, goaltender: Text, day: Annotated[date, Form()]
) -> Response:
    """Start a game and go to its log."""
    name = begin_game(
        store_of(request), day=day, team=team, opponent=opponent, goaltender=goaltender
    )
    return seen(urls.game(name, "log"))


@router.get("/games/chart.pdf")
def paper_chart(request: Request, paper: str = "A4") -> Response:
    """Return the paper chart with the same fields as the app."""
    size = paper if paper in ("A4", "Letter") else "A4"
    club = store_of(request).club.get()
    pdf = shot_chart_pdf(paper=size, rink=rink(club.rule_set))
    return Response(pdf, media_type="application/pdf")


@router.get("/games/import")
def import_form(request: Request) -> HTMLResponse:
    """Return the page on which games are brought in."""
    return page("games/import.html", import_page(store_of(request)))


@router.post("/games/import")
def import_file(
    request: Request,
    file: UploadFile,
    day: Annotated[date, Form()],
    mapping: Annotated[str, Form()] = "",
    goaltender: Annotated[str, Form()] = "",
    leave_out: Annotated[bool, Form()] = False,
) -> HTMLResponse:
    """Bring in the games of a file, all or none."""
    store = store_of(request)
    known = {one.name for one in known_mappings(store)}
    if mapping and mapping not in known:
        raise unknown_name("mapping", mapping, known)
    content = file.file.read(LARGEST_FILE + 1)
    if len(content) > LARGEST_FILE:
        raise InputError(
            "the file is too large", came="more than 50 MB", allowed="up to 50 MB",
            item=file.filename or "file",
        )  # fmt: skip
    wanted = (goaltender.strip(),) if goaltender.strip() else ()
    done = import_games(
        store, content, day=day, mapping=mapping, goaltenders=wanted, leave_out_bad_rows=leave_out
    )
    return page("games/import.html", import_page(store, done.words))


@router.get("/games/{game}.json")
def game_data(request: Request, game: str) -> Response:
    """Return a game as data."""
    return data(store_of(request).games.game(game))


@router.get("/games/{game}")
def game_view(request: Request, game: str) -> HTMLResponse:
    """Return one game's page."""
    store = store_of(request)
    found = store.games.game(game)
    return page("games/game.html", game_page(store, found, records(found.shots)))


@router.get("/games/{game}/log")
def game_log(request: Request, game: str) -> HTMLResponse:
    """Return the page for logging."""
    store = store_of(request)
    return page("games/log.html", log_page(store, store.games.game(game)))


@router.post("/games/{game}/events")
def add_events(
    request: Request, game: str, events: Annotated[list[dict[str, Any]], Body(embed=True)]
) -> HTMLResponse:
    """Save what a device logged; answers only once it is on disk."""
    store = store_of(request)
    now = add_documents(store, game, events)
    template = environment().get_template("games/log.html")
    context = template.new_context({"page": log_page(store, now)})
    return HTMLResponse("".join(template.blocks["parts"](context)))


@router.post("/games/{game}/shots")
def add_shot(
    request: Request,
    game: str,
    x: Annotated[float, Form()],
    y: Annotated[float, Form()],
    result: Text,
    situation: Annotated[str, Form()] = "",
) -> Response:
    """Log a shot given in words."""
    log_shot(
        store_of(request), game, x=x, y=y, result=ShotResult(result),
        situation=ScoringSituation(situation) if situation else None,
    )  # fmt: skip
    return seen(urls.game(game, "log"))


@router.post("/games/{game}/undo")
def undo(request: Request, game: str) -> Response:
    """Take back the last entry."""
    undo_last(store_of(request), game)
    return seen(urls.game(game, "log"))


@router.post("/games/{game}/period")
def next_period(request: Request, game: str) -> Response:
    """Start the next period."""
    start_period(store_of(request), game)
    return seen(urls.game(game, "log"))


@router.post("/games/{game}/goaltender")
def goaltender_in(request: Request, game: str, person: Text) -> Response:
    """Put another goaltender in."""
    change_goaltender(store_of(request), game, person)
    return seen(urls.game(game, "log"))
