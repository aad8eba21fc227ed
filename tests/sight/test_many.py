"""Exact questions for many placements: those of the single questions, NaN in its own row."""

import numpy as np
import pytest

from tendline import body, ice
from tendline.base import InputError
from tendline.body import Pose, Stance
from tendline.sight import (
    AREA_NAMES,
    cover_many,
    exact_cover,
    exact_cover_many,
    eye_of,
    goaltender_eye,
    hidden_many,
    mouth_grid,
    open_areas,
    open_areas_many,
    skater_body,
)

HER = body.build_goaltender(1.8)
BODY = body.capsules(HER, Stance.READY)
GOAL = ice.goal()
PUCKS = np.array(
    [[6.0, 0.5, 0.0127], [4.0, -3.0, 0.0127], [-1.0, 0.0, 0.0127], [np.nan, 0.0, 0.0127],
     [9.0, 2.0, 0.3]]
)  # fmt: skip
POSES = np.array(
    [[1.0, 0.1, 0.1], [0.8, -0.5, -0.6], [1.0, 0.0, 0.0], [1.0, 0.0, 0.0], [np.inf, 0.0, 0.0]]
)
KNOWN = [True, True, False, False, False]


def test_exact_shares_are_those_of_the_single_question_and_near_the_grid() -> None:
    found = exact_cover_many(PUCKS, POSES, BODY, GOAL)
    assert np.isfinite(found).tolist() == KNOWN
    for row in (0, 1):
        placed = body.posed(HER, Pose(*POSES[row]))
        assert found[row] == exact_cover(PUCKS[row], placed, GOAL).share
    grid = cover_many(PUCKS[:2], POSES[:2], BODY, mouth_grid(GOAL, 200, 150))
    assert found[:2] == pytest.approx(grid, abs=0.002)


def test_open_areas_of_many_are_those_of_each() -> None:
    found = open_areas_many(PUCKS, POSES, BODY, GOAL)
    assert tuple(found) == AREA_NAMES
    for name, shares in found.items():
        assert np.isfinite(shares).tolist() == KNOWN, name
    for row in (0, 1):
        single = {
            one.name: one.share
            for one in open_areas(PUCKS[row], body.posed(HER, Pose(*POSES[row])), GOAL)
        }
        assert {name: shares[row] for name, shares in found.items() if shares[row]} == single


def test_hidden_shares_of_many_are_those_of_each() -> None:
    skater = body.place(skater_body(), x=4.0, y=0.3, facing=0.0)
    eye = eye_of(body.posed(HER, Pose(1.0, 0.0, 0.0)))
    pucks = np.array([[8.0, 0.6, 0.0127], [8.0, 4.0, 0.0127], [8.0, np.nan, 0.0], eye])
    found = hidden_many(eye, pucks, {"D1": skater})
    assert np.isfinite(found).tolist() == [True, True, False, False]
    assert found[0] == goaltender_eye(eye, pucks[0], {"D1": skater}).hidden_share > 0.0
    assert found[1] == 0.0


def test_shapes_that_do_not_fit_are_named() -> None:
    for ask in (exact_cover_many, open_areas_many):
        with pytest.raises(InputError, match="as many pucks as poses"):
            ask(np.ones((2, 3)), np.ones((3, 3)), BODY, GOAL)
