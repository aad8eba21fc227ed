"""Trade words in one plain line each, for people who never played goal.

Meanings after the glossary of the association manuals and coaching literature, in our own words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

_WORDS: tuple[tuple[str, str, str], ...] = (
    ("set", r"\bset\b", "feet stopped, balanced, ready, before the puck is released"),
    ("stance", r"\bstances?\b", "how she stands ready: knees bent, hands in front, stick down"),
    ("seal", r"\bseal", "no gap left: pads on the ice, or pressed to the post"),
    ("edge", r"\b(inside |outside )?edges?\b(?! of)", "the inner or outer rim of a skate blade"),
    ("blocker", r"\bblocker\b", "the flat pad on her stick hand"),
    ("glove", r"\bglove\b", "the hand she catches with"),
    ("butterfly slide", r"\bbutterfly slide", "a push that travels along the ice, pads down"),
    ("square", r"\bsquare(ly)?\b", "hips and shoulders face the puck"),
    ("depth", r"\bdepth\b", "how far out from the goal line she stands"),
    ("on the line", r"\bon the line\b", "on the line from the puck to the middle of the goal"),
    ("shuffle", r"\bshuffl", "small side steps, feet never crossing"),
    ("T-push", r"\bT-push", "one big side push with the leading foot turned"),
    ("C-cut", r"\bC-cut", "a half-circle push straight out or back"),
    ("butterfly", r"\bbutterfly\b", "both pads flat on the ice, knees together"),
    ("slide", r"\bslid", "a push that travels while the pads are already down"),
    ("recovery", r"\brecover", "getting up again, or re-aiming while down"),
    ("drive leg", r"\bdrive leg\b", "the leg that pushes"),
    ("lead leg", r"\blead leg\b", "the leg that goes first"),
    ("post play", r"\bpost play\b|\bpost integration\b", "sealing the post on sharp angles"),
    ("reverse VH", r"\breverse VH\b|\bRVH\b", "near pad flat on the post, other leg up"),
    ("VH", r"(?<!reverse )\bVH\b", "leg at the post upright, other pad flat"),
    ("five-hole", r"\bfive-hole\b", "the gap between her legs"),
    ("rebound", r"\brebound", "the puck coming back off her"),
    ("screen", r"\bscreen", "a body that hides the puck"),
    ("one-timer", r"\bone-timer", "a shot straight off the pass"),
    ("slot", r"\bslot\b", "the middle, in front of the goal"),
    (
        "point",
        r"(?<!key )\b(the|left|right|walking) points?\b(?! (left|right|to))",
        "the place just inside the blue line",
    ),
    ("half wall", r"\bhalf[- ]wall", "the boards beside the face-off circle"),
    ("back door", r"\bback door\b", "the unguarded far side of the net"),
    ("wraparound", r"\bwrap", "carrying the puck round the net to tuck it in"),
    ("walk-out", r"\bwalk[- ]?out", "carrying the puck out in front from behind the net"),
    ("even rush", r"\beven rush", "as many defenders as attackers"),
    ("odd-man rush", r"\bodd[- ](man )?rush", "more attackers than defenders"),
    ("trailer", r"\btrailer", "an attacker who arrives second"),
    ("deke", r"\bdeke", "a feint to get round her"),
    ("poke check", r"\bpoke", "a jab at the puck with the stick"),
)


def explain(texts: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Return (word, meaning) for every trade word found in some texts, in alphabetical order."""
    text = "\n".join(texts)
    found = [
        (word, meaning)
        for word, pattern, meaning in _WORDS
        if re.search(pattern, text, flags=re.IGNORECASE)
    ]
    return tuple(sorted(found, key=lambda pair: pair[0].lower()))
