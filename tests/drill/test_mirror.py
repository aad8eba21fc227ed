"""The mirror: twice gives the same letters, hands stay, driving legs come out as they should."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import Side
from tendline.drill import format_drill, library, mirror_drill, mirror_text, parse_drill
from tendline.drill.types import Place, actions_of
from tendline.drill.vocabulary import Target, Verb
from tests.drill.samples import script


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("drive with the right leg to the left post", "drive with the left leg to the right post"),
        ("Left dot, then RIGHT dot", "Right dot, then LEFT dot"),
        ("from the left-hand side", "from the left-hand side"),
        ("shoots left, stands on the left", "shoots left, stands on the right"),
        ("a left-handed shooter on the right wing", "a left-handed shooter on the left wing"),
        ("catches right; right hand in front", "catches right; right hand in front"),
        ("glove side first, soft glove", "blocker side first, soft glove"),
        ("leftwards and rightmost", "rightwards and leftmost"),
        ("upright, bright, leftover", "upright, bright, leftover"),
    ],
)
def test_words(text, wanted):
    assert mirror_text(text) == wanted
    assert mirror_text(wanted) == text


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            ["left", "Right", "LEFT", "shoots left", "left-handed", "glove side", "blocker-side",
             "post", "leftward", "right hand", ",", "-", "leg"]
        ),
        max_size=8,
    ).map(" ".join)
)  # fmt: skip
def test_any_text_mirrored_twice_is_the_same(text):
    assert mirror_text(mirror_text(text)) == text


@pytest.mark.parametrize("drill", library(), ids=lambda one: one.id)
def test_every_drill_mirrored_twice_is_the_same_letter_for_letter(drill):
    seen = mirror_drill(drill)
    assert format_drill(mirror_drill(seen)) == format_drill(drill)
    assert parse_drill(format_drill(seen)) == seen
    assert seen != drill
    for before, after in zip(drill.people, seen.people, strict=True):
        assert after.shoots is before.shoots  # hands do not mirror


def test_places_and_aims_change_sides_and_hands_do_not():
    text = script(
        "F1 passes to F2\nF2 shoots low glove",
        "F1 at left dot, shoots left, with a puck\nF2 at (6, -2)",
    )
    seen = mirror_drill(parse_drill(text))
    assert seen.people[0].at == Place("right dot")
    assert seen.people[0].shoots is Side.LEFT
    assert seen.people[1].at == Place("", 6.0, 2.0)
    shot = next(one for one in actions_of(seen.play) if one.verb is Verb.SHOOT)
    assert shot.target is Target.LOW_BLOCKER  # her glove stays on its hand
    assert seen.mirrored
    assert "mirrored: yes" in format_drill(seen)


def test_the_driving_leg_of_every_mirrored_text_goes_with_the_way_she_goes():
    """A leg named beside a way: the leg opposite to the way drives, also in the mirror."""
    found = 0
    for drill in library():
        for one in (drill, mirror_drill(drill)):
            for line in (*one.steps, *one.key_points, *one.cues, one.purpose):
                words = line.lower()
                for side, other in (("left", "right"), ("right", "left")):
                    for verb in ("drives", "drive with", "driven by"):
                        if f"{verb} the {side} leg" in words or f"the {side} leg {verb}" in words:
                            found += 1
                            assert f"to the {side} post" not in words, (one.id, line)
                            assert "post" not in words or f"the {other} post" in words or (
                                "same way back" in words
                            ), (one.id, line)  # fmt: skip
    assert found >= 2


def test_names_of_things_stay():
    text = script("F1 skates to cone left", "cone left at (9, 3)\nF1 at (12, 0)")
    seen = mirror_drill(parse_drill(text))
    assert seen.things[0].label == "cone left"
    assert seen.things[0].at == Place("", 9.0, -3.0)
    assert seen.play[0].to == Place("cone left")
