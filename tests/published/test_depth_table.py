"""The trade-off of depth, by similar triangles.

Published table 'Depth: the published four-step scale', the trade-off in numbers: shot from a dot
(6.1, 6.7), receiver on the other dot, posts at +-0.91 m, depths along the line in metres. All
printed digits are reproduced. The sentences under the table take a goal of 1.83 m (posts at
0.915 m), so they are checked with that width.
"""

import math

import pytest

from tendline.ice import goal, on_angle_distance, rink, spot, width_to_cover

DOT, OTHER_DOT, POST = (6.1, 6.7), (6.1, -6.7), 0.91
TABLE = [(0.6, 1.15, 0.89), (0.9, 1.11, 1.33), (1.4, 1.04, 2.07), (1.83, 0.98, 2.71),
         (2.4, 0.91, 3.55)]  # fmt: skip


@pytest.mark.parametrize(("depth", "width", "across"), TABLE)
def test_both_columns_to_the_printed_digits(depth, width, across):
    assert round(width_to_cover(*DOT, depth, POST), 2) == width
    assert round(on_angle_distance(DOT, OTHER_DOT, depth), 2) == across


def test_coming_out_saves_thirteen_centimetres_and_doubles_the_trip():
    saved = width_to_cover(*DOT, 0.9, POST) - width_to_cover(*DOT, 1.83, POST)
    assert round(saved, 2) == 0.13
    trip = on_angle_distance(DOT, OTHER_DOT, 1.83) / on_angle_distance(DOT, OTHER_DOT, 0.9)
    assert trip == pytest.approx(2.0, abs=0.05)


@pytest.mark.parametrize(("out", "near", "far", "saved"), [
    (10.7, 1.68, 1.52, 0.16),  # high slot
    (4.5, 1.46, 1.09, 0.37),  # low slot; the saving is that of the printed widths
])  # fmt: skip
def test_the_same_step_from_the_slot(out, near, far, saved):
    first = round(width_to_cover(out, 0.0, 0.9, 0.915), 2)
    second = round(width_to_cover(out, 0.0, 1.83, 0.915), 2)
    assert (first, second, round(first - second, 2)) == (near, far, saved)


@pytest.mark.parametrize("depth", [row[0] for row in TABLE])
def test_the_same_table_by_hand_for_the_rule_book_goal(depth):
    """By hand, from first principles, for the 6 ft goal and dots 20 ft out and 22 ft aside.

    Put the puck at the origin, the line to the goal centre along u and across it v. The centre lies
    at u = d = sqrt(20^2 + 22^2) ft. A post 3 ft along the goal line has u = d -+ 3 (22/d) ft and
    v = +-3 (20/d) ft. The line puck-post crosses u = d - depth at v (d - depth) / u(post).
    """
    foot = 0.3048
    d = math.sqrt(20.0**2 + 22.0**2)
    out = d - depth / foot
    near_post = 3.0 * (20.0 / d) * out / (d - 3.0 * (22.0 / d))
    far_post = 3.0 * (20.0 / d) * out / (d + 3.0 * (22.0 / d))
    dot = spot(rink(), "left dot")
    ours = width_to_cover(dot.x, dot.y, depth, goal().half_width)
    assert ours == pytest.approx((near_post + far_post) * foot, abs=1e-9)
    # across: the two spots mirror each other, each depth x 22/d off the long axis
    across = on_angle_distance((dot.x, dot.y), (dot.x, -dot.y), depth)
    assert across == pytest.approx(2.0 * depth * 22.0 / d, abs=1e-9)


def test_the_rule_book_table_in_numbers():
    """By hand: d = 29.7321 ft, a post 2.2198 ft along and 2.0180 ft across the line, so the strip is
    0.136508 (d - depth) ft and the trip 1.479882 times the depth; to the millimetre.
    """
    dot = spot(rink(), "left dot")
    widths = [round(width_to_cover(dot.x, dot.y, row[0], goal().half_width), 3) for row in TABLE]
    trips = [round(on_angle_distance((dot.x, dot.y), (dot.x, -dot.y), row[0]), 3) for row in TABLE]
    assert widths == [1.155, 1.114, 1.046, 0.987, 0.909]
    assert trips == [0.888, 1.332, 2.072, 2.708, 3.552]
