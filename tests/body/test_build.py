"""Builds: lengths, gear limits, and refusals."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, Level, NotFoundError, Settings, Sex, Side
from tendline.body import build_by_age, build_goaltender
from tendline.ice import RuleSet

NHL, IIHF = RuleSet.NHL, RuleSet.IIHF


@given(st.floats(0.95, 2.2), st.sampled_from(list(RuleSet)))
@settings(max_examples=60, deadline=None)
def test_gear_never_passes_the_limits_of_the_book(stature, rules):
    made = build_goaltender(stature, rule_set=rules)
    limit = 0.9652 if rules is NHL else 0.965
    assert made.pad_length <= limit
    assert made.pad_width <= (0.2794 if rules is NHL else 0.28)
    assert made.glove_perimeter <= (1.143 if rules is NHL else 1.145)
    assert made.blocker_width <= (0.2032 if rules is NHL else 0.205)
    assert made.paddle <= (0.6604 if rules is NHL else 0.71)


@given(st.floats(0.95, 2.1))
@settings(max_examples=40, deadline=None)
def test_a_taller_goaltender_has_longer_limbs_and_no_smaller_gear(stature):
    one, other = build_goaltender(stature), build_goaltender(stature + 0.1)
    assert other.thigh > one.thigh
    assert other.pad_length > one.pad_length or other.pad_length >= 0.965
    assert other.glove_perimeter >= one.glove_perimeter


def test_mass_of_adults_and_children():
    # by hand: 85.64 kg at 1.8438 m scaled with the square of stature
    assert build_goaltender(1.8438).mass == pytest.approx(85.64)
    assert build_goaltender(1.70).mass == pytest.approx(85.64 * (1.70 / 1.8438) ** 2)
    assert build_goaltender(1.30, level=Level.U11).mass == pytest.approx(27.0, abs=1.5)
    assert build_goaltender(1.30, mass=31.0).mass == 31.0


def test_a_build_by_age_takes_the_table_and_the_age_class():
    made = build_by_age(11.0, Sex.FEMALE, catching_hand=Side.RIGHT)
    assert made.stature == pytest.approx(1.4426095)
    assert made.mass == pytest.approx(37.3908867)
    assert made.level is Level.U13
    assert made.blocker_hand is Side.LEFT
    assert build_by_age(11.0, Sex.FEMALE, level=Level.U15).level is Level.U15


@pytest.mark.parametrize("stature", [0.5, 3.0, 0.0, -1.7, math.nan, math.inf])
def test_a_stature_that_is_no_goaltenders_is_refused(stature):
    with pytest.raises(InputError, match="stature is out of range") as caught:
        build_goaltender(stature)
    assert "0.95 to 2.2 m" in caught.value.allowed


def test_a_stature_that_is_no_number_is_refused():
    with pytest.raises(InputError, match="stature must be a number"):
        build_goaltender("tall")


def test_an_unknown_hand_is_refused_by_name():
    with pytest.raises(NotFoundError, match="no catching hand of that name") as caught:
        build_goaltender(1.7, "lefty")
    assert caught.value.hint == "Did you mean 'left'?"


def test_settings_change_the_build_within_their_range():
    soft = build_goaltender(1.7, settings=Settings.of({"body.skate_height": 0.08}))
    assert soft.skate_height == pytest.approx(0.08)
    with pytest.raises(InputError, match="height added by goaltender skates"):
        build_goaltender(1.7, settings=Settings.of({"body.skate_height": 0.2}))


def test_builds_are_values():
    assert build_goaltender(1.7) == build_goaltender(1.7)
    assert hash(build_goaltender(1.7)) == hash(build_goaltender(1.7))
    assert build_goaltender(1.7) != build_goaltender(1.71)


@pytest.mark.parametrize(("part", "ratio"), [
    ("shoulder_breadth", 0.259), ("hip_breadth", 0.191), ("head_height", 0.130),
])  # fmt: skip
def test_breadths_and_head_are_the_rows_from_memory(part, ratio):
    # rows of facts.md from memory: wired in, not checked against
    assert getattr(build_goaltender(1.80), part) == pytest.approx(ratio * 1.80)


def test_standing_heights_add_up_to_the_stature():
    # by hand: hip, trunk, neck and head are laid end to end
    build = build_goaltender(1.80)
    hip = build.ankle_height + build.shank + build.thigh
    top = hip + build.trunk + build.neck + build.head_height
    assert top == pytest.approx(1.80)


def test_gear_is_that_of_the_rule_set():
    # published: rule books, NHL in inches, IIHF in millimetres
    nhl, iihf = (build_goaltender(1.85, rule_set=rules) for rules in (NHL, IIHF))
    assert (nhl.pad_width, iihf.pad_width) == (0.2794, 0.28)
    assert (nhl.paddle, iihf.paddle) == (0.6604, 0.71)
    assert (nhl.glove_perimeter, iihf.glove_perimeter) == (1.143, 1.145)
    assert (nhl.blocker_width, iihf.blocker_width) == (0.2032, 0.205)
    assert (nhl.pants_width, iihf.pants_width) == (0.254, 0.255)


def test_pads_that_would_fit_longer_stop_at_the_limit():
    high = Settings.of({"equipment.nhl_pad_above_knee_frac_2013": 0.55})
    # by hand: 0.065 + (0.039 + 0.246 + 0.55 * 0.245) * 2.2 = 0.988 m would fit
    assert build_goaltender(2.2, settings=high).pad_length == 0.9652
    assert build_goaltender(1.5, settings=high).pad_length < 0.9652


def test_a_childs_mask_shrinks_half_as_much_as_her_pads():
    # by hand: full gear from 1.70 m; at 0.85 times that pads are 0.85, the mask 0.925 of full size
    child, grown = build_goaltender(0.85 * 1.7), build_goaltender(1.8)
    assert child.pad_width == pytest.approx(0.85 * grown.pad_width)
    assert child.mask_radius == pytest.approx(0.925 * grown.mask_radius)
