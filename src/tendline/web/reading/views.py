"""Addresses of the page: the answer, its data twin, two situations side by side, the handout."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from tendline.base import LengthUnit
from tendline.draw import MapShows, play_handout_pdf, zone_map_svg
from tendline.draw.depth_curve import curve_top
from tendline.draw.handout_pdf import difference_words
from tendline.play import Read
from tendline.store import Store
from tendline.web.reading.context import MapPage, ReadPage, question_of
from tendline.web.reading.forms import ReadForm, read_form
from tendline.web.reading.present import present, sentence
from tendline.web.shell.render import data, environment, page
from tendline.web.shell.urls import with_query
from tendline.work.reading import Question, ask, with_even_numbers, zone_map

router = APIRouter()
FOLLOWING = ("parts", "under", "pictures", "table")
BOARD = ("ice",)
EYES = ("puck_eye", "her_eye")
WHY = ("assumptions",)
FULL = "full"
"""The page asks for the full answer once nobody has moved for a moment."""


@dataclass(frozen=True, slots=True)
class BesidePage:
    """Two situations from the same carrier's place."""

    left: ReadPage
    right: ReadPage
    difference: str
    state: str
    mirrored: str
    other_unit: str
    other_unit_words: str


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
    asked = request.headers.get("x-fragment")
    at_rest = asked != "dragging"
    found = ask(question_of(form), detail=asked == FULL)
    # The ice keeps its window under the finger; at rest it comes as near as everyone allows.
    shown = present(
        form, found, eyes=at_rest, shown=None if at_rest else request.headers.get("x-shown")
    )
    parts = (*FOLLOWING, *(EYES if at_rest else ()), *(WHY if asked == FULL else ()))
    return HTMLResponse(_pieces((*BOARD, *parts), shown))


def _pieces(parts: tuple[str, ...], shown: ReadPage) -> str:
    template = environment().get_template("reading/page.html")
    context = template.new_context({"page": shown})
    return "".join("".join(template.blocks[part](context)) for part in parts)


@router.get("/read/board")
def read_board(request: Request) -> HTMLResponse:
    """Return the play to be read from three metres: few words, large, still to be dragged."""
    form = _form(request)
    return page("reading/board.html", present(form, ask(question_of(form))))


@router.get("/read/beside")
def read_beside(request: Request) -> HTMLResponse:
    """Return the play beside the even rush from the same carrier's place."""
    form = _form(request)
    question = question_of(form)
    reads = (ask(question), ask(with_even_numbers(question)))
    top = max(curve_top(one) for one in reads)
    left, right = (present(form, one, highest=top) for one in reads)
    other = LengthUnit.FEET if form.unit is LengthUnit.METRES else LengthUnit.METRES
    shown = BesidePage(
        left,
        right,
        difference=_difference(question, reads, form.unit),
        state=left.state,
        mirrored=_address(form.mirrored()),
        other_unit=_address(replace(form, unit=other)),
        other_unit_words="In feet" if other is LengthUnit.FEET else "In metres",
    )
    return page("reading/beside.html", shown)


@router.get("/read/handout.pdf")
def read_handout(request: Request) -> Response:
    """Return the two situations as a page to print in black and white."""
    form = _form(request)
    question = question_of(form)
    even = with_even_numbers(question)
    second = ask(even) if even != question else None
    pdf = play_handout_pdf(ask(question), second, unit=form.unit)
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
    return page("reading/map.html", MapPage(_address(form), form.unit.value, *drawn))


def _difference(question: Question, reads: tuple[Read, Read], unit: LengthUnit) -> str:
    if with_even_numbers(question) == question:
        return "Every attacker has a defender already."
    return sentence(difference_words(*reads, unit, second="with even numbers"))


def _address(form: ReadForm) -> str:
    return with_query("", form.pairs).removeprefix("?")
