"""One shape for errors on pages and one for data."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import Response
from starlette.exceptions import HTTPException

from tendline.base import NotFoundError, StoreError, TendlineError
from tendline.web.shell.render import data, page


@dataclass(frozen=True, slots=True)
class Failure:
    """What a page shows when something could not be done."""

    title: str
    item: str
    asked: str
    came: str
    allowed: str
    hint: str


def status_of(error: TendlineError) -> int:
    """Return the HTTP status that fits an error of ours."""
    if isinstance(error, NotFoundError):
        return 404
    return 503 if isinstance(error, StoreError) else 422


def failure_of(error: TendlineError) -> Failure:
    """Return what to show of an error of ours."""
    return Failure(
        "That could not be done", error.item, error.asked, error.came, error.allowed, error.hint
    )


def wants_data(request: Request) -> bool:
    """Return whether the caller asked for data rather than for a page."""
    accept = request.headers.get("accept", "")
    return request.url.path.endswith(".json") or (
        "application/json" in accept and "text/html" not in accept
    )


def respond(request: Request, failure: Failure, status: int) -> Response:
    """Return the failure as a page or as data, whichever was asked for."""
    if wants_data(request):
        return data({"error": failure}, status=status)
    return page("shell/failure.html", failure, status=status)


def install(app: FastAPI) -> None:
    """Make the app answer every failure in one shape."""

    @app.exception_handler(TendlineError)
    async def ours(request: Request, error: TendlineError) -> Response:
        return respond(request, failure_of(error), status_of(error))

    @app.exception_handler(HTTPException)
    async def http(request: Request, error: HTTPException) -> Response:
        asked = "there is nothing at this address" if error.status_code == 404 else error.detail
        failure = Failure("Not here", request.url.path, asked, "", "", "Start again from the top.")
        return respond(request, failure, error.status_code)

    @app.exception_handler(RequestValidationError)
    async def invalid(request: Request, error: RequestValidationError) -> Response:
        first = error.errors()[0]
        item = ".".join(str(part) for part in first["loc"][1:])
        came = str(first.get("input", ""))[:80]
        failure = Failure("That could not be read", item, str(first["msg"]), came, "", "")
        return respond(request, failure, 422)
