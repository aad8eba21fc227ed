"""Where to stand given a loss table: robust Bayes, minimax against linear programs, the band."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from tendline.base import InputError
from tendline.play.decision import (
    DepthBand,
    combined_loss,
    depth_band,
    habit_shares,
    spread,
    worst_case_share,
)


def _tables(options: int = 3, places: int = 6):
    losses = st.floats(0.0, 1.0, allow_nan=False)
    row = st.lists(losses, min_size=options, max_size=options)
    return st.lists(row, min_size=places, max_size=places).map(np.array)


def test_with_nothing_observed_the_worst_case_decides_alone():
    table = np.array([[0.1, 0.5], [0.3, 0.3], [0.5, 0.1]])
    share = worst_case_share(0, 12.0)
    assert share == 1.0  # by hand: n0 / (n0 + 0)
    assert list(combined_loss(table, np.array([0.9, 0.1]), share)) == [0.5, 0.3, 0.5]


def test_habits_and_worst_case_are_weighed_as_stated():
    # by hand: e = 12 / (12 + 4) = 0.75; 0.25 * (0.75 * 0.2 + 0.25 * 0.4) + 0.75 * 0.4 = 0.3625
    share = worst_case_share(4, 12.0)
    weights, seen = habit_shares(("shoot", "pass"), {"shoot": 3, "pass": 1, "wrap": 9})
    assert share == 0.75
    assert seen == 4
    assert combined_loss(np.array([[0.2, 0.4]]), weights, share)[0] == pytest.approx(0.3625)


def test_one_count_is_spread_over_two_mates():
    weights, seen = habit_shares(("shoot", "pass", "pass"), {"shoot": 1, "pass": 2})
    assert seen == 3
    assert weights == pytest.approx([1 / 3, 1 / 3, 1 / 3])  # by hand


def test_without_habits_every_option_gets_one_share():
    weights, seen = habit_shares(("shoot", "pass"), {})
    assert seen == 0
    assert weights == pytest.approx([0.5, 0.5])


@settings(deadline=None, max_examples=60)
@given(_tables(), st.floats(0.0, 1.0))
def test_the_combined_loss_is_the_worst_over_the_contaminated_habits(table, share):
    """Other tool: a linear program over what the attack may do, given where she stands."""
    weights = np.array([0.5, 0.3, 0.2])
    answer = combined_loss(table, weights, share)
    for row, value in zip(table, answer, strict=True):
        worst = linprog(-row, A_eq=np.ones((1, 3)), b_eq=[1.0],
                        bounds=[((1 - share) * p, 1.0) for p in weights])  # fmt: skip
        assert -worst.fun == pytest.approx(value, abs=1e-6)


def test_the_band_ends_where_the_cost_is_reached():
    # by hand: V-shape, least 0.2 at 1.0, slope 0.1 a metre: 0.01 more is 0.1 m either way
    band = depth_band(np.array([0.0, 1.0, 2.0]), np.array([0.3, 0.2, 0.3]), 0.01)
    assert (band.low, band.high) == (pytest.approx(0.9), pytest.approx(1.1))
    assert band.width == pytest.approx(0.2)


def test_the_band_does_not_jump_over_a_worse_stretch():
    band = depth_band(np.array([0.0, 1.0, 2.0, 3.0]), np.array([0.2, 0.2, 0.5, 0.2]), 0.0)
    assert (band.low, band.high) == (0.0, pytest.approx(1.0))


def test_the_band_stops_at_depths_without_an_answer():
    band = depth_band(np.array([0.0, 1.0, 2.0]), np.array([np.nan, 0.2, 0.2]), 0.01)
    assert (band.low, band.high) == (1.0, 2.0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: worst_case_share(-1, 12.0), "observed choices"),
        (lambda: worst_case_share(1, 0.0), "habit weight"),
        (lambda: combined_loss(np.zeros((3, 0)), np.zeros(0), 0.5), "no option left"),
        (lambda: combined_loss(np.zeros((3, 2)), np.ones(3) / 3, 0.5), "one weight per option"),
        (lambda: combined_loss(np.zeros((3, 2)), np.array([0.5, 0.6]), 0.5), "sum to 1"),
        (lambda: combined_loss(np.zeros((3, 2)), np.array([0.5, 0.5]), 1.5), "worst-case share"),
        (lambda: habit_shares(("shoot",), {"shoot": -1}), "observed choices"),
        (lambda: depth_band(np.zeros(2), np.full(2, np.nan), 0.1), "no depth has an answer"),
    ],
)
def test_questions_that_make_no_sense_are_refused(call, words):
    with pytest.raises(InputError, match=words):
        call()


def test_a_tremble_weighs_every_option_alike():
    # by hand: worst 0.4, mean (0.1 + 0.4) / 2 = 0.25; 0.8 * 0.4 + 0.2 * 0.25 = 0.37
    table = np.array([[0.1, 0.4]])
    assert combined_loss(table, np.array([0.5, 0.5]), 1.0, 0.2)[0] == pytest.approx(0.37)


def test_where_one_option_costs_the_same_everywhere_the_others_decide():
    table = np.array([[0.3, 0.2], [0.3, 0.1], [0.3, 0.25]])
    losses = combined_loss(table, np.array([0.5, 0.5]), 1.0, 0.1)
    assert losses.argmin() == 1
    assert np.ptp(combined_loss(table, np.array([0.5, 0.5]), 1.0)) == 0.0


def test_the_mixed_game_is_worth_no_more_than_standing_at_the_best_place():
    """Other tool: the zero-sum game with mixed places, by scipy linprog (a lower bound)."""
    table = np.array([[0.05, 0.30], [0.12, 0.15], [0.30, 0.05]])
    pure = combined_loss(table, np.array([0.5, 0.5]), 1.0).min()
    solved = linprog(
        [0, 0, 0, 1.0],
        A_ub=np.column_stack([table.T, -np.ones(2)]),
        b_ub=[0, 0],
        A_eq=[[1, 1, 1, 0]],
        b_eq=[1],
        bounds=[(0, 1)] * 3 + [(None, None)],
    )
    assert solved.fun <= pure + 1e-9
    # by hand: 0.12 at the middle place, mixed with the outer ones, is worth 0.1346...
    assert pure == pytest.approx(0.15)


def test_the_middle_of_the_band():
    assert DepthBand(low=0.6, high=1.4, cost=0.005).middle == pytest.approx(1.0)  # by hand


def test_standing_off_the_place_is_a_mean_over_a_normal_error():
    """Other tool: numerical integration of a straight cost against a normal error, by scipy."""
    from scipy.integrate import quad
    from scipy.stats import norm

    step, error = 0.025, 0.2
    places = step * np.arange(201)  # 0 to 5 m, told 2.5 m: the ends are out of reach
    losses = np.abs(places - 2.3)

    def weighed(place):
        return abs(place - 2.3) * norm.pdf(place, 2.5, error)

    expected, _ = quad(weighed, 1.5, 3.5, points=[2.3])
    assert spread(losses, step, error)[100] == pytest.approx(expected, abs=2e-3)


def test_beyond_the_ends_she_stands_at_the_end():
    losses = np.array([0.4, 0.4, 0.4, 0.1, 0.1, 0.1])
    assert spread(losses, 0.1, 0.2)[0] < 0.4
    assert spread(np.full(6, 0.3), 0.1, 0.2) == pytest.approx(np.full(6, 0.3))


def test_without_an_error_nothing_is_spread():
    losses = np.array([0.4, 0.1, 0.3])
    assert spread(losses, 0.1, 0.0) == pytest.approx(losses)


def test_places_without_an_answer_are_left_out_of_the_mean():
    losses = np.array([0.3, 0.3, np.nan, 0.3, 0.3])
    found = spread(losses, 0.1, 0.2)
    assert np.isnan(found[2])
    assert found[[0, 1, 3, 4]] == pytest.approx(np.full(4, 0.3))


def test_rows_are_spread_each_on_their_own():
    rows = np.array([[0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0]])
    both = spread(rows, 0.1, 0.1)
    assert both[0] == pytest.approx(spread(rows[0], 0.1, 0.1))
    assert both[1] == pytest.approx(both[0][::-1])  # by symmetry
