"""Ask the engine about one moment of play, the same way for a page, a command and a sheet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from tendline.base import DEFAULT_SETTINGS, InputError, Level, Settings, Side
from tendline.ice import RuleSet, rink
from tendline.play import (
    Attacker,
    Defender,
    DepthMap,
    Goaltender,
    Read,
    Situation,
    depth_map,
    play_parameters,
    read,
)
from tendline.work.engine import engine_goaltender


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One moment of play and what is assumed about it; the first attacker carries the puck."""

    attackers: tuple[Attacker, ...]
    defenders: tuple[Defender, ...] = ()
    level: Level = Level.U18
    stature: float = 1.70
    catching_hand: Side = Side.LEFT
    rule_set: RuleSet = RuleSet.NHL
    settings: Settings = DEFAULT_SETTINGS

    @property
    def situation(self) -> Situation:
        """Return the moment as the engine takes it; raises ``InputError`` naming who is wrong."""
        if not self.attackers:
            raise InputError("somebody must have the puck", allowed="one attacker or more")
        return Situation(
            rink=rink(self.rule_set),
            carrier=self.attackers[0],
            mates=self.attackers[1:],
            defenders=self.defenders,
            level=self.level,
        )

    @property
    def goaltender(self) -> Goaltender:
        """Return the goaltender as the engine takes her."""
        return engine_goaltender(
            stature=self.stature,
            catching_hand=self.catching_hand,
            level=self.level,
            rule_set=self.rule_set,
            settings=self.settings,
        )


def ask(question: Question, *, detail: bool = True) -> Read:
    """Return where to stand and why; ``detail=False`` leaves out what dragging cannot wait for."""
    parameters = play_parameters(question.level, settings=question.settings)
    return read(question.situation, question.goaltender, parameters, detail=detail)


MAP_STEP = 1.5
"""Spacing of the zone's map [m]: about 230 places, a few seconds."""


@lru_cache(maxsize=8)
def zone_map(question: Question) -> DepthMap:
    """Return the answer for the carrier at every place of the zone, everyone else as he is."""
    parameters = play_parameters(question.level, settings=question.settings)
    return depth_map(question.situation, question.goaltender, parameters, step=MAP_STEP)


def with_even_numbers(question: Question) -> Question:
    """Return the same attack with a defender for every attacker.

    Each attacker left without a defender gets one, between him and the goal and skating with
    him, so that an odd-man rush and the even rush from the same carrier's place can be looked at
    side by side.
    """
    missing = len(question.attackers) - len(question.defenders)
    if missing <= 0:
        return question
    free = question.attackers[len(question.attackers) - missing :]
    taken = {one.name for one in question.defenders}
    names = [name for n in range(1, 6) if (name := f"D{n}") not in taken]
    added = tuple(
        Defender(
            name=name,
            x=max(one.x - COVERING_GAP, 0.5),
            y=one.y * COVERING_SHARE,
            vx=one.vx,
            vy=one.vy,
        )
        for name, one in zip(names, reversed(free), strict=False)
    )
    return replace(question, defenders=(*question.defenders, *added))


COVERING_GAP = 0.8
COVERING_SHARE = 0.85
"""A covering defender is drawn this far goal-side of his man [m] and this share of his width."""
