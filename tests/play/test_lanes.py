"""Lanes: pass speed, lead passes, skating times, defenders who cut them off, screens."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.play.lanes import (
    Closing,
    closing_distance,
    cut_chances,
    hidden_share,
    lane_open,
    meeting,
    normal_share,
    pass_speed,
    shadow_share,
    skating_time,
)

CLOSING = Closing(reach=1.4, spread=0.4, reaction=0.3, most=0.85, acceleration=3.3, top_speed=8.0)
LAW = {"reference_speed": 13.0, "reference_length": 12.0, "fastest": 26.8}


def _cut(start, end, time, people):
    places = np.array([(x, y) for x, y, _, _ in people], float).reshape(-1, 2)
    moves = np.array([(vx, vy) for _, _, vx, vy in people], float).reshape(-1, 2)
    return cut_chances(start, end, time, places, moves, CLOSING)


@pytest.mark.parametrize(
    ("length", "tracked"),
    # other tool: median of tracked passes in the attacking zone, by length, m/s (st23)
    [(3.5, 7.5), (6.5, 9.6), (10.0, 11.55), (14.0, 14.5), (19.0, 16.8)],
)
def test_pass_speed_meets_the_tracked_passes(length, tracked):
    assert pass_speed(length, **LAW) == pytest.approx(tracked, abs=0.65)


def test_no_pass_is_faster_than_the_fastest():
    assert pass_speed(60.0, **LAW) == 26.8  # 13 * sqrt(5) = 29.1


def test_a_standing_receiver_is_hit_where_he_stands():
    place, time, speed = meeting((6.0, -3.0), receiver=(6.0, 3.0), velocity=(0.0, 0.0), **LAW)
    assert place == (6.0, 3.0)
    assert speed == pytest.approx(13.0 * math.sqrt(0.5))  # by hand: 6 m = half of 12 m
    assert time == pytest.approx(6.0 / speed)


@settings(deadline=None, max_examples=60)
@given(st.floats(-8, 8), st.floats(-8, 8))
def test_puck_and_receiver_arrive_together(vx, vy):
    place, time, speed = meeting((9.0, -5.0), receiver=(7.0, 4.0), velocity=(vx, vy), **LAW)
    assert math.hypot(place[0] - 9.0, place[1] + 5.0) == pytest.approx(speed * time, abs=1e-6)
    assert place == pytest.approx((7.0 + vx * time, 4.0 + vy * time), abs=1e-6)


def test_skating_times_by_hand():
    speeds = {"top_speed": 8.0, "acceleration": 4.0}
    assert skating_time(0.0, speed=3.0, **speeds) == 0.0
    assert skating_time(2.0, speed=0.0, **speeds) == pytest.approx(1.0)  # d = a t^2 / 2
    assert skating_time(16.0, speed=0.0, **speeds) == pytest.approx(3.0)  # 8 m in 2 s, 8 m in 1 s
    assert skating_time(9.0, speed=9.0, **speeds) == pytest.approx(1.0)  # already faster


def test_a_defender_waits_out_his_reaction_before_he_closes():
    # by hand: 0.3 s later 0.5 * 3.3 * 0.4^2 = 0.264 m
    assert closing_distance(np.array([0.0, 0.3, 0.7]), CLOSING) == pytest.approx([0, 0, 0.264])


def test_normal_share_by_table():
    # published: standard normal table, Phi(0) = 0.5, Phi(1) = 0.8413, Phi(-1.96) = 0.0250
    assert normal_share(np.array([0.0, 1.0, -1.96])) == pytest.approx(
        [0.5, 0.8413, 0.025], abs=5e-5
    )


def test_a_defender_in_the_lane_cuts_almost_as_often_as_anyone_can():
    cut = _cut((6, -3), (6, 3), 0.5, [(6, 0, 0, 0)])
    assert 0.84 < cut[0] <= 0.85
    assert lane_open(cut) == pytest.approx(1 - cut[0])


def test_a_defender_far_off_the_lane_does_not_matter_and_nobody_cuts_nothing():
    assert _cut((6, -3), (6, 3), 0.5, [(16, 0, 0, 0)])[0] < 1e-6
    assert lane_open(_cut((6, -3), (6, 3), 0.5, [])) == 1.0


@settings(deadline=None, max_examples=60)
@given(st.floats(-6, 6), st.floats(0, 15), st.floats(0.2, 1.5))
def test_a_slower_pass_is_cut_at_least_as_often(y, x, time):
    person = [(x, y, 0.0, 0.0)]
    assert (
        _cut((8, -4), (5, 4), time * 1.3, person)[0]
        >= _cut((8, -4), (5, 4), time, person)[0] - 1e-12
    )


@settings(deadline=None, max_examples=60)
@given(st.floats(-6, 6), st.floats(0, 15), st.floats(-6, 6), st.floats(-6, 6))
def test_lanes_have_a_mirror(y, x, vx, vy):
    left = _cut((8, -4), (5, 3), 0.6, [(x, y, vx, vy)])
    right = _cut((8, 4), (5, -3), 0.6, [(x, -y, vx, -vy)])
    assert left == pytest.approx(right, abs=1e-12)


def test_a_moving_defender_is_taken_where_he_will_be():
    still = _cut((6, -4), (6, 4), 0.6, [(9.5, 0, 0, 0)])
    coming = _cut((6, -4), (6, 4), 0.6, [(9.5, 0, -6, 0)])
    assert coming[0] > still[0] + 0.2


def test_the_shadow_of_a_body_straight_in_front_by_hand():
    # by hand: mouth 2 atan(0.9144/6) = 0.3025 rad, body 2 asin(0.3/3) = 0.2003 rad
    share = shadow_share((6.0, 0.0), 0.9144, np.array([[3.0, 0.0]]), 0.3)
    assert share[0] == pytest.approx(0.2003 / 0.3025, abs=1e-3)


def test_bodies_behind_the_puck_beside_the_mouth_or_behind_the_line_cover_nothing():
    bodies = np.array([[7.0, 0.0], [3.0, 3.0], [-1.0, 0.0]])
    assert list(shadow_share((6.0, 0.0), 0.9144, bodies, 0.3)) == [0, 0, 0]
    assert shadow_share((-1.0, 2.0), 0.9144, bodies, 0.3).sum() == 0.0


def test_a_body_on_the_line_of_sight_hides_the_puck_and_one_beside_it_does_not():
    eye = np.array([1.0]), np.array([0.0])
    assert hidden_share(np.array([9.0, 0.0]), *eye, np.array([[5.0, 0.1]]), 0.3, 0.04)[0] == 1.0
    assert hidden_share(np.array([9.0, 0.0]), *eye, np.array([[5.0, 0.5]]), 0.3, 0.04)[0] == 0.0
    assert hidden_share(np.array([9.0, 0.0]), *eye, np.array([[5.0, 0.3]]), 0.3, 0.04)[
        0
    ] == pytest.approx(0.5)
    assert hidden_share(np.array([9.0, 0.0]), *eye, np.array([[10.0, 0.0]]), 0.3, 0.04)[0] == 0.0
    assert hidden_share(np.array([9.0, 0.0]), *eye, np.zeros((0, 2)), 0.3, 0.04)[0] == 0.0
