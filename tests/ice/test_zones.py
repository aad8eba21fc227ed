"""Zones for records and the home plate."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError
from tendline.ice import IceFormat, RuleSet, Zone, inside_home_plate, rink, spot, zone_of

FULL = rink()


@pytest.mark.parametrize(("name", "zone"), [
    ("low slot", Zone.LOW_SLOT), ("high slot", Zone.HIGH_SLOT), ("crease top", Zone.LOW_SLOT),
    ("left post", Zone.LOW_SLOT), ("behind the net", Zone.BEHIND_NET),
    ("left corner", Zone.LEFT_CORNER), ("right corner", Zone.RIGHT_CORNER),
    ("left goal line", Zone.LEFT_CIRCLE), ("left half wall", Zone.LEFT_HALF_WALL),
    ("right half wall", Zone.RIGHT_HALF_WALL), ("left point", Zone.LEFT_POINT),
    ("right point", Zone.RIGHT_POINT), ("centre point", Zone.CENTRE_POINT),
    ("left neutral dot", Zone.NEUTRAL), ("left dot", Zone.LOW_SLOT),
])  # fmt: skip
@pytest.mark.parametrize("rules", list(RuleSet))
def test_named_spots_fall_into_the_zone_of_their_name(rules, name, zone):
    area = rink(rules)
    place = spot(area, name)
    assert zone_of(area, place.x, place.y) is zone


@pytest.mark.parametrize(("x", "y", "zone"), [
    (6.0, 7.5, Zone.LEFT_CIRCLE), (6.0, -7.5, Zone.RIGHT_CIRCLE), (8.0, 6.0, Zone.HIGH_SLOT),
    (1.0, 12.0, Zone.LEFT_CORNER), (12.0, 3.0, Zone.CENTRE_POINT), (12.0, 4.0, Zone.LEFT_POINT),
    (40.0, 0.0, Zone.FAR_END), (-1.0, 3.3, Zone.BEHIND_NET), (-1.0, 3.4, Zone.LEFT_CORNER),
])  # fmt: skip
def test_places_between_the_named_spots(x, y, zone):
    assert zone_of(FULL, x, y) is zone


@given(x=st.floats(-3.3, 57.0), y=st.floats(0.01, 12.9))
@settings(max_examples=120, deadline=None)
def test_zones_mirror(x, y):
    words = {"left": "right", "right": "left"}
    here, there = zone_of(FULL, x, y), zone_of(FULL, x, -y)
    assert there.value == " ".join(words.get(w, w) for w in here.value.split(" "))


@given(x=st.floats(-3.3, 57.0), y=st.floats(-12.9, 12.9))
@settings(max_examples=120, deadline=None)
def test_the_slot_is_the_home_plate(x, y):
    slot = zone_of(FULL, x, y) in (Zone.LOW_SLOT, Zone.HIGH_SLOT)
    assert slot == inside_home_plate(FULL, x, y)


@pytest.mark.parametrize(("x", "y", "inside"), [
    # by hand: the edge runs from (0, 0.9144) to (6.096, 6.7056), then straight out to 10.668
    (0.0, 0.9, True), (0.0, 0.92, False), (3.048, 3.80, True), (3.048, 3.82, False),
    (10.66, 6.70, True), (10.67, 0.0, False), (-0.1, 0.0, False), (8.0, 6.71, False),
])  # fmt: skip
def test_the_edges_of_the_home_plate(x, y, inside):
    assert inside_home_plate(FULL, x, y) is inside


def test_cross_ice_has_zones_too():
    cross = rink(ice_format=IceFormat.CROSS)
    assert zone_of(cross, 2.0, 0.0) is Zone.LOW_SLOT
    assert zone_of(cross, 15.0, 0.0) is Zone.FAR_END


def test_a_place_without_numbers_is_refused():
    with pytest.raises(InputError, match="two numbers"):
        zone_of(FULL, math.nan, 0.0)
