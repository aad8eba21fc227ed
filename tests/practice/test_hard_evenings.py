"""Two evenings from the coach's own stories: a corner and ten minutes; half ice and forty skaters."""

from dataclasses import replace

import pytest

from tendline.base import Level
from tendline.ice import rink
from tendline.practice import (
    Change,
    PlanKind,
    Roster,
    RosterGoaltender,
    RuleLevel,
    SegmentKind,
    Sides,
    plan_practice,
    replan,
    space,
)
from tendline.practice.glossary import explain
from tests.practice.samples import (
    ARC,
    BEA,
    GAME,
    IDA,
    LIBRARY,
    LONG,
    RUSH,
    block_request,
    evening,
    practice_request,
)

YOUNG = tuple(
    replace(one, youngest=Level.U9, id=f"{one.id}-young", name=f"{one.name}, gently")
    for one in (LONG, GAME, RUSH)
)
FOUR = (
    RosterGoaltender(id="ava", name="Ava", level=Level.U11),
    RosterGoaltender(id="bo", name="Bo", level=Level.U11),
    RosterGoaltender(id="kit", name="Kit", level=Level.U13),
)
CAR_PARK = Change(
    space=replace(space("half ice", rink()), nets=3), skaters=40, helpers=1,
    without=frozenset({"bea"}), joining=FOUR,
)  # fmt: skip


@pytest.fixture(scope="module")
def in_the_car_park():
    request = practice_request(roster=Roster(goaltenders=(IDA, BEA), skaters=15, helpers=2))
    before = plan_practice(request, LIBRARY)
    return before, replan(request, before, CAR_PARK, (*LIBRARY, *YOUNG))


def test_forty_skaters_and_four_goaltenders_on_half_ice_get_a_sheet_that_keeps_the_rules(
    in_the_car_park,
):
    _, sheet = in_the_car_park
    assert sheet.is_proven_best
    assert not [one for one in sheet.broken if one.level is RuleLevel.HARD]
    assert sheet.minutes <= 55
    for segment in sheet.segments:
        assert [line.name for line in segment.lines] == ["Ida", "Ava", "Bo", "Kit"]
        assert all(line.text for line in segment.lines)
        assert segment.nets <= 3


def test_every_drill_suits_the_youngest_and_reps_are_equal(in_the_car_park):
    _, sheet = in_the_car_park
    known = {one.id: one for one in (*LIBRARY, *YOUNG)}
    played = [known[one.drill_id] for one in sheet.segments if one.drill_id]
    assert all(one.youngest in (Level.U9, Level.U11) for one in played)
    shots = [one.load.shots for one in sheet.loads]
    assert max(shots) - min(shots) <= 0.1 * max(shots) + 1


def test_what_fell_out_is_listed_so_that_it_returns(in_the_car_park):
    before, sheet = in_the_car_park
    now = {one.title: one.minutes for one in sheet.segments}
    for one in before.segments:
        if one.drill_id and one.title not in now:
            assert any(one.title in line for line in sheet.dropped)
    assert any("half ice with 3 net(s)" in note for note in sheet.notes)


def test_ten_minutes_in_a_corner_without_a_net():
    corner = space("one corner, no net", rink())
    request = block_request(slot=evening(minutes=10, block_space=corner))
    sheet = plan_practice(request, LIBRARY)
    block = [one for one in sheet.segments if one.kind is SegmentKind.BLOCK]
    assert request.kind is PlanKind.BLOCK
    assert len(block) == 2
    assert sheet.minutes <= 10
    known = {one.id: one for one in LIBRARY}
    for one in block:
        drill = known[one.drill_id]
        assert not drill.needs_net
        assert corner.holds(drill.area)
        assert len(one.key_points) <= 3
        if drill.sides is not Sides.NONE:
            assert all(line.left == line.right > 0 for line in one.lines)


def test_who_leaves_out_a_drill_without_shots_is_not_asked_about_releases():
    out = replace(BEA, restrictions=frozenset({"long pushes"}))
    push = replace(ARC, id="push", moves=frozenset({"long pushes"}))
    request = block_request(roster=Roster(goaltenders=(IDA, out), helpers=1), needs=())
    sheet = plan_practice(request, (push, LIBRARY[3]))
    line = next(one for one in sheet.segments if one.drill_id == "push").lines[1]
    assert line.is_task
    assert "release" not in line.text


@pytest.mark.parametrize(
    ("text", "is_trade_word"),
    [
        ("The helper points left or right", False),
        ("A goal scores one point", False),
        ("A shot from the left point", True),
        ("He passes to the point", True),
    ],
)
def test_a_point_is_explained_only_where_it_is_a_place(text, is_trade_word):
    assert ("point" in dict(explain([text]))) is is_trade_word


def test_trade_words_of_the_block_are_explained():
    found = dict(explain(["Goaltenders in stance, sealed at the post, on the inside edge"]))
    assert {"stance", "seal", "edge"} <= set(found)
