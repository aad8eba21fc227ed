"""Which travelling moves are legal for a displacement, and what each takes: numbers and arrays.

Direction is the angle [rad] from her facing (the mean of the facing before and after) to the
displacement: 0 straight ahead, +pi/2 to her left, pi straight back. Turning happens while she
travels, so a leg takes the longer of the two. A way longer than one push is made of full pushes
and a rest by whichever move suits it: since a longer leg costs less per metre, no other split of
the same moves is quicker.
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
Integers = NDArray[np.int64]

SAME_PLACE = 1e-9
"""Two places nearer than this are one [m]; likewise two facings [rad]."""
_EDGE = 1e-9

REPEATED = frozenset({MoveKind.T_PUSH, MoveKind.BUTTERFLY_PUSH})
"""Moves that may follow one another to cover more than one of them reaches."""

_REACH_FIELD = {
    MoveKind.SHORT_SHUFFLE: "short_shuffle_reach",
    MoveKind.STEP_SHUFFLE: "shuffle_reach",
    MoveKind.T_PUSH: "t_push_reach",
    MoveKind.C_CUT_FORWARD: "c_cut_reach",
    MoveKind.C_CUT_BACK: "c_cut_reach",
    MoveKind.FORWARD_PUSH: "forward_push_reach",
    MoveKind.BUTTERFLY_SLIDE: "slide_reach",
    MoveKind.BUTTERFLY_PUSH: "butterfly_push_reach",
    MoveKind.KNEE_SHUFFLE: "knee_shuffle_reach",
}
_SECTOR = {
    kind: (row.least_angle.value - _EDGE, row.greatest_angle.value + _EDGE)
    for kind, row in RANGES.items()
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """Part of a way: ``legs`` equal moves of ``kind``, resting in between.

    ``duration`` [s] of all legs, start delays included; ``settle`` [s] after the last;
    ``share`` of the whole way.
    """

    kind: MoveKind
    legs: int
    duration: float
    settle: float
    share: float


Travels = tuple[Travel, ...]


def longest_leg(kind: MoveKind, parameters: MotionParameters) -> float:
    """Return the longest distance [m] of one move of ``kind``."""
    reach: float = getattr(parameters, _REACH_FIELD[kind])
    return reach


def off_sector(kind: MoveKind, direction: float) -> float:
    """Return how far ``direction`` [rad] lies outside the sector of ``kind``; 0 inside."""
    low, high = _SECTOR[kind]
    return max(0.0, low - abs(direction), abs(direction) - high)


def is_legal(kind: MoveKind, direction: float) -> bool:
    """Return whether ``kind`` may go in ``direction`` [rad]."""
    return off_sector(kind, direction) == 0.0


def turn_in_place(parameters: MotionParameters, *, facing_change: float) -> Travel:
    """Return the turn on the spot over ``facing_change`` [rad]."""
    law = parameters.turn
    return Travel(
        kind=MoveKind.TURN,
        legs=1,
        duration=law.duration(abs(facing_change)),
        settle=law.settle,
        share=1.0,
    )


def best_travel(
    kinds: tuple[MoveKind, ...],
    parameters: MotionParameters,
    *,
    distance: float,
    direction: float,
    facing_change: float,
    must_settle: bool = True,
) -> Travels | None:
    """Return the travel by ``kinds`` that is set soonest; the earlier kind wins a tie.

    One travel, or full pushes and a rest; None where no kind is legal. With ``must_settle``
    False another move follows at once, so the soonest arrival wins.
    """
    turn = abs(facing_change)
    best: Travels | None = None
    least = math.inf
    for kind in kinds:
        if not is_legal(kind, direction):
            continue
        longest = longest_leg(kind, parameters)
        law = parameters.law(kind)
        if distance <= longest * (1.0 + _EDGE):
            time = max(law.duration(distance), parameters.turn.duration(turn))
            found: Travels = (
                Travel(kind=kind, legs=1, duration=time, settle=law.settle, share=1.0),
            )
        elif kind in REPEATED:
            legs = math.floor(distance / longest * (1.0 + _EDGE))
            share = longest / distance
            time = max(law.duration(longest), parameters.turn.duration(share * turn))
            left = max(0.0, distance - legs * longest)
            full = Travel(
                kind=kind,
                legs=legs,
                duration=legs * time,
                settle=law.settle,
                share=legs * share,
            )
            rest = _rest(kinds, parameters, left, direction, turn, distance, must_settle)
            found = (full, *rest)
        else:
            continue
        cost = _cost(found, must_settle)
        if cost < least:
            best, least = found, cost
    return best


def _cost(travels: Travels, must_settle: bool) -> float:
    """Return the time until every travel has settled, or until the last has arrived."""
    arrival = settled = 0.0
    for one in travels:
        arrival += one.duration
        settled = max(settled, arrival + one.settle)
    return settled if must_settle else arrival


def _rest(
    kinds: tuple[MoveKind, ...],
    parameters: MotionParameters,
    left: float,
    direction: float,
    turn: float,
    distance: float,
    must_settle: bool,
) -> Travels:
    """Return what covers the metres ``left`` after full pushes; empty if none are."""
    if left <= SAME_PLACE * max(1.0, distance):
        return ()
    share = left / distance
    found = best_travel(
        kinds,
        parameters,
        distance=left,
        direction=direction,
        facing_change=share * turn,
        must_settle=must_settle,
    )
    one = found[0] if found else None
    if one is None:  # pragma: no cover - the pushed kind itself is legal
        return ()
    return (Travel(kind=one.kind, legs=1, duration=one.duration, settle=one.settle, share=share),)


def feet_travel(
    parameters: MotionParameters,
    *,
    distance: float,
    direction: float,
    facing_change: float,
    must_settle: bool = True,
) -> Travels:
    """Return the quickest-set travel on the feet; empty where nothing has to be done."""
    if distance <= SAME_PLACE:
        if abs(facing_change) <= SAME_PLACE:
            return ()
        return (turn_in_place(parameters, facing_change=facing_change),)
    found = best_travel(
        TRAVELS_ON_FEET,
        parameters,
        distance=distance,
        direction=direction,
        facing_change=facing_change,
        must_settle=must_settle,
    )
    return found or ()


class TravelMany(NamedTuple):
    """Arrays of one shape: duration and settle [s], and how the way is covered.

    ``first`` and ``rest`` are indices into the kinds asked (-1: none); ``legs`` full moves of
    ``first`` come before the rest (0 where one move covers all, which is then ``rest``).
    """

    duration: Floats
    settle: Floats
    first: Integers
    legs: Integers
    rest: Integers


def travel_many(
    kinds: tuple[MoveKind, ...],
    parameters: MotionParameters,
    *,
    distance: Floats,
    direction: Floats,
    facing_change: Floats,
    must_settle: bool = True,
) -> TravelMany:
    """Return the travel that is set soonest, for arrays; the choice of :func:`best_travel`.

    Infinite duration where no kind is legal; NaN distance stays without a kind.
    """
    turn = np.abs(facing_change)
    angle = np.abs(direction)
    turning = parameters.turn.start_delay + parameters.turn.travel_many(turn)
    duration = np.full(distance.shape, np.inf)
    least = np.full(distance.shape, np.inf)
    settle = np.zeros(distance.shape)
    first = np.full(distance.shape, -1, dtype=np.int64)
    legs = np.zeros(distance.shape, dtype=np.int64)
    rest = np.full(distance.shape, -1, dtype=np.int64)
    for index, kind in enumerate(kinds):
        low, high = _SECTOR[kind]
        longest = longest_leg(kind, parameters)
        law = parameters.law(kind)
        legal = (angle >= low) & (angle <= high)
        if not legal.any():
            continue
        single = legal & (distance <= longest * (1.0 + _EDGE))
        time = np.maximum(law.start_delay + law.travel_many(distance), turning)
        cost = time + law.settle if must_settle else time
        better = single & (cost < least)
        least = np.where(better, cost, least)
        duration = np.where(better, time, duration)
        settle = np.where(better, law.settle, settle)
        rest = np.where(better, index, rest)
        legs = np.where(better, 0, legs)
        first = np.where(better, -1, first)
        beyond = legal & (distance > longest * (1.0 + _EDGE))
        if kind not in REPEATED or not beyond.any():
            continue
        d, turned = distance[beyond], turn[beyond]
        count = np.floor(d / longest * (1.0 + _EDGE))
        leg = np.maximum(
            law.duration(longest),
            parameters.turn.start_delay + parameters.turn.travel_many(longest / d * turned),
        )
        left = np.maximum(d - count * longest, 0.0)
        none_left = left <= SAME_PLACE * np.maximum(1.0, d)
        after = travel_many(
            kinds,
            parameters,
            distance=left,
            direction=direction[beyond],
            facing_change=left / d * turned,
            must_settle=must_settle,
        )
        time = count * leg + np.where(none_left, 0.0, after.duration)
        settling = np.where(
            none_left, law.settle, np.maximum(after.settle, law.settle - after.duration)
        )
        cost = time + settling if must_settle else time
        won = cost < least[beyond]
        spots = np.flatnonzero(beyond)[won]
        least.flat[spots] = cost[won]
        duration.flat[spots] = time[won]
        settle.flat[spots] = settling[won]
        first.flat[spots] = index
        legs.flat[spots] = count[won].astype(np.int64)
        rest.flat[spots] = np.where(none_left, -1, after.rest)[won]
    return TravelMany(duration, settle, first, legs, rest)


def feet_travel_many(
    parameters: MotionParameters,
    *,
    distance: Floats,
    direction: Floats,
    facing_change: Floats,
    must_settle: bool = True,
) -> TravelMany:
    """Return the travel on the feet as :func:`feet_travel` would, for arrays.

    Without a kind (-1) where she only turns on the spot or has nothing to do.
    """
    found = travel_many(
        TRAVELS_ON_FEET,
        parameters,
        distance=distance,
        direction=direction,
        facing_change=facing_change,
        must_settle=must_settle,
    )
    here = distance <= SAME_PLACE
    if not here.any():
        return found
    still = np.abs(facing_change) <= SAME_PLACE
    turn = parameters.turn
    turning = turn.start_delay + turn.travel_many(np.abs(facing_change))
    return TravelMany(
        duration=np.where(here, np.where(still, 0.0, turning), found.duration),
        settle=np.where(here, np.where(still, 0.0, turn.settle), found.settle),
        first=np.where(here, -1, found.first),
        legs=np.where(here, 0, found.legs),
        rest=np.where(here, -1, found.rest),
    )
