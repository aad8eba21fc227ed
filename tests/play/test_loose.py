"""Loose pucks and room: who gets there after a save, and who may pick his place."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tendline.body import Pose, Stance, posed
from tendline.play import OptionKind
from tendline.play.geometry import room_of
from tendline.play.loose import (
    DEPTHS,
    FIRST_SHOT,
    TARGETS,
    attackers_reach,
    second_chances,
)
from tendline.play.threats import threats
from tendline.shot import constants as shots
from tendline.shot import puck_speed, rebounds, shot_parameters
from tendline.sight import mouth_grid
from tests.play.cases import LEVEL, PARAMETERS, RINK, attacker, defender, goaltender, situation

MODEL = PARAMETERS.model


def _reach(moment, kind=OptionKind.SHOOT, time=None):
    threat = threats(moment, PARAMETERS, frozenset({kind}))[0]
    return attackers_reach(moment, threat, MODEL) * MODEL.loose_usual


def test_who_gets_to_a_loose_puck_falls_with_the_distance_to_the_net():
    """By hand, from the place 1.5 m in front: one 4 m off weighs 1/e, nobody 0.5."""
    e = math.exp(-1.0)
    assert _reach(situation(attacker("F1", 5.5, 0.0))) == pytest.approx(e / (e + 0.5))
    faced = situation(attacker("F1", 5.5, 0.0), defender("D1", 1.5, 4.0))
    assert _reach(faced) == pytest.approx(e / (e + e + 0.5))
    helped = situation(attacker("F1", 5.5, 0.0), attacker("F2", 1.5, 0.0))
    assert _reach(helped) == pytest.approx((e + 1.0) / (e + 1.0 + 0.5))


def test_the_shooter_counts_once_and_where_he_shoots():
    """By hand: the passer stays 4 m off, the receiver shoots from 8 m off."""
    moment = situation(attacker("F1", 1.5, 4.0), attacker("F2", 9.5, 0.0))
    near, far = math.exp(-1.0), math.exp(-2.0)
    found = _reach(moment, OptionKind.SETTLE)
    assert found == pytest.approx((near + far) / (near + far + 0.5))


def test_until_the_shot_everybody_skates_on():
    """By hand: a mate 4 m from the place in front of the net is there when the pass is shot."""
    standing = situation(
        attacker("F1", 9.5, 0.0), attacker("F2", 9.5, 5.0), attacker("F3", 5.5, 0.0)
    )
    time = next(
        one.time
        for one in threats(standing, PARAMETERS, frozenset({OptionKind.SETTLE}))
        if one.shooter == "F2"
    )
    coming = situation(*standing.attackers[:2], attacker("F3", 5.5, 0.0, vx=-4.0 / time))
    front = situation(*standing.attackers[:2], attacker("F3", 1.5, 0.0))
    assert _reach(coming, OptionKind.SETTLE) == pytest.approx(_reach(front, OptionKind.SETTLE))


def test_the_second_shot_by_depth_is_the_rebound_model_of_a_saved_shot():
    """Other way of asking: shot that is shot again and goes in, over shots that are saved."""
    her, depth = goaltender(), float(DEPTHS[2])
    found = rebounds(
        FIRST_SHOT, her.build, Pose(depth, 0.0, 0.0),
        mouth_grid(RINK.goal, columns=TARGETS[0], rows=TARGETS[1]), shot_parameters(LEVEL),
        speed=puck_speed(LEVEL, shots.ShotType.WRIST),
        others=((posed(her.build, Pose(depth, 0.0, 0.0, Stance.BUTTERFLY)),
                 shots.DROP_TIME.value),),
    )  # fmt: skip
    made = second_chances(DEPTHS, her.build, RINK.goal, LEVEL, PARAMETERS.settings)
    assert made[2] == pytest.approx(found.second_shot * found.second_goal / (1.0 - found.goal))
    assert np.all(np.diff(made[1:]) > 0.0)  # on the goal line as little as at 0.8 m
    assert made[0] == pytest.approx(made[1], abs=0.002)


@pytest.mark.parametrize(
    ("people", "room"),
    [
        ((), 1.0),
        ((defender("D1", 10.0, 2.9),), 0.0),
        ((defender("D1", 10.0, 5.5),), 0.5),  # by hand: half way from 3 m to 8 m
        ((defender("D1", 10.0, 9.0),), 1.0),
        ((defender("D1", 10.0, 9.0), defender("D2", 10.0, -4.0)), 0.2),
        ((attacker("F2", 4.0, 9.0), defender("D1", 4.0, 8.0)), 0.0),  # near anybody counts
    ],
)
def test_nobody_near_leaves_shooters_room(people, room):
    assert room_of(situation(attacker("F1", 10.0, 0.0), *people), MODEL) == pytest.approx(room)
