"""The built-in drills: the checker, coverage, ladders, search, playback."""

import json
from dataclasses import asdict
from pathlib import Path

import pytest

from tendline import ice
from tendline.base import Level, NotFoundError, ScoringSituation
from tendline.drill import (
    actions_of,
    check_drill,
    check_library,
    check_one,
    drill_by_id,
    ladder,
    library,
    parse_drill,
    search_drills,
    simulate,
    standing,
    suits,
    tracks,
)
from tendline.drill.report import library_report
from tendline.drill.vocabulary import DrillKind, Family, IceUse, Theme, Verb
from tests.drill.samples import ONE_SHOT, THREE_SHOTS

FAMILIES = {"M": 16, "T": 11, "A": 7, "L": 8, "B": 8, "S": 5, "E": 9, "R": 5, "P": 5, "K": 3,
            "G": 9, "W": 8}  # fmt: skip


def test_all_ninety_four_families_are_there_and_more():
    ids = [one.id for one in library()]
    assert len(ids) == len(set(ids)) >= 110
    for letter, count in FAMILIES.items():
        assert {f"{letter}{k:02d}" for k in range(1, count + 1)} <= set(ids), letter
    assert sum(FAMILIES.values()) == 94
    families = {one.family for one in library()}
    assert {Family.DEFLECTIONS, Family.ADULT_BEGINNERS, Family.SLEDGE, Family.ALONE,
            Family.OUTDOOR} <= families  # fmt: skip


def test_every_drill_passes_the_public_checker():
    assert [f"{one.drill}: {one.text}" for one in check_library()] == []


def test_every_situation_theme_and_age_has_drills():
    for situation in ScoringSituation:
        assert len(search_drills(library(), situation=situation)) >= 3, situation
    for theme in Theme:
        assert search_drills(library(), theme=theme), theme
    for level in (Level.U9, Level.U11, Level.U13, Level.U15, Level.U18, Level.ADULT):
        assert len(search_drills(library(), level=level)) >= 15, level


def test_marks_are_words_that_a_coach_wrote_and_battles_are_few():
    marked = [one for one in library() if one.marks]
    assert all(len(mark.because) > 15 for one in marked for mark in one.marks)
    assert sum(any(m.kind.value == "battle" for m in one.marks) for one in library()) <= 12


def test_the_checker_finds_what_is_wrong_with_a_strangers_drill():
    known = frozenset(one.id for one in library())
    texts = [one.text for one in check_one(parse_drill(THREE_SHOTS), known)]
    assert any(one.startswith("V2") for one in texts)
    assert "no set-up" in texts
    assert "no easier step" in texts
    linked = parse_drill(ONE_SHOT + "easier: Z99, gone\n")
    assert any("Z99, which is not there" in one.text for one in check_one(linked, known))
    idiom = parse_drill(ONE_SHOT.replace("Try something.", "Shoot right away."))
    assert any("spoilt by a mirror" in one.text for one in check_one(idiom, known))
    twice = (drill_by_id("L01"), drill_by_id("L01"))
    assert any("used twice" in one.text for one in check_library(twice))


def test_a_drill_is_found_by_its_number_or_named_nearest():
    assert drill_by_id("l01").id == "L01"
    own = parse_drill(ONE_SHOT)
    assert drill_by_id("T01", (own,)) is own
    with pytest.raises(NotFoundError, match="no drill of that number"):
        drill_by_id("L99")


def test_search_by_everything():
    every = library()
    assert {one.id for one in search_drills(every, words="wrap post")} >= {"B02"}
    assert all(one.kind is DrillKind.GAME for one in search_drills(every, kind=DrillKind.GAME))
    alone = search_drills(every, goaltenders=1, skaters=0, helpers=0, ice=IceUse.CREASE)
    assert {"M02", "M03"} <= {one.id for one in alone}
    assert all(one.skaters.low == 0 for one in alone)
    short = search_drills(every, minutes=4)
    assert all(one.minutes.low <= 4 for one in short)
    bare = search_drills(every, without=("cone",))
    assert not any("cone" in thing for one in bare for thing in one.equipment)
    light = search_drills(every, family=Family.REBOUNDS, most_shots=12)
    assert "R02" in {one.id for one in light}
    assert search_drills(every, family=Family.REBOUNDS, most_drops=0) == ()


def test_who_a_drill_suits():
    u9 = drill_by_id("G04")
    assert suits(u9, Level.U9)
    assert not suits(u9, Level.U11)
    assert suits(drill_by_id("L04"), Level.WOMEN_ELITE)
    assert not suits(drill_by_id("L04"), Level.U13)


def test_ladders_join_drills_up_and_down():
    below, above = ladder(drill_by_id("L01"), library())
    assert "M03" in {one.id for one in below}
    assert "L03" in {one.id for one in above}
    lonely = [one.id for one in library() if not any(ladder(one, library()))]
    assert lonely == []


@pytest.mark.parametrize("name", ["L01", "E08", "M03", "R01", "B04", "W05"])
def test_playback_is_plain_and_never_tells_a_choice_before_it_is_made(name):
    drill = drill_by_id(name)
    run = simulate(drill)
    for branch in run.branches:
        shown = tracks(run, branch.key, step=0.1)
        data = json.loads(json.dumps(asdict(shown)))
        count = len(data["time"])
        assert count == len(data["puck"]) == len(data["her"]) == len(data["stance"])
        assert all(len(way) == count for _, way in data["people"])
        assert data["time"][0] == 0.0
        for label, when in data["choices"]:
            assert 0.0 <= when <= data["duration"] + 1e-6
            assert label
    if len(run.branches) > 1:
        first, second = (tracks(run, one.key, step=0.1) for one in run.branches[:2])
        # hidden playback: until the first choice shows, all branches look the same
        until = min(one.choices[0][1] for one in (first, second))
        ways = [dict(one.people) for one in (first, second)]
        for who in ways[0]:
            for k, time in enumerate(first.time):
                if time < until - 0.5 and k < len(ways[1][who]):
                    assert ways[0][who][k] == pytest.approx(ways[1][who][k], abs=0.35), (who, time)


def test_a_report_counts_the_library_and_names_what_is_broken_on_purpose():
    text = library_report()
    assert f"{len(library())} drills" in text
    for situation in ScoringSituation:
        assert situation.value in text
    assert "On purpose" in text
    assert "R05" in text


def test_routines_have_no_clock_and_games_have_choices():
    for drill in library():
        if drill.kind is DrillKind.READ:
            assert simulate(drill).untold_choices >= 1, drill.id
        if drill.play:
            assert standing(check_drill(drill)) == () or drill.id
    assert any(one.verb is Verb.TIP for d in library() for one in actions_of(d.play))


def test_the_published_list_is_what_the_library_now_says():
    page = Path(__file__).parents[2] / "docs" / "lookup" / "drill-library.md"
    assert page.read_text("utf-8") == library_report(), "make it again: see its first lines"


def test_nobody_skates_through_the_net():
    rink = ice.rink()
    for drill in library():
        run = simulate(drill)
        for branch in run.branches:
            shown = tracks(run, branch.key, step=0.2)
            for who, way in shown.people:
                if not who.startswith("G"):
                    assert not any(rink.in_net(*place) for place in way), (drill.id, who)
            for x, y, _ in shown.her:
                assert rink.contains(x, y), drill.id
                assert not rink.in_net(x, y), drill.id
