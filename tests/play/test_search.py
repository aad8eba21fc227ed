"""The search for the best place: bowls, walls, ties, cliffs, and certificates."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from tendline.base import InputError
from tendline.play.decision import Weights, spread
from tendline.play.ground import puck_line
from tendline.play.read import place_losses, prepare
from tendline.play.search import STEP, lowest_place
from tests.play.cases import (
    ACROSS,
    BREAKAWAY,
    PARAMETERS,
    RINK,
    TWO_ON_ONE,
    TWO_ON_TWO,
    attacker,
    defender,
    goaltender,
    situation,
)

LINE = puck_line((8.0, 0.0), RINK.goal, PARAMETERS.model)
EXACT = Weights(np.ones(1), 1.0, 0.0, 0)
"""One option, no error of place, nothing as good as the best."""
STANDING = Weights(np.ones(1), 1.0, 0.0, 0, place_error=0.2, band_cost=0.005, tie=0.001)


def _bowl(depth, offset):
    def losses(places):
        return ((places[:, 0] - depth) ** 2 + 2.0 * (places[:, 1] - offset) ** 2)[:, None]

    return losses


@pytest.mark.parametrize(("depth", "offset"), [(0.7, 0.0), (1.475, -0.3), (2.85, 0.6)])
def test_the_bottom_of_a_bowl_is_found(depth, offset):
    found = lowest_place(LINE, _bowl(depth, offset), EXACT, knot=STEP)
    assert found.band.middle == pytest.approx(depth, abs=STEP / 2 + 1e-9)
    assert found.offset == pytest.approx(offset, abs=STEP + 1e-9)


def test_ties_go_to_the_line_and_to_the_middle():
    found = lowest_place(LINE, lambda places: np.zeros((len(places), 1)), EXACT)
    assert found.offset == 0.0
    assert found.band.middle == pytest.approx(0.5 * (LINE.least_depth + LINE.most_depth))


def test_beside_the_line_must_be_worth_it():
    """By hand: 0.0008 better 0.3 m to her left is less than the tie of 0.001; 0.0012 is more."""

    def losses(gain):
        return lambda places: (0.1 - gain * (np.abs(places[:, 1] - 0.3) < 0.01))[:, None]

    weights = replace(EXACT, tie=0.001)
    assert lowest_place(LINE, losses(0.0008), weights).offset == 0.0
    assert lowest_place(LINE, losses(0.0012), weights).offset == pytest.approx(0.3, abs=0.05)


def _wells(*offsets):
    """Return a table that is 0.05 at these distances from the line and 0.1 elsewhere."""

    def losses(places):
        deep = np.abs(places[:, 1:2] - np.array(offsets)) < 0.01
        return 0.1 - 0.05 * deep.any(axis=1, keepdims=True)

    return losses


def test_of_equal_offsets_the_nearest_counts_then_the_one_to_her_left():
    assert lowest_place(LINE, _wells(-0.3, 0.3), EXACT).offset == pytest.approx(0.3)
    assert lowest_place(LINE, _wells(-0.3, 0.6), EXACT).offset == pytest.approx(-0.3)


def test_every_offset_is_looked_at_closely_even_with_the_puck_below_the_goal_line():
    """Between places asked the loss runs straight; so they may not lie far apart."""
    asked = []

    def losses(places):
        asked.append(places)
        return np.zeros((len(places), 1))

    for puck, most in (((8.0, 0.0), 0.6), ((-2.0, 4.0), 1.3)):
        line = puck_line(puck, RINK.goal, PARAMETERS.model)
        lowest_place(line, losses, EXACT)
        offsets = np.unique(np.round([line.depth_and_offset(x, y)[1] for x, y in asked[-1]], 6))
        assert (offsets[0], offsets[-1]) == (-most, most)
        assert 0.0 in offsets
        assert np.diff(offsets).max() <= 0.36


def test_the_curve_has_no_value_where_she_may_not_be():
    line = puck_line((8.0, 0.0), RINK.goal, PARAMETERS.model, people=((2.0, 0.0),))
    found = lowest_place(line, _bowl(0.8, 0.0), EXACT)
    assert np.isnan(found.at(np.array([0.8, 2.0]))).tolist() == [False, True]


def test_nobody_is_sent_to_the_edge_of_a_cliff():
    """Flat to 1.8 m, then steep: by hand the band ends before it and its middle lies far off."""

    def losses(places):
        return (0.1 + np.where(places[:, 0] > 1.8, places[:, 0] - 1.8, 0.0))[:, None]

    found = lowest_place(LINE, losses, STANDING, knot=0.1)
    assert found.band.high < 1.8
    assert found.band.middle == pytest.approx(0.5 * (0.3 + found.band.high))


def test_places_without_an_answer_are_passed_over():
    def losses(places):
        return np.where(places[:, :1] > 1.21, np.nan, _bowl(1.5, 0.0)(places))

    found = lowest_place(LINE, losses, EXACT, knot=0.1)
    assert found.band.middle == pytest.approx(1.2, abs=0.11)
    assert np.isinf(found.loss[:, found.depth > 1.35]).all()
    # by hand: knots every 0.27 m, the one at 1.11 m is the last with an answer
    rough = lowest_place(LINE, losses, EXACT)
    assert np.isinf(rough.loss[:, rough.depth > 1.12]).all()


def test_nowhere_to_stand_is_an_error():
    with pytest.raises(InputError, match="no room"):
        lowest_place(LINE, lambda places: np.full((len(places), 1), np.nan), EXACT)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.lists(st.floats(0.0, 1.0), min_size=3, max_size=3), min_size=4, max_size=4)
)  # fmt: skip
def test_the_minimax_on_the_line_is_that_of_a_linear_program(rows):
    """Other tool: on each stretch of the line, least t with L(g, o) <= t, by scipy linprog."""
    knots = np.linspace(LINE.least_depth, LINE.most_depth, 4)
    table = np.array(rows)

    def losses(places):
        return np.column_stack([np.interp(places[:, 0], knots, one) for one in table.T])

    least = np.inf
    for left, right in itertools.pairwise(table):
        # unknowns (part, t): left + part * (right - left) - t <= 0
        matrix = np.column_stack([right - left, -np.ones(3)])
        solved = linprog([0.0, 1.0], A_ub=matrix, b_ub=-left, bounds=[(0, 1), (None, None)])
        least = min(least, solved.fun)
    weights = Weights(np.full(3, 1 / 3), 1.0, 0.0, 0)
    found = lowest_place(LINE, losses, weights, only=0.0, knot=(knots[1] - knots[0]) / 6)
    steepest = np.abs(np.diff(table, axis=0)).max() / (knots[1] - knots[0])
    assert least - 1e-9 <= found.least <= least + steepest * STEP / 2 + 1e-9


CERTIFIED = 0.002
"""What asking only some places, and running straight between them, may cost."""


@pytest.mark.parametrize(
    "moment",
    [
        TWO_ON_ONE, TWO_ON_TWO, BREAKAWAY, ACROSS,
        situation(attacker("F1", 3, 8), attacker("F2", 10.7, 0)),
        situation(attacker("F1", 7, -4), attacker("F2", 5, 3), attacker("F3", 11, 0)),
        situation(attacker("F1", -1.5, 5), attacker("F2", 3, 1), defender("D1", 2, 0)),
        situation(attacker("F1", 14, 3), attacker("F2", 4, -2), defender("D1", 4, 0.5)),
    ],
)  # fmt: skip
def test_no_place_on_a_finer_grid_is_better_by_more_than_the_band(moment):
    """Other way of asking: the loss table at every place of the lattice, nothing in between."""
    engine, weights = prepare(
        moment, goaltender(), PARAMETERS, habits=None, options=None, fine=False
    )
    table = place_losses(engine)
    found = lowest_place(engine.line, table, weights)
    places = [engine.line.place(float(d), float(o)) for o in found.offsets for d in found.depth]
    plain = weights.loss(table(np.array(places))).reshape(found.loss.shape)
    every = spread(spread(plain, STEP, weights.place_error).T, STEP, weights.place_error).T
    every = np.where(np.isfinite(found.loss), every, np.inf)
    row = int(np.argmin(np.abs(found.offsets - found.offset)))
    here = float(np.interp(found.band.middle, found.depth, every[row]))
    assert here <= every.min() + weights.band_cost + weights.tie + CERTIFIED
    assert found.least <= every.min() + weights.tie + CERTIFIED
