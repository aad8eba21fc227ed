"""Make every option of a situation ready: where and when it shoots, how likely it comes off."""

from __future__ import annotations

import math
from dataclasses import replace

from tendline.base import ShotType, Side
from tendline.play.below import below_threats
from tendline.play.geometry import (
    LEAST_OUT,
    across_line,
    approach_speed,
    carry_speed,
    side_of,
    skated,
    speed_along,
    unblocked_share,
    way_clear,
)
from tendline.play.lanes import skating_time
from tendline.play.options import Option, OptionKind, Threat
from tendline.play.parameters import PlayParameters
from tendline.play.passes import pass_threats
from tendline.play.situation import Situation

ALL_KINDS = frozenset(OptionKind)


def threats(
    situation: Situation,
    parameters: PlayParameters,
    switched_on: frozenset[OptionKind] | None = None,
) -> tuple[Threat, ...]:
    """Return the threats of a situation, in a fixed order; only the kinds ``switched_on``.

    Options that cannot be (a pass to someone who sees nothing of the goal or through the net, a
    shot from behind the goal line) are left out.
    """
    on = ALL_KINDS if switched_on is None else switched_on
    found: list[Threat] = []
    if situation.puck_place[0] >= LEAST_OUT:
        found.append(_shot(situation, parameters))
    found.extend(pass_threats(situation, parameters))
    if situation.puck_place[0] >= LEAST_OUT:
        found.extend(_carries(situation, parameters))
        found.extend(coming_threats(situation, parameters))
        found.extend(_drives(situation, parameters))
    found.extend(below_threats(situation, parameters))
    return tuple(one for one in found if one.option.kind in on)


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
        unblocked=unblocked_share(situation, puck, 0.0, parameters),
        shooter=situation.carrier.name,
        cue="the shot",
    )


def _carries(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    """Return carrying the puck across her, to either side, for a stated time."""
    model = parameters.model
    puck, carrier = situation.puck_place, situation.carrier
    left = across_line(puck)
    top = carry_speed(situation, parameters)
    found = []
    for side, sign in ((Side.LEFT, 1.0), (Side.RIGHT, -1.0)):
        direction = (sign * left[0], sign * left[1])
        speed = speed_along(carrier, direction)
        way = carried(model.carry_time, speed, top, model.skating_acceleration)
        place = (puck[0] + way * direction[0], puck[1] + way * direction[1])
        if place[0] < LEAST_OUT or not situation.rink.contains(*place):
            continue
        found.append(
            Threat(
                option=Option(OptionKind.CARRY, side.value),
                release=place,
                time=model.carry_time,
                shot_type=ShotType.WRIST,
                speed=parameters.shot_speed(ShotType.WRIST),
                lane=way_clear(situation, puck, place, model.carry_time, parameters),
                struck=model.carry_open,
                unblocked=unblocked_share(situation, place, model.carry_time, parameters),
                shooter=carrier.name,
                length=way,
                puck_speed=way / model.carry_time,
                cue="his first stride across",
            )
        )
    return found


def carried(time: float, speed: float, top_speed: float, acceleration: float) -> float:
    """Return how far [m] he carries the puck in ``time`` [s] from ``speed`` [m/s]."""
    if speed >= top_speed:
        return speed * time
    gather = min(time, (top_speed - speed) / acceleration)
    return speed * gather + 0.5 * acceleration * gather**2 + top_speed * (time - gather)


def coming_threats(situation: Situation, parameters: PlayParameters) -> tuple[Threat, Threat]:
    """Return going round her and coming in for a late shot.

    Where they end depends on her place, so only the chances are here.
    """
    model = parameters.model
    puck = situation.puck_place
    time = skating_time(
        math.hypot(*puck),
        speed=approach_speed(situation),
        top_speed=carry_speed(situation, parameters),
        acceleration=model.skating_acceleration,
    )
    lane = way_clear(situation, puck, (LEAST_OUT, 0.0), time, parameters)
    round_her = Threat(
        option=Option(OptionKind.DEKE),
        release=puck,
        time=0.0,
        shot_type=ShotType.BACKHAND,
        speed=parameters.shot_speed(ShotType.BACKHAND),
        lane=lane,
        struck=model.deke_open,
        unblocked=1.0,
        shooter=situation.carrier.name,
        wrong_foot=model.deke_feint,
        cue="the puck leaving the middle",
    )
    late_shot = replace(
        round_her,
        option=Option(OptionKind.COME_IN),
        shot_type=ShotType.WRIST,
        speed=parameters.shot_speed(ShotType.WRIST),
        struck=1.0,
        wrong_foot=0.0,
        cue="the shot",
    )
    return round_her, late_shot


def _drives(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    """Return driving the net from a side, across the crease to the other side."""
    model, puck = parameters.model, situation.puck_place
    if abs(puck[1]) < model.drive_from or puck[0] <= model.drive_out:
        return []
    far = side_of(puck[1]).other
    sign = 1.0 if far is Side.LEFT else -1.0
    place = (model.drive_out, sign * model.drive_aside)
    length, time = skated(situation, (puck, place), parameters)
    time += parameters.release_time(ShotType.SNAP)
    return [
        Threat(
            option=Option(OptionKind.NET_DRIVE, far.value),
            release=place,
            time=time,
            shot_type=ShotType.SNAP,
            speed=parameters.shot_speed(ShotType.SNAP),
            lane=way_clear(situation, puck, place, time, parameters),
            struck=model.drive_open,
            unblocked=1.0,
            shooter=situation.carrier.name,
            length=length,
            puck_speed=length / time,
            cue="his cut to the net",
        )
    ]
