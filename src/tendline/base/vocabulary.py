"""Closed vocabularies that several packages share: plain words of the trade, each in one place."""

from __future__ import annotations

from enum import StrEnum


class Side(StrEnum):
    """A side as the goaltender sees it when she looks out: left is +y."""

    LEFT = "left"
    RIGHT = "right"

    @property
    def other(self) -> Side:
        """Return the opposite side."""
        return Side.RIGHT if self is Side.LEFT else Side.LEFT


class Level(StrEnum):
    """Age class or playing level; decides default speeds and times."""

    U9 = "U9"
    U11 = "U11"
    U13 = "U13"
    U15 = "U15"
    U18 = "U18"
    ADULT = "adult"
    WOMEN_ELITE = "women elite"
    MEN_ELITE = "men elite"


class ScoringSituation(StrEnum):
    """The ten scoring situations.

    Source: Hockey Canada Level 2 list, as a club page gives it (nvmha.com/goalies).
    """

    CLEAR_SHOT = "clear shot"
    ENTRY = "entry"
    NET_DRIVE = "net drive"
    BREAKAWAY = "breakaway"
    REBOUND = "rebound"
    LOW_HIGH = "low-high"
    EAST_WEST = "east-west"
    BELOW_GOAL_LINE = "below the goal line"
    DEFLECTION = "deflection"
    SCREEN = "screen"


class ShotType(StrEnum):
    """How the puck is sent."""

    WRIST = "wrist"
    SNAP = "snap"
    SLAP = "slap"
    BACKHAND = "backhand"
    ONE_TIMER = "one-timer"
    TIP = "tip"
    WRAP = "wraparound"


class ShotResult(StrEnum):
    """What became of a shot."""

    GOAL = "goal"
    SAVE_HELD = "save, held"
    SAVE_SAFE_REBOUND = "save, safe rebound"
    SAVE_DANGEROUS_REBOUND = "save, dangerous rebound"
    SAVE = "save"
    WIDE = "wide"
    BLOCKED = "blocked"

    @property
    def on_goal(self) -> bool:
        """Return whether it counts as a shot on goal."""
        return self not in (ShotResult.WIDE, ShotResult.BLOCKED)


class Sex(StrEnum):
    """Column of the growth tables to use; nothing else in tendline depends on it."""

    FEMALE = "female"
    MALE = "male"
