"""Flights, tips and rebounds of many shots: those of the single questions, NaN in its own row."""

import dataclasses

import numpy as np
import pytest

from tendline import body, ice
from tendline.base import InputError, Level
from tendline.body import Pose, Stance
from tendline.shot import (
    flight,
    flight_many,
    rebounds,
    rebounds_many,
    shot_parameters,
    tipped_chance,
    tipped_chance_many,
    usual_build,
)
from tendline.sight import mouth_grid

GRID = mouth_grid(ice.goal(), 19, 13)
MEN = shot_parameters(Level.MEN_ELITE)
HER = usual_build(Level.MEN_ELITE)
BODIES = (body.capsules(HER, Stance.READY), body.capsules(HER, Stance.BUTTERFLY))
PUCKS = np.array(
    [[6.0, 0.5, 0.0127], [8.0, -3.0, 0.0127], [-1.0, 0.0, 0.0127], [np.nan, 0.0, 0.0127]]
)
POSES = np.array([[1.0, 0.1, 0.1], [0.9, -0.3, -0.3], [1.0, 0.0, 0.0], [1.0, 0.0, 0.0]])
KNOWN = [True, True, False, False]


def test_flights_of_many_are_those_of_each() -> None:
    targets = [[0.0, 0.3, 0.9], [0.0, -0.3, 0.2], [0.0, 0.0, 0.5], [0.0, 0.0, 0.5]]
    found = flight_many(PUCKS, targets, speed=[25.0, 30.0, 2.0, 25.0])
    assert np.isfinite(found["time"]).tolist() == [True, True, False, False]
    for row, speed in ((0, 25.0), (1, 30.0)):
        one = flight(PUCKS[row], targets[row], speed=speed)
        assert {name: values[row] for name, values in found.items()} == dataclasses.asdict(one)
    with pytest.raises(InputError, match="one number for all or one for each"):
        flight_many(PUCKS, targets, speed=[25.0, 30.0])


def test_tips_of_many_are_those_of_each() -> None:
    blades = [[3.0, 0.3, 0.3], [2.5, -0.6, 0.2], [3.0, 0.0, 0.3], [3.0, 0.0, 0.3]]
    change = [[0.0, 0.28], [99.0, 0.0]]
    found = tipped_chance_many(
        PUCKS, blades, POSES, BODIES, GRID, MEN, speed=28.0, delay=0.05, change=change
    )
    assert np.isfinite(found.chance).tolist() == KNOWN
    for row in (0, 1):
        up, down = (
            body.posed(HER, Pose(*POSES[row], one)) for one in (Stance.READY, Stance.BUTTERFLY)
        )
        single = tipped_chance(
            PUCKS[row], blades[row], up, GRID, MEN, speed=28.0, delay=0.05, others=((down, 0.28),)
        )
        assert found.share == single.share
        assert found.tipped.chance[row] == pytest.approx(single.tipped.chance, abs=3e-4)
        assert found.direct.chance[row] == pytest.approx(single.direct.chance, abs=3e-4)
        assert found.chance[row] == pytest.approx(single.chance, abs=3e-4)


def test_rebounds_of_many_are_those_of_each() -> None:
    words = {"speed": 22.0, "delay": 0.04}
    found = rebounds_many(PUCKS, HER, POSES, GRID, MEN, stance=Stance.BUTTERFLY, **words)
    for name in ("goal", "held", "loose", "second_shot", "second_goal"):
        assert np.isfinite(getattr(found, name)).tolist() == KNOWN, name
    for row in (0, 1):
        single = rebounds(PUCKS[row], HER, Pose(*POSES[row], Stance.BUTTERFLY), GRID, MEN, **words)
        for name in ("goal", "held", "loose", "second_shot", "second_goal"):
            assert getattr(found, name)[row] == getattr(single, name)
    lost = rebounds_many(
        PUCKS[0], HER, [np.nan, 0.0, 0.0], GRID, MEN, stance=Stance.READY, speed=22.0
    )
    assert np.isnan(lost.loose).all()
