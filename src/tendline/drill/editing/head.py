"""Edits of the header: each key takes the words that stand behind it in the script."""

from __future__ import annotations

from dataclasses import MISSING, fields, replace
from typing import Any

from tendline.base import InputError
from tendline.drill.editing.request import Asked, Edited, names_in, refused
from tendline.drill.header import DRILL_ID, HeaderKey, find_key
from tendline.drill.mirror import mirror_drill
from tendline.drill.phrases import Wrong
from tendline.drill.types import Drill


def set_header(drill: Drill, asked: Asked) -> Edited:
    """Change a key of the header; ``title`` and ``number`` stand on the first line.

    A key that may stand on several lines takes them in ``lines``. Empty words take the key out.
    """
    word, value = asked.text("key"), asked.text("value", "")
    if word == "title":
        if not value:
            raise InputError("a drill has a title", came="nothing", allowed="a few words")
        return Edited(replace(drill, title=value), f"Called: {value}.")
    if word == "number":
        return Edited(replace(drill, id=_number(value)), f"Its number is {value}.")
    try:
        key = find_key(word)
        made = _read(drill, key, value, asked)
    except Wrong as wrong:
        raise refused(wrong) from None
    changed: dict[str, Any] = {key.field: made}
    return Edited(replace(drill, **changed), f"Changed: {key.key}.")


def _read(drill: Drill, key: HeaderKey, value: str, asked: Asked) -> object:
    names = names_in(drill)
    if key.many:
        lines = [" ".join(one.split()) for one in asked.texts("lines")]
        return tuple(key.read(one, names) for one in lines if one)
    if value:
        return key.read(value, names)
    if key.needed:
        raise InputError("this must be said", item=key.key, allowed=f"such as '{key.example}'")
    return _default(key.field)


def _default(name: str) -> object:
    found = next(one for one in fields(Drill) if one.name == name)
    return None if found.default is MISSING else found.default


def _number(value: str) -> str:
    if not DRILL_ID.fullmatch(value):
        raise InputError(
            "the number of the drill is not one", came=f"'{value}'",
            allowed="a letter, then letters, digits, '-', 20 at most",
        )  # fmt: skip
    return value


def mirror(drill: Drill, asked: Asked) -> Edited:
    """Exchange left and right in the whole drill."""
    return Edited(mirror_drill(drill), "Left and right have changed places.")


def tidy(drill: Drill, asked: Asked) -> Edited:
    """Change nothing; the script is written in its one form."""
    return Edited(drill, "Written tidily.")
