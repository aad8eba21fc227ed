"""From a drill's script and its run to the planner's facts (by hand unless said)."""

from dataclasses import replace
from importlib.resources import files

import pytest

from tendline.base import Level, ScoringSituation
from tendline.drill import parse_drill
from tendline.drill.simulate import simulate
from tendline.drill.types import Ice, Person, Place
from tendline.drill.vocabulary import DrillKind, Family, IceUse, MarkKind, Sides, Theme
from tendline.ice import rink
from tendline.practice import Order
from tendline.practice import Sides as PlannedSides
from tendline.practice.adapter import (
    MARGIN,
    area_of,
    facts_of,
    measured,
    on_the_ice,
    static_facts,
)

SHEET = rink()


def scripted(name):
    return parse_drill(files("tendline.drill").joinpath(f"library/{name}.drill").read_text("utf-8"))


E08, L01 = scripted("E08"), scripted("L01")


def test_the_script_gives_people_net_themes_ages_and_choices():
    facts = static_facts(E08, SHEET)
    assert facts.name == "Branching lane attack"
    assert facts.people == 7  # 6 skaters and 1 helper at least
    assert facts.needs_net
    assert facts.choices == 3
    assert ScoringSituation.EAST_WEST in facts.situations
    assert facts.youngest is Level.U13
    assert facts.oldest is Level.MEN_ELITE
    assert facts.for_team


def test_the_run_gives_load_and_times():
    run = simulate(L01)
    facts = facts_of(L01, run, SHEET)
    assert facts.load.shots == run.load.shots == 1.0
    assert facts.work == run.work
    assert facts.rest == run.rest
    assert facts.release_gap == min(one.gap for one in run.releases)
    assert "shots" in facts.moves


def test_a_drill_in_which_she_drops_is_marked_butterfly():
    run = simulate(L01)
    assert run.load.drops > 0
    assert "butterfly" in measured(L01, run, SHEET).moves


def test_sides_are_read_from_the_script():
    assert static_facts(L01, SHEET).sides is PlannedSides.MIRRORED
    within = replace(L01, sides=Sides.WITHIN)
    assert static_facts(within, SHEET).sides is PlannedSides.BOTH
    middle = replace(L01, sides=Sides.MIDDLE)
    assert static_facts(middle, SHEET).sides is PlannedSides.NONE


def test_ground_is_where_people_are_and_never_more_than_the_ice_named():
    length, width = static_facts(L01, SHEET).area
    named = area_of(L01.ice, SHEET)
    assert length < named[0]
    assert width <= named[1]
    dots = 2 * SHEET.spot_y
    assert width == pytest.approx(dots + 2 * MARGIN, abs=0.05)


def test_ground_grows_with_a_far_person():
    far = Person(name="F9", at=Place(x=19.0, y=0.0))
    wider = replace(L01, people=(*L01.people, far))
    assert static_facts(wider, SHEET).area[0] > static_facts(L01, SHEET).area[0]


def test_a_stated_size_counts_as_stated():
    stated = replace(L01, ice=Ice(use=IceUse.PATCH, length=6.0, width=4.0))
    assert static_facts(stated, SHEET).area == (6.0, 4.0)


@pytest.mark.parametrize("use", IceUse)
def test_every_word_for_ice_has_a_size_that_fits_the_rink(use):
    length, width = area_of(Ice(use=use), SHEET)
    assert 0 <= length <= SHEET.length
    assert 0 <= width <= SHEET.width


def test_what_is_off_the_ice_or_only_a_template_never_stands_on_a_sheet():
    off = replace(L01, ice=Ice(use=IceUse.OFF_ICE))
    template = replace(L01, kind=DrillKind.TEMPLATE)
    assert on_the_ice((L01, off, template)) == (L01,)


def test_families_for_special_evenings_come_only_when_asked_for():
    sledge = replace(L01, family=Family.SLEDGE)
    assert on_the_ice((L01, sledge)) == (L01,)
    assert on_the_ice((L01, sledge), also=frozenset({Family.SLEDGE})) == (L01, sledge)


def test_games_and_team_drills_are_not_block_material():
    assert not static_facts(replace(L01, kind=DrillKind.GAME), SHEET).for_block
    assert not static_facts(replace(L01, family=Family.TEAM), SHEET).for_block


@pytest.mark.parametrize(
    ("family", "order"),
    [
        (Family.MOVEMENT, Order.MOVEMENT),
        (Family.TRACKING, Order.CLEAR_SHOTS),
        (Family.REBOUNDS, Order.REBOUNDS),
        (Family.TEAM, Order.CLOSE),
    ],
)
def test_the_family_gives_the_place_in_a_warm_up(family, order):
    plain = replace(L01, family=family, play=(), kind=DrillKind.TECHNIQUE)
    assert static_facts(plain, SHEET).order is order


def test_a_marked_second_save_is_known():
    from tendline.drill.types import Mark

    marked = replace(L01, marks=(Mark(kind=MarkKind.SECOND_SAVE, because="two pucks"),))
    assert static_facts(marked, SHEET).second_save


def test_a_choice_that_is_told_is_no_choice():
    from tendline.drill.types import Choice

    told = tuple(replace(one, told=True) if isinstance(one, Choice) else one for one in E08.play)
    assert static_facts(replace(E08, play=told), SHEET).choices == 0


def test_a_drill_with_nobody_and_nothing_in_it_takes_the_ice_it_names():
    empty = replace(L01, people=(), things=(), play=(), nets=0)
    assert static_facts(empty, SHEET).area == area_of(empty.ice, SHEET)


def test_a_drill_without_a_net_does_not_reach_behind_the_goal_line():
    no_net = replace(L01, nets=0)
    assert static_facts(no_net, SHEET).area[0] < static_facts(L01, SHEET).area[0]


def test_post_play_is_a_move_to_leave_out():
    from tendline.drill.vocabulary import Theme

    assert "post play" in static_facts(replace(L01, themes=(Theme.POST_PLAY,)), SHEET).moves


def test_nets_listed_as_equipment_must_be_there():
    three = replace(L01, equipment=("10 pucks", "3 nets"))
    assert static_facts(three, SHEET).nets_low == 3
    assert static_facts(three, SHEET).nets_high == 3
    assert static_facts(L01, SHEET).nets_low == 1
    either = replace(L01, equipment=("2 nets or tyres",))
    assert static_facts(either, SHEET).nets_low == 1


def test_an_aim_that_asks_her_to_be_set_or_still_trains_being_set():
    assert "stance" not in L01.themes
    still = replace(L01, goaltender_aim="Line first, then depth, then still, before every shot")
    assert static_facts(still, SHEET).themes[-1] == "stance"
    busy = replace(L01, goaltender_aim="Follow the puck into the hands")
    assert "stance" not in static_facts(busy, SHEET).themes
    pucks = replace(still, themes=(Theme.PUCK_HANDLING,), goaltender_aim="Set it for the defender")
    assert static_facts(pucks, SHEET).themes == ("puck handling",)


def test_three_nets_among_the_equipment_need_three_nets_on_the_ice():
    assert static_facts(scripted("G03"), SHEET).nets_low == 3
