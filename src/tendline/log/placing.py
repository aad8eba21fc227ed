"""From a file's coordinates to the frame of the net shot at, and whether that makes sense.

A wrong unit shows in two ways: shots lie off the ice (feet read as metres), or all of them huddle
at the net (metres read as feet). Both are judged over all shots at once, before anything is kept.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tendline.base import InputError, assumed
from tendline.ice import Rink, other_end, rink
from tendline.log.columns import ColumnMapping, Ends, FileUnit, Origin

OFF_ICE_MOST = assumed(
    "log.off_ice_most", "with more shots than this off the ice the whole file is doubted", 0.10,
    "share", low=0.02, high=0.5,
)  # fmt: skip
BEHIND_MOST = assumed(
    "log.behind_most", "with more shots than this behind the goal line the axis is doubted", 0.40,
    "share", low=0.2, high=0.9,
)  # fmt: skip
NEAREST_USUAL = assumed(
    "log.nearest_usual", "a file's middle shot is at least this far from the goal", 5.0, "m",
    low=2.0, high=8.0, note="published mean 10.7 m at five against five",
)  # fmt: skip
FURTHEST_USUAL = assumed(
    "log.furthest_usual", "a file's middle shot is at most this far from the goal", 20.0, "m",
    low=15.0, high=30.0,
)  # fmt: skip
ENOUGH_SHOTS = 12
"""Fewer shots than this show a wrong unit only if most of them lie off the ice."""


@dataclass(frozen=True, slots=True)
class Raw:
    """A place as the file gives it, with the period it belongs to."""

    line: int
    x: float
    y: float
    period: int


def sheet_of(mapping: ColumnMapping) -> Rink:
    """Return the rink whose markings the mapping's places follow."""
    return rink(mapping.rule_set)


def place(mapping: ColumnMapping, *, x: float, y: float, period: int) -> tuple[float, float]:
    """Return a place in the frame of the net shot at [m]: +x out, +y to that goaltender's left."""
    sheet = sheet_of(mapping)
    x, y = x * mapping.unit.metres, y * mapping.unit.metres
    if not mapping.x_out:
        x = -x
    if not mapping.y_left:
        y = -y
    if mapping.origin is Origin.CENTRE:
        x += sheet.red_line_x
    elif mapping.origin is Origin.CORNER:
        x -= sheet.goal_line_to_boards
        y -= math.copysign(sheet.width / 2.0, 1.0 if mapping.y_left else -1.0)
    if mapping.ends is Ends.SHOT_AT:
        far = False
    elif mapping.ends is Ends.NEARER:
        far = x > sheet.red_line_x
    else:
        far = mapping.near_end_first != (period % 2 == 1)
    return other_end(sheet, x, y) if far else (x, y)


def require_sense(mapping: ColumnMapping, raw: Sequence[Raw]) -> None:
    """Raise ``InputError`` if the file as a whole cannot be in the mapping's unit and frame."""
    if not raw:
        return
    off = off_ice(mapping, raw)
    fits = [one.value for one in FileUnit if one is not mapping.unit and _fits(mapping, one, raw)]
    hint = f"Nothing was imported. The places fit the unit {' or '.join(fits)}." if fits else (
        "Nothing was imported. Check the unit, the origin and the direction of the axes in the "
        "mapping."
    )  # fmt: skip
    most = OFF_ICE_MOST.value if len(raw) >= ENOUGH_SHOTS else 0.5
    if len(off) > most * len(raw):
        worst = max(raw, key=lambda one: abs(one.x) + abs(one.y))
        raise InputError(
            f"the file's places do not fit the ice in the unit {mapping.unit.value}",
            came=f"{len(off)} of {len(raw)} shots off the ice, for example line {worst.line} at "
            f"({worst.x:g}, {worst.y:g})",
            allowed=allowed_places(mapping),
            hint=hint,
            item=mapping.name,
        )
    middle = _middle(mapping, raw)
    if len(raw) >= ENOUGH_SHOTS and middle < NEAREST_USUAL.value and fits:
        raise InputError(
            f"the file's places huddle at the goal in the unit {mapping.unit.value}",
            came=f"the middle one of {len(raw)} shots is {middle:.1f} m away",
            allowed=f"{NEAREST_USUAL.value:g} to {FURTHEST_USUAL.value:g} m",
            hint=hint,
            item=mapping.name,
        )
    behind = sum(place(mapping, x=one.x, y=one.y, period=one.period)[0] < 0 for one in raw)
    if len(raw) >= ENOUGH_SHOTS and behind > BEHIND_MOST.value * len(raw):
        raise InputError(
            "most of the file's shots come from behind the goal line",
            came=f"{behind} of {len(raw)} shots",
            allowed="a few",
            hint="Nothing was imported. Turn the x axis round or name another origin in the "
            "mapping.",
            item=mapping.name,
        )


def off_ice(mapping: ColumnMapping, raw: Sequence[Raw]) -> list[Raw]:
    """Return the places that do not lie on the ice."""
    sheet = sheet_of(mapping)
    return [
        one
        for one in raw
        if not sheet.contains(*place(mapping, x=one.x, y=one.y, period=one.period))
    ]


def allowed_places(mapping: ColumnMapping) -> str:
    """Return, in the file's unit, where a shot may lie from the goal it was shot at."""
    sheet, unit = sheet_of(mapping), mapping.unit
    behind, out = sheet.goal_line_to_boards / unit.metres, sheet.x_max / unit.metres
    side = sheet.width / 2 / unit.metres
    return (
        f"{-behind:.0f} to {out:.0f} {unit.value} out from the goal line, {side:.0f} {unit.value} "
        "to either side"
    )


def _fits(mapping: ColumnMapping, unit: FileUnit, raw: Sequence[Raw]) -> bool:
    other = replace(mapping, unit=unit)
    near = NEAREST_USUAL.value <= _middle(other, raw) <= FURTHEST_USUAL.value
    return near and len(off_ice(other, raw)) <= OFF_ICE_MOST.value * len(raw)


def _middle(mapping: ColumnMapping, raw: Sequence[Raw]) -> float:
    """Return the middle distance from the goal of the shots [m]."""
    return statistics.median(
        math.hypot(*place(mapping, x=one.x, y=one.y, period=one.period)) for one in raw
    )
