"""Which drills fit where, and the edges of planning (by hand)."""

from dataclasses import replace
from datetime import time

import pytest

from tendline.base import Level, NotFoundError, PlanError, Settings
from tendline.ice import rink
from tendline.practice import (
    Change,
    Choice,
    PracticeRules,
    Roster,
    Sides,
    Space,
    Status,
    TeamSegment,
    plan_practice,
    replan,
    space,
    spaces,
    validate,
)
from tendline.practice.constants import BLOCK_MINUTES
from tendline.practice.fitting import minutes_allowed, misfits, nets_used, stations_needed
from tests.practice.samples import (
    ARC,
    BEA,
    CORNER_WITH_NET,
    CYN,
    DOT,
    DROP,
    FULL,
    GAME,
    IDA,
    LIBRARY,
    LONG,
    PATCH,
    SECOND,
    block_request,
    evening,
    practice_request,
)

RULES = PracticeRules()


def rules_of(drill, request, *, with_team=False):
    return {one.rule: one.change for one in misfits(drill, request, RULES, with_team=with_team)}


def test_a_space_holds_an_area_turned_round_too():
    strip = Space(name="strip", length=12, width=4, nets=0)
    assert strip.holds((4, 12))
    assert not strip.holds((5, 5))


def test_copies_of_a_drill_lie_side_by_side():
    four = Roster(goaltenders=(IDA, BEA, CYN, DOT), helpers=4)
    assert stations_needed(ARC, 4) == 2
    small = evening(minutes=10, block_space=Space(name="nook", length=6, width=9, nets=0))
    assert "V19" in rules_of(ARC, block_request(roster=four, slot=small))
    wide = evening(minutes=10, block_space=Space(name="nook", length=5, width=10, nets=0))
    assert "V19" not in rules_of(ARC, block_request(roster=four, slot=wide))
    assert rules_of(ARC, block_request(roster=four, slot=small))["V19"] == (
        "a space of 2 times 5 x 5 m instead of nook"
    )


def test_each_misfit_names_its_change():
    request = block_request(roster=Roster(goaltenders=(IDA,), helpers=0))
    pair = replace(ARC, goaltenders_low=2)
    assert rules_of(pair, request)["goaltenders"] == "1 more goaltender"
    assert rules_of(pair, request)["people"] == "1 more person to serve the block"
    assert rules_of(SECOND, request)["net"] == "1 more net on corner, 10 x 10 m"
    no_skaters = practice_request(roster=Roster(goaltenders=(IDA,), skaters=3))
    assert rules_of(GAME, no_skaters, with_team=True)["people"] == "1 more skater"
    assert "V2" in rules_of(replace(ARC, pucks_in_play=2), request)


def test_a_drill_for_the_young_only_is_not_for_the_old():
    young_only = replace(ARC, oldest=Level.U11)
    assert rules_of(young_only, block_request())["V18"] == (
        "a drill for U15 (Stop-and-set arc is for U11 and younger)"
    )


def test_nets_are_no_more_than_there_are_goaltenders():
    assert nets_used(LONG, FULL, 1) == 1
    assert nets_used(LONG, FULL, 3) == 2
    assert nets_used(ARC, FULL, 3) == 0
    assert nets_used(LONG, PATCH, 3) == 0


def test_a_drill_for_three_nets_needs_three():
    three = replace(GAME, nets_low=3, nets_high=3)
    assert rules_of(three, practice_request(), with_team=True)["net"] == "1 more net on full ice"
    more = evening(space=replace(FULL, nets=3))
    assert "net" not in rules_of(three, practice_request(slot=more), with_team=True)


def test_minutes_follow_the_drill_and_the_age():
    assert list(minutes_allowed(ARC, block_request(), RULES, with_team=False)) == [4, 5, 6]
    assert list(minutes_allowed(GAME, practice_request(), RULES, with_team=True)) == [
        6, 7, 8, 9, 10,
    ]  # fmt: skip
    young = practice_request(
        roster=Roster(goaltenders=(replace(IDA, level=Level.U11),), skaters=12)
    )
    assert list(minutes_allowed(GAME, young, RULES, with_team=True)) == [6]
    long_game = replace(GAME, minutes_low=9)
    assert list(minutes_allowed(long_game, young, RULES, with_team=True)) == [9, 10]


def test_the_named_pieces_of_ice_have_the_rinks_size():
    sheet = rink()
    known = spaces(sheet)
    assert known["full ice"].length == sheet.length
    assert known["half ice"].length == sheet.length / 2
    assert known["one corner, no net"].nets == 0
    assert space("one end, with a net", sheet).nets == 1
    with pytest.raises(NotFoundError, match="half ice"):
        space("half the ice", sheet)


def test_all_three_kinds_of_reason_for_a_known_drill():
    kept = plan_practice(block_request(keep=frozenset({"drop"})), LIBRARY)
    assert any("Kept from the plan" in r for one in kept.segments for r in one.reasons)
    used = plan_practice(block_request(recent=("drop", "arc")), (ARC, DROP))
    assert any("Used lately" in r for one in used.segments for r in one.reasons)
    paired = plan_practice(block_request(week_pair=("drop",)), LIBRARY)
    assert any("this week's pair" in r for one in paired.segments for r in one.reasons)


