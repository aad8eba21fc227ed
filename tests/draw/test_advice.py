"""The answer in words: the band first where it is wide, and no more digits than it has."""

from dataclasses import replace

import pytest

from tendline.base import LengthUnit
from tendline.draw.advice import (
    advice_words,
    flat_words,
    goals_words,
    line_words,
    margin_short,
    margin_words,
    set_words,
    short_depth,
    where_words,
)
from tendline.play.decision import DepthBand
from tendline.play.reply import Way

from .plays import behind_the_net, lone_carrier, two_on_one


def banded(low, high, depth):
    band = DepthBand(low=low, high=high, cost=0.005)
    return replace(two_on_one(), band=band, depth=depth, offset=0.0)


def test_a_wide_band_is_said_before_the_depth():
    read = banded(0.4, 3.0, 2.9)
    assert where_words(read) == "Stand on the line, anywhere from 0.4 to 3.0 m out."
    assert flat_words(read).startswith("Anywhere there costs the same within 0.5 goals in 100;")
    assert "the middle is 2.9 m out" in flat_words(read)
    assert short_depth(read, LengthUnit.METRES) == "0.4 to 3.0 m out"
    assert len(advice_words(read)) == 3


def test_a_narrow_band_gives_the_depth():
    read = banded(0.8, 1.4, 1.1)
    assert where_words(read).startswith("Stand 1.1 m out, on the line, ")
    assert flat_words(read) == ""
    assert short_depth(read, LengthUnit.METRES) == "1.1 m out"
    assert len(advice_words(read)) == 2


def test_feet_are_said_throughout():
    # by hand: 0.4 m is 1.3 ft, 3.0 m is 9.8 ft
    read = banded(0.4, 3.0, 3.0)
    said = advice_words(read, LengthUnit.FEET)
    assert said[0] == "Stand on the line, anywhere from 1.3 to 9.8 ft out."
    assert " m " not in " ".join(said)


@pytest.mark.parametrize(
    ("offset", "words"),
    [(0.1, "on the line"), (-0.14, "on the line"), (0.2, "0.2 m to her left of the line"),
     (-0.3, "0.3 m to her right of the line")],
)  # fmt: skip
def test_a_hand_beside_the_line_is_on_the_line(offset, words):
    assert line_words(replace(two_on_one(), offset=offset), LengthUnit.METRES) == words


def option(margin, *, is_set=True, release=1.0, way=Way.NEAREST):
    one = next(o for o in two_on_one().options if o.release_time > 0.0)
    return replace(
        one, set_margin=margin, is_set=is_set, release_time=release,
        reply=replace(one.reply, way=way),
    )  # fmt: skip


CASES = (
    ((0.23, True, 1.0, Way.NEAREST), "set, 0.2 s to spare", "0.2 s early",
     "she is set 0.2 s before the shot"),
    ((0.04, True, 1.0, Way.NEAREST), "just set", "just in time", "she is only just set"),
    ((-0.04, False, 1.0, Way.NEAREST), "just late", "just late",
     "she is just too late to be set"),
    ((-0.3, False, 1.0, Way.NEAREST), "not set, 0.3 s late", "0.3 s late",
     "she is 0.3 s too late to be set"),
    ((-0.3, True, 1.0, Way.NEAREST), "stops short, set", "stops short",
     "she is 0.3 s short of the new line, so she stops and sets"),
    ((0.3, True, 1.0, Way.REACH), "reaches, 0.3 s to spare", "0.3 s early",
     "she has 0.3 s to reach across"),
    ((0.01, True, 1.0, Way.REACH), "just reaches", "just in time", "she can just reach across"),
    ((0.0, True, 0.0, Way.NEAREST), "set", "set", "she is set for it"),
)  # fmt: skip


@pytest.mark.parametrize(("case", "column", "short", "sentence"), CASES)
def test_margins_have_one_digit_and_are_just_so_below_it(case, column, short, sentence):
    margin, is_set, release, way = case
    answer = option(margin, is_set=is_set, release=release, way=way)
    assert margin_words(answer) == column
    assert margin_short(answer) == short
    assert set_words(answer) == sentence


def test_goals_are_of_all_tries_and_the_span_with_them():
    one = replace(
        option(0.2), comes_off=0.5, goal_chance=0.2, loss=0.1, chance_low=0.1, chance_high=0.4
    )
    # by hand: half of the tries come off, and 20 in 100 of those go in
    assert goals_words(one) == ("10", "5 to 20")
    assert goals_words(replace(one, chance_low=0.2, chance_high=0.2)) == ("10", "")
    assert goals_words(replace(one, loss=0.004)) == ("0.4", "5 to 20")


def test_a_puck_behind_the_net_has_no_depth_on_a_line():
    read = behind_the_net()
    assert "in front of the goal line" in where_words(read) or "post" in where_words(read)
    assert flat_words(read) == ""
    short = short_depth(read, LengthUnit.METRES)
    assert short == f"{read.spot.x:.1f} m out" or "post" in short


def test_the_lone_carrier_has_words():
    assert all(one.endswith(".") for one in advice_words(lone_carrier()))
