"""Geometry of the puck's line: opening angle, strip to cover, spots on the line."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.ice import (
    distance_to_goal,
    goal,
    line_spot,
    off_line,
    on_angle_distance,
    opening_angle,
    width_to_cover,
)

GOAL = goal()
xs = st.floats(0.5, 25.0)
ys = st.floats(-12.0, 12.0)
depths = st.floats(0.0, 0.4)


@given(xs, ys)
@settings(max_examples=80, deadline=None)
def test_opening_angle_is_the_angle_between_the_posts(x, y):
    # by hand: difference of the two directions
    left = math.atan2(GOAL.half_width - y, -x)
    right = math.atan2(-GOAL.half_width - y, -x)
    between = (right - left) % (2.0 * math.pi)
    assert opening_angle(x, y, GOAL) == pytest.approx(between, abs=1e-12)


def test_no_mouth_is_seen_from_the_goal_line_or_behind():
    assert opening_angle(0.0, 3.0, GOAL) == 0.0
    assert opening_angle(-1.0, 0.0, GOAL) == 0.0
    assert math.isnan(opening_angle(math.nan, 0.0, GOAL))


@given(xs, ys, depths)
@settings(max_examples=80, deadline=None)
def test_line_spot_lies_on_the_line_at_its_depth(x, y, depth):
    gx, gy, facing = line_spot(x, y, depth)
    assert math.hypot(gx, gy) == pytest.approx(depth, abs=1e-12)
    assert off_line(gx, gy, (x, y)) == pytest.approx(0.0, abs=1e-9)
    assert (math.cos(facing), math.sin(facing)) == pytest.approx(
        (x / math.hypot(x, y), y / math.hypot(x, y))
    )


@given(xs, ys, depths, depths)
@settings(max_examples=80, deadline=None)
def test_the_strip_shrinks_further_out_and_mirrors(x, y, one, other):
    shallow, deep = sorted((one, other))
    assert width_to_cover(x, y, deep, 0.4) <= width_to_cover(x, y, shallow, 0.4) + 1e-12
    assert width_to_cover(x, y, deep, 0.4) == width_to_cover(x, -y, deep, 0.4)


@given(st.floats(2.0, 25.0), ys, depths)
@settings(max_examples=80, deadline=None)
def test_the_strip_lies_between_the_lines_to_the_posts(x, y, depth):
    # by hand: cut both lines puck-post with the plane across the line, `depth` out
    distance = math.hypot(x, y)
    ux, uy = x / distance, y / distance
    ends = []
    for post in (GOAL.half_width, -GOAL.half_width):
        along, across = post * uy, post * ux
        share = (distance - depth) / (distance - along)
        ends.append(across * share)
    assert width_to_cover(x, y, depth, GOAL.half_width) == pytest.approx(ends[0] - ends[1])


@pytest.mark.parametrize(("x", "y", "depth"), [
    (-1.0, 2.0, 0.5), (0.0, 3.0, 0.5), (2.0, 0.0, 2.5), (math.nan, 1.0, 0.5), (0.1, 0.3, 0.05),
])  # fmt: skip
def test_where_the_strip_has_no_answer_it_is_nan(x, y, depth):
    assert math.isnan(width_to_cover(x, y, depth, GOAL.half_width))


def test_arrays_give_the_same_numbers_one_by_one():
    x, y = np.array([3.0, 6.0, -1.0, math.nan]), np.array([1.0, -6.0, 4.0, 0.0])
    angles = opening_angle(x, y, GOAL)
    strips = width_to_cover(x, y, 0.9, GOAL.half_width)
    gx, gy, facing = line_spot(x, y, 0.9)
    for i in range(4):
        assert angles[i] == pytest.approx(opening_angle(x[i], y[i], GOAL), nan_ok=True)
        assert strips[i] == pytest.approx(
            width_to_cover(x[i], y[i], 0.9, GOAL.half_width), nan_ok=True
        )
        one = line_spot(x[i], y[i], 0.9)
        assert (gx[i], gy[i], facing[i]) == pytest.approx(one, nan_ok=True)
    assert math.isnan(line_spot(0.0, 0.0, 1.0)[0])


def test_distances_of_arrays_are_those_one_by_one():
    x, y = np.array([3.0, 6.0, 0.0, math.nan]), np.array([1.0, -6.0, 0.0, 0.0])
    away, beside = distance_to_goal(x, y), off_line(0.8, 0.3, (x, y))
    trips = on_angle_distance((x, y), (x, -y), 0.9)
    for i in range(4):
        one = float(x[i]), float(y[i])
        assert away[i] == pytest.approx(distance_to_goal(*one), nan_ok=True)
        assert beside[i] == pytest.approx(off_line(0.8, 0.3, one), nan_ok=True)
        mirrored = (one[0], -one[1])
        assert trips[i] == pytest.approx(on_angle_distance(one, mirrored, 0.9), nan_ok=True)
    assert np.isnan(beside).tolist() == [False, False, True, True]
    assert isinstance(off_line(0.8, 0.3, (5.0, 1.0)), float)


def test_distances_by_hand():
    # 3-4-5 triangle; spots at depth 1 on lines straight out and straight across are sqrt(2) apart
    assert distance_to_goal(3.0, 4.0) == 5.0
    assert on_angle_distance((5.0, 0.0), (0.0, 5.0), 1.0) == pytest.approx(math.sqrt(2.0))


def test_off_line_is_positive_to_her_left():
    assert off_line(1.0, 0.2, (6.0, 0.0)) == pytest.approx(0.2)
    assert off_line(1.0, -0.2, (6.0, 0.0)) == pytest.approx(-0.2)
    assert math.isnan(off_line(1.0, 0.0, (0.0, 0.0)))
