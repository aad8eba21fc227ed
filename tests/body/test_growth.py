"""Stature and mass by age: between the rows, outside the table, both tables."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, Level, Sex
from tendline.body import GrowthTable, level_at, mass_at, mass_for_stature, stature_at
from tendline.body.growth import _percentile


@given(st.floats(7.0, 18.0), st.sampled_from(list(Sex)), st.floats(-2.5, 2.4))
@settings(max_examples=80, deadline=None)
def test_stature_grows_with_the_z_score_and_hardly_ever_shrinks_with_age(age, sex, z):
    here = stature_at(age, sex, z)
    assert stature_at(age, sex, z + 0.1) > here
    assert stature_at(min(age + 0.5, 18.0), sex, z) > here - 0.002


def test_between_rows_the_median_runs_straight():
    # by hand: rows 10.0 and 10.5 of the girls, 1.38211155 and 1.41039683
    assert stature_at(10.25, Sex.FEMALE) == pytest.approx((1.38211155 + 1.41039683) / 2)


def test_adults_keep_the_last_row():
    assert stature_at(40.0, Sex.MALE) == stature_at(18.0, Sex.MALE)


@pytest.mark.parametrize("table", list(GrowthTable))
@pytest.mark.parametrize("age", [0.0, 6.9, -1.0, math.nan, 101.0])
def test_ages_without_a_row_are_refused(age, table):
    with pytest.raises(InputError, match="age is out of range"):
        stature_at(age, Sex.MALE, table=table)


def test_a_wild_z_score_is_refused():
    with pytest.raises(InputError, match="z-score is out of range"):
        stature_at(12.0, Sex.MALE, 5.0)


def test_the_two_tables_agree_within_two_centimetres_on_the_median():
    for age in range(7, 19):
        for sex in Sex:
            cdc, who = (stature_at(age, sex, table=table) for table in GrowthTable)
            assert abs(cdc - who) < 0.02


def test_mass_goes_with_stature():
    # by hand: boys P50 1.388 m at 10 y weigh 32.1 kg, girls of that stature 33.5 kg
    assert mass_for_stature(1.388) == pytest.approx(32.8, abs=0.3)
    assert mass_for_stature(1.1) == pytest.approx(23.0 * (1.1 / 1.219) ** 3, rel=0.02)
    assert mass_for_stature(1.9) > mass_for_stature(1.8)
    assert mass_at(10.0, Sex.FEMALE, 1.0) > mass_at(10.0, Sex.FEMALE)


def test_without_skew_the_percentile_is_the_exponential():
    # by hand: 1.3 exp(0.05 x 2) = 1.43672; the general formula comes to it as L falls to 0
    assert _percentile(1.3, 0.0, 0.05, 2.0) == pytest.approx(1.43672, abs=1e-5)
    assert _percentile(1.3, 1e-6, 0.05, 2.0) == pytest.approx(1.43672, abs=1e-5)


@pytest.mark.parametrize(("age", "level"), [
    (8.9, Level.U9), (9.0, Level.U11), (12.0, Level.U13), (13.0, Level.U15), (17.9, Level.U18),
    (18.0, Level.ADULT), (50.0, Level.ADULT),
])  # fmt: skip
def test_age_classes(age, level):
    assert level_at(age) is level
