"""Lines that wait until she is set: she and whoever waits must go by one plan of hers.

Whoever waits for her cannot go on before she is set, and she cannot know when he will. So the time
of what follows is of no use to her until he goes on (``PuckEvent.known_from``): she goes to where
the engine wants her, however long it takes, and stays. What she does until then is the same
whether his time is found already or not, and the moment that was found is the one that the run
shows; where it is not, ``BranchRun.in_vain`` names the
line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol

from tendline.drill.timeline import Attack, Line, PuckEvent, PuckKind
from tendline.drill.types import Action
from tendline.drill.vocabulary import Role, TriggerKind, Verb

ACTS_ON_PUCK = frozenset({Verb.SHOOT, Verb.TOSS, Verb.PASS, Verb.CARRY})
"""Whoever waits to do one of these has a puck, his own or one that he brings."""
_SENT = {Verb.SHOOT: PuckKind.SHOT, Verb.TOSS: PuckKind.SHOT, Verb.PASS: PuckKind.PASS}


class Goaltending(Protocol):
    """What the resolver asks of the goaltender's run."""

    def set_time(self, attack: Attack, after: float, lasting: float = 0.0) -> float:
        """Return since when she is set on the puck's line, for so long, not before ``after``."""
        ...

    def scripted_end(self, attack: Attack, line: Line) -> float:
        """Return when she has finished a line of her own that begins at ``line.begin``."""
        ...

    def home_time(self, attack: Attack) -> float:
        """Return when she is back, set, where the repetition started [s]."""
        ...


def waits_for_her(actions: Sequence[Action]) -> bool:
    """Return whether a line waits until she is set."""
    return any(one.trigger.kind is TriggerKind.SET for one in actions)


def with_what_follows(attack: Attack, actions: Sequence[Action]) -> Attack:
    """Return the attack with what is still to be done with the puck, at times not yet known.

    In a told drill she knows what comes, not when: everybody's next pass or shot stands at an
    infinite time.
    """
    found: dict[str, PuckEvent] = {}
    for one in actions:
        kind, track = _SENT.get(one.verb), attack.tracks.get(one.who)
        if kind is None or track is None or one.who in found:
            continue
        if one.who[0] == Role.GOALTENDER.value:
            continue
        found[one.who] = PuckEvent(
            time=math.inf, kind=kind, who=one.who, place=track.at(math.inf),
            receiver=one.partner if kind is PuckKind.PASS else "", arrives=math.inf,
            known_from=math.inf,
        )  # fmt: skip
    return replace(attack, events=[*attack.events, *found.values()])
