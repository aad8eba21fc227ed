"""Static files with a version in their address, so that browsers may keep them for ever."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from tendline.draw import css_tokens, drill_player_script, font_files

CONTENT_TYPES = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
    "woff2": "font/woff2",
    "ttf": "font/ttf",
}


@cache
def static_files() -> dict[str, bytes]:
    """Return every static file by name: the web's own, the shared tokens and the fonts."""
    found: dict[str, bytes] = {}
    _collect(files("tendline.web").joinpath("static"), "", found)
    found["tokens.css"] = css_tokens().encode()
    found["drill-player.js"] = drill_player_script().encode()
    found.update(font_files())
    return found


def _collect(folder: Traversable, prefix: str, found: dict[str, bytes]) -> None:
    for one in folder.iterdir():
        if one.is_dir():
            _collect(one, f"{prefix}{one.name}/", found)
        elif one.name.rpartition(".")[2] in CONTENT_TYPES:
            found[f"{prefix}{one.name}"] = one.read_bytes()


@cache
def version() -> str:
    """Return a short fingerprint of all static files."""
    digest = hashlib.sha256()
    for name, content in sorted(static_files().items()):
        digest.update(name.encode() + content)
    return digest.hexdigest()[:12]


def static_url(name: str) -> str:
    """Return the address of a static file; raises ``KeyError`` if there is none of that name."""
    if name not in static_files():
        raise KeyError(f"no static file {name!r}")
    return f"/static/{version()}/{name}"
