"""Units at the edges: inside, everything is metres, seconds, radians and kilograms.

Conversion factors are exact by definition (international yard and pound agreement, 1959).
"""

from __future__ import annotations

from enum import StrEnum

METRES_PER_FOOT = 0.3048
METRES_PER_INCH = 0.0254
METRES_PER_SECOND_PER_MILE_PER_HOUR = 0.44704
METRES_PER_SECOND_PER_KILOMETRE_PER_HOUR = 1.0 / 3.6


class LengthUnit(StrEnum):
    """How a club wants lengths shown and entered."""

    METRES = "m"
    FEET = "ft"


def metres_from(value: float, unit: LengthUnit) -> float:
    """Return a length in metres from a value in ``unit``."""
    return value * METRES_PER_FOOT if unit is LengthUnit.FEET else value


def metres_to(value: float, unit: LengthUnit) -> float:
    """Return a length in ``unit`` from a value in metres."""
    return value / METRES_PER_FOOT if unit is LengthUnit.FEET else value


def show_length(value: float, unit: LengthUnit = LengthUnit.METRES, digits: int = 1) -> str:
    """Return a length in metres as text in the club's unit, for example ``'0.9 m'``."""
    return f"{metres_to(value, unit):.{digits}f} {unit.value}"


def show_seconds(value: float, digits: int = 1) -> str:
    """Return a time in seconds as text, for example ``'0.2 s'``."""
    return f"{value:.{digits}f} s"


def counted(number: int, noun: str) -> str:
    """Return a count with its noun, for example ``'1 shot'`` or ``'2 shots'``."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
