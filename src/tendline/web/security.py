"""What guards a server that runs on the coach's own machine.

An origin guard against requests forged by other sites, a content policy that lets nothing load
from elsewhere, and a check of the host name against DNS rebinding.
"""

from __future__ import annotations

from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

CONTENT_POLICY = (
    "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "font-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; "
    "form-action 'self'"
)
UNSAFE_METHODS = frozenset({"POST", "PUT", "PATCH", "DELETE"})


def comes_from_here(headers: Headers) -> bool:
    """Return whether an unsafe request was sent by one of our own pages (or by no page)."""
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site in ("same-origin", "none")
    origin = headers.get("origin")
    return origin is None or urlsplit(origin).netloc == headers.get("host", "")


class OriginGuard:
    """Refuse unsafe requests that another site's page sent."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        unsafe = scope["type"] == "http" and scope["method"] in UNSAFE_METHODS
        if unsafe and not comes_from_here(Headers(scope=scope)):
            refusal = PlainTextResponse("This request came from another site.", status_code=403)
            await refusal(scope, receive, send)
            return
        await self.app(scope, receive, send)


class ContentPolicy:
    """Add the headers that keep every page to its own server."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                headers.setdefault("Content-Security-Policy", CONTENT_POLICY)
                headers.setdefault("X-Content-Type-Options", "nosniff")
                headers.setdefault("Referrer-Policy", "same-origin")
            await send(message)

        await self.app(scope, receive, send_with_headers)
