"""Forms are read against her own mean."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError
from tendline.people import (
    RatingForm,
    RatingGroup,
    Scale,
    agreement,
    change,
    gaps,
    standings,
    strengths,
    words_for,
)

DAY = date(2026, 10, 1)
G = RatingGroup


def form(scale=Scale.FIVE, of=0, **marks):
    return RatingForm(
        day=DAY, rater="coach", scale=scale, of=of,
        marks=tuple((G[name.upper()], mark) for name, mark in marks.items()),
    )  # fmt: skip


def test_strengths_and_gaps_by_hand():
    # By hand: levels 0.75, 0.5, 0.25 about a mean of 0.5; clearly is 0.125.
    one = form(skating=4, saves=3, reading=2)
    assert [(s.group, s.above) for s in standings(one)] == [
        (G.SKATING, 0.25), (G.SAVES, 0.0), (G.READING, -0.25)
    ]  # fmt: skip
    assert strengths(one) == (G.SKATING,)
    assert gaps(one) == (G.READING,)
    assert gaps(form(skating=5, saves=4, reading=2, stance=1)) == (G.STANCE, G.READING)
    assert words_for(one) == (
        "Strongest, against her own mean: skating and mobility.",
        "Next to work on, against her own mean: reading the play.",
    )


@settings(max_examples=60, deadline=None)
@given(
    st.dictionaries(st.sampled_from(list(G)), st.floats(2.0, 4.0), min_size=1),
    st.floats(-1.0, 1.0),
)
def test_a_rater_who_marks_everybody_higher_changes_nothing(marks, drift):
    one = RatingForm(day=DAY, rater="a", marks=tuple(marks.items()))
    other = RatingForm(day=DAY, rater="b", marks=tuple((g, m + drift) for g, m in marks.items()))
    for moved in change(one, other):
        assert moved.above == pytest.approx(0.0, abs=1e-9)


def test_first_place_is_the_top_of_the_scale():
    ranked = form(scale=Scale.RANK, of=5, skating=1, saves=5, reading=3)
    assert ranked.level_of(G.SKATING) == 1.0
    assert ranked.level_of(G.SAVES) == 0.0
    assert ranked.level_of(G.READING) == 0.5
    assert ranked.level_of(G.STANCE) is None


def test_change_by_hand():
    # By hand: about their means 0.25, -0.25 before and 0, 0 after.
    before, after = form(skating=4, reading=2), form(skating=3, reading=3, saves=5)
    moved = {one.group: one.above for one in change(before, after)}
    assert moved == {G.READING: 0.25, G.SKATING: -0.25}
    assert change(form(skating=4), form(saves=3)) == ()


def test_agreement_by_hand():
    one = form(skating=5, saves=4, reading=3, stance=2)
    same = form(scale=Scale.TWELVE, skating=12, saves=9, reading=7, stance=1)
    reverse = form(skating=2, saves=3, reading=4, stance=5)
    assert agreement([one, same]) == pytest.approx(1.0)
    assert agreement([one, reverse]) == pytest.approx(-1.0)
    # By hand: ranks 1 2 3 4 against 1 3 2 4, 1 - 6 * 2 / (4 * 15) = 0.8.
    swapped = form(skating=5, saves=3, reading=4, stance=2)
    assert agreement([one, swapped]) == pytest.approx(0.8)
    assert agreement([one]) is None
    assert agreement([one, form(skating=3, saves=4)]) is None
    assert agreement([one, form(skating=3, saves=3, reading=3)]) is None


def test_an_even_form_says_so_and_an_empty_one_says_nothing():
    assert words_for(form(skating=3, saves=3)) == ("No group stands out: an even pattern.",)
    assert words_for(form()) == ()


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: form(skating=6), "mark is out of range"),
        (lambda: form(skating=0.5), "mark is out of range"),
        (
            lambda: RatingForm(day=DAY, rater="a", marks=((G.SAVES, 3), (G.SAVES, 4))),
            "marked twice",
        ),
        (lambda: form(scale=Scale.RANK, of=4, skating=5), "mark is out of range"),
    ],
)
def test_marks_outside_the_scale_are_refused(make, words):
    with pytest.raises(InputError, match=words):
        make()
