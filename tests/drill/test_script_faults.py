"""Broken and hostile scripts: every fault with its line, nothing run, nothing lost."""

import pytest

from tendline.base import ScriptError
from tendline.drill import DrillScriptError, limits, parse_drill, read_drill
from tests.drill.samples import ONE_SHOT, PASS_AND_SHOT, script


def faults(text):
    drill, found = read_drill(text)
    assert drill is None
    return found


@pytest.mark.parametrize(
    ("old", "new", "asked", "hint"),
    [
        ("family: team drills", "familly: team drills", "no such key", "'family'"),
        ("family: team drills", "family: latteral", "the family is not known", "'lateral'"),
        ("ages: U15 and up", "ages: U12 and up", "the age class is not known", "'U"),
        ("minutes: 8", "minutes: eight", "minutes must be a whole number", ""),
        ("minutes: 8", "minutes: 8 to 4", "runs backwards", ""),
        ("left dot, shoots left", "left dott, shoots left", "the place is not known", "'left dot'"),
        ("F1 at left dot", "X1 at left dot", "a letter and a number", ""),
        ("shoots left", "shots left", "this is not known of a person", ""),
        ("F1 passes to F2", "F1 pass to F2", "nobody can do that", "'passes'"),
        ("F1 passes to F2", "F1 passes to F9", "nobody of that name", "'F2'"),
        ("F1 passes to F2", "F1 passes", "somebody or to a place", ""),
        ("when F2 has the puck", "when F2 hs the puck", "no trigger", "has the puck"),
        ("when F2 has the puck", "when drive ends", "no line above has that name", ""),
        ("F2 shoots", "F2 shoots lowblocker", "the end of the line", "'low blocker'"),
        ("F2 shoots", "F2 slides to left post", "only a goaltender", ""),
        ("F2 shoots", "G shoots", "a goaltender does not do that", ""),
        ("F2 shoots", "F2 skates", "must say where to", ""),
        ("F2 shoots", "F2 waits", "says how long", ""),
        ("F2 shoots", "F2 waits 2", "must be seconds", ""),
        ("F2 shoots", "F2 shoots at 500 m/s", "out of range", ""),
        ("next: when the rebound is cleared", "next: sometime", "no trigger", ""),
        ("repeat: 6 x 2, rest 35 s", "repeat: 6 times", "reps x sets", ""),
    ],
)  # fmt: skip
def test_a_fault_names_line_what_came_what_is_allowed_and_the_nearest(old, new, asked, hint):
    before = PASS_AND_SHOT.split(old, 1)[0]
    fault, *_ = faults(PASS_AND_SHOT.replace(old, new, 1))
    assert fault.line == before.count("\n") + 1
    assert asked in fault.asked
    assert fault.came
    assert fault.allowed
    assert hint in fault.hint
    assert str(fault).startswith(f"line {fault.line}: ")


def test_all_faults_are_named_not_only_the_first():
    text = PASS_AND_SHOT.replace("minutes: 8", "minutes: x").replace("F2 shoots", "F2 jumps")
    found = faults(text)
    assert [one.line for one in found] == [7, len(text.splitlines())]
    with pytest.raises(DrillScriptError) as caught:
        parse_drill(text)
    assert caught.value.errors == found or len(caught.value.errors) == 2
    assert "and 1 more fault" in str(caught.value)
    assert isinstance(caught.value, ScriptError)


def test_a_missing_key_is_named_with_an_example():
    (fault,) = faults(ONE_SHOT.replace("purpose: Try something.\n", ""))
    assert "no purpose" in fault.came
    assert "purpose: " in fault.allowed


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("", "the script is empty"),
        ("\n\n# only a comment\n", "the script is empty"),
        ("hello", "a script starts with its number and title"),
        ("drill ../../etc/passwd: x\n", "the number of the drill is not one"),
        ("drill <b>: x\n", "the number of the drill is not one"),
        (ONE_SHOT.replace("Try", "T\x00ry"), "control character"),
        (ONE_SHOT.replace("Try", "T\x1b[31mry"), "control character"),
        (ONE_SHOT.replace("Try", "T\u202ery"), "control character"),
        (ONE_SHOT.replace("Try", "T" * 700), "the line is too long"),
        ("x" * 10_000_000, "too long to be a drill"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"a" * 10_000_000, "too long to be a drill"),
        ("\n" * 3000, "too many lines"),
        (ONE_SHOT + "".join(f"cue: {k}\n" for k in range(200)), "too many lines of 'cue'"),
        (ONE_SHOT + "key point: a\nkey point: b\nkey point: c\nkey point: d\n", "key point"),
    ],
)
def test_hostile_text_is_refused(text, asked):
    found = faults(text)
    assert any(asked in one.asked for one in found)


