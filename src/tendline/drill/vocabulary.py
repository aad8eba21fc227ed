"""The closed vocabularies of a drill script: every word that the script may use, in one place."""

from __future__ import annotations

from enum import StrEnum


class Family(StrEnum):
    """What part of the trade a drill belongs to."""

    MOVEMENT = "movement"
    TRACKING = "tracking and save technique"
    ANGLES = "angles and depth"
    LATERAL = "lateral"
    BELOW = "below the goal line"
    SCREENS = "screens"
    DEFLECTIONS = "deflections"
    ENTRIES = "entries and rushes"
    REBOUNDS = "rebounds"
    PUCK_HANDLING = "puck handling"
    SPECIAL_TEAMS = "special teams"
    TEAM = "team drills"
    WARM_UP = "warm-up and attention"
    ADULT_BEGINNERS = "adult beginners"
    SLEDGE = "sledge hockey"
    ALONE = "alone on the ice"
    OUTDOOR = "outdoor ice"


class DrillKind(StrEnum):
    """How much the goaltender must read."""

    TECHNIQUE = "technique"
    READ = "read"
    GAME = "game"
    TEMPLATE = "template"
    ROUTINE = "routine"


class Theme(StrEnum):
    """What a drill trains."""

    STANCE = "stance"
    MOVEMENT = "movement"
    EDGES = "edges"
    TRACKING = "tracking"
    ANGLE = "angle"
    DEPTH = "depth"
    LATERAL = "lateral"
    POST_PLAY = "post play"
    SAVE_TECHNIQUE = "save technique"
    REBOUND_CONTROL = "rebound control"
    RECOVERY = "recovery"
    SCREENS = "screens"
    DEFLECTIONS = "deflections"
    RUSH = "rush"
    BREAKAWAY = "breakaway"
    PUCK_HANDLING = "puck handling"
    READING = "reading"
    COMMUNICATION = "communication"
    BATTLE = "battle"
    WARM_UP = "warm-up"
    FOCUS = "focus"
    FUN = "fun"


class Stage(StrEnum):
    """Development stage; the three published ones of goaltender programmes."""

    BEGINNER = "beginner"
    INTERMEDIATE = "intermediate"
    ADVANCED = "advanced"


class IceUse(StrEnum):
    """How much ice a drill needs."""

    OFF_ICE = "off the ice"
    PATCH = "a patch"
    CREASE = "the crease"
    CIRCLE = "one circle"
    CORNER = "one corner"
    END_ZONE = "end zone"
    NEUTRAL_ZONE = "neutral zone"
    CROSS_ICE = "cross ice"
    HALF_ICE = "half ice"
    FULL_ICE = "full ice"


class Sides(StrEnum):
    """How left and right are shared."""

    EACH_REP = "change every rep"
    EACH_SET = "change every set"
    WITHIN = "both in every rep"
    MIDDLE = "straight in front"
    ONE = "one side only"


class MarkKind(StrEnum):
    """A rule that a drill breaks on purpose, in words that findings understand."""

    BATTLE = "battle"
    LATE = "late on purpose"
    SECOND_SAVE = "second save"
    ONE_SIDE = "one side"
    NO_AFTER_PART = "no after-part"
    LONG_TURN = "long turn"
    OLD_FOR_AGE = "early for the age"
    NO_READ = "no read"


class Verb(StrEnum):
    """What a person may do; the word as it stands in the script."""

    SKATE = "skates"
    CARRY = "carries"
    PASS = "passes"
    SHOOT = "shoots"
    TOSS = "tosses"
    SCREEN = "screens"
    TIP = "tips"
    STOP = "stops"
    WAIT = "waits"
    COLLECT = "collects"
    FOLLOW = "follows"
    CALL = "calls"
    SHUFFLE = "shuffles"
    PUSH = "pushes"
    C_CUT = "c-cuts"
    DROP = "drops"
    SLIDE = "slides"
    BUTTERFLY_PUSH = "butterfly-pushes"
    RECOVER = "recovers"
    RE_AIM = "re-aims"
    SET = "sets"
    SEAL = "seals"
    LOOK = "looks"
    COVER = "covers"
    POKE = "pokes"


GOALTENDER_ONLY = frozenset(
    {
        Verb.SHUFFLE, Verb.PUSH, Verb.C_CUT, Verb.DROP, Verb.SLIDE, Verb.BUTTERFLY_PUSH,
        Verb.RECOVER, Verb.RE_AIM, Verb.SET, Verb.SEAL, Verb.LOOK, Verb.COVER, Verb.POKE,
    }
)  # fmt: skip
"""Verbs that only a goaltender can do."""

GOALTENDER_MAY = GOALTENDER_ONLY | {
    Verb.SKATE, Verb.PASS, Verb.STOP, Verb.WAIT, Verb.CALL, Verb.COLLECT, Verb.CARRY,
}  # fmt: skip
"""Every verb that a goaltender may do."""

NEEDS_PLACE = frozenset(
    {Verb.SKATE, Verb.CARRY, Verb.SHUFFLE, Verb.PUSH, Verb.C_CUT, Verb.SLIDE, Verb.BUTTERFLY_PUSH}
)
"""Verbs that must say where to."""


class SpeedWord(StrEnum):
    """Skating speed in words, as shares of the top speed of the level."""

    WALK = "walk"
    HALF = "half"
    FULL = "full"


class Force(StrEnum):
    """How hard a pass is, in words, as shares of the usual pass of the level."""

    SOFT = "softly"
    HARD = "hard"


class Target(StrEnum):
    """Where a shot is aimed, in trade terms."""

    LOW_GLOVE = "low glove"
    HIGH_GLOVE = "high glove"
    LOW_BLOCKER = "low blocker"
    HIGH_BLOCKER = "high blocker"
    FIVE_HOLE = "five hole"
    BODY = "body"
    PADS = "pads"
    STICK = "stick"
    FAR_PAD = "far pad"
    SHORT_SIDE = "short side"
    FAR_SIDE = "far side"

    @property
    def is_low(self) -> bool:
        """Return whether the shot is meant for the ice or the pads."""
        return self in _LOW_TARGETS


_LOW_TARGETS = frozenset(
    {
        Target.LOW_GLOVE, Target.LOW_BLOCKER, Target.FIVE_HOLE, Target.PADS, Target.STICK,
        Target.FAR_PAD,
    }
)  # fmt: skip


class TriggerKind(StrEnum):
    """What a line waits for."""

    THEN = "then"
    WHISTLE = "the whistle"
    MEANWHILE = "meanwhile"
    PASS = "the pass"
    SHOT = "the shot"
    CALL = "the call"
    HAS_PUCK = "has the puck"
    REACHES = "reaches"
    SET = "she is set"
    CLEARED = "the rebound is cleared"
    TAG_STARTS = "starts"
    TAG_ENDS = "ends"


class Role(StrEnum):
    """Who a person is; the first letter of the name in the script."""

    FORWARD = "F"
    DEFENDER = "D"
    COACH = "C"
    HELPER = "H"
    GOALTENDER = "G"


class ThingKind(StrEnum):
    """What may lie on the ice."""

    CONE = "cone"
    PUCKS = "pucks"
    NET = "net"
    TARGET = "target"
    LINE = "line"
