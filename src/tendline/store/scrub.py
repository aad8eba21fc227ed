"""Taking one person's id and name out of whatever stays."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from tendline.people import REMOVED_NAME

NAMELESS = "removed"
"""Begins the ids that stand in counts where hers stood."""


@dataclass(frozen=True, slots=True)
class Scrubber:
    """Takes out one person: her id, her whole name, and her first name where that is asked for."""

    person: str
    whole: re.Pattern[str]
    first: re.Pattern[str]

    @classmethod
    def of(cls, person: str, shown: str) -> Scrubber:
        """Return the scrubber for an id and a display name (which may be empty)."""
        whole = [one for one in (shown.strip(), person) if one]
        first = shown.split()[:1]
        return cls(person, _words(whole), _words([*whole, *first]))

    def text(self, text: str, *, first_names: bool = False) -> str:
        """Return a text without her name."""
        return (self.first if first_names else self.whole).sub(REMOVED_NAME, text)

    def value(self, value: Any, *, first_names: bool = False) -> Any:
        """Return JSON values without entries keyed by her id, and without her name in any text."""
        if isinstance(value, dict):
            return {
                key: self.value(one, first_names=first_names)
                for key, one in value.items()
                if key != self.person
            }
        if isinstance(value, list):
            return [self.value(one, first_names=first_names) for one in value if one != self.person]
        return self.text(value, first_names=first_names) if isinstance(value, str) else value


def _words(names: list[str]) -> re.Pattern[str]:
    """Return a pattern of whole words, longest first; one that never matches for no names."""
    parts = sorted({re.escape(one) for one in names}, key=len, reverse=True)
    if not parts:
        return re.compile(r"(?!)")
    return re.compile(r"(?<!\w)(?:" + "|".join(parts) + r")(?!\w)", re.IGNORECASE)
