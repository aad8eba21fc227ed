"""Wrong questions about sight are named; looking straight down is a question like any other."""

import math

import numpy as np
import pytest

from tendline import body, ice
from tendline.base import InputError
from tendline.body import Pose
from tendline.sight import (
    clear_sight,
    cover_reference,
    exact_cover,
    eye_of,
    goaltender_eye,
    open_areas,
    puck_eye,
    side_shares,
    skater_body,
)

HER = body.build_goaltender(1.8)
PLACED = body.posed(HER, Pose(1.0, 0.0, 0.0))
INSIDE = (PLACED.start[0] + PLACED.end[0]) / 2


@pytest.mark.parametrize("ask", [exact_cover, open_areas, side_shares, puck_eye, cover_reference])
@pytest.mark.parametrize(
    ("puck", "words"),
    [
        ([-0.4, 0.2, 0.0127], "in front of the goal line"),
        ([0.0, 0.2, 0.0127], "in front of the goal line"),
        (INSIDE, "inside the goaltender"),
        ([math.nan, 0.0, 0.0127], "finite coordinates"),
        ([4.0, 0.0, -0.1], "below the ice"),
    ],
)
def test_a_puck_that_cannot_be_is_named_by_every_question(ask, puck, words: str) -> None:
    with pytest.raises(InputError, match=words):
        ask(puck, PLACED, ice.goal())


@pytest.mark.parametrize(
    "times", [[], [0.0, math.nan], [math.inf], [0.0, 0.0], [0.2, 0.1], [[0.0, 1.0]]]
)
def test_times_must_rise(times) -> None:
    with pytest.raises(InputError, match="times must rise"):
        clear_sight(times, [1.0, 0.0, 1.5], [6.0, 0.0, 0.0127], {})


def test_eyes_inside_a_body_and_eyes_on_the_puck() -> None:
    with pytest.raises(InputError, match="her eyes lie inside another body"):
        goaltender_eye(INSIDE, [6.0, 0.0, 0.0127], {"D1": PLACED})
    with pytest.raises(InputError, match="eye and puck are at the same place"):
        goaltender_eye([6.0, 0.0, 0.02], [6.0, 0.0, 0.0127], {})
    with pytest.raises(InputError, match="three finite coordinates"):
        goaltender_eye([6.0, math.nan, 1.5], [6.0, 0.0, 0.0127], {})
    with pytest.raises(InputError, match="a body without a head"):
        eye_of(PLACED.only(body.Limb.TRUNK))


@pytest.mark.parametrize("stature", [0.5, 3.0, math.nan])
def test_a_skater_has_a_stature(stature: float) -> None:
    with pytest.raises(InputError, match="stature is out of range"):
        skater_body(stature)


def test_she_may_look_straight_down_at_the_puck() -> None:
    # by hand: a ball of 2 cm radius halfway down hides a disc of 4 cm of the puck's 3.81 cm radius
    down = goaltender_eye([5.0, 0.0, 1.5127], [5.0, 0.0, 0.0127], {})
    assert down.hidden_share == 0.0
    points = np.array(down.puck[0])
    assert np.ptp(points[:, 0]) == pytest.approx(2 * 0.0381 / (1.5 - 0.0127), rel=0.01)
    ball = body.Capsules.of([[5.0, 0.0, 0.75]], [[5.0, 0.0, 0.75]], [0.025], [0])
    assert goaltender_eye([5.0, 0.0, 1.5127], [5.0, 0.0, 0.0127], {"D": ball}).hidden_share == 1.0
