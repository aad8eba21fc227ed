"""Stature and mass by age and sex, from growth tables.

CDC 2000 (National Center for Health Statistics, 2000 growth charts): percentile at z is
``M (1 + L S z)^(1/L)``; rows every half year from 7 to 18, read between rows by straight lines in
L, M and S. WHO 2007 height-for-age is the alternative (L = 1, whole years from 7 to 19). Older
than the table, the last row holds; younger, the table has no answer.
"""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np

from tendline.base import Level, Sex, fact_table, require_number

_COLUMN = {Sex.MALE: "boys", Sex.FEMALE: "girls"}
OLDEST = 100.0
LARGEST_Z = 4.0
SMALLEST, GREATEST = 0.5, 2.5


class GrowthTable(StrEnum):
    """Which published growth table is read."""

    CDC_2000 = "CDC 2000"
    WHO_2007 = "WHO 2007"


def _percentile(median: float, skew: float, spread: float, z: float) -> float:
    """Return ``M (1 + L S z)^(1/L)``, and its limit ``M exp(S z)`` at L = 0."""
    if abs(skew) < 1e-9:
        return median * math.exp(spread * z)
    return float(median * (1.0 + skew * spread * z) ** (1.0 / skew))


def _lms(table: str, age: float) -> tuple[float, float, float]:
    rows = fact_table(f"body.cdc.{table}")
    ages = np.asarray(rows["age_y"], dtype=np.float64)
    read = [float(np.interp(age, ages, np.asarray(rows[name]))) for name in ("M", "L", "S")]
    return read[0], read[1], read[2]


def _checked(age: float, z: float) -> tuple[float, float]:
    return (
        require_number("age", age, low=7.0, high=OLDEST, unit="years"),
        require_number("z-score", z, low=-LARGEST_Z, high=LARGEST_Z, unit=""),
    )


def stature_at(
    age: float, sex: Sex, z: float = 0.0, *, table: GrowthTable = GrowthTable.CDC_2000
) -> float:
    """Return stature in metres at an age in years and a z-score (0 is the median).

    Raises ``InputError`` below 7 years, where neither shipped table has a row.
    """
    years, score = _checked(age, z)
    column = _COLUMN[Sex(sex)]
    if table is GrowthTable.WHO_2007:
        rows = fact_table("body.who2007")
        median = float(np.interp(years, rows["age_y"], rows[f"M_{column}_m"]))
        return median * (1.0 + float(np.interp(years, rows["age_y"], rows[f"S_{column}"])) * score)
    return _percentile(*_lms(f"stature_{column}", years), score)


def mass_at(age: float, sex: Sex, z: float = 0.0) -> float:
    """Return body mass in kilograms at an age in years and a z-score (CDC 2000)."""
    years, score = _checked(age, z)
    return _percentile(*_lms(f"weight_{_COLUMN[Sex(sex)]}", years), score)


def mass_for_stature(stature: float) -> float:
    """Return the mass of a child of a stature: the median of the age that tall, mean of the sexes.

    Below the table's first row mass goes with the cube of stature; above the last, with its square.
    Raises ``InputError`` for a stature outside 0.5 to 2.5 m.
    """
    stature = require_number("stature", stature, low=SMALLEST, high=GREATEST, unit="m")
    masses = []
    for column in _COLUMN.values():
        heights = np.asarray(fact_table(f"body.cdc.stature_{column}")["P50"], dtype=np.float64)
        weights = np.asarray(fact_table(f"body.cdc.weight_{column}")["P50"], dtype=np.float64)
        mass = float(np.interp(stature, heights, weights))
        if stature < heights[0]:
            mass *= (stature / heights[0]) ** 3
        elif stature > heights[-1]:
            mass *= (stature / heights[-1]) ** 2
        masses.append(mass)
    return float(np.mean(masses))


def level_at(age: float) -> Level:
    """Return the age class of an age in years."""
    years = require_number("age", age, low=4.0, high=OLDEST, unit="years")
    for limit, level in (
        (9, Level.U9), (11, Level.U11), (13, Level.U13), (15, Level.U15), (18, Level.U18),
    ):  # fmt: skip
        if years < limit:
            return level
    return Level.ADULT
