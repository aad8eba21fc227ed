"""Addresses of the drills pages."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from tendline.drill import Drill
from tendline.store import Store
from tendline.web.drills.context import drill_page
from tendline.web.drills.search import FIELDS, clean_query, drills_page, fitting_drills, given_of
from tendline.web.shell import urls
from tendline.web.shell.render import data, page
from tendline.work.drill_export import MEDIA_TYPES, export_booklet, export_drill
from tendline.work.drill_eyes import eyes_at
from tendline.work.drills import all_drills, find_drill

PAPERS = ("A4", "A5", "A6")
router = APIRouter()


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


def _drill(request: Request, name: str) -> Drill:
    return find_drill(all_drills(_store(request)), name)


@router.get("/drills")
def drills(request: Request) -> Response:
    """Return the drills that fit what the address asks; blank fields are taken out of it."""
    query = request.query_params
    if any(name in FIELDS and not value.strip() for name, value in query.items()):
        return RedirectResponse(urls.drills(clean_query(given_of(query))), status_code=303)
    return page("drills/list.html", drills_page(_store(request), query))


@router.get("/drills.json")
def drills_data(request: Request) -> Response:
    """Return the list as data."""
    return data(drills_page(_store(request), request.query_params).rows)


@router.get("/drills/booklet.pdf")
def booklet(request: Request, paper: str = "A5") -> Response:
    """Return the drills that fit the filters as one PDF with contents."""
    store = _store(request)
    found = fitting_drills(store, request.query_params)
    pdf = export_booklet(store, found, paper=paper if paper in PAPERS else "A5")
    return Response(pdf, media_type=MEDIA_TYPES["pdf"])


@router.get("/drills/{name}/eyes")
def drill_eyes(request: Request, name: str, way: int = 0, seconds: float = 0.0) -> HTMLResponse:
    """Return what puck and goaltender see at one moment of the run, as a piece of the page."""
    drill = _drill(request, name)
    return page("drills/eyes.html", eyes_at(_store(request), drill, way=way, seconds=seconds))


@router.get("/drills/{name}/file.{kind}")
def drill_file(
    request: Request, name: str, kind: str, paper: str = "A5", branch: str = ""
) -> Response:
    """Return a drill as a file: card, diagram, film, page that plays offline, script."""
    drill = _drill(request, name)
    size = paper if paper in PAPERS else "A5"
    content = export_drill(_store(request), drill, kind, paper=size, branch=branch)
    headers = {"Content-Disposition": f'inline; filename="{drill.id}.{kind}"'}
    if kind == "html":
        # The page holds its own, stricter policy: nothing may load from anywhere.
        headers["Content-Security-Policy"] = "sandbox allow-scripts"
        headers["Content-Disposition"] = f'attachment; filename="{drill.id}.html"'
    return Response(content, media_type=MEDIA_TYPES[kind], headers=headers)


@router.get("/drills/{name}")
def drill_view(request: Request, name: str) -> HTMLResponse:
    """Return one drill's page."""
    return page("drills/drill.html", drill_page(_store(request), _drill(request, name)))
