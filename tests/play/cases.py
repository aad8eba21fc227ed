"""Invented attacks that several tests share: a few people, one goaltender, no special numbers."""

from __future__ import annotations

from functools import cache

from tendline.base import Level, Side
from tendline.body import build_goaltender
from tendline.ice import rink
from tendline.motion import motion_parameters
from tendline.play import Attacker, Defender, Goaltender, Situation, play_parameters

RINK = rink()
LEVEL = Level.MEN_ELITE
PARAMETERS = play_parameters(LEVEL)


@cache
def goaltender(stature: float = 1.84, hand: Side = Side.LEFT, level: Level = LEVEL) -> Goaltender:
    """Return a goaltender of a stature [m] who moves as her level does."""
    build = build_goaltender(stature=stature, catching_hand=hand, level=level)
    return Goaltender(build=build, motion=motion_parameters(level))


def attacker(name: str, x: float, y: float, vx: float = 0.0, vy: float = 0.0,
             hand: Side = Side.LEFT) -> Attacker:  # fmt: skip
    return Attacker(name=name, x=x, y=y, vx=vx, vy=vy, hand=hand)


def defender(name: str, x: float, y: float, vx: float = 0.0, vy: float = 0.0) -> Defender:
    return Defender(name=name, x=x, y=y, vx=vx, vy=vy)


def situation(carrier: Attacker, *others: Attacker | Defender, level: Level = LEVEL,
              pace: float = 1.0) -> Situation:  # fmt: skip
    """Return a situation; mates and defenders may come in any order."""
    return Situation(
        rink=RINK,
        carrier=carrier,
        mates=tuple(one for one in others if isinstance(one, Attacker)),
        defenders=tuple(one for one in others if isinstance(one, Defender)),
        level=level,
        pace=pace,
    )


def rush(*, defenders: int) -> Situation:
    """Return two attackers at speed down the ice against one or two defenders between them.

    The carrier's place is the same; with two defenders each stands between his man and the goal.
    """
    people = [attacker("F2", 9.0, 4.0, vx=-6.0)]
    covering = [defender("D1", 7.0, -3.0, vx=-5.0), defender("D2", 7.0, 3.0, vx=-5.0)]
    alone = [defender("D1", 7.0, -1.0, vx=-5.0)]
    return situation(
        attacker("F1", 10.0, -4.0, vx=-6.0), *people, *(covering if defenders == 2 else alone)
    )


TWO_ON_ONE = rush(defenders=1)
TWO_ON_TWO = rush(defenders=2)
BREAKAWAY = situation(attacker("F1", 10.0, 1.0, vx=-6.0))
ACROSS = situation(
    attacker("F1", 6.0, -3.5, vx=-3.0), attacker("F2", 6.0, 3.5), defender("D1", 4.5, 0.0)
)
