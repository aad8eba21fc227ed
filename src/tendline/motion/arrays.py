"""The same times for whole arrays of displacements, for searches over many places."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError
from tendline.motion.kinds import TRAVELS_DOWN, TRAVELS_ON_FEET, MoveKind
from tendline.motion.parameters import MotionParameters, require_reaction
from tendline.motion.travel import (
    SAME_PLACE,
    TravelMany,
    feet_travel_many,
    longest_leg,
    travel_many,
)

Floats = NDArray[np.float64]


BLOCK = 8192
"""Places worked on at once: measured, larger blocks leave the processor's cache."""


class Arrivals(NamedTuple):
    """Arrival and set time [s], arrays of one shape; both 0 where nothing has to be done."""

    arrival: Floats
    set_time: Floats


def arrival_times(
    distance: Any,
    parameters: MotionParameters,
    *,
    direction: Any = math.pi / 2,
    facing_change: Any = 0.0,
    reaction: float | None = None,
    down: bool = False,
) -> Arrivals:
    """Return when she arrives and when she is set, from the ready stance, for arrays.

    ``distance`` [m], ``direction`` [rad] from the mean of her facing before and after to the
    displacement, ``facing_change`` [rad]; shapes broadcast. With ``down`` the end is the
    butterfly: push then drop, butterfly slide, or drop then travel on the knees, whichever is
    sealed first. NaN or infinity in, NaN out. Equal to :func:`quickest_chain` to rounding.
    Raises ``InputError`` for a negative distance or a reaction that is no time.
    """
    shape, parts = _blocks(distance, direction, facing_change)
    wait = parameters.reaction if reaction is None else require_reaction(reaction)
    done = [_arrivals(parameters, *part, wait=wait, down=down) for part in parts]
    return Arrivals(
        np.concatenate([one.arrival for one in done]).reshape(shape),
        np.concatenate([one.set_time for one in done]).reshape(shape),
    )


def _blocks(*given: Any) -> tuple[tuple[int, ...], list[tuple[Floats, ...]]]:
    """Return the common shape, and the arrays flat in blocks that stay in the cache."""
    arrays = np.broadcast_arrays(*(np.asarray(one, dtype=np.float64) for one in given))
    if (arrays[0] < 0.0).any():
        raise InputError("a distance cannot be negative", came=f"{np.nanmin(arrays[0]):g} m",
                         allowed="0 m or more")  # fmt: skip
    flat = [one.reshape(-1) for one in arrays]
    starts = range(0, max(1, flat[0].size), BLOCK)
    return arrays[0].shape, [tuple(one[at : at + BLOCK] for one in flat) for at in starts]


def _arrivals(
    parameters: MotionParameters,
    d: Floats,
    angle: Floats,
    turn: Floats,
    *,
    wait: float,
    down: bool,
) -> Arrivals:
    d, angle, turn = (np.where(np.isinf(one), np.nan, one) for one in (d, angle, turn))
    found = feet_travel_many(
        parameters, distance=d, direction=angle, facing_change=turn, must_settle=not down
    )
    duration, settle = found.duration, found.settle
    still = (d <= SAME_PLACE) & (np.abs(turn) <= SAME_PLACE)
    if down:
        duration, settle = _down(parameters, d, angle, turn, duration, settle)
        still = np.zeros_like(still)
    invalid = np.isnan(d) | np.isnan(angle) | np.isnan(turn)
    arrival = np.where(still, 0.0, wait + duration)
    set_time = np.where(still, 0.0, wait + duration + settle)
    return Arrivals(np.where(invalid, np.nan, arrival), np.where(invalid, np.nan, set_time))


def _down(
    parameters: MotionParameters,
    d: Floats,
    angle: Floats,
    turn: Floats,
    feet: Floats,
    feet_settle: Floats,
) -> tuple[Floats, Floats]:
    """Return duration and settle of the quickest way to be down at the place."""
    best = feet + parameters.drop
    settle = np.maximum(parameters.drop_settle, feet_settle - parameters.drop)
    moved = d > SAME_PLACE
    found = travel_many(
        (MoveKind.BUTTERFLY_SLIDE,), parameters, distance=d, direction=angle, facing_change=turn
    )
    turning = parameters.turn.start_delay + parameters.turn.travel_many(np.abs(turn))
    slide = np.maximum(np.where(moved, found.duration, turning), parameters.drop)
    slide_settle = np.where(moved, found.settle, parameters.drop_settle)
    best, settle = _least(best, settle, slide, slide_settle)
    low, low_settle = _on_knees(parameters, d, angle, turn)
    return _least(best, settle, parameters.drop + low, low_settle)