def test_html_and_templates_in_names_stay_words():
    text = ONE_SHOT.replace("Try something.", "<script>alert(1)</script> {{ 7*7 }} $(rm -rf x)")
    assert parse_drill(text).purpose == "<script>alert(1)</script> {{ 7*7 }} $(rm -rf x)"


def test_yaml_of_another_kind_is_words_or_a_fault_never_an_object():
    for bomb in ("purpose: !!python/object/apply:os.system ['x']", "purpose: &a [*a, *a, *a]"):
        drill = parse_drill(ONE_SHOT.replace("purpose: Try something.", bomb))
        assert drill.purpose == bomb.removeprefix("purpose: ")


def nested(depth):
    lines, margin = [], ""
    for _ in range(depth):
        lines += [f"{margin}choice by F1", f"{margin}  branch a", f"{margin}    F1 shoots",
                  f"{margin}  branch b"]  # fmt: skip
        margin += "    "
    return "\n".join([*lines, f"{margin}F1 shoots"])


def test_choices_nest_three_deep_and_no_deeper():
    people = "F1 at (9, 2), with a puck"
    assert parse_drill(script(nested(3), people))
    assert any("too deep" in one.asked for one in faults(script(nested(4), people)))
    assert any("too deep" in one.asked for one in faults(script(nested(60), people)))


def test_too_many_ways_are_refused():
    choice = "choice by F1\n  branch a\n    F1 waits 1 s\n  branch b\n    F1 waits 2 s\n"
    people = "F1 at (9, 2), with a puck"
    assert any("too many ways" in one.asked for one in faults(script(choice * 7, people)))


def test_too_many_people_and_lines_are_refused():
    crowd = "\n".join(f"F{k} at ({k / 3:.1f}, 2)" for k in range(1, 60))
    assert any("too many people" in one.asked for one in faults(script("F1 shoots", crowd)))
    play = "\n".join(["F1 waits 0.1 s"] * (limits.MAX_ACTIONS + 1))
    assert any("too many lines of play" in one.asked
               for one in faults(script(play, "F1 at (9, 2)")))  # fmt: skip


@pytest.mark.parametrize(
    ("play", "asked"),
    [
        ("  F1 shoots\n    F1 shoots", "indented too far"),
        ("branch a\n  F1 shoots", "stands inside a choice"),
        ("choice by F1\n  branch a\n    F1 shoots", "a choice has branches"),
        ("choice by F1\n  F1 shoots\n  branch a\n    F1 shoots", "inside a choice stand branches"),
        ("choice by F1\n  branch a\n    F1 shoots\n  branch a\n    F1 shoots", "one name"),
        ("choice of F1\n  branch a\n    F1 shoots\n  branch b\n    F1 shoots", "who chooses"),
        ("F1 shoots as x\nF1 shoots as x", "two lines have one name"),
        ("F1 shoots: now: please", "one trigger and one action"),
    ],
)
def test_badly_built_plays(play, asked):
    found = faults(script(play, "F1 at (9, 2), with a puck"))
    assert any(asked in one.asked for one in found)


def test_two_of_one_name_are_refused():
    assert any("two people have one name" in one.asked
               for one in faults(script("F1 shoots", "F1 at (9, 2)\nF1 at (8, 2)")))  # fmt: skip
    assert any("two things have one name" in one.asked
               for one in faults(script("F1 shoots", "cone A at (1, 2)\ncone A at (1, 3)\nF1 at (8, 2)")))  # fmt: skip
