"""Turn a page's typed context into HTML, or its data twin into JSON."""

from __future__ import annotations

import dataclasses
import math
import re
from collections.abc import Mapping
from enum import Enum
from functools import cache
from typing import Any

from fastapi.responses import HTMLResponse, JSONResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from tendline.web.shell import urls
from tendline.web.shell.static import static_url


@cache
def environment() -> Environment:
    """Return the template environment: escaped, strict about names that do not exist."""
    env = Environment(
        loader=PackageLoader("tendline", "web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    env.globals.update(urls=urls, static_url=static_url, places=urls.PLACES)
    env.filters["svg"] = drawing
    env.filters["numbers"] = numbers
    env.filters["piece"] = piece
    return env


def drawing(svg: str) -> Markup:
    """Mark a picture made by ``tendline.draw`` as safe: draw escapes every text in it."""
    if not svg.lstrip().startswith("<svg"):
        raise ValueError("only pictures made by tendline.draw may go into a page unescaped")
    return Markup(svg)


def piece(html: str) -> Markup:
    """Mark a piece of a page made by ``tendline.draw`` as safe: draw escapes every text in it."""
    return drawing(html)


_ONE = r"\d+(?:[.,]\d+)?"
NUMBER = re.compile(
    rf"(?<![\w.])(-?{_ONE}(?: to {_ONE})?(?:\s(?:m|ft|s|m/s|of \d+|(?:goals? )?in 100))?)(?![\w-])"
)


def numbers(text: str) -> list[tuple[str, bool]]:
    """Return a sentence cut into parts, each with whether it is a number (with its unit).

    >>> numbers("Stand 0.9 m out.")
    [('Stand ', False), ('0.9 m', True), (' out.', False)]
    >>> numbers("Pass to F3, 3 goals in 100.")
    [('Pass to F3, ', False), ('3 goals in 100', True), ('.', False)]
    """
    parts = NUMBER.split(text)
    return [(part, index % 2 == 1) for index, part in enumerate(parts) if part]


def page(template: str, context: object, *, status: int = 200, **more: object) -> HTMLResponse:
    """Return a page; the template sees the context's fields under ``page``."""
    html = environment().get_template(template).render(page=context, **more)
    return HTMLResponse(html, status_code=status)


def fragment(template: str, block: str, context: object) -> str:
    """Return one block of a template as HTML."""
    loaded = environment().get_template(template)
    values = loaded.new_context({"page": context})
    return "".join(loaded.blocks[block](values))


def plain(value: Any) -> Any:
    """Return dataclasses, enums, tuples and arrays as what JSON can hold; NaN becomes null."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, Enum):
        return plain(value.value)
    if isinstance(value, Mapping):
        return {str(k): plain(v) for k, v in value.items()}
    if hasattr(value, "tolist"):
        return plain(value.tolist())
    if isinstance(value, (list, tuple, set, frozenset)):
        return [plain(one) for one in value]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if value is None or isinstance(value, (str, int, bool)):
        return value
    return str(value)


def data(context: object, *, status: int = 200) -> JSONResponse:
    """Return a page's data twin."""
    return JSONResponse(plain(context), status_code=status)
