"""Addresses of tonight's page and its sheet."""

from __future__ import annotations

from fastapi import APIRouter, Form, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from tendline.store import Refusal, Store
from tendline.web.shell.render import data, page
from tendline.web.shell.urls import with_query
from tendline.web.tonight.context import evening_of, form_of, pairs_of, tonight_page
from tendline.work.demo import TODAY
from tendline.work.games import new_id
from tendline.work.tonight import Tonight, keep, sheet_pdf, tonight

router = APIRouter()
PAPERS = ("A4", "Letter")


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


def _made(request: Request) -> Tonight:
    return tonight(_store(request), evening_of(request.query_params.multi_items()))


@router.get("/tonight")
def tonight_view(request: Request) -> HTMLResponse:
    """Return tonight's answer; without a club or a day, what is needed for one."""
    store = _store(request)
    evening = evening_of(request.query_params.multi_items())
    needs_day = evening.day is None and not store.club.get().is_demo
    if not store.people.ids() or needs_day:
        known = bool(store.people.ids())
        form = form_of(store, evening) if known else None
        return page("tonight/empty.html", form)
    return page("tonight/page.html", tonight_page(store, tonight(store, evening)))


@router.get("/tonight.json")
def tonight_data(request: Request) -> Response:
    """Return tonight's answer as data."""
    made = _made(request)
    return data({"answer": made.answer, "needs": made.needs, "sheet": made.sheet})


@router.get("/tonight/sheet.pdf")
def tonight_sheet(
    request: Request, paper: str = "A4", large: bool = False, back: bool = False
) -> Response:
    """Return the sheet as a PDF."""
    size = paper if paper in PAPERS else "A4"
    pdf = sheet_pdf(
        _store(request), _made(request), paper=size, large_print=large, diagrams_on_back=back
    )
    return Response(pdf, media_type="application/pdf")


@router.post("/tonight/keep")
def tonight_keep(request: Request) -> Response:
    """Save the sheet as tonight's practice."""
    keep(_store(request), _made(request))
    return RedirectResponse("/season", status_code=303)


@router.post("/tonight/refuse")
def tonight_refuse(request: Request, theme: str = Form(), reason: str = Form("")) -> Response:
    """Remember that the coach does not want a theme for this goaltender, and plan again."""
    store = _store(request)
    made = _made(request)
    day = made.evening.day or TODAY
    refusal = Refusal(
        id=new_id("refusal"), day=day, goaltender=made.focus, theme=theme, reason=reason
    )
    store.choices.refuse(refusal)
    return RedirectResponse(with_query("/tonight", pairs_of(made.evening)), status_code=303)
