"""Which column of a file holds what: a mapping, saved once, used for every file of that kind."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

from tendline.base import InputError, unknown_name
from tendline.ice import RuleSet


class FileUnit(StrEnum):
    """The unit of a file's places."""

    METRES = "m"
    FEET = "ft"
    YARDS = "yd"
    INCHES = "in"

    @property
    def metres(self) -> float:
        """Return one unit in metres (exact by definition)."""
        return {"m": 1.0, "ft": 0.3048, "yd": 0.9144, "in": 0.0254}[self.value]


class Origin(StrEnum):
    """Where a file's coordinates start."""

    GOAL = "centre of the goal line shot at"
    CENTRE = "centre of the rink"
    CORNER = "corner of the rink"


class Ends(StrEnum):
    """How a file says which goal was shot at."""

    SHOT_AT = "always the goal shot at"
    NEARER = "the goal nearer to the shot"
    BY_PERIOD = "by period: ends are switched"


FIELDS: tuple[str, ...] = (
    "game", "day", "team", "opponent", "goaltender", "period", "elapsed", "clock_left", "x", "y",
    "result", "shot_type", "situation", "shooter", "shooter_hand", "readiness", "screened",
    "one_timer", "crossed_middle", "off_rush", "empty_net", "penalty_shot", "pass_x", "pass_y",
    "since_pass", "target_y", "target_z", "goaltender_x", "goaltender_y", "skaters_shooting",
    "skaters_defending", "attackers", "defenders",
)  # fmt: skip
"""What a column may hold. ``team`` is the team that shoots, ``opponent`` the one defending."""
NEEDED = ("x", "y", "result")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stream:
    """Rows around the shots, where a file holds every event and not only shots.

    Each is a condition (column to allowed values). ``passes``: passes that arrived; ``entries``:
    the puck brought over the blue line; ``possession``: rows by which the row's team shows that it
    has the puck; ``lost``: rows that show the other team has it.
    """

    passes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    entries: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    possession: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    lost: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    pass_x: str = ""
    pass_y: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnMapping:
    """What each column holds and in which unit, frame and words.

    ``columns``: field (see ``FIELDS``) to column name; ``minus``: field to a column to subtract
    from it; ``values``: field to {word in the file: word of tendline}; ``where``: condition that
    makes a row a shot (all rows if empty). ``x_out``: x grows from the goal outward (from the
    left on a whole-rink picture); ``y_left``: y grows to the goaltender's left as she looks out
    of the goal at x = 0. ``near_end_first``: with ``Ends.BY_PERIOD``, whether the goal at the low
    x is shot at in period 1.
    """

    name: str
    columns: Mapping[str, str]
    unit: FileUnit = FileUnit.METRES
    origin: Origin = Origin.GOAL
    ends: Ends = Ends.SHOT_AT
    x_out: bool = True
    y_left: bool = True
    near_end_first: bool = True
    rule_set: RuleSet = RuleSet.NHL
    period_length: float = 1200.0
    values: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    minus: Mapping[str, str] = field(default_factory=dict)
    where: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    stream: Stream | None = None
    about: str = ""

    def __post_init__(self) -> None:
        for one in (*self.columns, *self.values, *self.minus):
            if one not in FIELDS:
                raise unknown_name("field of a mapping", one, FIELDS, item=self.name)
        missing = [one for one in NEEDED if one not in self.columns]
        if missing:
            raise InputError(
                "a mapping must say where a shot was and what became of it",
                came=f"no column for {', '.join(missing)}",
                allowed=", ".join(NEEDED),
                item=self.name,
            )


def mapping_to_dict(mapping: ColumnMapping) -> dict[str, Any]:
    """Return a mapping as plain JSON values."""
    stream = mapping.stream
    return {
        "name": mapping.name,
        "about": mapping.about,
        "columns": dict(mapping.columns),
        "unit": mapping.unit.value,
        "origin": mapping.origin.value,
        "ends": mapping.ends.value,
        "x_out": mapping.x_out,
        "y_left": mapping.y_left,
        "near_end_first": mapping.near_end_first,
        "rule_set": mapping.rule_set.value,
        "period_length": mapping.period_length,
        "values": {name: dict(words) for name, words in mapping.values.items()},
        "minus": dict(mapping.minus),
        "where": {name: list(words) for name, words in mapping.where.items()},
        "stream": None
        if stream is None
        else {
            "passes": {name: list(words) for name, words in stream.passes.items()},
            "entries": {name: list(words) for name, words in stream.entries.items()},
            "possession": {name: list(words) for name, words in stream.possession.items()},
            "lost": {name: list(words) for name, words in stream.lost.items()},
            "pass_x": stream.pass_x,
            "pass_y": stream.pass_y,
        },
    }


def mapping_from_dict(data: Mapping[str, Any]) -> ColumnMapping:
    """Return the mapping a dictionary describes; raises ``InputError``."""
    known = set(ColumnMapping.__dataclass_fields__)
    for name in data:
        if name not in known:
            raise unknown_name("part of a mapping", name, sorted(known))
    try:
        given = dict(data)
        for name, kind in (
            ("unit", FileUnit), ("origin", Origin), ("ends", Ends), ("rule_set", RuleSet)
        ):  # fmt: skip
            if name in given:
                words = [one.value for one in kind]
                if given[name] not in words:
                    raise unknown_name(name, str(given[name]), words, item=str(data.get("name")))
                given[name] = kind(given[name])
        given["where"] = _conditions(given.get("where", {}))
        stream = given.get("stream")
        if stream is not None:
            parts: dict[str, Any] = {
                name: _conditions(value) if isinstance(value, Mapping) else value
                for name, value in stream.items()
            }
            given["stream"] = Stream(**parts)
        return ColumnMapping(**given)
    except (TypeError, AttributeError) as error:
        raise InputError(
            "the mapping cannot be read", came=str(error), allowed=", ".join(sorted(known)),
            item=str(data.get("name", "")),
        ) from error  # fmt: skip


def _conditions(data: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    return {name: tuple(str(one) for one in words) for name, words in data.items()}


@cache
def ready_mappings() -> tuple[ColumnMapping, ...]:
    """Return the mappings that come with tendline, for common shapes of files."""
    folder = files("tendline.log").joinpath("mappings")
    texts = sorted(
        (one.name, one.read_text("utf-8")) for one in folder.iterdir() if one.name.endswith(".json")
    )
    return tuple(mapping_from_dict(json.loads(text)) for _, text in texts)


def fitting(columns: tuple[str, ...], known: tuple[ColumnMapping, ...]) -> ColumnMapping | None:
    """Return the mapping that uses most of a file's columns and lacks none, or None."""
    fits = [one for one in known if _used(one) <= set(columns)]
    return max(fits, key=lambda one: len(_used(one)), default=None)


def _used(mapping: ColumnMapping) -> set[str]:
    found = {*mapping.columns.values(), *mapping.minus.values(), *mapping.where}
    if mapping.stream is not None:
        stream = mapping.stream
        found |= {*stream.passes, *stream.entries, *stream.possession, *stream.lost}
        found |= {one for one in (stream.pass_x, stream.pass_y) if one}
    return found
