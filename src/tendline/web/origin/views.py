"""Addresses of the origin pages."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from tendline.base import InputError, unknown_name
from tendline.store import Store
from tendline.web.origin.context import FigurePage, origin_page
from tendline.web.reading.context import question_of
from tendline.web.reading.forms import read_form
from tendline.web.shell.render import data, environment, page
from tendline.web.shell.urls import with_query
from tendline.work.origin import constant_figure, read_figure, registry

router = APIRouter()


@router.get("/origin")
def origins(request: Request, only: str = "") -> HTMLResponse:
    """Return the page that lists every constant with its origin."""
    return page("origin/page.html", origin_page(_store(request).choices.settings(), only))


@router.get("/origin.json")
def origins_data(request: Request, only: str = "") -> Response:
    """Return every constant as data."""
    return data(origin_page(_store(request).choices.settings(), only))


@router.get("/origin/figure")
def figure(request: Request, page: str, figure: str) -> HTMLResponse:
    """Return where one figure of a page comes from."""
    rest = [(k, v) for k, v in request.query_params.multi_items() if k not in ("page", "figure")]
    if page != "read":
        raise unknown_name("page with figures", page, ["read"])
    found = read_figure(question_of(read_form(rest)), figure)
    return _shown(request, FigurePage(found, with_query("/read", rest)))


@router.get("/origin/constant/{key}")
def constant(request: Request, key: str) -> HTMLResponse:
    """Return where one constant comes from."""
    known = registry()
    if key not in known:
        raise unknown_name("constant", key, known)
    found = constant_figure(key, _store(request).choices.settings())
    return _shown(request, FigurePage(found, "/origin"))


@router.post("/origin/constant/{key}")
def change(request: Request, key: str, value: Annotated[str, Form()] = "") -> Response:
    """Set a constant to the coach's own value; an empty value goes back to the default."""
    known = registry()
    if key not in known:
        raise unknown_name("setting", key, known)
    one = known[key]
    if not one.is_setting:
        raise InputError("this figure is fixed", item=one.label, hint=one.origin)
    choices = _store(request).choices
    if not value.strip():
        choices.clear(key)
    else:
        choices.settings().with_value(key, _number(value, one.label)).value_of(one)
        choices.set(key, _number(value, one.label))
    return RedirectResponse(f"/origin/constant/{key}", status_code=303)


def _number(value: str, label: str) -> float:
    try:
        return float(value.replace(",", "."))
    except ValueError:
        raise InputError("a number is needed", came=f"'{value}'", item=label) from None


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


def _shown(request: Request, shown: FigurePage) -> HTMLResponse:
    if request.headers.get("x-fragment"):
        template = environment().get_template("origin/figure.html")
        context = template.new_context({"page": shown})
        return HTMLResponse("".join(template.blocks["note"](context)))
    return page("origin/figure.html", shown)
