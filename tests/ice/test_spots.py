"""Named spots, mirror and change of ends."""

import math

import pytest

from tendline.base import NotFoundError, Side
from tendline.ice import (
    RuleSet,
    heading_at_other_end,
    mirror_name,
    mirror_side,
    mirror_xy,
    rink,
    spot,
    spots,
)

NAMES = {
    "left post", "right post", "crease top", "left crease corner", "right crease corner",
    "mid-crease", "low slot", "hash-mark slot", "high slot", "left dot", "right dot",
    "left circle top", "right circle top", "left half wall", "right half wall", "left corner",
    "right corner", "behind the net", "left goal line", "right goal line", "left point",
    "right point", "centre point", "blue line", "left neutral dot", "right neutral dot",
    "red line", "goal",
}  # fmt: skip


@pytest.mark.parametrize("rules", list(RuleSet))
def test_every_rule_set_has_the_same_names_and_mirror_pairs(rules):
    table = spots(rink(rules))
    assert set(table) == NAMES
    for one in table.values():
        twin = table[mirror_name(one.name)]
        assert (twin.x, twin.y) == mirror_xy(one.x, one.y)
        assert mirror_name(twin.name) == one.name


def test_left_is_positive_y():
    assert all(one.y > 0 for name, one in spots(rink()).items() if name.startswith("left"))


def test_painted_spots_follow_the_rule_set():
    assert (spot(rink(), "left dot").x, spot(rink(), "left dot").y) == (6.096, 6.7056)
    iihf = spot(rink(RuleSet.IIHF), "left dot")
    assert (iihf.x, iihf.y) == (6.0, 7.0)


def test_names_are_read_without_regard_to_case_and_spaces():
    assert spot(rink(), "  Low  SLOT ").name == "low slot"


def test_an_unknown_spot_is_named_with_the_nearest():
    with pytest.raises(NotFoundError, match="Did you mean 'left half wall'") as caught:
        spot(rink(), "left halfwall")
    assert "low slot" in caught.value.allowed


def test_sides_and_headings_turn():
    assert mirror_side(Side.LEFT) is Side.RIGHT
    assert heading_at_other_end(0.0) == pytest.approx(math.pi)
    assert heading_at_other_end(math.pi / 2) == pytest.approx(-math.pi / 2)
