"""Everything a run needs besides the drill: rink, level, goaltender, parameters."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from tendline import ice
from tendline.base import (
    DEFAULT_SETTINGS,
    Constant,
    Level,
    Settings,
    Sex,
    Side,
    build,
    constants_of,
    parameter,
)
from tendline.body import build_by_age, build_goaltender
from tendline.drill import constants as known
from tendline.drill.skating import Skating, skating_constants, skating_of
from tendline.motion import motion_parameters
from tendline.play.parameters import PlayParameters, play_parameters
from tendline.play.situation import Goaltender
from tendline.shot.constants import AGE_OF_LEVEL


@dataclass(frozen=True, slots=True, kw_only=True)
class ClockModel:
    """Times and thresholds of the simulation; one field per constant ``drill.*``."""

    soft_share: float = parameter(known.SOFT_SHARE)
    hard_share: float = parameter(known.HARD_SHARE)
    toss_speed: float = parameter(known.TOSS_SPEED)
    collect_time: float = parameter(known.COLLECT_TIME)
    pass_time: float = parameter(known.PASS_TIME)
    rebound_cleared: float = parameter(known.REBOUND_CLEARED)
    track_rebound: float = parameter(known.TRACK_REBOUND)
    call_time: float = parameter(known.CALL_TIME)
    poke_time: float = parameter(known.POKE_TIME)
    cover_time: float = parameter(known.COVER_TIME)
    look_time: float = parameter(known.LOOK_TIME)
    on_line: float = parameter(known.ON_LINE)
    decision_step: float = parameter(known.DECISION_STEP)
    follow_step: float = parameter(known.FOLLOW_STEP)
    follow_time: float = parameter(known.FOLLOW_TIME)
    gain_step: float = parameter(known.GAIN_STEP)
    hard_stop_least: float = parameter(known.HARD_STOP_LEAST)
    stay_down: float = parameter(known.STAY_DOWN)
    timing_spread: float = parameter(known.TIMING_SPREAD)


@dataclass(frozen=True, slots=True)
class World:
    """Rink, level and people's abilities; hashable, so that answers can be kept."""

    rink: ice.Rink
    level: Level
    settings: Settings
    goaltender: Goaltender
    play: PlayParameters
    skating: Skating
    clock: ClockModel
    sight_time: float


def clock_constants(level: Level) -> tuple[Constant, ...]:
    """Return every constant of the simulation at a level that lives in this package."""
    return (*constants_of(ClockModel), *skating_constants(), known.SIGHT_TIME[level])


_GROWN = 18.0


@lru_cache(maxsize=64)
def usual_goaltender(
    level: Level, catching_hand: Side = Side.LEFT, settings: Settings = DEFAULT_SETTINGS
) -> Goaltender:
    """Return a goaltender of middle size for the level (growth table of girls below 18 years)."""
    age = AGE_OF_LEVEL[level]
    if age < _GROWN:
        built = build_by_age(
            age, Sex.FEMALE, catching_hand=catching_hand, level=level, settings=settings
        )
    else:
        built = build_goaltender(level=level, catching_hand=catching_hand, settings=settings)
    return Goaltender(build=built, motion=motion_parameters(level, settings))


@lru_cache(maxsize=64)
def world_of(
    level: Level,
    settings: Settings = DEFAULT_SETTINGS,
    rink: ice.Rink | None = None,
    goaltender: Goaltender | None = None,
) -> World:
    """Return the world at a level, with defaults for what is not given."""
    return World(
        rink=rink or ice.rink(settings=settings),
        level=level,
        settings=settings,
        goaltender=goaltender or usual_goaltender(level, settings=settings),
        play=play_parameters(level, settings),
        skating=skating_of(level, settings),
        clock=build(ClockModel, settings),
        sight_time=settings.value_of(known.SIGHT_TIME[level]),
    )
