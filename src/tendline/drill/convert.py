"""A drill as plain data and back, for the editor, for sharing and for scripts of others.

The shape follows the types; what has its default is left out. A place is a name or ``[x, y]``.
``drill_from_dict`` trusts nothing: every key and word is checked, and the drill must come out of
its own script unchanged, so that plain data can hold nothing that a script could not.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import StrEnum
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from tendline.base import InputError, nearest_name
from tendline.drill import limits
from tendline.drill.formatter import format_drill
from tendline.drill.script import parse_drill
from tendline.drill.types import Action, Choice, Drill, Place

FORMAT = 1
"""Version of the shape; a file names it so that an older program can refuse a newer one."""
DEEPEST = 24
"""Plain data nested deeper than this is refused."""


def drill_to_dict(drill: Drill) -> dict[str, Any]:
    """Return a drill as plain data: dicts, lists, strings, numbers, booleans."""
    return {"format": FORMAT, **_from_value(drill)}


def _from_value(value: Any) -> Any:
    if isinstance(value, Place):
        return value.name or [value.x, value.y]
    if isinstance(value, StrEnum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        kept = {}
        for one in fields(value):
            mine = getattr(value, one.name)
            if one.default is not MISSING and mine == one.default:
                continue
            kept[one.name] = _from_value(mine)
        return kept
    if isinstance(value, tuple):
        return [_from_value(one) for one in value]
    return value


def drill_from_dict(data: Mapping[str, Any]) -> Drill:
    """Return the drill of plain data.

    Raises :class:`InputError` naming the place in the data, or the script's own errors when the
    data says what no script may say.
    """
    if not isinstance(data, Mapping):
        raise InputError("a drill is a mapping of keys", came=type(data).__name__)
    rest = dict(data)
    version = rest.pop("format", FORMAT)
    if version != FORMAT:
        raise InputError(
            "the drill was written for another version of the format", came=repr(version),
            allowed=str(FORMAT),
        )  # fmt: skip
    _check_size(rest, 0)
    drill: Drill = _to_class(Drill, rest, "drill")
    text = format_drill(drill)
    if parse_drill(text) != drill:
        raise InputError(
            "the drill does not come out of its own script unchanged", item=drill.id[:40],
            hint="Take out line breaks, quotes inside words and spaces at their ends.",
        )  # fmt: skip
    return drill


def _check_size(value: Any, depth: int) -> None:
    if depth > DEEPEST:
        raise InputError("the data is nested too deep", came=f"over {DEEPEST} levels")
    if isinstance(value, str) and len(value) > limits.MAX_LINE_LENGTH:
        raise InputError(
            "a text is too long", came=f"{len(value)} characters",
            allowed=f"at most {limits.MAX_LINE_LENGTH}",
        )  # fmt: skip
    if isinstance(value, Mapping):
        for one in value.values():
            _check_size(one, depth + 1)
    elif isinstance(value, list | tuple):
        if len(value) > limits.MAX_LINES:
            raise InputError("a list is too long", came=str(len(value)))
        for one in value:
            _check_size(one, depth + 1)


@cache
def hints_of(kind: type) -> dict[str, Any]:
    """Return the types of a class's fields."""
    return get_type_hints(kind)


def _to_class(kind: type, data: Any, where: str) -> Any:
    if not isinstance(data, Mapping):
        raise InputError("a mapping of keys is wanted", came=type(data).__name__, item=where)
    hints = hints_of(kind)
    unknown = [key for key in data if key not in hints]
    if unknown:
        raise InputError(
            "no such key", came=f"'{str(unknown[0])[:40]}'", allowed=", ".join(hints), item=where,
            hint=nearest_name(str(unknown[0])[:40], hints),
        )  # fmt: skip
    made = {key: to_value(hints[key], one, f"{where}.{key}") for key, one in data.items()}
    missing = [
        one.name for one in fields(kind)
        if one.name not in made and one.default is MISSING and one.default_factory is MISSING
    ]  # fmt: skip
    if missing:
        raise InputError("a key is missing", came=", ".join(missing), item=where)
    return kind(**made)


def to_value(hint: Any, value: Any, where: str) -> Any:
    """Return a value of the hinted type, or raise ``InputError`` naming the place in the data."""
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return _to_union(get_args(hint), value, where)
    if origin is tuple:
        return _to_tuple(get_args(hint), value, where)
    if hint is Place:
        return _to_place(value, where)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        known = [one.value for one in hint]
        if value not in known:
            raise InputError(
                "the word is not known", came=f"'{str(value)[:40]}'", allowed=", ".join(known),
                item=where, hint=nearest_name(str(value)[:40], known),
            )  # fmt: skip
        return hint(value)
    if isinstance(hint, type) and is_dataclass(hint):
        return _to_class(hint, value, where)
    return _to_plain(hint, value, where)


def _to_union(kinds: tuple[Any, ...], value: Any, where: str) -> Any:
    if type(None) in kinds:
        if value is None:
            return None
        others = [one for one in kinds if one is not type(None)]
        return to_value(others[0], value, where)
    if set(kinds) == {Action, Choice}:
        is_choice = isinstance(value, Mapping) and "branches" in value
        return _to_class(Choice if is_choice else Action, value, where)
    raise InputError("the value is of no kind that is known", came=repr(value)[:40], item=where)


def _to_tuple(kinds: tuple[Any, ...], value: Any, where: str) -> tuple[Any, ...]:
    if not isinstance(value, list | tuple):
        raise InputError("a list is wanted", came=type(value).__name__, item=where)
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(to_value(kinds[0], one, f"{where}[{k}]") for k, one in enumerate(value))
    if len(value) != len(kinds):
        raise InputError("the list has the wrong length", came=str(len(value)), item=where)
    return tuple(
        to_value(kind, one, f"{where}[{k}]")
        for k, (kind, one) in enumerate(zip(kinds, value, strict=True))
    )


def _to_place(value: Any, where: str) -> Place:
    if isinstance(value, str):
        return Place(value)
    if isinstance(value, list | tuple) and len(value) == 2:
        x, y = (_to_plain(float, one, where) for one in value)
        return Place("", round(x, 3) + 0.0, round(y, 3) + 0.0)
    raise InputError(
        "a place is a name or two numbers", came=repr(value)[:40], allowed="'left dot' or [x, y]",
        item=where,
    )  # fmt: skip


def _to_plain(kind: Any, value: Any, where: str) -> Any:
    if kind is float and isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    if kind is int and isinstance(value, int) and not isinstance(value, bool):
        return value
    if kind in (str, bool) and isinstance(value, kind):
        return value
    raise InputError(
        f"a {getattr(kind, '__name__', kind)} is wanted", came=repr(value)[:40], item=where
    )
