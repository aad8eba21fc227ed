"""A few invented plays, read once, and drills of the library, for the tests of pictures."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from tendline import ice
from tendline.base import Level, Side
from tendline.body import build_goaltender
from tendline.drill import Drill, parse_drill
from tendline.motion import motion_parameters
from tendline.play import (
    Attacker,
    Defender,
    Goaltender,
    Read,
    Situation,
    play_parameters,
    read,
)

HOSTILE = "<b>&\"'#$%\x07\u202e]]>"


@cache
def two_on_one(name: str = "F2", mirror: bool = False) -> Read:
    """Return the read of a two-on-one from her right side (left if mirrored)."""
    side = -1.0 if mirror else 1.0
    level = Level.U18
    situation = Situation(
        rink=ice.rink(),
        carrier=Attacker(name="F1", x=6.1, y=-4.0 * side, hand=Side.LEFT, vx=-3.0),
        mates=(Attacker(name=name, x=5.2, y=3.6 * side, hand=Side.LEFT),),
        defenders=(Defender(name="D1", x=7.6, y=-0.2 * side),),
        level=level,
    )
    goaltender = Goaltender(
        build=build_goaltender(1.70, level=level), motion=motion_parameters(level)
    )
    return read(situation, goaltender, play_parameters(level), detail=False)


@cache
def lone_carrier() -> Read:
    """Return the read of one attacker alone in front of the net."""
    level = Level.U18
    situation = Situation(rink=ice.rink(), carrier=Attacker(name="F1", x=8.0, y=0.0), level=level)
    goaltender = Goaltender(
        build=build_goaltender(1.70, level=level), motion=motion_parameters(level)
    )
    return read(situation, goaltender, play_parameters(level), detail=False)


@cache
def behind_the_net() -> Read:
    """Return the read of a carrier behind the goal line with a mate in the slot."""
    level = Level.U18
    situation = Situation(
        rink=ice.rink(),
        carrier=Attacker(name="F1", x=-1.5, y=-3.0),
        mates=(Attacker(name="F2", x=4.5, y=1.0, hand=Side.RIGHT),),
        level=level,
    )
    goaltender = Goaltender(
        build=build_goaltender(1.70, level=level), motion=motion_parameters(level)
    )
    return read(situation, goaltender, play_parameters(level), detail=False)


@cache
def library_drill(name: str) -> Drill:
    """Return a drill of the library."""
    text = files("tendline.drill").joinpath("library", f"{name}.drill").read_text("utf-8")
    return parse_drill(text)


BRANCHING = """drill TEST: Two ways in
family: entries and rushes
kind: read
themes: rush
situations: entry
ages: U13 and up
minutes: 5
ice: end zone
goaltenders: 1 to 2
skaters: 3 to 8
purpose: Read the carrier.
aim of the goaltender: Stay on the line.

people
  cone A at (12, -6)
  pucks 6 at (16, -6)
  F1 at (16, -6), shoots left, with a puck
  F2 at (15, 5), shoots right
  D1 at (9, -2)
  G at mid-crease

play
  at the whistle: F1 carries to cone A at full speed
  meanwhile: F2 skates to left dot
  choice by F1, reads "the defender"
    branch alone, when "nobody comes"
      F1 shoots
    branch across, when "D1 steps up"
      F1 passes to F2
      F2 shoots
"""


@cache
def branching_drill() -> Drill:
    """Return a small drill with two branches."""
    return parse_drill(BRANCHING)
