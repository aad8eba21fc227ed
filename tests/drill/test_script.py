"""Reading and writing scripts."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import Level, ScoringSituation, ShotType, Side
from tendline.drill import format_drill, library, parse_drill, parse_drills, read_drill
from tendline.drill.types import Action, Choice, Pace, Place, Trigger
from tendline.drill.vocabulary import (
    DrillKind,
    IceUse,
    Sides,
    SpeedWord,
    Target,
    TriggerKind,
    Verb,
)
from tests.drill.samples import ONE_SHOT, PASS_AND_SHOT, THREE_SHOTS, script


def test_a_script_says_what_the_drill_holds():
    drill = parse_drill(PASS_AND_SHOT)
    assert (drill.id, drill.title, drill.kind) == ("T01", "Sample", DrillKind.TECHNIQUE)
    assert drill.ages.youngest is Level.U15
    assert drill.ice.use is IceUse.HALF_ICE
    assert drill.sides is Sides.MIDDLE
    first, second, third = drill.play
    assert first == Action(
        who="F1", verb=Verb.PASS, partner="F2", trigger=Trigger(kind=TriggerKind.WHISTLE)
    )
    assert second.trigger == Trigger(kind=TriggerKind.HAS_PUCK, who="F2")
    assert second.seconds == 1.0
    assert third.trigger.kind is TriggerKind.THEN
    assert drill.person("F1").shoots is Side.LEFT
    assert drill.person("F1").has_puck


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        ("F1 carries to left dot at full speed", "pace", Pace(SpeedWord.FULL)),
        ("F1 carries to left dot at 4.5 m/s", "pace", Pace(None, 4.5)),
        ("F1 carries via cone A and (8, 3) to left dot", "via", (Place("cone A"), Place("", 8, 3))),
        ("F1 skates backward to low slot", "backward", True),
        ("F1 shoots slap high blocker at 25 m/s", "shot", ShotType.SLAP),
        ("F1 shoots slap high blocker at 25 m/s", "target", Target.HIGH_BLOCKER),
        ("F1 passes softly to (4, -2.5)", "to", Place("", 4, -2.5)),
        ("F1 screens at (2.5, 0)", "to", Place("", 2.5, 0)),
        ("F1 waits 1.5 s", "seconds", 1.5),
        ('C calls "left"', "word", "left"),
        ("D1 follows F1", "partner", "F1"),
        ("G seals left post", "to", Place("left post")),
        ("G sets 2 s facing left dot", "facing", Place("left dot")),
        ("G c-cuts to crease top as out", "tag", "out"),
        ("F1 collects a puck at right corner", "to", Place("right corner")),
        ("C tosses low glove", "target", Target.LOW_GLOVE),
    ],
)
def test_lines_of_play(line, field, value):
    people = "cone A at (12, 0)\nF1 at (9, 2), with a puck\nD1 at low slot\nC at (12, 5)"
    drill = parse_drill(script(line, people))
    (action,) = drill.play
    assert getattr(action, field) == value
    assert parse_drill(format_drill(drill)) == drill


@pytest.mark.parametrize(
    ("words", "kind", "delay"),
    [
        ("then", TriggerKind.THEN, 0),
        ("2 s later", TriggerKind.THEN, 2),
        ("meanwhile", TriggerKind.MEANWHILE, 0),
        ("at the whistle", TriggerKind.WHISTLE, 0),
        ("0.4 s after the whistle", TriggerKind.WHISTLE, 0.4),
        ("on the pass", TriggerKind.PASS, 0),
        ("on the shot by F1", TriggerKind.SHOT, 0),
        ("on the call", TriggerKind.CALL, 0),
        ("when F2 has the puck", TriggerKind.HAS_PUCK, 0),
        ("1 s after F2 reaches left dot", TriggerKind.REACHES, 1),
        ("when she is set", TriggerKind.SET, 0),
        ("when the rebound is cleared", TriggerKind.CLEARED, 0),
        ("when drive starts", TriggerKind.TAG_STARTS, 0),
        ("0.5 s after drive ends", TriggerKind.TAG_ENDS, 0.5),
    ],
)
def test_every_trigger_is_read_and_written(words, kind, delay):
    people = "F1 at (9, 2), with a puck\nF2 at (6, -2)"
    play = f"F1 carries to high slot as drive\nF1 passes to F2\n{words}: F2 skates to low slot"
    drill = parse_drill(script(play, people))
    trigger = drill.play[2].trigger
    assert (trigger.kind, trigger.delay) == (kind, delay)
    assert parse_drill(format_drill(drill)) == drill


def test_choices_stand_inside_branches_and_lines_after_them_belong_to_all():
    play = """\
F1 carries to high slot
choice by F1, reads "her depth", told
  branch shoot, when "she is deep", weight 3
    F1 shoots
  branch pass
    F1 passes to F2
    choice by F2
      branch now
        F2 shoots
      branch late
        F2 waits 1 s
        F2 shoots
