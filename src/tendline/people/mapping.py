"""A file as a plain mapping (JSON values) and back: for keeping, handing over, and taking away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import Any, cast

from tendline.base import InputError, Level, Sex, Side
from tendline.motion import TimedTest, TimedTestKind
from tendline.people.focus import DEFAULT_FOCUS, DEFAULT_PARKING, FocusPlan, FocusZone, ZoneFocus
from tendline.people.rating import RatingForm, RatingGroup, Scale
from tendline.people.types import (
    Aim,
    Consent,
    ConsentItem,
    GoaltenderFile,
    LeaveOut,
    Restriction,
    SaidBy,
    Stature,
    TimedDay,
)

FORMAT = 1
"""Version of the mapping; a newer one is refused."""


def to_mapping(file: GoaltenderFile) -> dict[str, Any]:
    """Return the whole file as JSON values."""
    return {"format": FORMAT, **cast("dict[str, Any]", _plain(file))}


def _plain(value: Any) -> Any:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, frozenset):
        return sorted(_plain(one) for one in value)
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if is_dataclass(value):
        return {one.name: _plain(getattr(value, one.name)) for one in fields(value)}
    return value


def from_mapping(data: Mapping[str, Any]) -> GoaltenderFile:
    """Return the file from a mapping; missing parts keep their defaults.

    ``stature`` alone (metres) may stand for ``statures``. Raises ``InputError`` naming the part
    that cannot be used.
    """
    if int(data.get("format", FORMAT)) > FORMAT:
        raise InputError("this file was written by a newer tendline", came=str(data["format"]),
                         allowed=f"up to {FORMAT}")  # fmt: skip
    item = str(data.get("id", ""))
    try:
        return _read(data)
    except InputError:
        raise
    except (KeyError, TypeError, ValueError, AttributeError) as problem:
        raise InputError(
            "a goaltender's file cannot be read", came=str(problem) or repr(problem), item=item
        ) from problem


def _read(data: Mapping[str, Any]) -> GoaltenderFile:
    statures = tuple(
        Stature(metres=float(one["metres"]), day=_day(one.get("day")))
        for one in data.get("statures", ())
    )
    if not statures and data.get("stature") is not None:
        statures = (Stature(metres=float(data["stature"])),)
    return GoaltenderFile(
        id=str(data["id"]),
        display_name=str(data["display_name"]),
        catching_hand=Side(data.get("catching_hand", Side.LEFT.value)),
        birth_year=None if data.get("birth_year") is None else int(data["birth_year"]),
        sex=None if data.get("sex") is None else Sex(data["sex"]),
        level=None if data.get("level") is None else Level(data["level"]),
        teams=tuple(str(one) for one in data.get("teams", ())),
        statures=statures,
        timed_days=tuple(_timed_day(one) for one in data.get("timed_days", ())),
        forms=tuple(_form(one) for one in data.get("forms", ())),
        focus=_focus(data.get("focus")),
        restrictions=tuple(_restriction(one) for one in data.get("restrictions", ())),
        consents=tuple(_consent(one) for one in data.get("consents", ())),
        aims=tuple(
            Aim(words=str(one["words"]), target=int(one["target"]), done=int(one.get("done", 0)),
                until=_day(one.get("until")))
            for one in data.get("aims", ())
        ),
    )  # fmt: skip


def _day(value: Any) -> date | None:
    return None if value in (None, "") else date.fromisoformat(str(value))


def _sure(value: Any) -> date:
    return date.fromisoformat(str(value))


def _timed_day(data: Mapping[str, Any]) -> TimedDay:
    tests = tuple(
        TimedTest(
            kind=TimedTestKind(one["kind"]),
            times=tuple(float(time) for time in one["times"]),
            distance=None if one.get("distance") is None else float(one["distance"]),
        )
        for one in data["tests"]
    )
    return TimedDay(day=_sure(data["day"]), tests=tests, ice=str(data.get("ice", "")))


def _form(data: Mapping[str, Any]) -> RatingForm:
    return RatingForm(
        day=_sure(data["day"]),
        rater=str(data["rater"]),
        scale=Scale(data.get("scale", Scale.FIVE.value)),
        marks=tuple((RatingGroup(group), float(mark)) for group, mark in data.get("marks", ())),
        of=int(data.get("of", 0)),
        well=str(data.get("well", "")),
        next_step=str(data.get("next_step", "")),
        cue=str(data.get("cue", "")),
    )


def _focus(data: Mapping[str, Any] | None) -> FocusPlan:
    if data is None:
        return FocusPlan()
    zones = tuple(
        ZoneFocus(zone=FocusZone(one["zone"]), body=str(one["body"]), mind=str(one["mind"]),
                  cue=str(one["cue"]))
        for one in data.get("zones", ())
    )  # fmt: skip
    parking = tuple(str(one) for one in data.get("parking", ()))
    return FocusPlan(zones=zones or DEFAULT_FOCUS, parking=parking or DEFAULT_PARKING)


def _restriction(data: Mapping[str, Any]) -> Restriction:
    return Restriction(
        begins=_sure(data["begins"]),
        ends=_day(data.get("ends")),
        leave_out=frozenset(LeaveOut(one) for one in data["leave_out"]),
        said_by=SaidBy(data["said_by"]),
    )


def _consent(data: Mapping[str, Any]) -> Consent:
    return Consent(
        day=_sure(data["day"]),
        given_by=SaidBy(data["given_by"]),
        items=frozenset(ConsentItem(one) for one in data["items"]),
    )
