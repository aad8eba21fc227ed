"""Rinks, goals and creases: what the boards hold, formats, and cached values."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, Settings
from tendline.ice import (
    IceFormat,
    RuleSet,
    crease,
    goal,
    other_end,
    require_on_ice,
    rink,
    spots,
)

RINKS = [rink(r, f, s) for r in RuleSet for f in IceFormat for s in (False, True)]
FULL = rink()


@pytest.mark.parametrize("area", RINKS, ids=lambda r: f"{r.rule_set}-{r.ice_format}")
def test_every_named_spot_lies_on_the_ice_of_every_area(area):
    assert all(area.contains(one.x, one.y) for one in spots(area).values())


@pytest.mark.parametrize("area", RINKS, ids=lambda r: f"{r.rule_set}-{r.ice_format}")
def test_both_nets_stand_clear_of_the_boards(area):
    assert area.x_min < -area.goal.depth + 1e-9
    assert area.x_max > area.far_net_x + area.goal.depth


@pytest.mark.parametrize(("x", "y", "inside"), [
    (0.0, 0.0, True), (-3.35, 0.0, True), (-3.36, 0.0, False), (57.6, 0.0, True),
    (57.61, 0.0, False), (20.0, 12.95, True), (20.0, 12.96, False),
    (-3.35, 12.9, False), (-1.5, 11.0, False), (57.0, 12.9, False), (math.nan, 0.0, False),
])  # fmt: skip
def test_boards_with_rounded_corners(x, y, inside):
    # by hand: ends at -3.3528 and 57.6072, sides at 12.954; corner centre (5.1816, 4.4196),
    # so (-1.5, 11) lies sqrt(6.6816^2 + 6.5804^2) = 9.378 > 8.5344 from it
    assert FULL.contains(x, y) is inside


def test_half_ice_is_cut_straight_at_the_red_line():
    half = rink(ice_format=IceFormat.HALF)
    assert half.x_max == pytest.approx(FULL.red_line_x, abs=1e-9)
    assert half.contains(half.x_max, half.half_width)
    assert not half.contains(half.x_min, half.half_width)


def test_cross_ice_is_a_third_of_the_sheet_played_across_it():
    # by hand: 60.96 / 3 = 20.32 wide, 25.908 long
    cross = rink(ice_format=IceFormat.CROSS, small_goal=True)
    assert (cross.length, cross.width) == (pytest.approx(25.908), pytest.approx(20.32))
    assert not cross.has_markings
    assert cross.crease.top == pytest.approx(1.8288 * 1.02 / 1.8288)


def test_iihf_crease_is_a_full_semicircle_and_nhl_crease_has_side_lines():
    iihf, nhl = crease(RuleSet.IIHF), crease(RuleSet.NHL)
    assert iihf.contains(0.0, 1.82)
    assert not nhl.contains(0.0, 1.25)
    assert nhl.contains(1.36, 1.21)
    assert not nhl.contains(1.37, 1.22)
    assert not nhl.contains(-0.01, 0.0)
    # by hand: the point at 45 degrees of a 1.83 m semicircle
    assert iihf.corner == pytest.approx((1.2940, 1.2940), abs=1e-4)


def test_the_inside_of_the_net_is_known():
    assert FULL.in_net(-0.5, 0.5)
    assert not FULL.in_net(0.0, 0.5)
    assert not FULL.in_net(-0.5, 1.0)
    assert not FULL.in_net(-1.2, 0.0)


def test_a_coach_may_set_the_width_of_an_international_sheet():
    narrow = rink(RuleSet.IIHF, settings=Settings.of({"rink.iihf.width_max": 26.0}))
    assert narrow.width == 26.0
    with pytest.raises(InputError, match="rink width is out of range"):
        rink(RuleSet.IIHF, settings=Settings.of({"rink.iihf.width_max": 32.0}))


@pytest.mark.parametrize(("x", "y", "words"), [
    (80.0, 0.0, "distance out is out of range"),
    (math.nan, 0.0, "distance out is out of range"),
    (5.0, math.inf, "distance to the side is out of range"),
    (-3.3, 12.9, "beyond the rounded corner"),
])  # fmt: skip
def test_a_place_off_the_ice_is_refused_by_name(x, y, words):
    with pytest.raises(InputError, match=words) as caught:
        require_on_ice(FULL, x=x, y=y, item="puck")
    assert caught.value.item == "puck"
    assert caught.value.allowed


def test_a_place_on_the_ice_is_returned():
    assert require_on_ice(FULL, x=6, y=-6) == (6.0, -6.0)


@given(x=st.floats(-3, 57), y=st.floats(-12, 12))
@settings(max_examples=60, deadline=None)
def test_other_end_twice_is_the_same_place_and_keeps_the_ice(x, y):
    there = other_end(FULL, x, y)
    assert other_end(FULL, *there) == pytest.approx((x, y), abs=1e-9)
    assert FULL.contains(*there) == FULL.contains(x, y)


def test_the_other_end_turns_left_into_her_left_there():
    # by hand: 1 m in front of the far net and 2 m to the left of our goaltender is to the right
    # of the other one
    assert other_end(FULL, FULL.far_net_x - 1.0, 2.0) == pytest.approx((1.0, -2.0))


@given(x=st.floats(-3.4, 57.7), y=st.floats(-13.0, 13.0))
@settings(max_examples=80, deadline=None)
def test_the_ice_is_the_same_on_both_sides(x, y):
    assert FULL.contains(x, y) == FULL.contains(x, -y)


def test_all_four_corners_are_round():
    for x in (FULL.x_min + 0.5, FULL.x_max - 0.5):
        for y in (12.5, -12.5):
            assert not FULL.contains(x, y)


def test_the_goal_mouth_area():
    # by hand: 1.8288 x 1.2192
    assert goal().area == pytest.approx(2.22967, abs=1e-5)
    assert goal(small=True).width < goal().width


@pytest.mark.parametrize(("ours", "row"), [
    (FULL.trapezoid_goal_line, 22 * 0.3048), (FULL.trapezoid_boards, 28 * 0.3048),
    (goal(RuleSet.NHL).depth, 40 * 0.0254), (rink(RuleSet.IIHF).spot_x, 6.0),
    (rink(RuleSet.IIHF).spot_y, 7.0), (crease(RuleSet.IIHF).radius, 1.83),
])  # fmt: skip
def test_figures_that_are_not_sure_are_taken_over_as_they_stand(ours, row):
    # rows of facts.md from memory or of a weak source: wired in, not checked against
    assert ours == pytest.approx(row, abs=1e-4)
