"""Checks on incoming numbers, worded alike everywhere."""

from __future__ import annotations

import math
from collections.abc import Iterable
from difflib import get_close_matches

from tendline.base.errors import InputError, NotFoundError


def require_number(
    name: str, value: float, *, low: float, high: float, unit: str, item: str = ""
) -> float:
    """Return ``value`` as a float if it is finite and within ``low`` .. ``high``.

    Raises :class:`InputError` naming the quantity, what came and what is allowed.
    """
    allowed = f"{low:g} to {high:g} {unit}".rstrip()
    try:
        number = float(value)
    except (TypeError, ValueError):
        raise InputError(
            f"{name} must be a number", came=repr(value), allowed=allowed, item=item
        ) from None
    if not math.isfinite(number) or not low <= number <= high:
        raise InputError(
            f"{name} is out of range",
            came=f"{number:g} {unit}".rstrip(),
            allowed=allowed,
            item=item,
        )
    return number


def nearest_name(word: str, names: Iterable[str]) -> str:
    """Return a hint with the known name most like ``word``, or an empty string."""
    matches = get_close_matches(word, list(names), n=1, cutoff=0.5)
    return f"Did you mean '{matches[0]}'?" if matches else ""


def unknown_name(kind: str, word: str, names: Iterable[str], *, item: str = "") -> NotFoundError:
    """Return the error for a name outside a closed vocabulary, with the nearest match."""
    known = list(names)
    return NotFoundError(
        f"no {kind} of that name",
        came=f"'{word}'",
        allowed=", ".join(known),
        hint=nearest_name(word, known),
        item=item,
    )
