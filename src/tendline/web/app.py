"""Put the pages together into one app over one store."""

from __future__ import annotations

import threading
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import FastAPI
from fastapi.responses import RedirectResponse, Response
from starlette.exceptions import HTTPException
from starlette.middleware.trustedhost import TrustedHostMiddleware

from tendline import __version__
from tendline.shot import warm_up
from tendline.store import Store
from tendline.web import (
    columns,
    drills,
    editor,
    games,
    goaltenders,
    origin,
    reading,
    season,
    tonight,
)
from tendline.web.security import ContentPolicy, OriginGuard
from tendline.web.shell import failures
from tendline.web.shell.static import CONTENT_TYPES, static_files, version

OWN_HOSTS = ("127.0.0.1", "localhost", "[::1]", "testserver")
ONE_YEAR = "public, max-age=31536000, immutable"


@asynccontextmanager
async def lifespan(app: FastAPI) -> AsyncIterator[None]:
    """Load the compiled kernels while the coach opens the first page."""
    threading.Thread(target=warm_up, name="kernels", daemon=True).start()
    yield


def create_app(store: Store, *, hosts: tuple[str, ...] = OWN_HOSTS) -> FastAPI:
    """Return the app; ``hosts`` are the names under which it answers (others are refused)."""
    app = FastAPI(
        title="tendline", version=__version__, docs_url=None, redoc_url=None, lifespan=lifespan
    )
    app.state.store = store
    app.add_middleware(TrustedHostMiddleware, allowed_hosts=list(hosts))
    app.add_middleware(OriginGuard)
    app.add_middleware(ContentPolicy)
    failures.install(app)
    for feature in (tonight, reading, editor, drills, columns, games, goaltenders, season, origin):
        app.include_router(feature.router)

    @app.get("/", include_in_schema=False)
    def top() -> Response:
        return RedirectResponse("/tonight", status_code=303)

    @app.get("/favicon.ico", include_in_schema=False)
    def icon() -> Response:
        return RedirectResponse(f"/static/{version()}/mark.svg", status_code=303)

    @app.get("/static/{stamp}/{name:path}", include_in_schema=False)
    def static(stamp: str, name: str) -> Response:
        content = static_files().get(name)
        if content is None:
            raise HTTPException(404, f"no file {name}")
        keep = ONE_YEAR if stamp == version() else "no-cache"
        kind = CONTENT_TYPES[name.rpartition(".")[2]]
        return Response(content, media_type=kind, headers={"Cache-Control": keep})

    return app