def test_a_practice_can_go_without_settling_water_and_closing():
    bare = Settings.of({"practice.settle": 0, "practice.water": 0, "practice.closing": 0})
    sheet = plan_practice(practice_request(), LIBRARY, settings=bare)
    assert sheet.segments[0].drill_id == "arc"
    assert all(one.drill_id for one in sheet.segments)


def test_a_fixed_segment_with_one_net_is_shared():
    fixed = (TeamSegment(title="Power play", minutes=12, nets=1),)
    sheet = plan_practice(practice_request(fixed=fixed), LIBRARY)
    line = next(one for one in sheet.segments if one.title == "Power play").lines[0]
    assert "change every 90 s" in line.text


def test_a_drill_without_counts_and_with_its_own_aim_still_has_words():
    quiet = replace(GAME, load=replace(GAME.load, shots=0), objective_goaltender="Follow the puck")
    alone = practice_request(roster=Roster(goaltenders=(IDA,), skaters=12, helpers=1))
    sheet = plan_practice(alone, (ARC, DROP, quiet), settings=Settings())
    line = next(one for one in sheet.segments if one.drill_id == "game").lines[0]
    assert line.text == "in the net throughout; one puck; play the rebound"


def test_a_change_of_everything_is_said_in_words():
    change = Change(
        minutes=40, space=FULL, without=frozenset({"bea"}), joining=(CYN,), skaters=20, helpers=2
    )
    for word in ("40 minutes", "full ice", "1 goaltender(s) fewer", "Cyn joining", "20 skaters",
                 "2 to serve"):  # fmt: skip
        assert word in change.words
    assert Change().words == "nothing changed"


def test_a_block_moved_to_an_end_with_a_net_may_use_it():
    request = block_request()
    sheet = plan_practice(request, (ARC, DROP, SECOND))
    after = replan(
        request, sheet, Change(block_space=CORNER_WITH_NET, helpers=2), (ARC, DROP, SECOND)
    )
    assert after.place == CORNER_WITH_NET.name


class Undecided:
    """A solver that finds nothing within its limit."""

    def choose(self, program):
        return Choice(status=Status.UNKNOWN)

    def stretch(self, program, rules):
        raise AssertionError("not asked")


class Reckless:
    """A solver that takes the first variables whatever the rows say."""

    def choose(self, program):
        return Choice(status=Status.GOOD, chosen=frozenset(range(min(3, program.size))))

    def stretch(self, program, rules):
        raise AssertionError("not asked")


def test_no_answer_within_the_limit_is_said():
    with pytest.raises(PlanError, match="time limit"):
        plan_practice(block_request(), LIBRARY, solver=Undecided())


def test_a_wrong_answer_of_a_solver_never_reaches_the_coach():
    tight = block_request(slot=evening(minutes=8))
    with pytest.raises(PlanError, match="did not pass its check"):
        plan_practice(tight, LIBRARY, solver=Reckless())


def test_an_answer_that_is_only_good_is_marked_so():
    sheet = plan_practice(block_request(slot=evening(minutes=40)), LIBRARY, solver=Reckless())
    assert not sheet.is_proven_best


def test_too_many_shots_name_the_budget():
    loud = replace(LONG, load=replace(LONG.load, shots=40))
    with pytest.raises(PlanError, match="V11") as caught:
        plan_practice(practice_request(), (ARC, DROP, loud))
    assert "fewer shots" in caught.value.hint


def test_a_segment_as_short_as_its_change_over_is_caught():
    request = block_request()
    sheet = plan_practice(request, LIBRARY)
    short = replace(sheet.segments[0], minutes=1, end=time(18, 1))
    broken = replace(sheet, segments=(short, *sheet.segments[1:]))
    slow = Settings.of({"practice.changeover": 90})
    v15 = next(
        one for one in validate(broken, request, LIBRARY, settings=slow) if one.rule == "V15"
    )
    assert "no longer than its change-over" in v15.text


def test_the_blocks_default_is_the_published_one():
    assert BLOCK_MINUTES.value == 10  # published: USA Hockey Goaltending, season plan


def test_a_drill_without_sides_counts_plainly_and_one_too_long_is_never_chosen():
    plain = replace(ARC, sides=Sides.NONE)
    sheet = plan_practice(block_request(), (plain, DROP))
    assert sheet.segments[0].lines[0].text == "21 times each; turn about"
    endless = replace(DROP, id="endless", work=200.0)
    assert "endless" not in {
        one.drill_id for one in plan_practice(block_request(), (ARC, DROP, endless)).segments
    }


def test_a_library_in_which_everything_fits_leaves_nothing_out():
    sheet = plan_practice(block_request(needs=(), stage=""), (ARC, DROP))
    assert sheet.reasons == ("10 of 10 minutes of ice used.",)


def test_the_young_are_not_asked_for_a_read():
    young = replace(IDA, level=Level.U9)
    request = practice_request(roster=Roster(goaltenders=(young,), skaters=12, helpers=1))
    drills = tuple(replace(one, youngest=Level.U9, choices=0) for one in LIBRARY)
    assert "V10" not in {one.rule for one in plan_practice(request, drills).checks}
