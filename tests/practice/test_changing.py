"""Half the ice lost, a goaltender gone: the plan again, and what fell out of it."""

import pytest

from tendline.base import InputError, Level
from tendline.practice import (
    Change,
    Roster,
    RosterGoaltender,
    Space,
    plan_practice,
    replan,
)
from tests.practice.samples import HALF, LIBRARY, practice_request

REQUEST = practice_request()
SHEET = plan_practice(REQUEST, LIBRARY)


def test_half_the_ice_keeps_what_still_fits_and_lists_what_was_dropped():
    half = Space(name="half ice", length=20, width=26, nets=1)
    after = replan(REQUEST, SHEET, Change(space=half), LIBRARY)
    titles = {one.title for one in after.segments}
    assert "Two against one" not in titles
    assert any(line.startswith("Two against one") for line in after.dropped)
    assert "Stop-and-set arc" in titles
    assert any("half ice" in note for note in after.notes)


def test_less_time_is_made_up_by_shorter_segments_or_fewer():
    after = replan(REQUEST, SHEET, Change(minutes=35), LIBRARY)
    assert after.minutes <= 35
    assert after.dropped


def test_a_goaltender_who_leaves_is_gone_from_every_line():
    after = replan(REQUEST, SHEET, Change(without=frozenset({"bea"})), LIBRARY)
    assert all(line.name == "Ida" for one in after.segments for line in one.lines)


def test_an_unknown_goaltender_cannot_leave():
    with pytest.raises(InputError, match="zoe"):
        replan(REQUEST, SHEET, Change(without=frozenset({"zoe"})), LIBRARY)


def test_nothing_changed_keeps_the_drills():
    after = replan(REQUEST, SHEET, Change(), LIBRARY)
    assert {one.drill_id for one in after.segments} == {one.drill_id for one in SHEET.segments}
    assert after.dropped == ()


def test_half_ice_forty_skaters_four_goaltenders_of_three_ages():
    two = tuple(RosterGoaltender(id=n, name=n.title(), level=Level.U11) for n in ("eve", "fay"))
    older = (
        RosterGoaltender(id="gil", name="Gil", level=Level.U13),
        RosterGoaltender(id="hal", name="Hal", level=Level.U15),
    )
    request = practice_request(roster=Roster(goaltenders=older, skaters=20, helpers=1))
    sheet = plan_practice(request, LIBRARY)
    three_nets = Space(name=HALF.name, length=HALF.length, width=HALF.width, nets=3)
    change = Change(space=three_nets, joining=two, skaters=40)
    after = replan(request, sheet, change, LIBRARY)
    for segment in after.segments:
        assert len(segment.lines) == 4
        assert all(line.text for line in segment.lines)
    assert {one.rule for one in after.broken} <= {"V11", "V14", "V16"}
