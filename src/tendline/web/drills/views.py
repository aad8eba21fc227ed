"""Addresses of the drills pages."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, PlainTextResponse, Response

from tendline.draw import drill_card_pdf
from tendline.drill import Drill, format_drill
from tendline.store import Store
from tendline.web.drills.context import drill_page, drills_page, filters_of
from tendline.web.shell.render import data, page
from tendline.work.drill_report import report_of
from tendline.work.drills import all_drills, find_drill

PAPERS = ("A4", "A5", "A6")
router = APIRouter()


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


def _drill(request: Request, name: str) -> Drill:
    return find_drill(all_drills(_store(request)), name)


@router.get("/drills")
def drills(request: Request) -> HTMLResponse:
    """Return the list of drills, filtered as the address says."""
    return page(
        "drills/list.html", drills_page(_store(request), filters_of(dict(request.query_params)))
    )


@router.get("/drills.json")
def drills_data(request: Request) -> Response:
    """Return the list as data."""
    return data(drills_page(_store(request), filters_of(dict(request.query_params))).rows)


@router.get("/drills/{name}.txt")
def drill_script(request: Request, name: str) -> Response:
    """Return a drill's script."""
    return PlainTextResponse(format_drill(_drill(request, name)))


@router.get("/drills/{name}/card.pdf")
def drill_card(request: Request, name: str, paper: str = "A5") -> Response:
    """Return a drill's card as a PDF."""
    drill = _drill(request, name)
    report = report_of(_store(request), drill)
    pdf = drill_card_pdf(drill, report.run, paper=paper if paper in PAPERS else "A5")
    return Response(pdf, media_type="application/pdf")


@router.get("/drills/{name}")
def drill_view(request: Request, name: str) -> HTMLResponse:
    """Return one drill's page."""
    return page("drills/drill.html", drill_page(_store(request), _drill(request, name)))
