"""Open areas by trade name: disjoint, complete, on the right side, mirrored; sides of the net."""

import math

import pytest

from tendline import body, ice
from tendline.base import Level, Settings, Side
from tendline.body import Stance
from tendline.sight import (
    AREA_NAMES,
    FAR_SIDE,
    SHORT_SIDE,
    OpenArea,
    exact_cover,
    open_areas,
    side_shares,
)
from tests.sight.figures import figure

GOAL = ice.goal()
PUCK = [8.0, 0.0, 0.0127]
LEFT_DOT = [6.1, 6.7, 0.0127]


def on_line(puck: list[float], stance: Stance, hand: Side = Side.LEFT) -> body.Capsules:
    angle = math.atan2(puck[1], puck[0])
    build = body.build_goaltender(stature=1.78, catching_hand=hand, level=Level.ADULT)
    return body.posed(build, body.Pose(1.1 * math.cos(angle), 1.1 * math.sin(angle), angle, stance))


def by_name(areas: tuple[OpenArea, ...]) -> dict[str, OpenArea]:
    return {one.name: one for one in areas}


@pytest.mark.parametrize("stance", list(Stance), ids=str)
@pytest.mark.parametrize("puck", [PUCK, LEFT_DOT, [2.5, -1.5, 0.0127]])
def test_named_areas_are_disjoint_and_make_up_all_that_is_open(
    stance: Stance, puck: list[float]
) -> None:
    body_there = on_line(puck, stance)
    areas = open_areas(puck, body_there, GOAL)
    open_share = 1.0 - exact_cover(puck, body_there, GOAL).share
    # areas under 0.05 % of the mouth are not named: at most seven of them are missing
    assert open_share - 7 * 0.0005 <= sum(one.share for one in areas) <= open_share + 1e-9
    assert {one.name for one in areas} <= set(AREA_NAMES)
    assert [one.share for one in areas] == sorted((one.share for one in areas), reverse=True)


def test_the_butterfly_closes_the_five_hole_and_the_low_sides() -> None:
    up, down = (
        by_name(open_areas(PUCK, on_line(PUCK, one), GOAL))
        for one in (Stance.READY, Stance.BUTTERFLY)
    )
    assert up["five hole"].share > 0.05
    assert down["five hole"].share < up["five hole"].share / 2
    assert down["low blocker side"].share < up["low blocker side"].share


def test_the_five_hole_lies_low_and_in_her_middle() -> None:
    area = by_name(open_areas(PUCK, on_line(PUCK, Stance.READY), GOAL))["five hole"]
    points = [point for ring in area.rings for point in ring]
    assert all(abs(y) < 0.45 and z < 0.75 for y, z in points)


@pytest.mark.parametrize("hand", list(Side))
def test_under_an_arm_lies_between_that_arm_and_the_body(hand: Side) -> None:
    areas = by_name(open_areas(PUCK, on_line(PUCK, Stance.READY, hand), GOAL))
    sign = 1 if hand is Side.LEFT else -1
    for name, side in (("under the catching arm", sign), ("under the blocker arm", -sign)):
        assert areas[name].share > 0.002
        assert all(0.1 < y * side < 0.8 for ring in areas[name].rings for y, _ in ring)


@pytest.mark.parametrize("hand", list(Side))
def test_the_catching_side_is_the_side_of_the_glove(hand: Side) -> None:
    area = by_name(open_areas(PUCK, on_line(PUCK, Stance.READY, hand), GOAL))["high catching side"]
    sign = 1 if hand is Side.LEFT else -1
    assert all(y * sign > -0.2 for ring in area.rings for y, _ in ring)


def test_the_other_hand_is_the_mirror_image() -> None:
    one = open_areas([7.0, 2.0, 0.0127], on_line([7.0, 2.0], Stance.READY, Side.LEFT), GOAL)
    other = open_areas([7.0, -2.0, 0.0127], on_line([7.0, -2.0], Stance.READY, Side.RIGHT), GOAL)
    assert [a.name for a in one] == [a.name for a in other]
    for a, b in zip(one, other, strict=True):
        assert a.share == pytest.approx(b.share, abs=1e-9)
        assert a.post == b.post


def test_short_side_is_the_post_nearer_the_puck() -> None:
    areas = by_name(open_areas(LEFT_DOT, on_line(LEFT_DOT, Stance.READY), GOAL))
    assert areas["low catching side"].post == SHORT_SIDE  # her left, where puck and glove are
    assert areas["low blocker side"].post == FAR_SIDE
    assert areas["five hole"].post == ""


def test_side_shares_add_up_and_follow_her_across() -> None:
    centred = side_shares(LEFT_DOT, on_line(LEFT_DOT, Stance.READY), GOAL)
    build = body.build_goaltender(stature=1.78)
    angle = math.atan2(6.7, 6.1)
    shifted = body.posed(
        build,
        body.Pose(
            1.1 * math.cos(angle) + 0.2 * math.sin(angle),
            1.1 * math.sin(angle) - 0.2 * math.cos(angle),
            angle,
        ),
    )
    moved = side_shares(LEFT_DOT, shifted, GOAL)
    assert moved.short > centred.short
    assert moved.far < centred.far


def test_straight_in_front_there_is_no_short_side() -> None:
    assert side_shares(PUCK, on_line(PUCK, Stance.READY), GOAL).short == 0.0
    wide = Settings.of({"sight.near_centre": 0.0})
    assert (
        side_shares([8.0, 0.05, 0.0127], on_line(PUCK, Stance.READY), GOAL, settings=wide).short > 0
    )


def test_the_line_between_low_and_high_can_be_set() -> None:
    low = Settings.of({"sight.low_high_split": 0.25})
    body_there = on_line(PUCK, Stance.READY)
    usual = by_name(open_areas(PUCK, body_there, GOAL))
    lower = by_name(open_areas(PUCK, body_there, GOAL, settings=low))
    assert lower["low blocker side"].share < usual["low blocker side"].share


def test_a_body_without_trunk_or_hands_still_has_open_sides() -> None:
    pole = figure([(2, 1.0, 0.2, 0.1, 1.0, 0.2, 0.8, 0.1)])
    areas = by_name(open_areas(PUCK, pole, GOAL))
    assert set(areas) == {
        "low catching side", "high catching side", "low blocker side", "high blocker side"
    }  # fmt: skip
    assert areas["low blocker side"].share > areas["low catching side"].share
