"""The numbers of the attack at one level, with the coach's settings applied."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from tendline.base import (
    DEFAULT_SETTINGS,
    Constant,
    Level,
    Settings,
    ShotType,
    build,
    constants_of,
    parameter,
)
from tendline.play import constants as known
from tendline.play.lanes import Closing
from tendline.shot import ShotParameters, puck_speed, release_time, shot_constants, shot_parameters
from tendline.shot import constants as shots


@dataclass(frozen=True, slots=True, kw_only=True)
class AttackModel:
    """What is alike at every level; one field per constant ``play.*``."""

    skating_acceleration: float = parameter(known.SKATING_ACCELERATION)
    carry_share: float = parameter(known.CARRY_SHARE)
    pass_length: float = parameter(known.PASS_LENGTH)
    pass_fastest: float = parameter(known.PASS_FASTEST)
    open_pass: float = parameter(known.OPEN_PASS)
    one_timer_open: float = parameter(known.ONE_TIMER_OPEN)
    one_timer_closed: float = parameter(known.ONE_TIMER_CLOSED)
    lead_least_out: float = parameter(known.LEAD_LEAST_OUT)
    settle_time: float = parameter(known.SETTLE_TIME)
    trailer_behind: float = parameter(known.TRAILER_BEHIND)
    trailer_aside: float = parameter(known.TRAILER_ASIDE)
    drop_share: float = parameter(known.DROP_SHARE)
    point_from: float = parameter(known.POINT_FROM)
    low_slot_to: float = parameter(known.LOW_SLOT_TO)
    tip_from: float = parameter(known.TIP_FROM)
    tip_reach: float = parameter(known.TIP_REACH)
    tip_share: float = parameter(known.TIP_SHARE)
    cut_loss: float = parameter(known.CUT_LOSS)
    loose_near: float = parameter(known.LOOSE_NEAR)
    loose_nobody: float = parameter(known.LOOSE_NOBODY)
    loose_usual: float = parameter(known.LOOSE_USUAL)
    stick_reach: float = parameter(known.STICK_REACH)
    reach_spread: float = parameter(known.REACH_SPREAD)
    defender_reaction: float = parameter(known.DEFENDER_REACTION)
    cut_most: float = parameter(known.CUT_MOST)
    stop_most: float = parameter(known.STOP_MOST)
    defender_least_out: float = parameter(known.DEFENDER_LEAST_OUT)
    body_half_width: float = parameter(known.BODY_HALF_WIDTH)
    block_share: float = parameter(known.BLOCK_SHARE)
    carry_time: float = parameter(known.CARRY_TIME)
    carry_open: float = parameter(known.CARRY_OPEN)
    deke_share: float = parameter(known.DEKE_SHARE)
    deke_forehand: float = parameter(known.DEKE_FOREHAND)
    deke_backhand: float = parameter(known.DEKE_BACKHAND)
    deke_clearance: float = parameter(known.DEKE_CLEARANCE)
    deke_end: float = parameter(known.DEKE_END)
    deke_feint: float = parameter(known.DEKE_FEINT)
    round_width: float = parameter(known.ROUND_WIDTH)
    round_out: float = parameter(known.ROUND_OUT)
    round_aside: float = parameter(known.ROUND_ASIDE)
    room_from: float = parameter(known.ROOM_FROM)
    room_full: float = parameter(known.ROOM_FULL)
    come_in_gap: float = parameter(known.COME_IN_GAP)
    deke_room: float = parameter(known.DEKE_ROOM)
    deke_open: float = parameter(known.DEKE_OPEN)
    drive_out: float = parameter(known.DRIVE_OUT)
    drive_aside: float = parameter(known.DRIVE_ASIDE)
    drive_from: float = parameter(known.DRIVE_FROM)
    drive_open: float = parameter(known.DRIVE_OPEN)
    below_from: float = parameter(known.BELOW_FROM)
    walk_out_x: float = parameter(known.WALK_OUT_X)
    walk_out_y: float = parameter(known.WALK_OUT_Y)
    walk_out_open: float = parameter(known.WALK_OUT_OPEN)
    wrap_x: float = parameter(known.WRAP_X)
    wrap_y: float = parameter(known.WRAP_Y)
    wrap_open: float = parameter(known.WRAP_OPEN)
    wrap_from: float = parameter(known.WRAP_FROM)
    moving_delay_most: float = parameter(known.MOVING_DELAY_MOST)
    reply_depth_most: float = parameter(known.REPLY_DEPTH_MOST)
    screen_blind: float = parameter(known.SCREEN_BLIND)
    habit_weight: float = parameter(known.HABIT_WEIGHT)
    tremble: float = parameter(known.TREMBLE)
    place_error: float = parameter(known.PLACE_ERROR)
    place_tie: float = parameter(known.PLACE_TIE)
    band_cost: float = parameter(known.BAND_COST)
    depth_least: float = parameter(known.DEPTH_LEAST)
    depth_most: float = parameter(known.DEPTH_MOST)
    offset_most: float = parameter(known.OFFSET_MOST)
    below_offset_most: float = parameter(known.BELOW_OFFSET_MOST)
    below_depth_most: float = parameter(known.BELOW_DEPTH_MOST)
    seal_from: float = parameter(known.SEAL_FROM)
    seal_near: float = parameter(known.SEAL_NEAR)
    puck_gap: float = parameter(known.PUCK_GAP)
    body_room: float = parameter(known.BODY_ROOM)
    base_depth_tolerance: float = parameter(known.BASE_DEPTH_TOLERANCE)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayParameters:
    """Everything about the attack that is not a place: model, speeds [m/s], shot; and settings."""

    level: Level
    settings: Settings
    model: AttackModel
    shot: ShotParameters
    top_speed: float
    pass_speed: float
    shot_speeds: tuple[tuple[ShotType, float], ...]
    release_times: tuple[tuple[ShotType, float], ...]

    def shot_speed(self, shot_type: ShotType) -> float:
        """Return the puck's speed [m/s] at release of this kind of shot."""
        return dict(self.shot_speeds)[shot_type]

    def release_time(self, shot_type: ShotType) -> float:
        """Return the time [s] from puck on the blade to release of this kind of shot."""
        return dict(self.release_times)[shot_type]

    @property
    def closing(self) -> Closing:
        """Return how defenders close lanes to passes."""
        model = self.model
        return Closing(
            reach=model.stick_reach,
            spread=model.reach_spread,
            reaction=model.defender_reaction,
            most=model.cut_most,
            least_out=model.defender_least_out,
            acceleration=model.skating_acceleration,
            top_speed=self.top_speed,
        )

    @property
    def stopping(self) -> Closing:
        """Return how defenders close the way of a skater with the puck."""
        return replace(self.closing, most=self.model.stop_most)


def play_constants(level: Level) -> tuple[Constant, ...]:
    """Return every constant behind :func:`play_parameters` at a level, shot's included."""
    return (
        *constants_of(AttackModel),
        *known.FIXED,
        *known.LOOSE_SETTINGS,
        known.TOP_SPEED[level],
        known.PASS_SPEED[level],
        shots.WRIST_SPEED[level],
        *shots.SPEED_RATIO.values(),
        *shots.RELEASE_TIME.values(),
        *shot_constants(level),
    )


@lru_cache(maxsize=256)
def play_parameters(level: Level, settings: Settings = DEFAULT_SETTINGS) -> PlayParameters:
    """Return the parameters of a level; raises ``InputError`` if a setting is out of range."""
    return PlayParameters(
        level=level,
        settings=settings,
        model=build(AttackModel, settings),
        shot=shot_parameters(level, settings),
        top_speed=settings.value_of(known.TOP_SPEED[level]),
        pass_speed=settings.value_of(known.PASS_SPEED[level]),
        shot_speeds=tuple((one, puck_speed(level, one, settings)) for one in ShotType),
        release_times=tuple((one, release_time(level, one, settings)) for one in ShotType),
    )
