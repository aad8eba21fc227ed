"""The words of the answer: numbers with units, both voices, feet as well as metres."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tendline.base import LengthUnit
from tendline.body import Pose
from tendline.play import (
    OptionKind,
    Voice,
    answer_words,
    evaluate_place,
    in_voice,
    per_hundred,
    read,
)
from tendline.play.reply import Way
from tendline.play.words import keys_behind, set_words
from tests.play.cases import (
    ACROSS,
    BREAKAWAY,
    LEVEL,
    PARAMETERS,
    attacker,
    goaltender,
    situation,
)


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.123, "12 goals in 100"),
        (0.01, "1.0 goal in 100"),
        (0.004, "0.4 goals in 100"),
        (0.0, "0.0 goals in 100"),
        (1.0, "100 goals in 100"),
    ],
)
def test_chances_are_counted_in_a_hundred(chance, words):
    assert per_hundred(chance) == words


def test_lengths_follow_the_clubs_unit():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    feet = answer_words(answer, LengthUnit.FEET)
    assert f"{answer.depth / 0.3048:.1f} ft out" in feet[0]
    assert " m " not in feet[0]


def test_roles_can_stand_for_she_and_he():
    text = "He shoots beside her; she has 0.2 m to her left of the line before his shot."
    assert in_voice(text, Voice.SHE_AND_HE) == text
    assert in_voice(text, Voice.ROLES) == (
        "The shooter shoots beside the goaltender; the goaltender has 0.2 m to the goaltender's "
        "left of the line before the shooter's shot."
    )


def test_no_reason_keeps_a_pronoun_in_the_voice_of_roles():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    texts = [*answer.answer, *(one.text for one in answer.reasons)]
    for text in texts:
        words = in_voice(text, Voice.ROLES).lower().replace(".", " ").replace(",", " ").split()
        assert not {"she", "her", "he", "his", "him"} & set(words)


def test_every_kind_names_what_decides_it():
    for kind in OptionKind:
        assert len(keys_behind(kind, LEVEL)) >= 2


def test_a_post_and_the_middle_are_said_as_places():
    on_post = read(situation(attacker("F1", 0.6, 4.5)), goaltender(), PARAMETERS, detail=False)
    behind = read(situation(attacker("F1", -1.6, 1.2)), goaltender(), PARAMETERS, detail=False)
    assert on_post.answer[0].startswith("Stand ")
    assert "goal line" in behind.answer[0] or "post" in behind.answer[0]


def test_set_or_not_is_said_with_its_time():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    for one in answer.options:
        words = set_words(one)
        assert "set" in words or "reach" in words
        if one.release_time > 0.0:
            assert " s" in words


def test_short_of_the_new_line_she_stops_and_sets_and_it_is_said():
    """A quick one-timer across with her two metres out: no time to get there."""
    moment = situation(attacker("F1", 6.5, -2.1), attacker("F2", 6.7, 1.0))
    place = evaluate_place(moment, goaltender(), PARAMETERS, Pose(1.93, -0.62, -0.31))
    passed = place.option("pass and one-time: F2")
    assert passed.is_set
    assert passed.set_margin < -0.3
    assert "cannot reach the new line" in set_words(passed)


def test_a_reach_counts_from_her_reaction():
    place = evaluate_place(BREAKAWAY, goaltender(), PARAMETERS, Pose(1.0, 0.1, 0.1))
    round_her = place.option("go round her")
    assert round_her.reply.way is Way.REACH
    assert round_her.set_margin > 0.0
    assert "to reach across" in set_words(round_her)
    too_late = replace(round_her, set_margin=-0.01)
    assert set_words(too_late) == "the shot leaves before she has reacted"


def test_every_way_of_being_late_has_its_words():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    passed = answer.option("pass and one-time: F2")
    moving = replace(passed, set_margin=-0.1, is_set=False)
    assert set_words(moving) == "she is 0.10 s short of being set"
    stopped = replace(moving, is_set=True)
    assert set_words(stopped) == (
        "she cannot reach the new line: 0.10 s short, so she stops and sets"
    )


def test_the_reasons_beside_the_depth_hold_the_numbers_of_the_curve():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    curve = answer.curve
    usable = ~np.isnan(curve.combined)
    for words, step in (("further out", 0.3), ("deeper", -0.3)):
        found = [one for one in answer.reasons if words in one.text]
        for reason in found:
            name = reason.text.split("'")[1]
            key = next(one.option.key for one in answer.options if one.words == name)
            row = curve.loss[curve.names.index(key)][usable]
            there = np.interp(answer.depth + step, curve.depth[usable], row)
            here = np.interp(answer.depth, curve.depth[usable], row)
            assert reason.value == pytest.approx(there - here)
            assert per_hundred(float(there)) in reason.text
    assert any("further out" in one.text for one in answer.reasons)
