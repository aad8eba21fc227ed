"""How the answer speaks of the two people: "she" for the goaltender, "he" for the shooter.

The pronouns are a reading aid only and say nothing about anyone; a club may switch them to the
words "the goaltender" and "the shooter".
"""

from __future__ import annotations

import re
from enum import StrEnum


class Voice(StrEnum):
    """How texts speak."""

    SHE_AND_HE = "she and he"
    ROLES = "the goaltender and the shooter"


_OWN = r"(?:left|right|place|stick|reaction|move|save|push|spot|line|post)\b"
_ROLES = (
    (re.compile(rf"\bher (?={_OWN})"), "the goaltender's "),
    (re.compile(rf"\bHer (?={_OWN})"), "The goaltender's "),
    (re.compile(r"\bher\b"), "the goaltender"),
    (re.compile(r"\bshe\b"), "the goaltender"),
    (re.compile(r"\bShe\b"), "The goaltender"),
    (re.compile(r"\bhis\b"), "the shooter's"),
    (re.compile(r"\bhim\b"), "the shooter"),
    (re.compile(r"\bhe\b"), "the shooter"),
    (re.compile(r"\bHe\b"), "The shooter"),
)


def in_voice(text: str, voice: Voice) -> str:
    """Return a text of the read in another voice; the usual one leaves it as it is."""
    if voice is Voice.SHE_AND_HE:
        return text
    for pattern, words in _ROLES:
        text = pattern.sub(words, text)
    return text
