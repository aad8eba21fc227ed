"""How far the answer moves when what it assumes moves.

Every assumption is moved one *step* down and up: a fifth of its value, or to the end of the range
a coach may set, whichever is nearer. For each option at the recommended place the steps are
combined as independent (root of the sum of squares) into an interval of the goal chance; for the
place itself each step gives the depth that would be recommended instead.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from tendline.base import Constant, Level, ShotType
from tendline.motion import MotionParameters, MoveKind
from tendline.motion import constants as moves
from tendline.play import constants as known
from tendline.play.engine import Engine
from tendline.play.lanes import Array
from tendline.play.losses import loss_table
from tendline.play.options import OptionKind
from tendline.play.parameters import PlayParameters, play_parameters
from tendline.play.result import Sensitivity
from tendline.play.situation import Goaltender
from tendline.shot import constants as shots

STEP_SHARE = 0.2
"""One step of an assumption, as a share of its value."""

Mover = Callable[[PlayParameters, Goaltender, float], tuple[PlayParameters, Goaltender]]


@dataclass(frozen=True, slots=True)
class Assumption:
    """A constant, how the answer is asked again with another value, and which options it is for.

    ``kinds`` None means all of them.
    """

    constant: Constant
    move: Mover
    kinds: frozenset[OptionKind] | None = None

    def matters_for(self, present: frozenset[OptionKind]) -> bool:
        """Return whether any of the options on the table hangs on it."""
        return self.kinds is None or bool(self.kinds & present)


_ONE_TIMERS = frozenset({OptionKind.ONE_TIMER, OptionKind.LOW_PASS, OptionKind.HIGH_PASS})
_PASSES = _ONE_TIMERS | {OptionKind.SETTLE, OptionKind.POINT_SHOT, OptionKind.TRAILER}
_SKATED = frozenset(
    {
        OptionKind.CARRY, OptionKind.COME_IN, OptionKind.DEKE, OptionKind.NET_DRIVE,
        OptionKind.WALK_OUT, OptionKind.WRAP,
    }
)  # fmt: skip


def assumptions(level: Level) -> tuple[Assumption, ...]:
    """Return the assumptions that are moved, in a fixed order."""
    deke = frozenset({OptionKind.COME_IN, OptionKind.DEKE})

    def setting(constant: Constant, kinds: frozenset[OptionKind] | None = None) -> Assumption:
        def move(
            parameters: PlayParameters, goaltender: Goaltender, value: float
        ) -> tuple[PlayParameters, Goaltender]:
            changed = parameters.settings.with_value(constant.key, value)
            return play_parameters(parameters.level, changed), goaltender

        return Assumption(constant, move, kinds)

    return (
        setting(known.PASS_SPEED[level], _PASSES),
        setting(known.OPEN_PASS, _PASSES),
        setting(known.ONE_TIMER_OPEN, _ONE_TIMERS),
        setting(shots.RELEASE_TIME[ShotType.ONE_TIMER], _ONE_TIMERS),
        setting(known.SETTLE_TIME, _PASSES),
        setting(known.STICK_REACH),
        setting(known.TOP_SPEED[level], _SKATED),
        setting(known.DEKE_OPEN, deke),
        setting(known.DEKE_FEINT, deke),
        setting(known.MOVING_DELAY_MOST),
        setting(shots.WRIST_SPEED[level]),
        setting(shots.REACTION[level]),
        setting(shots.REACTION_SPREAD),
        setting(shots.AIM_ERROR[level]),
        setting(shots.HIDDEN),
        Assumption(moves.REACTION[level], _with_reaction),
        Assumption(moves.PACE_SHARE[level], _with_pace),
    )


def step_of(constant: Constant, value: float) -> tuple[float, float]:
    """Return the values one step below and above ``value``, within the constant's range."""
    step = STEP_SHARE * abs(value)
    return max(constant.low, value - step), min(constant.high, value + step)


def current_value(constant: Constant, parameters: PlayParameters, goaltender: Goaltender) -> float:
    """Return the value in force: the goaltender's own, or as set, or the default."""
    if constant.key == moves.REACTION[goaltender.motion.level].key:
        return goaltender.motion.reaction
    return parameters.settings.value_of(constant)


def chance_spread(engine: Engine, pose: Array) -> Array:
    """Return the spread (options,) of each option's goal chance at one ``pose`` (1, 3)."""
    total = np.zeros(len(engine.threats))
    for one in assumptions(engine.parameters.level):
        if one.kinds is not None or one.constant is known.STICK_REACH:
            continue
        ends = []
        for value in _ends(one, engine.parameters, engine.goaltender):
            moved = _moved(engine, one, value)
            ends.append(loss_table(moved, pose).chance[0])
        total += (0.5 * (ends[1] - ends[0])) ** 2
    return np.sqrt(total)


def sensitivities(
    engine: Engine, solve: Callable[[PlayParameters, Goaltender], tuple[float, float]]
) -> tuple[Sensitivity, ...]:
    """Return how depth and loss move with each assumption, the one that matters most first.

    ``solve`` answers the situation again with other parameters: depth [m] and loss.
    """
    present = frozenset(one.option.kind for one in engine.threats)
    found = []
    for one in assumptions(engine.parameters.level):
        if not one.matters_for(present):
            continue
        low, high = _ends(one, engine.parameters, engine.goaltender)
        below = solve(*one.move(engine.parameters, engine.goaltender, low))
        above = solve(*one.move(engine.parameters, engine.goaltender, high))
        found.append(
            Sensitivity(
                key=one.constant.key,
                label=one.constant.label,
                unit=one.constant.unit,
                low=low,
                high=high,
                depth_low=below[0],
                depth_high=above[0],
                loss_low=below[1],
                loss_high=above[1],
            )
        )
    found.sort(key=lambda one: (-one.depth_swing, -abs(one.loss_high - one.loss_low)))
    return tuple(found)


def _ends(
    one: Assumption, parameters: PlayParameters, goaltender: Goaltender
) -> tuple[float, float]:
    return step_of(one.constant, current_value(one.constant, parameters, goaltender))


def _moved(engine: Engine, one: Assumption, value: float) -> Engine:
    """Return the engine with one assumption moved; the threats stay as they are."""
    parameters, goaltender = one.move(engine.parameters, engine.goaltender, value)
    return replace(engine, parameters=parameters, goaltender=goaltender)


def _with_reaction(
    parameters: PlayParameters, goaltender: Goaltender, value: float
) -> tuple[PlayParameters, Goaltender]:
    moved = goaltender.motion.with_reaction(value)
    return parameters, replace(goaltender, motion=moved)


def _with_pace(
    parameters: PlayParameters, goaltender: Goaltender, value: float
) -> tuple[PlayParameters, Goaltender]:
    share = moves.PACE_SHARE[goaltender.motion.level]
    factor = value / parameters.settings.value_of(share)
    return parameters, replace(goaltender, motion=paced(goaltender.motion, factor))


def paced(motion: MotionParameters, factor: float) -> MotionParameters:
    """Return her motion with every travelling move ``factor`` times as quick."""
    if not (math.isfinite(factor) and factor > 0.0):
        raise ValueError(f"a pace must be above zero, got {factor}")
    for kind in (
        MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE, MoveKind.T_PUSH, MoveKind.C_CUT_FORWARD,
        MoveKind.C_CUT_BACK, MoveKind.FORWARD_PUSH, MoveKind.BUTTERFLY_SLIDE,
    ):  # fmt: skip
        motion = motion.with_law(kind, motion.law(kind).scaled(factor))
    return motion
