"""Addresses of the page: the answer, its data twin, two situations side by side, the handout."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from tendline.draw import MapShows, play_handout_pdf, zone_map_svg
from tendline.store import Store
from tendline.web.reading.context import MapPage, ReadPage, question_of
from tendline.web.reading.forms import ReadForm, read_form
from tendline.web.reading.present import present
from tendline.web.shell.render import data, environment, page
from tendline.web.shell.urls import with_query
from tendline.work.reading import ask, with_even_numbers, zone_map

router = APIRouter()
FOLLOWING = ("parts", "under", "pictures", "table")
EYES = ("puck_eye", "her_eye")


@dataclass(frozen=True, slots=True)
class BesidePage:
    """Two situations from the same carrier's place."""

    left: ReadPage
    right: ReadPage
    state: str


def _form(request: Request) -> ReadForm:
    store: Store = request.app.state.store
    return read_form(request.query_params.multi_items(), store.club.get().unit)


@router.get("/read")
def read_page(request: Request) -> HTMLResponse:
    """Return the page; everything it shows follows from the address."""
    form = _form(request)
    return page("reading/page.html", present(form, ask(question_of(form))))


@router.get("/read.json")
def read_data(request: Request) -> Response:
    """Return the answer as data."""
    form = _form(request)
    return data(ask(question_of(form)))


@router.get("/read/answer")
def read_answer(request: Request) -> HTMLResponse:
    """Return the parts of the page that follow the finger; the slower pictures only at rest."""
    form = _form(request)
    at_rest = request.headers.get("x-fragment") != "dragging"
    # While dragging, the search starts from the answer before; at rest it starts afresh, so that
    # the same address always gives the same answer.
    before = None if at_rest else getattr(request.app.state, "last_read", None)
    found = ask(question_of(form), detail=False, warm=before)
    request.app.state.last_read = found
    shown = present(form, found, eyes=at_rest)
    parts = (*FOLLOWING, *EYES) if at_rest else FOLLOWING
    template = environment().get_template("reading/page.html")
    context = template.new_context({"page": shown})
    html = [f"<div data-board-picture>{shown.ice}</div>"]
    html += ["".join(template.blocks[part](context)) for part in parts]
    return HTMLResponse("".join(html))


@router.get("/read/beside")
def read_beside(request: Request) -> HTMLResponse:
    """Return the play beside the even rush from the same carrier's place."""
    left, right = _two(request)
    shown = BesidePage(left, right, left.state)
    return page("reading/beside.html", shown)


@router.get("/read/handout.pdf")
def read_handout(request: Request) -> Response:
    """Return the two situations as a page to print in black and white."""
    form = _form(request)
    question = question_of(form)
    pdf = play_handout_pdf(ask(question), ask(with_even_numbers(question)))
    return Response(pdf, media_type="application/pdf")


@router.get("/read/map")
def read_map(request: Request) -> HTMLResponse:
    """Return how far out to stand, and where the threat is, for the puck anywhere in the zone."""
    form = _form(request)
    question = question_of(form)
    found = zone_map(question)
    drawn = [
        zone_map_svg(found, question.situation, shows=shows, unit=form.unit)
        for shows in (MapShows.DEPTH, MapShows.THREAT)
    ]
    state = with_query("", form.pairs).removeprefix("?")
    return page("reading/map.html", MapPage(state, *drawn))


def _two(request: Request) -> tuple[ReadPage, ReadPage]:
    form = _form(request)
    question = question_of(form)
    return present(form, ask(question)), present(form, ask(with_even_numbers(question)))
