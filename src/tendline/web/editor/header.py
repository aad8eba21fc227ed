"""The header of a script as fields: one for each key, in groups that a coach would look for."""

from __future__ import annotations

import json
from dataclasses import dataclass

from tendline.drill import Drill
from tendline.drill.header import BY_KEY, HeaderKey
from tendline.drill.vocabulary import DrillKind, Family, Sides

GROUPS = (
    ("What it is for", ("purpose", "aim of the goaltender", "aim of the shooters", "themes",
                        "situations", "kind", "family")),
    ("For whom, how long, where", ("ages", "stages", "level", "minutes", "ice", "nets",
                                   "goaltenders", "skaters", "helpers", "equipment")),
    ("How it is run", ("next", "repeat", "rotation", "sides", "set-up", "step", "rule")),
    ("What to say", ("cue", "key point", "error", "easier", "harder", "off-ice")),
    ("Notes", ("mark", "remark")),
)  # fmt: skip
SELECTS = {
    "kind": tuple(one.value for one in DrillKind),
    "family": tuple(one.value for one in Family),
    "sides": tuple(one.value for one in Sides),
}
LONG = ("purpose", "aim of the goaltender", "aim of the shooters", "rotation")


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderField:
    """One key of the header with its words; ``kind`` is "text", "long", "lines" or "select"."""

    label: str
    kind: str
    value: str
    example: str
    edit: str
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderGroup:
    """Keys that belong together."""

    title: str
    fields: tuple[HeaderField, ...]


def header_groups(drill: Drill) -> tuple[HeaderGroup, ...]:
    """Return every key of the header in groups."""
    return tuple(
        HeaderGroup(title=title, fields=tuple(_field(drill, BY_KEY[key]) for key in keys))
        for title, keys in GROUPS
    )


def _field(drill: Drill, key: HeaderKey) -> HeaderField:
    value = getattr(drill, key.field)
    edit = json.dumps({"do": "header", "key": key.key})
    label = key.key[0].upper() + key.key[1:]
    if key.many:
        lines = "\n".join(key.show(one) for one in value)
        return HeaderField(label=label, kind="lines", value=lines, example=key.example, edit=edit)
    shown = "" if value is None else key.show(value) or ("then" if key.key == "next" else "")
    if key.key in SELECTS:
        return HeaderField(label=label, kind="select", value=shown, example="", edit=edit,
                           choices=SELECTS[key.key])  # fmt: skip
    kind = "long" if key.key in LONG else "text"
    return HeaderField(label=label, kind=kind, value=shown, example=key.example, edit=edit)
