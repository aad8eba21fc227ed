"""Each rule on a small drill that breaks it, and on one that does not."""

from dataclasses import replace

import pytest

from tendline.base import Settings
from tendline.drill import (
    RULES,
    HerState,
    RuleLevel,
    check_drill,
    drill_limits,
    parse_drill,
    repairs,
    simulate,
    standing,
)
from tendline.drill.rules import BY_ID, SAFETY
from tests.drill.samples import ONE_SHOT, script

SHOOTER = "F1 at (9, 2), with a puck"


def rules_of(text, **options):
    drill = parse_drill(text)
    return {one.rule for one in standing(check_drill(drill, **options))}


def findings_of(text, rule):
    return [one for one in check_drill(parse_drill(text)) if one.rule == rule]


def test_a_calm_drill_breaks_nothing():
    text = ONE_SHOT.replace("sides: straight in front", "sides: change every set")
    assert rules_of(text) == set()


def test_every_finding_has_an_owner_and_every_rule_a_name():
    for one in check_drill(parse_drill(script("F1 shoots", SHOOTER, next="on the shot"))):
        assert one.owner
        assert one.rule in BY_ID
        assert one.words.startswith(f"{one.rule}: ")
    assert len({one.id for one in RULES}) == len(RULES)


def test_safety_stands_on_every_drill_as_notes():
    notes = [one.text for one in findings_of(ONE_SHOT, "V20")]
    assert tuple(notes) == SAFETY
    off = script("F1 shoots", SHOOTER).replace("ice: half ice", "ice: off the ice")
    assert all("Pucks" not in one.text for one in findings_of(off, "V20"))
    u9 = ONE_SHOT.replace("ages: U15 and up", "ages: U9")
    assert any("turn in goal" in one.text for one in findings_of(u9, "V20"))


def test_v2_and_v3_find_pucks_that_come_too_soon():
    text = script(
        "F1 shoots\n1 s after the shot: F2 shoots", f"{SHOOTER}\nF2 at (8, -2), with a puck"
    )
    assert {"V2", "V3"} <= rules_of(text)
    marked = text.replace("\npeople", "\nmark: second save, because it is trained\n\npeople")
    assert not {"V2", "V3"} & rules_of(marked)
    assert all(one.on_purpose for one in findings_of(marked, "V2"))


def test_a_planned_second_save_must_still_find_her_set():
    text = script(
        "F1 shoots pads\n1 s after the shot: F2 shoots", f"{SHOOTER}\nF2 at (8, -2), with a puck"
    ).replace("\npeople", "\nmark: second save, because it is trained\n\npeople")
    assert "V1" in rules_of(text)
    battle = text.replace("mark: second save", "mark: battle")
    assert "V1" not in rules_of(battle)


def test_v1_is_hard_when_no_shot_finds_her_ready_and_a_warning_else():
    never = script("F1 shoots", SHOOTER, next="1 s after the shot")
    levels = {one.level for one in findings_of(never, "V1")}
    assert levels == {RuleLevel.HARD}
    from tests.drill.samples import THREE_SHOTS

    assert {one.level for one in findings_of(THREE_SHOTS, "V1")} == {RuleLevel.WARN}


def test_v4_wants_time_after_the_save():
    assert "V4" in rules_of(script("F1 shoots", SHOOTER, next="on the shot"))
    assert "V4" not in rules_of(ONE_SHOT)


def test_v5_counts_shots_from_both_sides():
    one_side = ONE_SHOT.replace("sides: straight in front", "sides: one side only")
    assert "V5" in rules_of(one_side)
    odd = ONE_SHOT.replace("6 x 2", "6 x 3").replace("straight in front", "change every set")
    (found,) = findings_of(odd, "V5")
    assert "6 and 12" in found.text or "12 and 6" in found.text
    marked = one_side.replace("\npeople", "\nmark: one side, because her left is trained\n\npeople")
    assert "V5" not in rules_of(marked)


def test_v5_is_repaired_by_changing_sides():
    odd = ONE_SHOT.replace("6 x 2", "6 x 3").replace("straight in front", "change every set")
    (found,) = [one for one in repairs(parse_drill(odd)) if one.name == "equalise the sides"]
    assert "V5" in found.mends
    assert found.run.shots_left == pytest.approx(found.run.shots_right)


def test_v6_long_turns_and_little_rest():
    text = script("F1 shoots", SHOOTER, next="2.5 s after the shot", repeat="40 x 1")
    found = [one.text for one in findings_of(text, "V6")]
    assert any("in one turn of 40" in one for one in found)
    assert any("of rest" in one for one in found)
    rest = [one for one in repairs(parse_drill(text)) if one.name == "rest"]
    assert rest
    assert "V6" in rest[0].mends


