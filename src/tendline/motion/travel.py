"""Which travelling moves are legal for a displacement, and what each takes: numbers and arrays.

Direction is the angle [rad] from her facing (the mean of the facing before and after) to the
displacement: 0 straight ahead, +pi/2 to her left, pi straight back. Turning happens while she
travels, so a leg takes the longer of the two.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from tendline.motion.constants import RANGES
from tendline.motion.kinds import TRAVELS_ON_FEET, MoveKind
from tendline.motion.parameters import MotionParameters

Floats = NDArray[np.float64]

SAME_PLACE = 1e-9
"""Two places nearer than this are one [m]; likewise two facings [rad]."""
_EDGE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """One way to cover a displacement: ``legs`` equal moves of ``kind``, resting in between.

    ``duration`` [s] of all legs, start delays included; ``settle`` [s] after the last.
    """

    kind: MoveKind
    legs: int
    duration: float
    settle: float


class Reach(NamedTuple):
    """Sector of directions [rad, least and greatest absolute angle] and longest leg [m]."""

    least_angle: float
    greatest_angle: float
    longest: float
    repeats: bool


def reach_of(kind: MoveKind, parameters: MotionParameters) -> Reach:
    """Return where a travelling move may go and whether it may be repeated."""
    row = RANGES[kind]
    longest, repeats = {
        MoveKind.SHORT_SHUFFLE: (parameters.short_shuffle_reach, False),
        MoveKind.STEP_SHUFFLE: (parameters.shuffle_reach, False),
        MoveKind.T_PUSH: (parameters.t_push_reach, True),
        MoveKind.C_CUT_FORWARD: (parameters.c_cut_reach, True),
        MoveKind.C_CUT_BACK: (parameters.c_cut_reach, True),
        MoveKind.FORWARD_PUSH: (parameters.forward_push_reach, True),
        MoveKind.BUTTERFLY_SLIDE: (parameters.slide_reach, False),
        MoveKind.BUTTERFLY_PUSH: (parameters.butterfly_push_reach, True),
        MoveKind.KNEE_SHUFFLE: (parameters.knee_shuffle_reach, False),
        MoveKind.POST_ENTRY: (parameters.post_reach, False),
        MoveKind.POST_EXIT: (parameters.post_reach, False),
    }[kind]
    return Reach(row.least_angle.value, row.greatest_angle.value, longest, repeats)


def travel_by(
    kind: MoveKind,
    parameters: MotionParameters,
    *,
    distance: float,
    direction: float,
    facing_change: float,
) -> Travel | None:
    """Return how long ``kind`` takes over ``distance`` [m], or None where it is not legal."""
    low, high, longest, repeats = reach_of(kind, parameters)
    angle = abs(direction)
    if not low - _EDGE <= angle <= high + _EDGE:
        return None
    legs = max(1, math.ceil(distance / longest - _EDGE))
    if legs > 1 and not repeats:
        return None
    law = parameters.law(kind)
    turning = parameters.turn.duration(abs(facing_change) / legs)
    leg = max(law.duration(distance / legs), turning)
    return Travel(kind=kind, legs=legs, duration=legs * leg, settle=law.settle)


def turn_in_place(parameters: MotionParameters, *, facing_change: float) -> Travel:
    """Return the turn on the spot over ``facing_change`` [rad]."""
    law = parameters.turn
    return Travel(
        kind=MoveKind.TURN, legs=1, duration=law.duration(abs(facing_change)), settle=law.settle
    )


def best_travel(
    kinds: tuple[MoveKind, ...],
    parameters: MotionParameters,
    *,
    distance: float,
    direction: float,
    facing_change: float,
    must_settle: bool = True,
) -> Travel | None:
    """Return the travel of ``kinds`` that is set soonest; the earlier kind wins a tie.

    With ``must_settle`` False another move follows at once, so the soonest arrival wins.
    """
    best: Travel | None = None
    least = math.inf
    for kind in kinds:
        one = travel_by(
            kind, parameters, distance=distance, direction=direction, facing_change=facing_change
        )
        if one is None:
            continue
        cost = one.duration + (one.settle if must_settle else 0.0)
        if cost < least:
            best, least = one, cost
    return best


def feet_travel(
    parameters: MotionParameters,
    *,
    distance: float,
    direction: float,
    facing_change: float,
    must_settle: bool = True,
) -> Travel | None:
    """Return the quickest-set travel on the feet; None where nothing has to be done."""
    if distance <= SAME_PLACE:
        if abs(facing_change) <= SAME_PLACE:
            return None
        return turn_in_place(parameters, facing_change=facing_change)
    return best_travel(
        TRAVELS_ON_FEET,
        parameters,
        distance=distance,
        direction=direction,
        facing_change=facing_change,
        must_settle=must_settle,
    )


def travel_many(
    kinds: tuple[MoveKind, ...],
    parameters: MotionParameters,
    *,
    distance: Floats,
    direction: Floats,
    facing_change: Floats,
    must_settle: bool = True,
) -> tuple[Floats, Floats, NDArray[np.int64]]:
    """Return duration, settle and index into ``kinds`` of the travel that is set soonest.

    Arrays of one shape; infinite duration and index -1 where no kind is legal; NaN distance
    stays NaN. The same choice and the same law as :func:`best_travel`.
    """
    angle = np.abs(direction)
    turn = np.abs(facing_change)
    best = np.full(distance.shape, np.inf)
    least = np.full(distance.shape, np.inf)
    settle = np.zeros(distance.shape)
    chosen = np.full(distance.shape, -1, dtype=np.int64)
    for index, kind in enumerate(kinds):
        low, high, longest, repeats = reach_of(kind, parameters)
        law = parameters.law(kind)
        legs = np.maximum(1.0, np.ceil(distance / longest - _EDGE))
        moving = law.start_delay + law.travel_many(distance / legs)
        turning = parameters.turn.start_delay + parameters.turn.travel_many(turn / legs)
        total = legs * np.maximum(moving, turning)
        legal = (angle >= low - _EDGE) & (angle <= high + _EDGE)
        if not repeats:
            legal &= ~(legs > 1.0)
        cost = total + law.settle if must_settle else total
        better = legal & ~(cost >= least)
        least = np.where(better, cost, least)
        best = np.where(better, total, best)
        settle = np.where(better, law.settle, settle)
        chosen = np.where(better, index, chosen)
    return best, settle, chosen


def feet_travel_many(
    parameters: MotionParameters,
    *,
    distance: Floats,
    direction: Floats,
    facing_change: Floats,
    must_settle: bool = True,
) -> tuple[Floats, Floats, NDArray[np.int64]]:
    """Return duration, settle and kind index as :func:`feet_travel` would, for arrays.

    Index -1 means a turn on the spot or nothing to do.
    """
    duration, settle, chosen = travel_many(
        TRAVELS_ON_FEET,
        parameters,
        distance=distance,
        direction=direction,
        facing_change=facing_change,
        must_settle=must_settle,
    )
    here = distance <= SAME_PLACE
    if here.any():
        still = here & (np.abs(facing_change) <= SAME_PLACE)
        turn = parameters.turn
        turning = turn.start_delay + turn.travel_many(np.abs(facing_change))
        duration = np.where(here, np.where(still, 0.0, turning), duration)
        settle = np.where(here, np.where(still, 0.0, turn.settle), settle)
        chosen = np.where(here, -1, chosen)
    return duration, settle, chosen
