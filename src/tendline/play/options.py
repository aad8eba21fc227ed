"""What the attack can do: the options, where and when each shoots, and how likely it comes off.

Each option becomes a :class:`Threat`: a place of release, the time she has from the first thing
she can see of it until the release, and the chance that it comes off. Going round her depends on
where she stands, so its threat carries the two moves instead (see ``deke``).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from tendline.base import ShotType, Side
from tendline.play.lanes import (
    Array,
    Point,
    cut_chances,
    lane_open,
    meeting,
    shadow_share,
    skating_time,
)
from tendline.play.parameters import PlayParameters
from tendline.play.situation import Attacker, Situation

LEAST_OUT = 0.25
"""A puck released nearer to the goal line than this [m] sees too little of the mouth to shoot."""


class OptionKind(StrEnum):
    """The kinds of option, as switches and habits name them."""

    SHOOT = "shoot now"
    ONE_TIMER = "pass and one-time"
    SETTLE = "pass, settle and shoot"
    CARRY = "carry across"
    DEKE = "go round her"


@dataclass(frozen=True, slots=True)
class Option:
    """One option: its kind and, where it has one, to whom or to which side of hers."""

    kind: OptionKind
    to: str = ""

    @property
    def key(self) -> str:
        """Return a text that names the option within a situation."""
        return f"{self.kind.value}: {self.to}" if self.to else self.kind.value

    @property
    def words(self) -> str:
        """Return the option in a coach's words."""
        match self.kind:
            case OptionKind.SHOOT:
                return "shoot now"
            case OptionKind.ONE_TIMER:
                return f"pass to {self.to}, one-timer"
            case OptionKind.SETTLE:
                return f"pass to {self.to}, who settles it and shoots"
            case OptionKind.CARRY:
                return f"carry it across to her {self.to}"
            case OptionKind.DEKE:
                return "go round her"


@dataclass(frozen=True, slots=True, kw_only=True)
class Threat:
    """An option made ready for the computation.

    ``release`` [m] is where the shot leaves; ``time`` [s] runs from the first sign she can see
    (``cue``, in words) to the release, 0 for a shot that she is set for; ``wrong_foot`` [s] is
    what a feint adds to her reaction. ``comes_off`` is the chance that the shot is taken at all:
    ``lane`` (nobody cuts it), ``struck`` (he masters it), ``unblocked`` (no skater blocks it).
    """

    option: Option
    release: Point
    time: float
    shot_type: ShotType
    speed: float
    lane: float
    struck: float
    unblocked: float
    wrong_foot: float = 0.0
    length: float = 0.0
    pass_speed: float = 0.0
    cue: str = ""
    shooter: str = ""

    @property
    def comes_off(self) -> float:
        """Return the chance that the option ends in a shot."""
        return self.lane * self.struck * self.unblocked

    @property
    def moves_her(self) -> bool:
        """Return whether she has to go somewhere for it."""
        return self.time > 0.0


def threats(situation: Situation, parameters: PlayParameters,
            switched_on: frozenset[OptionKind] | None = None) -> tuple[Threat, ...]:  # fmt: skip
    """Return the threats of a situation, in a fixed order; only the kinds ``switched_on``.

    Options that cannot be (a pass to someone who sees nothing of the goal, a shot from behind
    the goal line) are left out.
    """
    on = frozenset(OptionKind) if switched_on is None else switched_on
    found: list[Threat] = []
    puck = situation.puck_place
    if OptionKind.SHOOT in on and puck[0] >= LEAST_OUT:
        found.append(_shot(situation, parameters))
    for mate in situation.mates:
        for kind in (OptionKind.ONE_TIMER, OptionKind.SETTLE):
            if kind in on:
                one = _pass(situation, mate, kind, parameters)
                if one is not None:
                    found.append(one)
    if OptionKind.CARRY in on and puck[0] >= LEAST_OUT:
        found.extend(_carries(situation, parameters))
    if OptionKind.DEKE in on and puck[0] >= LEAST_OUT:
        found.append(_deke(situation, parameters))
    return tuple(found)


def defenders_at(situation: Situation, time: float) -> tuple[Array, Array]:
    """Return the defenders' places after ``time`` [s] at their present velocity, and velocities."""
    places = np.array([(one.x, one.y) for one in situation.defenders], float).reshape(-1, 2)
    moves = np.array([(one.vx, one.vy) for one in situation.defenders], float).reshape(-1, 2)
    return places + time * moves, moves


def bodies_at(situation: Situation, time: float, shooter: str) -> NDArray[np.float64]:
    """Return the places (n, 2) of everyone who may stand in the way after ``time`` [s]."""
    people = [one for one in situation.people if one.name != shooter]
    return np.array(
        [(one.x + one.vx * time, one.y + one.vy * time) for one in people], float
    ).reshape(-1, 2)


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


def unblocked_share(situation: Situation, release: Point, time: float, shooter: str,
                    parameters: PlayParameters) -> float:  # fmt: skip
    """Return the share of shots from ``release`` that no defender blocks."""
    places, _ = defenders_at(situation, time)
    model = parameters.model
    shadow = shadow_share(release, situation.rink.goal.half_width, places, model.body_half_width)
    return float(np.prod(1.0 - model.block_share * shadow))


