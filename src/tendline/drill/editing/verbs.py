"""What each person may do in the editor, what a verb needs, and the words it starts with."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.drill.play_lines import _ALLOWED
from tendline.drill.vocabulary import NEEDS_PLACE, Role, Verb

SKATER_VERBS = (
    Verb.SKATE, Verb.CARRY, Verb.PASS, Verb.SHOOT, Verb.SCREEN, Verb.TIP, Verb.STOP, Verb.WAIT,
    Verb.COLLECT, Verb.FOLLOW, Verb.TOSS, Verb.CALL,
)  # fmt: skip
COACH_VERBS = (
    Verb.PASS, Verb.SHOOT, Verb.TOSS, Verb.CALL, Verb.SKATE, Verb.CARRY, Verb.STOP, Verb.WAIT,
    Verb.COLLECT, Verb.SCREEN, Verb.TIP, Verb.FOLLOW,
)  # fmt: skip
GOALTENDER_VERBS = (
    Verb.SHUFFLE, Verb.PUSH, Verb.C_CUT, Verb.DROP, Verb.SLIDE, Verb.BUTTERFLY_PUSH, Verb.RECOVER,
    Verb.RE_AIM, Verb.SET, Verb.SEAL, Verb.LOOK, Verb.COVER, Verb.POKE, Verb.SKATE, Verb.PASS,
    Verb.COLLECT, Verb.STOP, Verb.WAIT, Verb.CALL,
)  # fmt: skip
KEYS: dict[Verb, str] = {
    Verb.SKATE: "s", Verb.CARRY: "c", Verb.PASS: "p", Verb.SHOOT: "x", Verb.SCREEN: "n",
    Verb.TIP: "t", Verb.STOP: "h", Verb.WAIT: "w", Verb.COLLECT: "k", Verb.FOLLOW: "f",
    Verb.TOSS: "o", Verb.CALL: "l", Verb.SHUFFLE: "u", Verb.PUSH: "v", Verb.C_CUT: "b",
    Verb.DROP: "d", Verb.SLIDE: "i", Verb.BUTTERFLY_PUSH: "y", Verb.RECOVER: "r", Verb.RE_AIM: "a",
    Verb.SET: "e", Verb.SEAL: "g", Verb.LOOK: "q", Verb.COVER: "j", Verb.POKE: "z",
}  # fmt: skip
"""One key for each verb, the same for everybody."""

_MAY_PLACE = frozenset({Verb.SCREEN, Verb.COLLECT, Verb.LOOK, Verb.TOSS, Verb.SEAL})


@dataclass(frozen=True, slots=True)
class VerbNeeds:
    """What the editor asks for before it writes a line with this verb.

    ``aims`` at "place", "person", "either" (a person, or a place), or "" (nothing); ``path`` when
    the way may be drawn freehand; ``may_skip`` when the line is complete without an aim.
    """

    verb: Verb
    key: str
    aims: str
    path: bool
    may_skip: bool


def needs_of(verb: Verb) -> VerbNeeds:
    """Return what a verb needs."""
    aims = ""
    if verb in NEEDS_PLACE or verb in _MAY_PLACE:
        aims = "place"
    elif verb is Verb.PASS:
        aims = "either"
    elif verb is Verb.FOLLOW:
        aims = "person"
    elif verb is Verb.RE_AIM:
        aims = "place"
    return VerbNeeds(
        verb=verb,
        key=KEYS[verb],
        aims=aims,
        path=may_have(verb, "via") and verb is not Verb.PASS,
        may_skip=verb in (Verb.SCREEN, Verb.COLLECT, Verb.TOSS),
    )


def may_have(verb: Verb, clause: str) -> bool:
    """Return whether a line with this verb may hold a clause such as 'via' or 'facing'."""
    return clause in _ALLOWED.get(verb, ())


def verbs_for(role: Role) -> tuple[Verb, ...]:
    """Return what somebody may do, the commonest first."""
    if role is Role.GOALTENDER:
        return GOALTENDER_VERBS
    return SKATER_VERBS if role in (Role.FORWARD, Role.DEFENDER) else COACH_VERBS
