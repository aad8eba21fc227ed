"""The engine's goaltender and parameters, from what a club knows of her and has set."""

from __future__ import annotations

from functools import lru_cache

from tendline.base import DEFAULT_SETTINGS, Level, Settings, Side
from tendline.body import build_goaltender
from tendline.ice import RuleSet
from tendline.motion import motion_parameters
from tendline.play import Goaltender


@lru_cache(maxsize=64)
def engine_goaltender(
    *,
    stature: float,
    catching_hand: Side,
    level: Level,
    rule_set: RuleSet = RuleSet.NHL,
    settings: Settings = DEFAULT_SETTINGS,
) -> Goaltender:
    """Return the goaltender that the engine plays: her build and how she moves.

    ``stature`` in metres. Raises :class:`InputError` for a stature outside the body's range or a
    setting outside its own.
    """
    build = build_goaltender(
        stature=stature,
        catching_hand=catching_hand,
        level=level,
        rule_set=rule_set,
        settings=settings,
    )
    return Goaltender(build=build, motion=motion_parameters(level, settings=settings))
