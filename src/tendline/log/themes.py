"""What may come out of games as something to train: each theme, its shots, its drill words.

``drills`` are the words that drills carry as themes; a test compares them with the drill script.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tendline.base import ScoringSituation
from tendline.log.game import Shot
from tendline.log.vocabulary import Readiness

OFF_MIDDLE = 1.0
"""Shots from further than this to a side [m] count as from that side; a label, not a fact."""


@dataclass(frozen=True, slots=True)
class Theme:
    """A group of shots that drills can answer.

    ``is_broad``: a side or a distance, which holds so many shots that it is proposed only when
    chance hardly explains it. ``phrase`` completes "4 of 11 goals came ..."; ``cue`` is a short
    coach's aim for it; ``title`` its name in a sentence.
    """

    name: str
    title: str
    phrase: str
    cue: str
    drills: tuple[str, ...]
    situations: tuple[ScoringSituation, ...]
    holds: Callable[[Shot], bool]
    is_broad: bool = False


NEAR_THE_GOAL = 3.0
FAR_OUT = 13.0
"""Bounds [m] of the two themes by distance; labels, not facts."""


def _of(
    situation: ScoringSituation, title: str, phrase: str, cue: str, drills: tuple[str, ...]
) -> Theme:
    return Theme(
        situation.value, title, phrase, cue, drills, (situation,),
        lambda shot: shot.situation is situation,
    )  # fmt: skip


_S = ScoringSituation
NOT_SET = Theme(
    "being set", "being set", "while she was still moving", "stop before the shot", ("stance",), (),
    lambda shot: shot.context.readiness is Readiness.MOVING,
)  # fmt: skip
ALREADY_DOWN = Theme(
    "recovery", "recovery", "while she was already down", "up again, the leg that will push first",
    ("recovery",), (), lambda shot: shot.context.readiness is Readiness.DOWN,
)  # fmt: skip
HER_LEFT = Theme(
    "her left side", "shots from her left", "from her left",
    "angle first, then depth, on her left", ("angle",), (),
    lambda shot: shot.y > OFF_MIDDLE, True,
)  # fmt: skip
HER_RIGHT = Theme(
    "her right side", "shots from her right", "from her right",
    "angle first, then depth, on her right", ("angle",), (),
    lambda shot: shot.y < -OFF_MIDDLE, True,
)  # fmt: skip
CLOSE_IN = Theme(
    "close in", "shots from close in", "from within 3 m", "compact, sealed, follow the second puck",
    ("battle", "recovery"), (), lambda shot: shot.distance <= NEAR_THE_GOAL, True,
)  # fmt: skip
LONG_SHOTS = Theme(
    "long shots", "long shots", "from beyond 13 m", "find the puck early, see it into the body",
    ("tracking", "screens"), (), lambda shot: shot.distance >= FAR_OUT, True,
)  # fmt: skip

THEMES: tuple[Theme, ...] = (
    _of(_S.CLEAR_SHOT, "clear shots", "on clear shots",
        "set and square before the release", ("angle", "save technique")),
    _of(_S.ENTRY, "rushes", "off the rush",
        "out early, then hold", ("rush",)),
    _of(_S.NET_DRIVE, "drives to the net", "on drives to the net",
        "retreat with him, seal late", ("lateral",)),
    _of(_S.BREAKAWAY, "breakaways", "on breakaways",
        "patience, close slowly", ("breakaway",)),
    _of(_S.REBOUND, "rebounds", "on rebounds",
        "first puck off the middle, eyes first to the second", ("rebound control", "recovery")),
    _of(_S.LOW_HIGH, "pucks to the point", "on pucks sent from low to the point",
        "leave the post, find a lane", ("screens", "depth")),
    _of(_S.EAST_WEST, "passes across", "after passes across the middle",
        "look first, one push, arrive set", ("lateral",)),
    _of(_S.BELOW_GOAL_LINE, "play from below the goal line", "from below the goal line",
        "post before the puck, do not guess", ("post play",)),
    _of(_S.DEFLECTION, "tips", "on tips",
        "close the distance, be compact", ("deflections",)),
    _of(_S.SCREEN, "screens", "through screens",
        "find the puck, one long look", ("screens",)),
    NOT_SET, ALREADY_DOWN, HER_LEFT, HER_RIGHT, CLOSE_IN, LONG_SHOTS,
)  # fmt: skip


def theme(name: str) -> Theme:
    """Return a theme by name; raises ``KeyError``."""
    return {one.name: one for one in THEMES}[name]
