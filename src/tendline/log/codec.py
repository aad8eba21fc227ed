"""Events to plain dictionaries and back, for storing, sending and exporting.

What a dictionary holds: ``kind`` (the event's name), then its fields; a field left out keeps its
default. Unknown kinds, unknown fields and wrong types are refused with one clear message.
"""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from functools import cache
from typing import Any, Union, cast, get_args, get_origin, get_type_hints

from tendline.base import InputError, unknown_name
from tendline.log.events import (
    ChanceSeen,
    Context,
    GameEnd,
    GameEvent,
    GameSetUp,
    GoalRating,
    GoaltenderChange,
    NoteTaken,
    PeriodStart,
    ShotDetail,
    ShotTaken,
    Undo,
)

KINDS: Mapping[str, type] = {
    "set up": GameSetUp,
    "period": PeriodStart,
    "shot": ShotTaken,
    "detail": ShotDetail,
    "goaltender": GoaltenderChange,
    "chance": ChanceSeen,
    "rating": GoalRating,
    "note": NoteTaken,
    "undo": Undo,
    "end": GameEnd,
}
_NAMES = {kind: name for name, kind in KINDS.items()}


def event_kind(event: GameEvent) -> str:
    """Return the name of an event's kind, for example ``'shot'``."""
    return _NAMES[type(event)]


def event_to_dict(event: GameEvent) -> dict[str, Any]:
    """Return an event as a dictionary of plain JSON values; defaults are left out."""
    return {"kind": event_kind(event), **_plain(event)}


def event_from_dict(data: Mapping[str, Any]) -> GameEvent:
    """Return the event a dictionary describes; raises ``InputError`` (``NotFoundError``)."""
    kind = data.get("kind")
    if not isinstance(kind, str) or kind not in KINDS:
        raise unknown_name("kind of event", str(kind), KINDS)
    rest = {name: value for name, value in data.items() if name != "kind"}
    return cast("GameEvent", _build(KINDS[kind], rest, str(data.get("id", ""))))


def _plain(value: object) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for one in fields(cast("Any", value)):
        item = getattr(value, one.name)
        if one.default is not MISSING and item == one.default:
            continue
        found[one.name] = _plain_value(item)
    return found


def _plain_value(item: object) -> Any:
    if isinstance(item, Enum):
        return item.value
    if isinstance(item, date):
        return item.isoformat()
    if is_dataclass(item):
        return _plain(item)
    return item


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _build(kind: type, data: Mapping[str, Any], item: str) -> object:
    hints = _hints(kind)
    for name in data:
        if name not in hints:
            raise unknown_name(f"field of '{_NAMES.get(kind, 'context')}'", name, hints, item=item)
    for one in fields(cast("Any", kind)):
        needed = one.default is MISSING and one.default_factory is MISSING
        if needed and one.name not in data:
            raise InputError(
                f"the field '{one.name}' is missing from '{_NAMES.get(kind, 'context')}'",
                allowed=", ".join(hints),
                item=item,
            )
    values = {name: _read(hints[name], value, name, item) for name, value in data.items()}
    return kind(**values)


def _read(hint: Any, value: Any, name: str, item: str) -> Any:
    if get_origin(hint) in (Union, types.UnionType):
        choices = [one for one in get_args(hint) if one is not type(None)]
        if value is None:
            return None
        return _read(choices[0], value, name, item)
    if isinstance(hint, type) and issubclass(hint, Enum):
        known = [one.value for one in hint]
        if value not in known:
            raise unknown_name(name, str(value), known, item=item)
        return hint(value)
    if hint is Context:
        if not isinstance(value, Mapping):
            raise _wrong(name, value, "a table of fields", item)
        return _build(Context, value, item)
    if hint in (datetime, date):
        try:
            return hint.fromisoformat(value)
        except (TypeError, ValueError):
            allowed = "a time such as 2026-11-25T18:00:00Z" if hint is datetime else "2026-11-25"
            raise _wrong(name, value, allowed, item) from None
    if hint is float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise _wrong(name, value, "a number", item)
        return float(value)
    if hint is int and (isinstance(value, bool) or not isinstance(value, int)):
        raise _wrong(name, value, "a whole number", item)
    if hint is bool and not isinstance(value, bool):
        raise _wrong(name, value, "true or false", item)
    if hint is str and not isinstance(value, str):
        raise _wrong(name, value, "text", item)
    return value


def _wrong(name: str, value: object, allowed: str, item: str) -> InputError:
    return InputError(f"'{name}' cannot be read", came=repr(value)[:80], allowed=allowed, item=item)
