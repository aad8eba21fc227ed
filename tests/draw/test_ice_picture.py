"""The ice picture: the net at the bottom, her left on the left, every format and rule set."""

from __future__ import annotations

import pytest

from tendline import ice
from tendline.draw import PRINT, close_window, rink_svg, sheet_window, window_for, zone_window
from tendline.draw.ice_picture import IcePicture
from tendline.ice import IceFormat, RuleSet

from .svg_reading import assert_embeddable, numbers_of, parse, view_box, with_class


@pytest.mark.parametrize("rule_set", list(RuleSet))
@pytest.mark.parametrize("ice_format", list(IceFormat))
@pytest.mark.parametrize("small", [False, True])
def test_every_rink_is_drawn_and_may_stand_in_a_page(
    rule_set: RuleSet, ice_format: IceFormat, small: bool
) -> None:
    rink = ice.rink(rule_set, ice_format, small)
    for window in (sheet_window(rink), zone_window(rink), close_window(rink)):
        svg = rink_svg(rink, window=window, palette=PRINT)
        assert_embeddable(svg)
        assert len(svg) < 16_000


def test_screen_right_is_minus_y_and_screen_up_is_plus_x() -> None:
    rink = ice.rink()
    picture = IcePicture(rink, close_window(rink), width=500, title="t")
    assert picture.at(3.0, 2.0) == (-2.0, -3.0)
    root = parse(rink_svg(rink, window=zone_window(rink)))
    posts = [numbers_of(one, "cx", "cy") for one in with_class(root, "tl-post")]
    half = rink.goal.half_width + rink.goal.post_diameter / 2
    assert sorted(x for x, _ in posts) == pytest.approx([-half, half], abs=0.001)
    assert {y for _, y in posts} == {0.0}
    dots = sorted(numbers_of(one, "cx", "cy") for one in with_class(root, "tl-dot"))[:2]
    # published: NHL end-zone spots 22 ft to each side and 20 ft out
    assert dots[0][0] == pytest.approx(-22 * 0.3048, abs=0.001)
    assert {round(-dot[1], 2) for dot in dots} <= {round(20 * 0.3048, 2), 21.03}


def test_the_view_box_is_the_window_in_metres() -> None:
    rink = ice.rink()
    window = close_window(rink)
    left, top, width, height = view_box(parse(rink_svg(rink, window=window)))
    assert (left, top) == pytest.approx((-window.y_high, -window.x_high))
    assert (width, height) == pytest.approx((window.across, window.along))


def test_the_closer_the_play_the_larger_the_net() -> None:
    rink = ice.rink()
    near = window_for(rink, [(2.0, 1.0), (1.5, -1.5)])
    far = window_for(rink, [(15.0, 6.0), (14.0, -6.0)])
    assert near.across < 0.6 * far.across
    assert near.along >= 6.0


@pytest.mark.parametrize("place", [(-2.5, 9.0), (18.0, -11.0), (0.3, 5.0), (26.0, 0.0)])
def test_a_window_holds_net_and_people_whatever_the_play(place: tuple[float, float]) -> None:
    rink = ice.rink()
    window = window_for(rink, [place, (5.0, 0.0)])
    assert window.holds(*place, margin=0.3)
    assert window.holds(0.0, 0.0, margin=1.0)


def test_half_ice_has_one_end_of_painted_circles_and_two_nets() -> None:
    root = parse(rink_svg(ice.rink(ice_format=IceFormat.HALF)))
    assert len(with_class(root, "tl-net")) == 2
    assert len(with_class(root, "tl-trapezoid")) == 2
    assert len(with_class(root, "tl-circle")) == 2
    full = parse(rink_svg(ice.rink()))
    assert len(with_class(full, "tl-trapezoid")) == 4
    assert len(with_class(full, "tl-blue-line")) == 2
