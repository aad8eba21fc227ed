"""Counts with their uncertainty: the interval shown beside every share of a few.

Wilson score interval: E. B. Wilson, Probable inference, the law of succession, and statistical
inference, J. Am. Stat. Assoc. 22 (1927) 209-212.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tendline.base import InputError

Z_95 = 1.959963984540054
"""Two-sided 95 % point of the normal distribution."""


@dataclass(frozen=True, slots=True)
class Share:
    """``count`` of ``of``, with the 95 % Wilson interval of the underlying share."""

    count: int
    of: int
    low: float
    high: float

    @property
    def value(self) -> float:
        """Return the share itself; NaN for nothing of nothing."""
        return self.count / self.of if self.of else math.nan

    @property
    def words(self) -> str:
        """Return counts and span in words: ``'4 of 11 (between 15 and 65 in 100)'``."""
        if not self.of:
            return "none seen"
        span = f"between {100 * self.low:.0f} and {100 * self.high:.0f} in 100"
        return f"{self.count} of {self.of} ({span})"


def wilson(count: int, of: int, z: float = Z_95) -> Share:
    """Return ``count`` of ``of`` with its Wilson interval; 0 of 0 gives the whole span 0 .. 1.

    Raises ``InputError`` for counts that make no sense.
    """
    if of < 0 or not 0 <= count <= of:
        raise InputError("counts make no sense", came=f"{count} of {of}", allowed="0 <= a <= b")
    if of == 0:
        return Share(0, 0, 0.0, 1.0)
    share = count / of
    scale = 1.0 + z * z / of
    middle = (share + z * z / (2 * of)) / scale
    half = z / scale * math.sqrt(share * (1.0 - share) / of + z * z / (4.0 * of * of))
    low = 0.0 if count == 0 else max(0.0, middle - half)
    high = 1.0 if count == of else min(1.0, middle + half)
    return Share(count, of, low, high)
