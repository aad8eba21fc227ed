"""What a page of the editor sends, read with bounds: sizes first, then kinds, then values."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import Request

from tendline.base import InputError
from tendline.drill.limits import MAX_BYTES

MOST_BYTES = 2 * MAX_BYTES + 20_000
"""Largest body that is read: a script escaped for JSON, and the values of an edit."""
DRAFT_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{2,59}")
VIEWS = ("", "zone", "half", "full")
LEAST_WIDTH, MOST_WIDTH = 260.0, 1400.0
"""Widths for which pictures are drawn [CSS pixels]."""


async def body_of(request: Request, most: int = MOST_BYTES) -> bytes:
    """Return the body of a request; raises ``InputError`` as soon as it is too large."""
    declared = request.headers.get("content-length", "")
    if declared.isdigit() and int(declared) > most:
        raise _too_large(int(declared), most)
    parts: list[bytes] = []
    size = 0
    async for part in request.stream():
        size += len(part)
        if size > most:
            raise _too_large(size, most)
        parts.append(part)
    return b"".join(parts)


def _too_large(size: int, most: int) -> InputError:
    return InputError(
        "that is too large to be a drill", came=f"{size:,} bytes", allowed=f"at most {most:,}",
        hint="Nothing was read. Send one drill, as plain text.",
    )  # fmt: skip


async def values_of(request: Request) -> Mapping[str, object]:
    """Return the JSON object that a request brings; raises ``InputError`` for anything else."""
    body = await body_of(request)
    try:
        found = json.loads(body)
    except (ValueError, RecursionError):
        raise InputError("the page sent something that cannot be read", allowed="JSON") from None
    if not isinstance(found, dict):
        raise InputError("the page sent something that cannot be read", allowed="a JSON object")
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAsked:
    """What the page wants to see of a script, after an edit if there is one."""

    script: str
    edit: Mapping[str, object] | None = None
    chosen: str = ""
    way: str = ""
    view: str = ""
    width: float = 620.0
    time_width: float = 900.0


def look_asked(values: Mapping[str, object]) -> LookAsked:
    """Return what is asked; raises ``InputError`` for values of another kind."""
    edit = values.get("edit")
    if edit is not None and not isinstance(edit, dict):
        raise InputError("an edit has a name and values", came=repr(edit)[:60])
    view = text_in(values, "view", 10)
    return LookAsked(
        script=text_in(values, "script", MAX_BYTES + 1),
        edit=edit,
        chosen=text_in(values, "chosen", 60),
        way=text_in(values, "way", 400),
        view=view if view in VIEWS else "",
        width=width_in(values, "width", 620.0),
        time_width=width_in(values, "time_width", 900.0),
    )


def text_in(values: Mapping[str, object], key: str, most: int) -> str:
    """Return a text of bounded length, empty if it is not there."""
    value = values.get(key, "")
    if not isinstance(value, str):
        raise InputError("this must be text", item=key, came=repr(value)[:60])
    if len(value) > most:
        raise InputError(
            "this is too long",
            item=key,
            came=f"{len(value):,} letters",
            allowed=f"at most {most:,}",
        )
    return value


def width_in(values: Mapping[str, object], key: str, default: float) -> float:
    """Return a width within bounds."""
    value = values.get(key, default)
    if isinstance(value, bool) or not isinstance(value, int | float) or value != value:
        return default
    return min(max(float(value), LEAST_WIDTH), MOST_WIDTH)


def whole_in(values: Mapping[str, object], key: str) -> int:
    """Return a whole number from 0."""
    value = values.get(key)
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < 2**53:
        raise InputError("this must be a whole number", item=key, came=repr(value)[:60])
    return value


def draft_name(text: str) -> str:
    """Return the name of a draft; raises ``InputError`` for anything that is none."""
    if not DRAFT_ID.fullmatch(text):
        raise InputError(
            "a draft has a short name", came=repr(text)[:80], allowed="letters, digits and hyphens"
        )
    return text
