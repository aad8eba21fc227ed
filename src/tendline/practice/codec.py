"""A sheet as plain JSON values and back, for the club's file and for scripts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date, time
from enum import Enum
from typing import Any

from tendline.base import InputError
from tendline.drill.rules import RuleLevel
from tendline.practice.types import (
    Check,
    GoaltenderLine,
    Load,
    LoadLine,
    Segment,
    SegmentKind,
    Sheet,
)

FORMAT = 1


def sheet_to_dict(sheet: Sheet) -> dict[str, Any]:
    """Return a sheet as JSON values; clock times are ``'18:07'``."""
    document = _plain(sheet)
    assert isinstance(document, dict)
    return {"format": FORMAT, **document}


def sheet_from_dict(document: Mapping[str, Any]) -> Sheet:
    """Return the sheet of a document; raises ``InputError`` naming what is missing or wrong."""
    try:
        if document["format"] != FORMAT:
            raise InputError(
                "this sheet was written by another version", came=f"format {document['format']}",
                allowed=f"format {FORMAT}",
            )  # fmt: skip
        rest = {name: document[name] for name in _names(Sheet)}
        return Sheet(
            **{
                **rest,
                "day": date.fromisoformat(rest["day"]),
                "start": time.fromisoformat(rest["start"]),
                "end": time.fromisoformat(rest["end"]),
                "segments": tuple(_segment(one) for one in rest["segments"]),
                "loads": tuple(_load_line(one) for one in rest["loads"]),
                "checks": tuple(
                    Check(**{**one, "level": RuleLevel(one["level"])}) for one in rest["checks"]
                ),
                "glossary": tuple((one[0], one[1]) for one in rest["glossary"]),
                **{name: tuple(rest[name]) for name in _TEXTS},
            }
        )
    except (KeyError, TypeError, ValueError, IndexError) as error:
        if isinstance(error, InputError):
            raise
        raise InputError("this is not a practice sheet", came=str(error)) from error


_TEXTS = (
    "goaltenders", "objectives", "reasons", "cautions", "equipment", "dropped", "notes",
)  # fmt: skip
_SEGMENT_TEXTS = ("set_up", "steps", "key_points", "equipment", "cautions", "reasons", "run_by")


def _names(kind: type) -> tuple[str, ...]:
    return tuple(one.name for one in fields(kind))


def _segment(document: Mapping[str, Any]) -> Segment:
    lines = tuple(
        GoaltenderLine(**{**one, "load": Load(**one["load"])}) for one in document["lines"]
    )
    return Segment(
        **{
            **document,
            "kind": SegmentKind(document["kind"]),
            "begin": time.fromisoformat(document["begin"]),
            "end": time.fromisoformat(document["end"]),
            "lines": lines,
            **{name: tuple(document.get(name, ())) for name in _SEGMENT_TEXTS},
        }
    )


def _load_line(document: Mapping[str, Any]) -> LoadLine:
    past = document["past_mean"]
    return LoadLine(
        **{**document, "load": Load(**document["load"]), "past_mean": past and Load(**past)}
    )


def _plain(value: object) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: _plain(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, time):
        return value.strftime("%H:%M")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return value
