"""Her height on a day, how fast she grows, and what that asks of her practice."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tendline.base import DEFAULT_SETTINGS, Level, Settings, Sex, require_number
from tendline.body import stature_at
from tendline.people.ages import age_on, is_minor
from tendline.people.constants import FAST_GROWTH, GROWTH_SPAN, STATURE_KEEPS
from tendline.people.types import GoaltenderFile, Stature

GROWTH_CAUTION = (
    "Growing fast: keep drops and hard stops few, watch hips and knees, and stop when something "
    "hurts (common practice). Measure again in about three months."
)
_DAYS_PER_YEAR = 365.25
_YOUNGEST_IN_TABLE = 7.0
_OLDEST_IN_TABLE = 20.0
_AGE_AT = {Level.U9: 8.0, Level.U11: 10.0, Level.U13: 12.0, Level.U15: 14.0, Level.U18: 16.5}
"""Typical age of a level [years], where no year of birth is noted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StatureOn:
    """Her height [m] on a day and how it is known; ``measured`` is False from a table."""

    metres: float
    measured: bool
    words: str


def stature_on(file: GoaltenderFile, day: date) -> StatureOn | None:
    """Return her height on ``day``: the last measured, else the table's middle; None if unknown.

    Between two measurements the height is interpolated; after the last it stays, and the words
    ask for a new one once a growing goaltender should be measured again. The table needs a year of
    birth or a youth level; without the sex it is the mean of both columns.
    """
    dated = _dated(file)
    before = [one for one in dated if one[0] <= day]
    after = [one for one in dated if one[0] > day]
    if before and after:
        (d0, h0), (d1, h1) = before[-1], after[0]
        share = (day - d0).days / (d1 - d0).days
        return StatureOn(metres=h0 + share * (h1 - h0), measured=True,
                         words=f"between measurements of {d0} and {d1}")  # fmt: skip
    if before:
        last, metres = before[-1]
        old = (day - last).days / _DAYS_PER_YEAR
        again = old > STATURE_KEEPS.value and is_minor(file, day)
        words = f"measured on {last}" + ("; measure again" if again else "")
        return StatureOn(metres=metres, measured=True, words=words)
    undated = [one.metres for one in file.statures if one.day is None]
    if undated:
        return StatureOn(metres=undated[-1], measured=True, words="measured, day not noted")
    if after:
        first, metres = after[0]
        return StatureOn(metres=metres, measured=True, words=f"measured later, on {first}")
    age = age_on(file, day)
    if age is None:
        age = _AGE_AT.get(file.level) if file.level is not None else None
    if age is None:
        return None
    columns = (file.sex,) if file.sex is not None else tuple(Sex)
    years = min(max(age, _YOUNGEST_IN_TABLE), _OLDEST_IN_TABLE)
    middle = sum(stature_at(years, one) for one in columns) / len(columns)
    about = "her age" if file.birth_year is not None else "her level"
    return StatureOn(metres=middle, measured=False,
                     words=f"middle of the growth table for {about}, not measured")  # fmt: skip


def _dated(file: GoaltenderFile) -> list[tuple[date, float]]:
    return sorted((one.day, one.metres) for one in file.statures if one.day is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """Growth between two measurements [m/yr]; ``fast`` above the set rate."""

    begins: date
    ends: date
    rate: float
    fast: bool
    caution: str


def growth(file: GoaltenderFile, day: date, settings: Settings = DEFAULT_SETTINGS) -> Growth | None:
    """Return her latest growth by ``day``, None without two measurements far enough apart.

    From the last measurement back to the nearest one at least the set span before it. Only a
    rough flag: it says nothing about her health.
    """
    known = [one for one in _dated(file) if one[0] <= day]
    if len(known) < 2:
        return None
    ends, late = known[-1]
    span = settings.value_of(GROWTH_SPAN) * _DAYS_PER_YEAR
    early = [one for one in known[:-1] if (ends - one[0]).days >= span]
    if not early:
        return None
    begins, height = early[-1]
    rate = (late - height) / ((ends - begins).days / _DAYS_PER_YEAR)
    fast = rate >= settings.value_of(FAST_GROWTH)
    return Growth(begins=begins, ends=ends, rate=rate, fast=fast,
                  caution=GROWTH_CAUTION if fast else "")  # fmt: skip


def noted(file: GoaltenderFile, metres: float, day: date) -> GoaltenderFile:
    """Return the file with a new stature, checked against the last one.

    Raises ``InputError`` for a height far from the last measurement: most likely a wrong unit
    or another child.
    """
    dated = _dated(file)
    if dated:
        last_day, last = min(dated, key=lambda one: abs((one[0] - day).days))
        years = abs((day - last_day).days) / _DAYS_PER_YEAR
        room = 0.03 + 0.15 * years
        require_number("stature", metres, low=last - room, high=last + room, unit="m",
                       item=f"{file.display_name}, {day}")  # fmt: skip
    return file.with_stature(Stature(metres=metres, day=day).metres, day)
