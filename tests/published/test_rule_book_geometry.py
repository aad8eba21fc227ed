"""Rinks, goals and creases against the rule books.

Published: feet and inches of the NHL Official Rules, rule 1 and the NHL rink drawing; metres of the
IIHF Official Rule Book 2022/23 and 2014-2018; page of the source named in ``facts.toml``. One foot
is 0.3048 m by definition. Tolerance 0.1 mm where the book prints inches.
"""

import math

import pytest

from tendline.ice import IceFormat, RuleSet, crease, goal, opening_angle, rink, spot

FOOT, INCH = 0.3048, 0.0254
NHL, IIHF = rink(RuleSet.NHL), rink(RuleSet.IIHF)


@pytest.mark.parametrize(("ours", "printed"), [
    (NHL.length, 200 * FOOT),
    (NHL.width, 85 * FOOT),
    (NHL.corner_radius, 28 * FOOT),
    (NHL.goal_line_to_boards, 11 * FOOT),
    (NHL.blue_line_x, 64 * FOOT),
    (NHL.blue_line_width, 1 * FOOT),
    (NHL.spot_x, 20 * FOOT),
    (NHL.spot_y, 22 * FOOT),
    (NHL.circle_radius, 15 * FOOT),
    (NHL.hash_length, 2 * FOOT),
    (NHL.hash_spacing, 5 * FOOT + 9 * INCH),
    (NHL.red_line_x, 89 * FOOT),
    (NHL.far_net_x, 178 * FOOT),
    (goal(RuleSet.NHL).width, 6 * FOOT),
    (goal(RuleSet.NHL).height, 4 * FOOT),
    (crease(RuleSet.NHL).radius, 6 * FOOT),
    (crease(RuleSet.NHL).half_width, 4 * FOOT),
    (crease(RuleSet.NHL).side_length, 4 * FOOT + 6 * INCH),
    (crease(RuleSet.NHL).mark_x, 4 * FOOT),
    (crease(RuleSet.NHL).mark, 5 * INCH),
])  # fmt: skip
def test_nhl_figures(ours, printed):
    assert ours == pytest.approx(printed, abs=1e-4)


@pytest.mark.parametrize(("ours", "printed"), [
    (IIHF.length, 60.0), (IIHF.width, 30.0), (IIHF.corner_radius, 8.5),
    (IIHF.goal_line_to_boards, 4.0), (IIHF.circle_radius, 4.5), (IIHF.hash_spacing, 1.7), (IIHF.trapezoid_goal_line, 6.8),
    (IIHF.trapezoid_boards, 8.6), (goal(RuleSet.IIHF).width, 1.83),
    (goal(RuleSet.IIHF).height, 1.22),
    (IIHF.blue_line_x - IIHF.blue_line_width / 2 + IIHF.goal_line_to_boards, 22.86),
])  # fmt: skip
def test_iihf_figures(ours, printed):
    assert ours == pytest.approx(printed, abs=1e-9)


def test_the_corner_of_the_nhl_crease_lies_on_its_arc():
    # by hand: 4 ft 6 in and 4 ft give 6 ft 0.25 in from the centre: the book's own rounding
    x, y = crease(RuleSet.NHL).corner
    assert math.hypot(x, y) == pytest.approx(6 * FOOT, abs=0.7 * INCH)


def test_half_and_cross_ice():
    # published: Hockey Canada U9 half ice at most 100 x 85 ft; USA Hockey 8U three zones a sheet
    half = rink(ice_format=IceFormat.HALF)
    assert (half.length, half.width) == (pytest.approx(100 * FOOT), pytest.approx(85 * FOOT))
    assert rink(ice_format=IceFormat.CROSS).width == pytest.approx(200 * FOOT / 3)


@pytest.mark.parametrize(("x", "y", "distance", "degrees"), [
    (3.000, 0.000, 3.000, 33.92),
    (5.000, 0.000, 5.000, 20.74),
    (10.000, 0.000, 10.000, 10.46),
    (6.096, 6.706, 9.062, 7.81),
    (6.000, 7.000, 9.220, 7.43),
    (19.507, 0.000, 19.507, 5.37),
    (1.000, 3.000, 3.162, 11.29),
])  # fmt: skip
def test_geometry_worked_from_the_rules(x, y, distance, degrees):
    """Published table 'Geometry worked from the rules': posts at +-0.915 m; printed digits.

    The printed distance of the NHL spot, 9.062 m, is that of the unrounded 22 ft (6.7056 m); from
    the printed 6.706 m it would be 9.063 m.
    """
    assert round(math.degrees(opening_angle(x, y, goal(RuleSet.IIHF))), 2) == degrees
    assert math.hypot(x, y) == pytest.approx(distance, abs=1e-3)


def test_area_of_the_iihf_goal_mouth():
    # published in the same table: 1.83 x 1.22 = 2.2326 m2
    assert goal(RuleSet.IIHF).area == pytest.approx(2.2326, abs=5e-5)


def test_named_spots_against_the_coordinate_list():
    """Published list of spots for North American markings, printed to 0.1 m."""
    for name, x, y in (
        ("left post", 0.0, 0.91), ("crease top", 1.83, 0.0), ("left crease corner", 1.4, 1.2),
        ("left dot", 6.1, 6.7), ("left circle top", 10.7, 6.7), ("low slot", 4.5, 0.0),
        ("high slot", 10.7, 0.0), ("left half wall", 8.5, 12.0), ("behind the net", -1.5, 0.0),
        ("left point", 18.0, 7.0), ("left neutral dot", 21.0, 6.7), ("red line", 27.1, 0.0),
        ("blue line", 19.5, 0.0),
    ):  # fmt: skip
        here = spot(NHL, name)
        assert (here.x, here.y) == pytest.approx((x, y), abs=0.051), name
