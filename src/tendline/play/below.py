"""Options of a puck below or beside the goal line: walk out in front, wrap it in at a post."""

from __future__ import annotations

import math

from tendline.base import ShotType, Side
from tendline.play import constants as known
from tendline.play.geometry import crosses_net, side_of, skated, unblocked_share, way_open
from tendline.play.lanes import Point
from tendline.play.options import Option, OptionKind, Threat
from tendline.play.parameters import PlayParameters
from tendline.play.situation import Situation

ROUND_NET = known.ROUND_NET.value


def below_threats(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    """Return walk-outs and wraparounds; none for a puck well out in front."""
    puck = situation.puck_place
    if puck[0] > parameters.model.below_from:
        return []
    return [*_walk_outs(situation, parameters), *_wraps(situation, parameters)]


def _walk_outs(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    model, puck = parameters.model, situation.puck_place
    side = side_of(puck[1])
    place = (model.walk_out_x, _sign(side) * model.walk_out_y)
    stops = _round_net(situation, puck, place)
    length, time = skated(situation, stops, parameters)
    time += parameters.release_time(ShotType.SNAP)
    return [
        _skated_threat(
            situation,
            Option(OptionKind.WALK_OUT, side.value),
            place,
            stops,
            length,
            time,
            ShotType.SNAP,
            model.walk_out_open,
            parameters,
        )
    ]


def _wraps(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    model, puck = parameters.model, situation.puck_place
    if puck[0] > 0.0 or math.hypot(*puck) > model.wrap_from:
        return []
    found = []
    for side in (Side.LEFT, Side.RIGHT):
        place = (model.wrap_x, _sign(side) * model.wrap_y)
        stops = _round_net(situation, puck, place)
        length, time = skated(situation, stops, parameters)
        time += parameters.release_time(ShotType.WRAP)
        found.append(
            _skated_threat(
                situation,
                Option(OptionKind.WRAP, side.value),
                place,
                stops,
                length,
                time,
                ShotType.WRAP,
                model.wrap_open,
                parameters,
            )
        )
    return found


def _skated_threat(
    situation: Situation, option: Option, place: Point, stops: tuple[Point, ...], length: float,
    time: float, shot_type: ShotType, keeps: float, parameters: PlayParameters,
) -> Threat:  # fmt: skip
    return Threat(
        option=option,
        release=place,
        time=time,
        shot_type=shot_type,
        speed=parameters.shot_speed(shot_type),
        lane=way_open(situation, stops[-2], place, time, parameters),
        struck=keeps,
        unblocked=unblocked_share(situation, place, time, parameters),
        shooter=situation.carrier.name,
        length=length,
        puck_speed=length / time,
        cue="his first stride",
    )


def _round_net(situation: Situation, puck: Point, place: Point) -> tuple[Point, ...]:
    """Return the way from the puck to a place in front, round the back of the net if need be."""
    goal = situation.rink.goal
    if not crosses_net(puck, place, goal):
        return (puck, place)
    back = -goal.depth - ROUND_NET
    beside = goal.half_width + ROUND_NET
    corner = (back, math.copysign(beside, place[1]))
    if not crosses_net(puck, corner, goal):
        return (puck, corner, place)
    return (puck, (back, math.copysign(beside, -place[1])), corner, place)


def _sign(side: Side) -> float:
    return 1.0 if side is Side.LEFT else -1.0
