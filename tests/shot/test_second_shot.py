"""Where she is at a rebound shot: on her way to the nearest point of the new line."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import Level, Settings
from tendline.body import Pose
from tendline.shot import constants as known
from tendline.shot import shot_parameters
from tendline.shot.rebounds import _across

MEN = shot_parameters(Level.MEN_ELITE)
USUAL = Settings()
AGES = Settings.of({"shot.second_time": 2.0})  # time to get anywhere near the net


def most(parameters=MEN, chosen: Settings = USUAL) -> float:
    """By hand: from rest, half her top speed on the way, for what two reactions leave."""
    left = chosen.value_of(known.SECOND_TIME) - 2.0 * parameters.reaction
    return parameters.body_speed * max(left, 0.0) / 2.0


def place(end: list[float], pose: Pose, chosen: Settings = USUAL) -> np.ndarray:
    return _across(np.array([end]), pose, MEN, chosen)[0]


def off_line(x: float, y: float, end: list[float]) -> float:
    """Return how far a place is from the stretch goal centre to puck."""
    line = np.array(end)
    share = np.clip((np.array([x, y]) @ line) / (line @ line), 0.0, 1.0)
    return float(np.linalg.norm(np.array([x, y]) - share * line))


def test_she_stays_when_the_puck_comes_back_along_her_line() -> None:
    np.testing.assert_allclose(place([3.0, 0.0], Pose(1.0, 0.0, 0.0)), [1.0, 0.0, 0.0])


def test_with_time_she_reaches_the_nearest_point_of_the_new_line() -> None:
    # by hand: from (1, 0) to the line through (3, 3): its nearest point is (0.5, 0.5)
    at = place([3.0, 3.0], Pose(1.0, 0.0, 0.0), AGES)
    np.testing.assert_allclose(at[:2], [0.5, 0.5])
    assert at[2] == pytest.approx(0.6)  # on her knees she turns only so far


def test_never_further_out_than_half_way_to_the_puck() -> None:
    # by hand: (1.6, 0) lies beyond half the way to a puck at (2, 0.4): 0.5 * (2, 0.4)
    at = place([2.0, 0.4], Pose(1.6, 0.0, 0.0), AGES)
    np.testing.assert_allclose(at[:2], [1.0, 0.2])


def test_without_that_time_she_goes_as_far_as_it_lets_her() -> None:
    at = place([3.0, 3.0], Pose(1.0, 0.0, 0.0))
    assert math.hypot(at[0] - 1.0, at[1]) == pytest.approx(most())
    assert most() == pytest.approx(2.0 * (0.7 - 2 * MEN.reaction) / 2.0)
    assert at[1] == pytest.approx(1.0 - at[0])  # straight at (0.5, 0.5)
    quick = Settings.of({"shot.second_time": known.SECOND_TIME.low})
    if most(chosen=quick) == 0.0:
        np.testing.assert_allclose(place([3.0, 3.0], Pose(1.0, 0.0, 0.0), quick)[:2], [1.0, 0.0])


def test_a_line_behind_her_back_sends_her_to_the_goal_not_through_it() -> None:
    at = place([0.5, 3.0], Pose(1.0, -0.8, -0.6), AGES)
    np.testing.assert_allclose(at[:2], [0.05, 0.0], atol=1e-12)


@settings(max_examples=60, deadline=None)
@given(
    end=st.tuples(st.floats(0.3, 8.0), st.floats(-5.0, 5.0)),
    x=st.floats(0.1, 2.0), y=st.floats(-0.9, 0.9), facing=st.floats(-1.2, 1.2),
)  # fmt: skip
def test_moving_never_takes_her_off_the_line_or_too_far(end, x, y, facing) -> None:
    at = place(list(end), Pose(x, y, facing))
    assert math.hypot(at[0] - x, at[1] - y) <= most() + 0.05 + 1e-9
    half = [end[0] / 2, end[1] / 2]
    assert off_line(at[0], at[1], half) <= max(off_line(x, y, half), 0.05) + 1e-9
    assert abs(at[2] - facing) <= 0.6 + 1e-12
    mirrored = place([end[0], -end[1]], Pose(x, -y, -facing))
    np.testing.assert_allclose(mirrored, at * [1, -1, -1], atol=1e-12)


def test_she_turns_the_short_way_to_a_puck_behind_her() -> None:
    # by hand: facing 1 rad, the puck at about -2.9 rad, which is 2.4 rad on to her left: 0.6 of it
    assert place([2.0, 0.3], Pose(3.0, 0.5, 1.0))[2] == pytest.approx(1.6)
