"""Options in which another attacker shoots: passes by where they go, and tips."""

from __future__ import annotations

import math

from tendline.base import ShotType
from tendline.play.geometry import (
    LEAST_OUT,
    crosses_net,
    forehand,
    unblocked_share,
    way_open,
)
from tendline.play.lanes import Point, meeting
from tendline.play.options import Option, OptionKind, Threat
from tendline.play.parameters import PlayParameters
from tendline.play.situation import Attacker, Situation

EASING_HALVINGS = 12
"""How often the share of his speed that a receiver keeps is halved in on."""


def pass_threats(situation: Situation, parameters: PlayParameters) -> list[Threat]:
    """Return the passes to every mate, and the tips by mates in front, in a fixed order."""
    found: list[Threat] = []
    for mate in situation.mates:
        found.extend(_passes(situation, mate, parameters))
        found.extend(_tips(situation, mate, parameters))
    return found


def pass_kinds(
    situation: Situation, mate: Attacker, parameters: PlayParameters
) -> tuple[OptionKind, ...]:
    """Return what a pass to this mate can become, told from where he and the puck are."""
    model, puck = parameters.model, situation.puck_place
    if puck[0] < LEAST_OUT:
        low = math.hypot(mate.x, mate.y) <= model.low_slot_to
        return (OptionKind.LOW_PASS if low else OptionKind.HIGH_PASS, OptionKind.SETTLE)
    if mate.x >= model.point_from:
        return (OptionKind.POINT_SHOT,)
    away = math.hypot(*puck)
    behind = (mate.x * puck[0] + mate.y * puck[1]) / away - away
    aside = abs(mate.x * puck[1] - mate.y * puck[0]) / away
    if behind >= model.trailer_behind and aside <= model.trailer_aside:
        return (OptionKind.TRAILER,)
    return (OptionKind.ONE_TIMER, OptionKind.SETTLE)


def _passes(situation: Situation, mate: Attacker, parameters: PlayParameters) -> list[Threat]:
    puck = situation.puck_place
    found = []
    for kind in pass_kinds(situation, mate, parameters):
        share = parameters.model.drop_share if kind is OptionKind.TRAILER else 1.0
        met = _met(situation, mate, share * parameters.pass_speed, parameters)
        if met is None:
            continue
        place, flight, speed = met
        shot_type, after, struck = _finish(kind, mate, puck, place, parameters)
        time = flight + after
        found.append(
            Threat(
                option=Option(kind, mate.name),
                release=place,
                time=time,
                shot_type=shot_type,
                speed=parameters.shot_speed(shot_type),
                lane=way_open(situation, puck, place, flight, parameters),
                struck=parameters.model.open_pass * struck,
                unblocked=unblocked_share(situation, place, time, parameters),
                shooter=mate.name,
                length=math.dist(puck, place),
                puck_speed=speed,
                cue="the pass leaving his blade",
            )
        )
    return found


def _met(
    situation: Situation, mate: Attacker, reference_speed: float, parameters: PlayParameters
) -> tuple[Point, float, float] | None:
    """Return where a mate takes the pass [m], its flight [s] and speed [m/s]; None if nowhere.

    He takes it in full stride if that is a place to shoot from: on the ice, not past the net, and
    not nearer to the goal line than ``play.lead_least_out`` unless he is there already. Otherwise
    he eases off, no more than needed; the pass then meets him earlier on his way.
    """
    puck, goal, model = situation.puck_place, situation.rink.goal, parameters.model
    if mate.x < LEAST_OUT:
        return None
    least_out = min(model.lead_least_out, mate.x)

    def at(eased: float) -> tuple[Point, float, float]:
        return meeting(
            puck,
            receiver=mate.place,
            velocity=(eased * mate.vx, eased * mate.vy),
            reference_speed=reference_speed,
            reference_length=model.pass_length,
            fastest=model.pass_fastest,
        )

    def suits(met: tuple[Point, float, float]) -> bool:
        place = met[0]
        return (
            place[0] >= least_out
            and situation.rink.contains(*place)
            and not crosses_net(puck, place, goal)
        )

    in_stride = at(1.0)
    if suits(in_stride):
        return in_stride
    standing = at(0.0)
    if not suits(standing):
        return None
    low, high, best = 0.0, 1.0, standing
    for _ in range(EASING_HALVINGS):
        middle = 0.5 * (low + high)
        met = at(middle)
        if suits(met):
            low, best = middle, met
        else:
            high = middle
    return best


def _finish(
    kind: OptionKind, mate: Attacker, puck: Point, place: Point, parameters: PlayParameters
) -> tuple[ShotType, float, float]:
    """Return the shot at the end of a pass, the time [s] it takes, and the share struck cleanly."""
    settle = parameters.model.settle_time
    if kind is OptionKind.SETTLE:
        return ShotType.WRIST, settle + parameters.release_time(ShotType.WRIST), 1.0
    if kind is OptionKind.TRAILER:
        return ShotType.WRIST, parameters.release_time(ShotType.WRIST), 1.0
    if kind is OptionKind.POINT_SHOT:
        return ShotType.SLAP, settle + parameters.release_time(ShotType.SNAP), 1.0
    one_timer = parameters.release_time(ShotType.ONE_TIMER)
    return ShotType.ONE_TIMER, one_timer, struck_share(mate, puck, place, parameters)


def struck_share(mate: Attacker, puck: Point, place: Point, parameters: PlayParameters) -> float:
    """Return the share of one-timers struck cleanly: by how open his blade is to the pass."""
    model = parameters.model
    away = (puck[0] - place[0], puck[1] - place[1])
    length = math.hypot(*away)
    if length == 0.0:
        return model.one_timer_open
    side = forehand(mate, place)
    openness = 0.5 * (1.0 + (side[0] * away[0] + side[1] * away[1]) / length)
    return model.one_timer_closed + openness * (model.one_timer_open - model.one_timer_closed)


def _tips(situation: Situation, mate: Attacker, parameters: PlayParameters) -> list[Threat]:
    """Return a shot that a mate in front of the goal tips: a pass as fast as a shot."""
    model, puck = parameters.model, situation.puck_place
    near = math.hypot(mate.x, mate.y)
    if puck[0] < LEAST_OUT or mate.x < LEAST_OUT or near > model.tip_from:
        return []
    away = math.hypot(*puck)
    along = (mate.x * puck[0] + mate.y * puck[1]) / away
    aside = abs(mate.x * puck[1] - mate.y * puck[0]) / away
    if not 0.0 < along < away - model.tip_reach or aside >= model.tip_reach:
        return []
    speed = parameters.shot_speed(ShotType.WRIST)
    way = math.dist(puck, mate.place)
    return [
        Threat(
            option=Option(OptionKind.TIP, mate.name),
            release=mate.place,
            time=way / speed + parameters.release_time(ShotType.TIP),
            shot_type=ShotType.TIP,
            speed=parameters.shot_speed(ShotType.TIP),
            lane=unblocked_share(situation, puck, 0.0, parameters),
            struck=model.tip_share * (1.0 - aside / model.tip_reach),
            unblocked=1.0,
            shooter=mate.name,
            length=way,
            puck_speed=speed,
            cue="the shot leaving his blade",
        )
    ]