def _on_knees(
    parameters: MotionParameters, d: Floats, angle: Floats, turn: Floats
) -> tuple[Floats, Floats]:
    """Return duration and settle of travel on the knees, re-aiming first where she turns."""
    aims = (np.abs(turn) > parameters.re_aim_turn) | (d <= SAME_PLACE)
    turning = parameters.turn.start_delay + parameters.turn.travel_many(np.abs(turn))
    aim = np.where(aims, np.maximum(parameters.on_ice_recovery, turning), 0.0)
    found = travel_many(
        TRAVELS_DOWN, parameters, distance=d, direction=angle,
        facing_change=np.where(aims, 0.0, turn),
    )  # fmt: skip
    here = d <= SAME_PLACE
    return aim + np.where(here, 0.0, found.duration), np.where(here, 0.0, found.settle)


def _least(
    first: Floats, first_settle: Floats, second: Floats, second_settle: Floats
) -> tuple[Floats, Floats]:
    better = second + second_settle < first + first_settle
    return np.where(better, second, first), np.where(better, second_settle, first_settle)


def covered_at(
    distance: Any,
    time: Any,
    parameters: MotionParameters,
    *,
    direction: Any = math.pi / 2,
    facing_change: Any = 0.0,
    reaction: float | None = None,
) -> tuple[Floats, NDArray[np.bool_]]:
    """Return metres covered toward a place and whether she is set, ``time`` [s] into the chain.

    On her feet, from the ready stance; the arguments of :func:`arrival_times`, which it raises
    like. NaN in (or an infinite way): NaN metres, not set. Equal to :func:`state_at` of the
    quickest chain to rounding.
    """
    shape, parts = _blocks(distance, time, direction, facing_change)
    wait = parameters.reaction if reaction is None else require_reaction(reaction)
    done = [_covered_at(parameters, *part, wait=wait) for part in parts]
    return (
        np.concatenate([one[0] for one in done]).reshape(shape),
        np.concatenate([one[1] for one in done]).reshape(shape),
    )


def _covered_at(
    parameters: MotionParameters,
    d: Floats,
    t: Floats,
    angle: Floats,
    turn: Floats,
    *,
    wait: float,
) -> tuple[Floats, NDArray[np.bool_]]:
    d, angle, turn = (np.where(np.isinf(one), np.nan, one) for one in (d, angle, turn))
    found = feet_travel_many(parameters, distance=d, direction=angle, facing_change=turn)
    covered = _covered(found, d, np.abs(turn), t - wait, parameters)
    still = (d <= SAME_PLACE) & (np.abs(turn) <= SAME_PLACE)
    is_set = still | (t < wait) | (t >= wait + found.duration + found.settle)
    invalid = np.isnan(d) | np.isnan(t) | np.isnan(angle) | np.isnan(turn)
    return np.where(invalid, np.nan, covered), is_set & ~invalid


def _covered(
    found: TravelMany, d: Floats, turn: Floats, time: Floats, parameters: MotionParameters
) -> Floats:
    """Return the metres covered by full moves and the rest, ``time`` after the first began."""
    covered = np.zeros(d.shape)
    begun = np.zeros(d.shape)
    done = np.zeros(d.shape)
    for index, kind in enumerate(TRAVELS_ON_FEET):
        mine = found.first == index
        if not mine.any():
            continue
        law, longest = parameters.law(kind), longest_leg(kind, parameters)
        turning = parameters.turn.start_delay + parameters.turn.travel_many(
            longest / np.where(mine, d, np.inf) * turn
        )
        leg = np.maximum(law.duration(longest), turning)
        over = np.clip(np.floor(time / leg), 0.0, found.legs)
        within = law.covered_many(longest, time - over * leg)
        part = np.where(over >= found.legs, found.legs * longest, over * longest + within)
        covered = np.where(mine, part, covered)
        begun = np.where(mine, found.legs * leg, begun)
        done = np.where(mine, found.legs * longest, done)
    for index, kind in enumerate(TRAVELS_ON_FEET):
        mine = found.rest == index
        if mine.any():
            within = parameters.law(kind).covered_many(np.maximum(d - done, 0.0), time - begun)
            covered = np.where(mine & (time > begun), done + within, covered)
    return np.minimum(covered, d)
