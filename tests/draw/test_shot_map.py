"""Shots drawn on the ice: each in its place, goals told apart by their sign."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from tendline.draw import shot_map_svg
from tendline.draw.shot_map import MOST_DRAWN
from tendline.ice import rink

SVG = "{http://www.w3.org/2000/svg}"


def places(svg: str) -> ET.Element:
    root = ET.fromstring(svg)
    return next(one for one in root.iter(f"{SVG}g") if one.get("class") == "tl-shot-places")


def test_a_shot_is_a_dot_in_its_place_and_a_goal_a_cross():
    svg = shot_map_svg(rink(), [(6.0, 2.5, False), (4.0, -1.0, True)])
    group = places(svg)
    (dot,) = group.findall(f"{SVG}circle")
    # By hand: picture x = -y, picture y = -x.
    assert (float(dot.get("cx", "")), float(dot.get("cy", ""))) == (-2.5, -6.0)
    assert len(group.findall(f"{SVG}path")) == 2
    assert 'aria-label="2 shots, 1 goal, where they came from"' in svg
    assert "1 from her left, 1 from her right" in svg


def test_a_shot_from_far_is_inside_the_picture():
    root = ET.fromstring(shot_map_svg(rink(), [(50.0, 0.0, False)]))
    _, top, _, height = (float(one) for one in root.get("viewBox", "").split())
    assert top <= -50.0 <= top + height


@pytest.mark.parametrize("count", [0, 1, MOST_DRAWN + 5])
def test_no_more_is_drawn_than_can_be_seen_and_the_words_say_so(count: int):
    svg = shot_map_svg(rink(), [(6.0, 0.1, False)] * count)
    assert len(places(svg)) == min(count, MOST_DRAWN)
    assert ("are drawn" in svg) == (count > MOST_DRAWN)
