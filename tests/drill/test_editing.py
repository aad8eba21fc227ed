"""Edits from script to script: nothing is lost, and every edit can be taken back by its inverse."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import DEFAULT_SETTINGS, InputError
from tendline.drill import Choice, DrillScriptError, format_drill, library, parse_drill, simulate
from tendline.drill.editing import apply_edit, locate, rows_of
from tendline.drill.play_lines import show_action
from tendline.drill.types import Action, Branch, Drill
from tendline.drill.world import World, world_of

SCRIPTS = {one.id: format_drill(one) for one in library()}
EMPTY = """\
drill Y01: New drill
family: lateral
kind: technique
themes: lateral
ages: U11 and up
minutes: 5
ice: end zone
goaltenders: 1 to 2

purpose: Arrive before the puck.
aim of the goaltender: Stopped and square before the shot.

next: when the rebound is cleared
repeat: 6 x 1
sides: change every set
"""
FAMILIES = sorted({name.rstrip("0123456789") for name in SCRIPTS})


def every_script(check: Callable[[str], None]) -> Callable[[str], None]:
    """Run a check on every script of the library, one test for each family."""

    def checks(family: str) -> None:
        for name, script in SCRIPTS.items():
            if name.rstrip("0123456789") == family:
                check(script)

    checks.__name__ = check.__name__
    return pytest.mark.parametrize("family", FAMILIES)(checks)


def world(drill: Drill) -> World:
    return world_of(drill.sim_level, DEFAULT_SETTINGS, None, None)


def done(script: str, *edits: dict[str, object]) -> str:
    for edit in edits:
        script = apply_edit(script, edit, world).script
    return script


def play_of(script: str) -> list[str]:
    _, _, play = script.partition("\nplay\n")
    return [line.strip() for line in play.splitlines()]


@every_script
def test_an_edit_that_changes_nothing_gives_the_same_text(script: str) -> None:
    assert done(script, {"do": "tidy"}) == script


@every_script
def test_mirrored_twice_is_the_same_text(script: str) -> None:
    assert done(script, {"do": "mirror"}, {"do": "mirror"}) == script


@every_script
def test_moving_everybody_away_and_back_is_the_same_text(script: str) -> None:
    drill = parse_drill(script)
    away, back = [], []
    for one in drill.people:
        away.append({"do": "move", "what": one.name, "at": "(7.3, 1.1)"})
        back.append({"do": "move", "what": one.name, "at": str(one.at)})
    for thing in drill.things:
        away.append({"do": "move", "what": thing.label, "at": "(7.3, 1.1)"})
        back.append({"do": "move", "what": thing.label, "at": str(thing.at)})
    moved = done(script, *away)
    assert moved != script or not away
    assert done(moved, *reversed(back)) == script


@every_script
def test_a_thing_put_down_and_taken_away_is_the_same_text(script: str) -> None:
    added = apply_edit(script, {"do": "add thing", "kind": "cone", "at": "(9, 1)"}, world)
    assert added.chosen is not None
    assert added.chosen.startswith("cone ")
    assert done(added.script, {"do": "remove", "what": added.chosen}) == script


@every_script
def test_a_line_written_anywhere_and_taken_out_is_the_same_text(script: str) -> None:
    drill = parse_drill(script)
    who = next((one.name for one in drill.people), None)
    if who is None:
        return
    count = len(rows_of(drill.play))
    for row in sorted({-1, 0, count // 3, 2 * count // 3, count - 1} & set(range(-1, count))):
        added = apply_edit(
            script, {"do": "add line", "who": who, "verb": "stops", "after": row}, world
        )
        before, after = rows_of(drill.play), rows_of(added.drill.play)
        assert len(after) == len(before) + 1
        new = next(
            b.number for a, b in itertools.zip_longest(before, after)
            if b is not None and (a is None or a.holds != b.holds)
            and isinstance(b.holds, Action) and b.holds.verb.value == "stops"
        )  # fmt: skip
        assert done(added.script, {"do": "remove line", "row": new}) == script


@every_script
def test_a_line_moved_down_and_up_is_the_same_text(script: str) -> None:
    for row in rows_of(parse_drill(script).play):
        if isinstance(row.holds, Branch):
            continue
        try:
            moved = apply_edit(script, {"do": "move line", "row": row.number, "by": 1}, world)
        except InputError:
            continue
        assert moved.chosen is not None
        number = int(moved.chosen.removeprefix("row "))
        assert done(moved.script, {"do": "move line", "row": number, "by": -1}) == script


@every_script
def test_a_point_added_to_a_path_and_taken_out_is_the_same_text(script: str) -> None:
    for row in rows_of(parse_drill(script).play):
        if isinstance(row.holds, Action) and row.holds.verb.value in ("skates", "carries"):
            edit = {"do": "add point", "row": row.number, "index": 0, "at": "(3.3, 2.2)"}
            added = done(script, edit)
            assert "via (3.3, 2.2)" in added
            assert done(added, {"do": "remove point", "row": row.number, "index": 0}) == script


@every_script
def test_every_row_is_found_on_its_line(script: str) -> None:
    drill, found = parse_drill(script), locate(script)
    lines = script.splitlines()
    rows = rows_of(drill.play)
    assert len(found.rows) == len(rows)
    for row in rows:
        text = lines[found.rows[row.number] - 1].strip()
        if isinstance(row.holds, Action):
            assert text.startswith(show_action(row.holds))
        else:
            assert text.startswith("choice" if isinstance(row.holds, Choice) else "branch")
    for person in drill.people:
        assert lines[found.of(person.name) - 1].strip().startswith(f"{person.name} at")
    for thing in drill.things:
        assert lines[found.of(thing.label) - 1].strip().startswith(thing.kind.value)


@every_script
def test_a_renamed_person_is_renamed_everywhere_and_back(script: str) -> None:
    for person in parse_drill(script).people:
        name = f"{person.name[0]}77"
        renamed = done(
            script, {"do": "set person", "what": person.name, "field": "name", "value": name}
        )
        back = {"do": "set person", "what": name, "field": "name", "value": person.name}
        if person.name == "G":
            continue  # G may act without being listed, so her old lines stay valid
        assert done(renamed, back) == script


@every_script
def test_taking_a_person_out_leaves_a_script_that_can_be_read(script: str) -> None:
    for person in parse_drill(script).people:
        try:
            left = apply_edit(script, {"do": "remove", "what": person.name}, world)
        except InputError:
            continue
        assert left.drill.person(person.name) is None
        assert all(
            person.name not in (one.holds.who, one.holds.partner, one.holds.trigger.who)
            for one in rows_of(left.drill.play)
            if isinstance(one.holds, Action) and person.name != "G"
        )


@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_any_run_of_edits_leaves_a_canonical_script_or_is_refused(data: st.DataObject) -> None:
    script = data.draw(st.sampled_from(list(SCRIPTS.values())))
    spots = st.sampled_from(["left dot", "high slot", "(3.25, -1)", "nowhere", ""])
    for _ in range(data.draw(st.integers(1, 6))):
        drill = parse_drill(script)
        names = [one.name for one in drill.people] or ["F1"]
        row = st.integers(-1, len(rows_of(drill.play)))
        edit = data.draw(
            st.fixed_dictionaries(
                {
                    "do": st.sampled_from(
                        [
                            "add person",
                            "add thing",
                            "move",
                            "remove",
                            "add line",
                            "remove line",
                            "move line",
                            "add point",
                            "move point",
                            "add choice",
                            "add branch",
                            "mirror",
                            "start at",
                            "end at",
                            "link",
                            "set line",
                        ]
                    ),
                    "who": st.sampled_from(names),
                    "what": st.sampled_from(names),
                    "row": row,
                    "after": row,
                    "source": row,
                    "track": st.just(-1),
                    "role": st.sampled_from("FDCHG"),
                    "kind": st.sampled_from(["cone", "net", "pucks"]),
                    "verb": st.sampled_from(
                        ["skates", "passes", "shoots", "waits", "calls", "drops"]
                    ),
                    "at": spots,
                    "to": spots,
                    "time": st.floats(0, 9),
                    "index": st.integers(0, 2),
                    "by": st.sampled_from([-1, 1]),
                    "field": st.sampled_from(["to", "pace", "verb"]),
                    "value": st.sampled_from(["half speed", "left dot", "stops", ""]),
                }
            )
        )
        try:
            written = apply_edit(script, edit, world)
        except InputError:
            continue  # refused, with its reason; the script stays as it was
        script = written.script
        assert format_drill(parse_drill(script)) == script
        assert parse_drill(script) == written.drill


def test_comments_stay_where_they_stood() -> None:
    script = SCRIPTS["L01"]
    assert "# " not in SCRIPTS["E08"]
    commented = script.replace("  F2 shoots", "  # low, to the blocker\n  F2 shoots", 1)
    commented = commented.replace("people\n", "people  # two are enough\n", 1)
    moved = done(commented, {"do": "move", "what": "F1", "at": "left point"})
    assert "# low, to the blocker" in moved
    assert "people  # two are enough" in moved


def test_a_drill_is_built_from_empty_ice() -> None:
    script = done(
        EMPTY,
        {"do": "add person", "role": "F", "at": "left dot"},
        {"do": "add person", "role": "F", "at": "right dot"},
        {"do": "set person", "what": "F1", "field": "puck", "value": "yes"},
        {"do": "add line", "who": "F1", "verb": "passes", "to": "F2"},
        {"do": "add line", "who": "F2", "verb": "shoots"},
    )
    assert play_of(script) == ["at the whistle: F1 passes to F2", "when F2 has the puck: F2 shoots"]
    assert "skaters: 2" in script
    assert len(simulate(parse_drill(script)).releases) == 1


def two_passers() -> str:
    return done(
        EMPTY,
        {"do": "add person", "role": "F", "at": "left dot"},
        {"do": "add person", "role": "F", "at": "right dot"},
        {"do": "add line", "who": "F1", "verb": "carries", "to": "high slot"},
        {"do": "add line", "who": "F2", "verb": "skates", "to": "low slot"},
        {"do": "add line", "who": "F1", "verb": "passes", "to": "F2"},
        {"do": "add line", "who": "F2", "verb": "shoots"},
    )


def begins(script: str) -> list[float]:
    branch = simulate(parse_drill(script)).branches[0]
    lines = branch.attack.lines
    return [one.begin - branch.first_whistle for one in lines[len(lines) // 2 :]]


def test_dragging_a_start_later_says_how_much_later() -> None:
    script = two_passers()
    before = begins(script)
    later = done(script, {"do": "start at", "row": 1, "time": before[1] + 1.24})
    assert play_of(later)[1] == "1.2 s later: F2 skates to low slot"
    assert begins(later)[1] == pytest.approx(before[1] + 1.2, abs=0.06)


def test_dragging_a_start_to_the_start_above_means_together() -> None:
    assert play_of(done(two_passers(), {"do": "start at", "row": 1, "time": 0.1}))[1] == (
        "meanwhile: F2 skates to low slot"
    )


def test_dragging_a_start_before_what_it_waits_for_finds_another_event() -> None:
    script = two_passers()
    passed = done(script, {"do": "start at", "row": 3, "time": begins(script)[3] - 0.3})
    assert "after the pass by F1: F2 shoots" in passed


def test_dragging_an_end_changes_speed_force_or_time() -> None:
    script = two_passers()
    slower = done(script, {"do": "end at", "row": 0, "time": 4.0})
    assert " m/s" in play_of(slower)[0] or "half speed" in play_of(slower)[0]
    assert begins(slower)[1] == pytest.approx(4.0, abs=0.15)
    waits = done(script, {"do": "add line", "who": "F1", "verb": "waits", "after": 0})
    longer = done(waits, {"do": "end at", "row": 1, "time": begins(waits)[1] + 2.5})
    assert play_of(longer)[1] == "F1 waits 2.5 s"
    hard = done(script, {"do": "end at", "row": 2, "time": begins(script)[2] + 3.0})
    assert " m/s" in play_of(hard)[2]


def test_a_shot_has_no_end_to_drag() -> None:
    with pytest.raises(InputError, match="cannot be chosen"):
        done(two_passers(), {"do": "end at", "row": 3, "time": 9.0})


def test_links_take_the_plainest_words() -> None:
    script = two_passers()
    with_stop = done(script, {"do": "add line", "who": "F1", "verb": "stops", "after": 3})
    linked = done(with_stop, {"do": "link", "row": 4, "source": 3})
    assert play_of(linked)[4] == "F1 stops"
    on_pass = done(with_stop, {"do": "link", "row": 4, "source": 2, "starts": True})
    assert play_of(on_pass)[4] == "on the pass by F1: F1 stops"
    named = done(with_stop, {"do": "link", "row": 4, "source": 0, "starts": True})
    assert play_of(named)[0] == "at the whistle: F1 carries to high slot as f1-carrie"
    assert play_of(named)[4] == "when f1-carrie starts: F1 stops"


def test_a_line_cannot_wait_for_one_below_it() -> None:
    with pytest.raises(InputError, match="above"):
        done(two_passers(), {"do": "link", "row": 0, "source": 2})


def test_a_choice_is_made_named_and_filled() -> None:
    script = done(two_passers(), {"do": "remove line", "row": 3}, {"do": "add choice", "who": "F2"})
    assert play_of(script)[3:] == ["choice by F2", "branch one", "branch two"]
    script = done(
        script,
        {"do": "set branch", "row": 4, "field": "name", "value": "Shoots low"},
        {"do": "set branch", "row": 4, "field": "when", "value": "she is deep"},
        {"do": "set branch", "row": 4, "field": "weight", "value": "2"},
        {"do": "set choice", "row": 3, "field": "reading", "value": "her depth"},
        {"do": "add line", "who": "F2", "verb": "shoots", "track": 4},
        {"do": "add branch", "row": 3},
    )
    assert play_of(script)[3:] == [
        'choice by F2, reads "her depth"',
        'branch shoots-low, when "she is deep", weight 2',
        "when F2 has the puck: F2 shoots",
        "branch two",
        "branch three",
    ]
    assert len(simulate(parse_drill(script)).branches) == 3
    fewer = done(script, {"do": "remove line", "row": 7})
    with pytest.raises(InputError, match="at least two ways"):
        done(fewer, {"do": "remove line", "row": 6})


def test_a_cone_that_is_taken_away_leaves_its_place() -> None:
    script = done(
        EMPTY,
        {"do": "add person", "role": "F", "at": "(20, 0)"},
        {"do": "add thing", "kind": "cone", "at": "(12, 3)"},
        {"do": "add line", "who": "F1", "verb": "carries", "to": "cone A"},
        {"do": "remove", "what": "cone A"},
    )
    assert play_of(script) == ["at the whistle: F1 carries to (12, 3)"]


def test_names_are_taken_in_order() -> None:
    script = EMPTY
    for role in "FFDCCHGG":
        script = done(script, {"do": "add person", "role": role, "at": "high slot"})
    assert [one.name for one in parse_drill(script).people] == [
        "F1",
        "F2",
        "D1",
        "C",
        "C2",
        "H",
        "G",
        "G2",
    ]
    for kind in ("cone", "cone", "pucks", "pucks", "net", "target", "line"):
        script = done(script, {"do": "add thing", "kind": kind, "at": "high slot"})
    labels = [one.label for one in parse_drill(script).things]
    assert labels == ["cone A", "cone B", "pucks", "pucks A", "net 2", "target A", "line"]


@pytest.mark.parametrize(
    ("edit", "why"),
    [
        ({"do": "fly"}, "no such edit"),
        ({"do": "add person", "role": "Q", "at": "left dot"}, "nobody is of that kind"),
        ({"do": "add person", "role": "F", "at": "left dto"}, "Did you mean 'left dot'"),
        ({"do": "add person", "role": "F", "at": "(900, 0)"}, "out of range"),
        ({"do": "add person", "role": "F"}, "lacks a text"),
        ({"do": "add person", "role": "F", "at": "x" * 700}, "too long"),
        ({"do": "add thing", "kind": "bear", "at": "left dot"}, "not known"),
        ({"do": "move", "what": "F9", "at": "left dot"}, "nothing of that name"),
        ({"do": "add line", "who": "F1", "verb": "flies"}, "not known"),
        ({"do": "add line", "who": "F1", "verb": "drops"}, "only a goaltender"),
        ({"do": "add line", "who": "F1", "verb": "skates"}, "must say where to"),
        ({"do": "add line", "who": "F1", "verb": "passes"}, "goes to somebody"),
        ({"do": "add line", "who": "F1", "verb": "shoots", "via": ["left dot"]}, "no 'via'"),
        ({"do": "set line", "row": 99, "field": "pace", "value": ""}, "no such line"),
        ({"do": "set line", "row": 0, "field": "pace", "value": "warp"}, "speed is not known"),
        ({"do": "set line", "row": 0, "field": "colour", "value": "red"}, "not known of a line"),
        ({"do": "set line", "row": 0, "field": "shot", "value": "wrist"}, "not understood"),
        ({"do": "header", "key": "minutes", "value": "many"}, "whole number"),
        ({"do": "header", "key": "purpose", "value": ""}, "must be said"),
        ({"do": "header", "key": "number", "value": "../etc"}, "not one"),
        ({"do": "start at", "row": 0, "time": float("nan")}, "must be a number"),
        ({"do": "remove point", "row": 0, "index": 3}, "no such point"),
    ],
)
def test_an_edit_that_cannot_be_done_says_why(edit: dict[str, object], why: str) -> None:
    script = two_passers()
    with pytest.raises(InputError, match=why):
        done(script, edit)


def test_a_script_with_faults_is_not_edited() -> None:
    with pytest.raises(DrillScriptError, match="nobody can do that"):
        done(two_passers().replace("skates", "skats"), {"do": "mirror"})


def test_the_header_takes_words_as_the_script_writes_them() -> None:
    script = done(
        EMPTY,
        {"do": "header", "key": "title", "value": "Across and <b>low</b>"},
        {"do": "header", "key": "number", "value": "Y02"},
        {"do": "header", "key": "minutes", "value": "4 to 6"},
        {"do": "header", "key": "key point", "lines": ["Stop first.", "", "Then the shot."]},
        {"do": "header", "key": "rotation", "value": "Shooter to the line."},
    )
    drill = parse_drill(script)
    assert (drill.id, drill.title, str(drill.minutes)) == ("Y02", "Across and <b>low</b>", "4 to 6")
    assert drill.key_points == ("Stop first.", "Then the shot.")
    assert "rotation" not in done(script, {"do": "header", "key": "rotation", "value": ""})
