"""The JSON Schema of a drill as plain data, built from the types themselves."""

from __future__ import annotations

import json
from dataclasses import MISSING, fields, is_dataclass
from enum import StrEnum
from types import UnionType
from typing import Any, Union, get_args, get_origin

from tendline.drill import limits
from tendline.drill.convert import FORMAT, hints_of
from tendline.drill.header import DRILL_ID
from tendline.drill.types import Action, Choice, Drill, Place

SCHEMA_NAME = "drill.schema.json"


def drill_schema() -> dict[str, Any]:
    """Return the schema (JSON Schema, draft 2020-12); every drill's dict validates against it."""
    shared: dict[str, Any] = {}
    whole = _of_class(Drill, shared)
    whole["properties"] = {"format": {"const": FORMAT}, **whole["properties"]}
    whole["properties"]["id"] = {"type": "string", "pattern": f"^{DRILL_ID.pattern}$"}
    whole["properties"]["key_points"]["maxItems"] = limits.MAX_KEY_POINTS
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A drill for ice-hockey goaltenders",
        "description": (
            "Lengths in metres, times in seconds; x out from the goal line, y to the goaltender's "
            "left. What is left out has its default."
        ),
        **whole,
        "$defs": dict(sorted(shared.items())),
    }


def schema_text() -> str:
    """Return the schema as the published file holds it."""
    return json.dumps(drill_schema(), indent=1, ensure_ascii=False) + "\n"


def _of_class(kind: type, shared: dict[str, Any]) -> dict[str, Any]:
    hints = hints_of(kind)
    needed = [
        one.name
        for one in fields(kind)
        if one.default is MISSING and one.default_factory is MISSING
    ]
    made: dict[str, Any] = {
        "type": "object",
        "description": (kind.__doc__ or "").strip().split("\n")[0],
        "properties": {one.name: _of_hint(hints[one.name], shared) for one in fields(kind)},
        "additionalProperties": False,
    }
    if needed:
        made["required"] = needed
    return made


def _of_hint(hint: Any, shared: dict[str, Any]) -> dict[str, Any]:
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return _of_union(get_args(hint), shared)
    if origin is tuple:
        return _of_tuple(get_args(hint), shared)
    if hint is Place:
        return _ref("Place", shared, lambda: _PLACE)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return _ref(hint.__name__, shared, lambda: {"enum": [one.value for one in hint]})
    if isinstance(hint, type) and is_dataclass(hint):
        return _ref(hint.__name__, shared, lambda: _of_class(hint, shared))
    plain = {str: "string", int: "integer", float: "number", bool: "boolean"}
    made: dict[str, Any] = {"type": plain[hint]}
    if hint is str:
        made["maxLength"] = limits.MAX_LINE_LENGTH
    return made


def _of_union(kinds: tuple[Any, ...], shared: dict[str, Any]) -> dict[str, Any]:
    if type(None) in kinds:
        others = [one for one in kinds if one is not type(None)]
        return {"anyOf": [{"type": "null"}, *(_of_hint(one, shared) for one in others)]}
    if set(kinds) == {Action, Choice}:
        return {"anyOf": [_of_hint(one, shared) for one in kinds]}
    raise TypeError(f"no schema for {kinds}")


def _of_tuple(kinds: tuple[Any, ...], shared: dict[str, Any]) -> dict[str, Any]:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return {
            "type": "array",
            "items": _of_hint(kinds[0], shared),
            "maxItems": limits.MAX_ACTIONS,
        }
    return {
        "type": "array",
        "prefixItems": [_of_hint(one, shared) for one in kinds],
        "minItems": len(kinds),
        "maxItems": len(kinds),
    }


def _ref(name: str, shared: dict[str, Any], make: Any) -> dict[str, Any]:
    if name not in shared:
        shared[name] = {}
        shared[name] = make()
    return {"$ref": f"#/$defs/{name}"}


_PLACE: dict[str, Any] = {
    "description": "A spot by name, a thing of the drill by name, or [x, y] in metres.",
    "anyOf": [
        {"type": "string", "minLength": 1, "maxLength": 60},
        {
            "type": "array",
            "items": {
                "type": "number",
                "minimum": -limits.MAX_COORDINATE,
                "maximum": limits.MAX_COORDINATE,
            },
            "minItems": 2,
            "maxItems": 2,
        },
    ],
}
