"""The search for the best place: bowls, walls, ties, and an end to it."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tendline.base import InputError, NoConvergenceError
from tendline.play.ground import puck_line
from tendline.play.search import STEP, lowest_place
from tests.play.cases import PARAMETERS, RINK

LINE = puck_line((8.0, 0.0), RINK.goal, PARAMETERS.model)


def _bowl(depth, offset):
    def losses(places):
        return (places[:, 0] - depth) ** 2 + 2.0 * (places[:, 1] - offset) ** 2

    return losses


@pytest.mark.parametrize(("depth", "offset"), [(0.7, 0.0), (1.475, -0.3), (2.9, 0.55)])
def test_the_bottom_of_a_bowl_is_found_cold_and_warm(depth, offset):
    for near in (None, (1.0, 0.0), (depth, offset)):
        found = lowest_place(LINE, _bowl(depth, offset), near=near)
        assert found[0] == pytest.approx(depth, abs=STEP / 2 + 1e-9)
        assert found[1] == pytest.approx(offset, abs=STEP / 2 + 1e-9)


def test_ties_go_to_the_line():
    found = lowest_place(LINE, lambda places: np.zeros(len(places)))
    assert found[1] == 0.0


def test_places_without_an_answer_are_walked_round():
    def losses(places):
        bowl = _bowl(1.5, 0.0)(places)
        return np.where(places[:, 0] > 1.2, np.nan, bowl)

    assert lowest_place(LINE, losses)[0] == pytest.approx(1.2, abs=STEP)


def test_nowhere_to_stand_is_an_error():
    with pytest.raises(InputError, match="no room"):
        lowest_place(LINE, lambda places: np.full(len(places), np.nan))


def test_a_search_without_end_is_stopped():
    calls = iter(range(10**9))

    def ever_better(places):
        return np.array([-float(next(calls)) for _ in places])

    with pytest.raises(NoConvergenceError, match="did not come to an end"):
        lowest_place(LINE, ever_better)


def test_the_answer_has_no_better_neighbour_on_the_lattice():
    def rough(places):
        x, y = places[:, 0], places[:, 1]
        return (x - 1.3) ** 2 + y**2 + 0.02 * np.cos(9.0 * x) * np.cos(7.0 * y)

    depth, offset, loss = lowest_place(LINE, rough)
    around = [(depth + a * STEP, offset + b * STEP) for a in (-1, 0, 1) for b in (-1, 0, 1)]
    assert loss <= rough(np.array([LINE.place(*one) for one in around])).min() + 1e-6
    assert math.isfinite(loss)
