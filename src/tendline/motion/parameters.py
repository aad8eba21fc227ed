"""All figures of one goaltender's motion in one frozen object."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from tendline.base import DEFAULT_SETTINGS, InputError, Level, Settings
from tendline.motion import constants as c
from tendline.motion.kinds import MoveKind
from tendline.motion.law import TimeLaw

LAW_FIELDS: dict[MoveKind, str] = {
    MoveKind.SHORT_SHUFFLE: "short_shuffle",
    MoveKind.STEP_SHUFFLE: "step_shuffle",
    MoveKind.T_PUSH: "t_push",
    MoveKind.C_CUT_FORWARD: "c_cut_forward",
    MoveKind.C_CUT_BACK: "c_cut_back",
    MoveKind.FORWARD_PUSH: "forward_push",
    MoveKind.TURN: "turn",
    MoveKind.BUTTERFLY_SLIDE: "butterfly_slide",
    MoveKind.BUTTERFLY_PUSH: "butterfly_push",
    MoveKind.KNEE_SHUFFLE: "knee_shuffle",
    MoveKind.POST_ENTRY: "post_push",
    MoveKind.POST_EXIT: "post_push",
}


def require_reaction(reaction: float) -> float:
    """Return ``reaction`` [s] if it is a time of 0 or more; raises ``InputError`` else."""
    if not (math.isfinite(reaction) and reaction >= 0.0):
        raise InputError("reaction must be a time", came=f"{reaction}", allowed="0 s or more")
    return reaction


@dataclass(frozen=True, slots=True, kw_only=True)
class MotionParameters:
    """Time laws and times [s] of one goaltender; lengths in metres.

    ``reaction`` is the time from what she sees to the start of her move. ``recovery`` counts to
    set feet, of which the last ``recovery_settle`` seconds are settling.
    """

    level: Level
    reaction: float
    short_shuffle: TimeLaw
    step_shuffle: TimeLaw
    t_push: TimeLaw
    c_cut_forward: TimeLaw
    c_cut_back: TimeLaw
    forward_push: TimeLaw
    turn: TimeLaw
    butterfly_slide: TimeLaw
    butterfly_push: TimeLaw
    knee_shuffle: TimeLaw
    post_push: TimeLaw
    drop: float
    drop_settle: float
    recovery: float
    recovery_settle: float
    on_ice_recovery: float
    re_aim_turn: float
    stance_change: float
    down_change: float
    post_entry: float
    post_exit: float
    short_shuffle_reach: float
    shuffle_step: float
    shuffle_reach: float
    t_push_reach: float
    c_cut_reach: float
    forward_push_reach: float
    slide_reach: float
    butterfly_push_reach: float
    knee_shuffle_reach: float
    post_reach: float

    def law(self, kind: MoveKind) -> TimeLaw:
        """Return the time law of a move that travels or turns; raises ``InputError`` else."""
        name = LAW_FIELDS.get(kind)
        if name is None:
            raise InputError(
                "this move has a time, not a law of speed",
                came=kind.value,
                allowed=", ".join(one.value for one in LAW_FIELDS),
            )
        law: TimeLaw = getattr(self, name)
        return law

    def with_law(self, kind: MoveKind, law: TimeLaw) -> MotionParameters:
        """Return parameters with one move's law replaced."""
        self.law(kind)
        changed: dict[str, Any] = {LAW_FIELDS[kind]: law}
        return replace(self, **changed)

    def with_reaction(self, reaction: float) -> MotionParameters:
        """Return parameters with another reaction time [s]; raises ``InputError`` below 0."""
        return replace(self, reaction=require_reaction(reaction))

    @property
    def recovery_arrival(self) -> float:
        """Return the time from knees to feet before settling [s]."""
        return self.recovery - self.recovery_settle


@lru_cache(maxsize=256)
def motion_parameters(level: Level, settings: Settings = DEFAULT_SETTINGS) -> MotionParameters:
    """Return the default motion of a goaltender of ``level``.

    Adult figures scaled by the level's share of pace (assumed) and with the level's reaction
    time (adult reaction slowed over age by a published line). Gravity sets the drop, so it is
    not scaled. Raises ``InputError`` for a setting out of its range.
    """
    of = settings.value_of
    share = of(c.PACE_SHARE[level])
    laws: dict[str, TimeLaw] = {}
    for kind, rows in c.LAWS.items():
        laws[LAW_FIELDS[kind]] = TimeLaw(
            start_delay=of(rows.start_delay),
            acceleration=of(rows.acceleration),
            top_speed=of(rows.top_speed),
            braking=of(rows.braking),
            settle=of(rows.settle),
        ).scaled(share)
    recovery = of(c.RECOVERY_TIME) / share
    return MotionParameters(
        level=level,
        reaction=of(c.REACTION[level]),
        **laws,
        drop=of(c.DROP_TIME),
        drop_settle=of(c.DROP_SETTLE) / share,
        recovery=recovery,
        recovery_settle=recovery * of(c.RECOVERY_SETTLE),
        on_ice_recovery=of(c.ON_ICE_RECOVERY_TIME) / share,
        stance_change=of(c.STANCE_CHANGE_TIME) / share,
        re_aim_turn=of(c.RE_AIM_TURN),
        down_change=of(c.DOWN_CHANGE_TIME) / share,
        post_entry=of(c.POST_ENTRY_TIME) / share,
        post_exit=of(c.POST_EXIT_TIME) / share,
        short_shuffle_reach=of(c.SHORT_SHUFFLE_REACH),
        shuffle_step=of(c.SHUFFLE_STEP),
        shuffle_reach=of(c.SHUFFLE_REACH),
        t_push_reach=of(c.T_PUSH_REACH),
        c_cut_reach=of(c.C_CUT_REACH),
        forward_push_reach=of(c.FORWARD_PUSH_REACH),
        slide_reach=of(c.SLIDE_REACH),
        butterfly_push_reach=of(c.BUTTERFLY_PUSH_REACH),
        knee_shuffle_reach=of(c.KNEE_SHUFFLE_REACH),
        post_reach=of(c.POST_REACH),
    )