def _shot(situation: Situation, parameters: PlayParameters) -> Threat:
    puck = situation.puck_place
    return Threat(
        option=Option(OptionKind.SHOOT),
        release=puck,
        time=0.0,
        shot_type=ShotType.WRIST,
        speed=parameters.shot_speed(ShotType.WRIST),
        lane=1.0,
        struck=1.0,
        unblocked=unblocked_share(situation, puck, 0.0, situation.carrier.name, parameters),
        cue="the shot",
    )


def _pass(situation: Situation, mate: Attacker, kind: OptionKind,
          parameters: PlayParameters) -> Threat | None:  # fmt: skip
    model = parameters.model
    puck = situation.puck_place
    place, flight, speed = meeting(
        puck,
        receiver=mate.place,
        velocity=(mate.vx, mate.vy),
        reference_speed=parameters.pass_speed,
        reference_length=model.pass_length,
        fastest=model.pass_fastest,
    )
    if place[0] < LEAST_OUT or not situation.rink.contains(*place):
        return None
    places, moves = defenders_at(situation, 0.0)
    lane = lane_open(cut_chances(puck, place, flight, places, moves, parameters.closing))
    if kind is OptionKind.ONE_TIMER:
        shot_type = ShotType.ONE_TIMER
        time = flight + parameters.release_time(shot_type)
        struck = model.open_pass * _struck(mate, puck, place, parameters)
    else:
        shot_type = ShotType.WRIST
        time = flight + model.settle_time + parameters.release_time(shot_type)
        struck = model.open_pass
    return Threat(
        option=Option(kind, mate.name),
        release=place,
        time=time,
        shot_type=shot_type,
        speed=parameters.shot_speed(shot_type),
        lane=lane,
        struck=struck,
        unblocked=unblocked_share(situation, place, time, mate.name, parameters),
        length=math.hypot(place[0] - puck[0], place[1] - puck[1]),
        pass_speed=speed,
        cue="the pass leaving his blade",
        shooter=mate.name,
    )


def _struck(mate: Attacker, puck: Point, place: Point, parameters: PlayParameters) -> float:
    """Return the share of one-timers struck cleanly: by how open his blade is to the pass."""
    model = parameters.model
    away = (puck[0] - place[0], puck[1] - place[1])
    length = math.hypot(*away)
    if length == 0.0:
        return model.one_timer_open
    side = forehand(mate, place)
    openness = 0.5 * (1.0 + (side[0] * away[0] + side[1] * away[1]) / length)
    return model.one_timer_closed + openness * (model.one_timer_open - model.one_timer_closed)


def _carries(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    model = parameters.model
    puck, carrier = situation.puck_place, situation.carrier
    left = across_line(puck)
    top = model.carry_share * parameters.top_speed * situation.pace
    places, moves = defenders_at(situation, 0.0)
    found = []
    for side, sign in ((Side.LEFT, 1.0), (Side.RIGHT, -1.0)):
        direction = (sign * left[0], sign * left[1])
        speed = max(carrier.vx * direction[0] + carrier.vy * direction[1], 0.0)
        way = _carried(model.carry_time, speed, top, model.skating_acceleration)
        place = (puck[0] + way * direction[0], puck[1] + way * direction[1])
        if place[0] < LEAST_OUT or not situation.rink.contains(*place):
            continue
        lane = lane_open(
            cut_chances(puck, place, model.carry_time, places, moves, parameters.closing)
        )
        found.append(
            Threat(
                option=Option(OptionKind.CARRY, side.value),
                release=place,
                time=model.carry_time,
                shot_type=ShotType.WRIST,
                speed=parameters.shot_speed(ShotType.WRIST),
                lane=lane,
                struck=model.carry_open,
                unblocked=unblocked_share(
                    situation, place, model.carry_time, carrier.name, parameters
                ),
                length=way,
                cue="his first stride across",
            )
        )
    return found


def _carried(time: float, speed: float, top_speed: float, acceleration: float) -> float:
    """Return how far [m] he carries the puck in ``time`` [s]."""
    if speed >= top_speed:
        return speed * time
    gather = min(time, (top_speed - speed) / acceleration)
    return speed * gather + 0.5 * acceleration * gather**2 + top_speed * (time - gather)


def _deke(situation: Situation, parameters: PlayParameters) -> Threat:
    """Return going round her; where it ends depends on her place, so only the chances are here."""
    model = parameters.model
    puck = situation.puck_place
    time = skating_time(
        math.hypot(*puck),
        speed=approach_speed(situation),
        top_speed=model.carry_share * parameters.top_speed * situation.pace,
        acceleration=model.skating_acceleration,
    )
    places, moves = defenders_at(situation, 0.0)
    lane = lane_open(cut_chances(puck, (LEAST_OUT, 0.0), time, places, moves, parameters.closing))
    return Threat(
        option=Option(OptionKind.DEKE),
        release=puck,
        time=0.0,
        shot_type=ShotType.BACKHAND,
        speed=parameters.shot_speed(ShotType.BACKHAND),
        lane=lane,
        struck=model.deke_open,
        unblocked=1.0,
        wrong_foot=model.deke_feint,
        cue="the puck leaving the middle",
    )


def approach_speed(situation: Situation) -> float:
    """Return how fast [m/s] the carrier already skates toward the middle of the goal."""
    puck, carrier = situation.puck_place, situation.carrier
    return -(carrier.vx * puck[0] + carrier.vy * puck[1]) / math.hypot(*puck)
