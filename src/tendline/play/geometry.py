"""Where the people of an attack are, which way they face, and what lies between: plan view."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from tendline.base import Side
from tendline.ice import Goal
from tendline.play import constants as known
from tendline.play.lanes import (
    Array,
    Point,
    cut_chances,
    drifted,
    lane_open,
    shadow_share,
    skating_time,
)
from tendline.play.parameters import AttackModel, PlayParameters
from tendline.play.situation import Attacker, Situation

LEAST_OUT = known.LEAST_OUT.value


def defenders_at(situation: Situation, time: float, model: AttackModel) -> tuple[Array, Array]:
    """Return the defenders' places after ``time`` [s] at their present velocity, and velocities."""
    places = np.array([(one.x, one.y) for one in situation.defenders], float).reshape(-1, 2)
    moves = np.array([(one.vx, one.vy) for one in situation.defenders], float).reshape(-1, 2)
    x, y = drifted(places, moves, np.array([time]), model.defender_least_out)
    return np.column_stack([x[:, 0], y[:, 0]]), moves


def bodies_at(situation: Situation, time: float, shooter: str) -> Array:
    """Return the places (n, 2) of everyone who may stand in the way after ``time`` [s]."""
    people = [one for one in situation.people if one.name != shooter]
    return np.array(
        [(one.x + one.vx * time, one.y + one.vy * time) for one in people], float
    ).reshape(-1, 2)


def room_of(situation: Situation, model: AttackModel) -> float:
    """Return how free, 0 to 1, the attackers are to pick their places on the net.

    Nobody is free with a defender within ``play.room_from`` of any attacker; all are free from
    ``play.room_full`` on, or without a defender. Between, the room grows evenly.
    """
    if not situation.defenders:
        return 1.0
    nearest = min(
        math.dist((one.x, one.y), (other.x, other.y))
        for one in situation.attackers
        for other in situation.defenders
    )
    share = (nearest - model.room_from) / max(model.room_full - model.room_from, 1e-9)
    return min(max(share, 0.0), 1.0)


def forehand(attacker: Attacker, place: Point) -> Point:
    """Return the direction (unit vector) to an attacker's forehand side when he faces the net."""
    distance = math.hypot(*place)
    ahead = (-place[0] / distance, -place[1] / distance)
    left = (-ahead[1], ahead[0])
    return left if attacker.hand is Side.LEFT else (-left[0], -left[1])


def across_line(puck: Point) -> Point:
    """Return the direction (unit vector) across the puck's line, toward her left."""
    distance = math.hypot(*puck)
    return (-puck[1] / distance, puck[0] / distance)


def unblocked_share(
    situation: Situation, release: Point, time: float, parameters: PlayParameters
) -> float:
    """Return the share of shots from ``release`` that no defender blocks, ``time`` [s] from now."""
    model = parameters.model
    places, _ = defenders_at(situation, time, model)
    shadow = shadow_share(release, situation.rink.goal.half_width, places, model.body_half_width)
    return float(np.prod(1.0 - model.block_share * shadow))


def way_open(
    situation: Situation, start: Point, end: Point, time: float, parameters: PlayParameters
) -> float:
    """Return the chance that no defender cuts a straight way travelled in ``time`` [s]."""
    places, moves = defenders_at(situation, 0.0, parameters.model)
    return lane_open(cut_chances(start, end, time, places, moves, parameters.closing))


def way_clear(
    situation: Situation, start: Point, end: Point, time: float, parameters: PlayParameters
) -> float:
    """Return the chance that no defender stops a skater with the puck on a straight way."""
    places, moves = defenders_at(situation, 0.0, parameters.model)
    return lane_open(cut_chances(start, end, time, places, moves, parameters.stopping))


def skated(
    situation: Situation, stops: tuple[Point, ...], parameters: PlayParameters
) -> tuple[float, float]:
    """Return length [m] and time [s] of the carrier skating with the puck through ``stops``."""
    length = sum(math.dist(a, b) for a, b in pairwise(stops))
    first = math.dist(stops[0], stops[1])
    direction = (
        ((stops[1][0] - stops[0][0]) / first, (stops[1][1] - stops[0][1]) / first)
        if first
        else (0.0, 0.0)
    )
    time = skating_time(
        length,
        speed=speed_along(situation.carrier, direction),
        top_speed=carry_speed(situation, parameters),
        acceleration=parameters.model.skating_acceleration,
    )
    return length, time


def carry_speed(situation: Situation, parameters: PlayParameters) -> float:
    """Return the top speed [m/s] of the carrier with the puck under control."""
    return parameters.model.carry_share * parameters.top_speed * situation.pace


def approach_speed(situation: Situation) -> float:
    """Return how fast [m/s] the carrier already skates toward the middle of the goal."""
    puck, carrier = situation.puck_place, situation.carrier
    return -(carrier.vx * puck[0] + carrier.vy * puck[1]) / math.hypot(*puck)


def speed_along(attacker: Attacker, direction: Point) -> float:
    """Return how fast [m/s] he already skates in a direction (unit vector), 0 if against it."""
    return max(attacker.vx * direction[0] + attacker.vy * direction[1], 0.0)


def crosses_net(start: Point, end: Point, goal: Goal) -> bool:
    """Return whether the straight way between two places runs through the net.

    The net is taken as a rectangle as wide as the mouth and as deep as it is on the ice; touching
    its edge does not count.
    """
    low = (-goal.depth, -goal.half_width)
    high = (0.0, goal.half_width)
    first, last = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        if step == 0.0:
            if not low[axis] < start[axis] < high[axis]:
                return False
            continue
        near, far = sorted(((low[axis] - start[axis]) / step, (high[axis] - start[axis]) / step))
        first, last = max(first, near), min(last, far)
    return first < last


def side_of(y: float) -> Side:
    """Return on which side of hers a place lies; the middle counts as left."""
    return Side.LEFT if y >= 0.0 else Side.RIGHT
