"""Addresses of the page: the answer, its data twin, two situations side by side, the handout."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from tendline.web.reading.context import ReadPage, question_of
from tendline.web.reading.forms import read_form
from tendline.web.reading.present import present
from tendline.web.shell.render import data, environment, page
from tendline.work.reading import ask, with_even_numbers

router = APIRouter()
PARTS = ("parts", "pictures", "table")


@dataclass(frozen=True, slots=True)
class BesidePage:
    """Two situations from the same carrier's place."""

    left: ReadPage
    right: ReadPage
    state: str


@router.get("/read")
def read_page(request: Request) -> HTMLResponse:
    """Return the page; everything it shows follows from the address."""
    form = read_form(request.query_params.multi_items())
    return page("reading/page.html", present(form, ask(question_of(form))))


@router.get("/read.json")
def read_data(request: Request) -> Response:
    """Return the answer as data."""
    form = read_form(request.query_params.multi_items())
    return data(ask(question_of(form)))


@router.get("/read/answer")
def read_answer(request: Request) -> HTMLResponse:
    """Return the parts of the page that follow the finger."""
    form = read_form(request.query_params.multi_items())
    shown = present(form, ask(question_of(form), detail=False))
    template = environment().get_template("reading/page.html")
    context = template.new_context({"page": shown})
    html = [f"<div data-board-picture>{shown.ice}</div>"]
    html += ["".join(template.blocks[part](context)) for part in PARTS]
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
    from tendline.draw import play_handout_pdf

    form = read_form(request.query_params.multi_items())
    question = question_of(form)
    pdf = play_handout_pdf(ask(question), ask(with_even_numbers(question)))
    return Response(pdf, media_type="application/pdf")


def _two(request: Request) -> tuple[ReadPage, ReadPage]:
    form = read_form(request.query_params.multi_items())
    question = question_of(form)
    return present(form, ask(question)), present(form, ask(with_even_numbers(question)))