def test_v10_a_read_needs_a_choice_that_she_is_not_told():
    assert "V10" in rules_of(script("F1 shoots", SHOOTER, kind="read"))
    choice = (
        "choice by F1{}\n  branch a\n    F1 shoots\n  branch b\n    F1 waits 1 s\n    F1 shoots"
    )
    assert "V10" not in rules_of(script(choice.format(""), SHOOTER, kind="read"))
    assert "V10" in rules_of(script(choice.format(", told"), SHOOTER, kind="read"))


def test_v16_is_a_note():
    text = ONE_SHOT.replace("minutes: 8", "minutes: 40")
    assert [one.level for one in findings_of(text, "V16")] == [RuleLevel.INFORM]


def test_v18_what_is_not_for_the_youngest():
    u9 = ONE_SHOT.replace("ages: U15 and up", "ages: U9 and up").replace("level: adult\n", "")
    assert "V18" in rules_of(u9)  # no light puck named
    light = u9.replace("\npurpose", "equipment: 10 light pucks\n\npurpose", 1)
    assert "V18" not in rules_of(light)
    post = light.replace("  F1 shoots", "  G seals left post\n  F1 shoots").replace(
        "  at the whistle: F1 shoots", "  at the whistle: G seals left post\n  F1 shoots"
    )
    assert any(one.level is RuleLevel.HARD for one in findings_of(post, "V18"))


def test_v19_paths_that_leave_their_ice():
    text = ONE_SHOT.replace("ice: half ice", "ice: end zone").replace("(9, 2)", "(25, 2)")
    (found,) = findings_of(text, "V19")
    assert found.level is RuleLevel.HARD
    assert "F1 leaves the end zone" in found.text
    assert "V19" in rules_of(ONE_SHOT.replace("(9, 2)", "(9, 20)"))  # off the rink


@pytest.mark.parametrize(
    ("where", "hit"),
    [("line 3 at (2, 1)", True), ("line 3 at (-2, 0)", True), ("C at (5, 0.5)", True),
     ("line 3 at (12, 2)", False), ("line 3 at (6, 9)", False), ("net 2 at (3, 0)", True)],
)  # fmt: skip
def test_v19_nobody_waits_in_a_line_of_fire(where, hit):
    text = ONE_SHOT.replace("  F1 at (9, 2)", f"  {where}\n  F1 at (9, 2)")
    assert ("V19" in rules_of(text)) is hit


def test_age_of_a_technique_and_aims():
    young = script("G slides to left post\nG recovers", "G at right post").replace(
        "ages: U15 and up", "ages: U9 and up"
    )
    assert "AGE" in rules_of(young)
    assert "AIM" in rules_of(ONE_SHOT.replace("aim of the shooters: Hit the net.\n", ""))


def test_the_coach_may_change_every_limit():
    text = script("F1 shoots", SHOOTER, next="5 s after the shot")
    strict = drill_limits(Settings.of({"drill.least_gap": 8.0}))
    assert "V3" not in rules_of(text)
    assert "V3" in rules_of(text, limits=strict)
    assert "V3" in rules_of(text, settings=Settings.of({"drill.least_gap": 8.0}))


def test_nothing_to_repair_gives_no_repairs():
    calm = ONE_SHOT.replace("sides: straight in front", "sides: change every set")
    assert repairs(parse_drill(calm)) == ()
    assert simulate(parse_drill(calm)).set_share == 1.0


READY = simulate(parse_drill(ONE_SHOT)).releases[0]


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, ""),
        ({"is_set": False, "state": HerState.RISING}, "not set (getting up)"),
        ({"is_set": False, "state": HerState.DOWN}, "not set (down on her knees)"),
        ({"is_set": False, "state": HerState.DOWN, "distance": 3.0}, ""),
        ({"on_line": False, "offset": -0.6}, "0.6 m off the line"),
        ({"placed": 0.3}, "only 0.3 s on the line"),
        ({"sight": 0.2}, "only 0.2 s in sight"),
        ({"placed": 0.5, "sight": 0.5}, ""),
    ],
)
def test_v1_says_what_is_missing(changes, words):
    drill = parse_drill(ONE_SHOT)
    run = simulate(drill)
    branch = replace(run.branches[0], releases=(replace(READY, **changes),))
    found = [
        one for one in check_drill(drill, replace(run, branches=(branch,))) if one.rule == "V1"
    ]
    assert bool(found) is bool(words)
    if words:
        assert words in found[0].text
        assert found[0].limit == "0.5 s"  # adults