F2 skates to left corner"""
    drill = parse_drill(script(play, "F1 at (14, 0), with a puck\nF2 at (6, -2)"))
    _, choice, after = drill.play
    assert isinstance(choice, Choice)
    assert choice.told
    assert choice.reading == "her depth"
    assert [one.name for one in choice.branches] == ["shoot", "pass"]
    assert choice.branches[0].weight == 3
    inner = choice.branches[1].items[1]
    assert isinstance(inner, Choice)
    assert len(inner.branches[1].items) == 2
    assert after.who == "F2"
    assert parse_drill(format_drill(drill)) == drill


COMMENTED = """\
# why this drill
drill T05: With comments # behind the title
# about the family
family: lateral
kind: technique  # she knows
themes: lateral
ages: U11
minutes: 5
ice: end zone
goaltenders: 1
purpose: Keep comments, all of them.
aim of the goaltender: None lost.
key point: one
# before the second
key point: two  # behind it
# before people
people
  # before F1
  F1 at left dot, with a puck  # behind F1
play  # behind play
  # before the choice
  choice by F1
    # before the branch
    branch a  # behind the branch
      # before the shot
      F1 shoots  # behind the shot
    branch b
      F1 waits 1 s
      F1 shoots
# at the end
# and again
"""


def test_no_comment_is_lost_and_the_form_is_canonical():
    drill = parse_drill(COMMENTED)
    text = format_drill(drill)
    for line in COMMENTED.splitlines():
        if "#" in line:
            assert line.split("#", 1)[1].strip() in text
    assert parse_drill(text) == drill
    assert format_drill(parse_drill(text)) == text
    assert text.index("# before the second") < text.index("key point: two  # behind it")


def test_a_hash_inside_words_is_no_comment():
    drill = parse_drill(script('C calls "number #7"', "C at (12, 5)"))
    assert drill.play[0].word == "number #7"


def test_capitals_spaces_tabs_and_windows_line_ends_do_not_matter():
    loose = ONE_SHOT.replace("\n", "\r\n").replace("  F1", "\tF1").replace("left", "Left")
    assert parse_drill(loose) == parse_drill(ONE_SHOT)
    assert parse_drill(("\ufeff" + ONE_SHOT).encode()) == parse_drill(ONE_SHOT)


def test_a_file_may_hold_several_drills_with_their_comments():
    two = ONE_SHOT + "# about the second\n" + THREE_SHOTS
    drills = parse_drills(two)
    assert [one.id for one in drills] == ["T01", "T91"]
    assert dict(drills[1].notes)["drill"].before == ("about the second",)


def test_a_fault_in_the_second_drill_names_the_line_of_the_file():
    broken = THREE_SHOTS.replace("F1 shoots", "F1 shots", 1)
    with pytest.raises(Exception, match="nobody can do that") as caught:
        parse_drills(ONE_SHOT + broken)
    wanted = (ONE_SHOT + broken).splitlines().index("  3.2 s after the whistle: F1 shots") + 1
    assert caught.value.errors[0].line == wanted


def test_situations_are_the_ten_of_the_vocabulary():
    text = ONE_SHOT.replace("ages:", "situations: clear shot, east-west\nages:")
    assert parse_drill(text).situations == (
        ScoringSituation.CLEAR_SHOT, ScoringSituation.EAST_WEST,
    )  # fmt: skip


@pytest.mark.parametrize("drill", library(), ids=lambda one: one.id)
def test_every_library_file_is_canonical(drill):
    assert parse_drill(format_drill(drill)) == drill


NAMES = st.sampled_from(["F1", "F2"])
PLACES = st.one_of(
    st.sampled_from(["left dot", "high slot", "cone A", "behind the net"]).map(str),
    st.tuples(st.integers(-3000, 26000), st.integers(-12000, 12000)).map(
        lambda p: f"({p[0] / 1000:g}, {p[1] / 1000:g})"
    ),
)
LINES = st.one_of(
    st.builds("{} carries to {}".format, NAMES, PLACES),
    st.builds("{} skates via {} to {} at half speed".format, NAMES, PLACES, PLACES),
    st.builds("{} shoots".format, NAMES),
    st.builds("{:.2f} s later: {} waits {:.2f} s".format,
              st.floats(0, 9), NAMES, st.floats(0, 9)),
)  # fmt: skip
COMMENT = st.text(
    st.characters(min_codepoint=32, max_codepoint=0x24F, exclude_characters='"'), max_size=20
)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(LINES, COMMENT), min_size=1, max_size=8))
def test_any_script_comes_back_from_its_own_text(lines):
    play = "\n".join(f"{line}  # {note}" for line, note in lines)
    text = script(play, "cone A at (12, 0)\nF1 at (9, 2), with a puck\nF2 at (6, -2)")
    drill, faults = read_drill(text)
    if drill is None:
        assert any(one.asked == "the line holds a control character" for one in faults)
        return
    assert parse_drill(format_drill(drill)) == drill
    assert format_drill(parse_drill(format_drill(drill))) == format_drill(drill)
