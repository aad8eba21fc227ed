"""Wrong questions about shots are named; one cell without an answer leaves the others alone."""

import math

import numpy as np
import pytest

from tendline import body, ice
from tendline.base import InputError, Level, Side
from tendline.body import Pose, Stance
from tendline.shot import (
    flight,
    goal_chance,
    goal_chance_many,
    highest_at,
    ordinary_chance,
    rebounds,
    release_point,
    shot_parameters,
    slide_time,
    slide_times,
    tipped_chance,
    usual_build,
)
from tendline.sight import mouth_grid
from tendline.sight.cover import puck_depth_inside

GRID = mouth_grid(ice.goal(), 19, 13)
MEN = shot_parameters(Level.MEN_ELITE)
HER = usual_build(Level.MEN_ELITE)
PUCK = [6.0, 0.0, 0.0127]
POSE = Pose(1.0, 0.0, 0.0)
UP, DOWN = (body.posed(HER, Pose(1.0, 0.0, 0.0, one)) for one in (Stance.READY, Stance.BUTTERFLY))
BODIES = (body.capsules(HER, Stance.READY), body.capsules(HER, Stance.BUTTERFLY))
INSIDE = (UP.start[0] + UP.end[0]) / 2


@pytest.mark.parametrize("value", [math.nan, math.inf, -1.0])
@pytest.mark.parametrize(
    ("word", "words"),
    [("speed", "puck speed"), ("delay", "delay"), ("hidden", "hidden share")],
)
def test_numbers_of_one_shot_are_checked(word: str, words: str, value: float) -> None:
    given = {"speed": 30.0, word: value}
    with pytest.raises(InputError, match=f"{words} is out of range"):
        goal_chance(PUCK, UP, GRID, MEN, **given)
    with pytest.raises(InputError, match=f"{words} is out of range"):
        tipped_chance(PUCK, [2.0, 0.3, 0.3], UP, GRID, MEN, **given)


@pytest.mark.parametrize("wait", [math.nan, math.inf, -0.2])
def test_the_time_into_another_stance_is_checked(wait: float) -> None:
    with pytest.raises(InputError, match="time to change stance is out of range"):
        goal_chance(PUCK, UP, GRID, MEN, speed=30.0, others=((DOWN, wait),))


@pytest.mark.parametrize("speed", [0.0, -3.0, math.nan])
def test_a_rebound_needs_a_shot(speed: float) -> None:
    with pytest.raises(InputError, match="puck speed is out of range"):
        rebounds(PUCK, HER, POSE, GRID, MEN, speed=speed)


@pytest.mark.parametrize(
    ("puck", "words"),
    [
        ([-0.4, 0.2, 0.0127], "in front of the goal line"),
        (INSIDE, "inside the goaltender"),
        ([math.nan, 0.0, 0.0127], "finite coordinates"),
        ([4.0, 0.0, -0.1], "below the ice"),
    ],
)
def test_a_puck_that_cannot_be_is_named(puck: list[float], words: str) -> None:
    for ask in (
        lambda: goal_chance(puck, UP, GRID, MEN, speed=30.0),
        lambda: rebounds(puck, HER, POSE, GRID, MEN, speed=30.0),
        lambda: tipped_chance(PUCK, puck, UP, GRID, MEN, speed=30.0),
    ):
        with pytest.raises(InputError, match=words) as caught:
            ask()
        assert caught.value.item == "puck"


@pytest.mark.parametrize("held", [math.nan, 0.5, -1, 2, [0, 1, 0]])
def test_the_stance_she_holds_is_one_of_the_bodies(held: float) -> None:
    with pytest.raises(InputError, match="stance she holds"):
        goal_chance_many(PUCK, [1.0, 0.0, 0.0], BODIES, GRID, MEN, speed=30.0, held=held)


def test_there_is_no_answer_exactly_where_the_puck_lies_inside_the_stance_she_holds() -> None:
    # a carrier skates up to her: pucks on the ice all round her, in both stances held
    x, y = np.meshgrid(np.arange(0.4, 2.2, 0.04), np.arange(-1.0, 1.0, 0.04))
    pucks = np.column_stack([x.ravel(), y.ravel(), np.full(x.size, 0.0127)])
    for held, stance in ((0, UP), (1, DOWN)):
        found = goal_chance_many(
            pucks, [1.0, 0.0, 0.0], BODIES, GRID, MEN, speed=25.0, held=held,
            change=[[0.0, 0.28], [99.0, 0.0]],
        )  # fmt: skip
        deep = np.array([puck_depth_inside(one, stance) for one in pucks])
        clear = np.abs(deep) > 1e-5  # single precision cannot tell nearer than this
        assert (np.isnan(found.chance) == (deep > 0.0))[clear].all()
        assert (np.isnan(found.on_net) == np.isnan(found.chance)).all()
        assert 5 < np.isnan(found.chance).sum() < len(pucks) / 4


def test_a_puck_inside_a_stance_she_could_only_change_into_has_an_answer() -> None:
    down_only = [one for one in np.column_stack([DOWN.start, DOWN.radius])
                 if one[2] < 0.1 and puck_depth_inside(one[:3] * [1, 1, 0], UP) < -0.01]  # fmt: skip
    place = [*down_only[0][:2], 0.0127]
    assert puck_depth_inside(np.array(place), DOWN) > 0.0
    answer = goal_chance_many(
        place, [1.0, 0.0, 0.0], BODIES, GRID, MEN, speed=25.0, change=[[0.0, 0.28], [99.0, 0.0]]
    )
    assert 0.0 < answer.chance[0] < 1.0


def test_flights_and_slides_that_cannot_be_are_named() -> None:
    with pytest.raises(InputError, match="a way over the ice"):
        flight([5.0, 0.0, 0.0], [5.0, 0.0, 1.0], speed=20.0)
    for speed in (0.0, -5.0, math.nan):
        with pytest.raises(InputError, match="puck speed is out of range"):
            highest_at(5.0, speed)
    for ask in (lambda: highest_at([3.0, -1.0], 20.0), lambda: slide_times([3.0, -1.0], 20.0)):
        with pytest.raises(InputError, match="a way cannot be negative; got -1 m"):
            ask()
    with pytest.raises(InputError, match="a puck needs speed"):
        slide_times(3.0, [10.0, 0.0])
    for facing in (math.nan, math.inf):
        with pytest.raises(InputError, match="a shooter needs a place"):
            release_point(5.0, 0.0, hand=Side.LEFT, facing=facing)


def test_slides_of_many_pucks_are_those_of_each() -> None:
    ways, speeds = np.array([0.0, 4.0, 10.0, 10.0]), np.array([5.0, 12.0, 10.0, 3.0])
    each = [slide_time(a, b) for a, b in zip(ways, speeds, strict=True)]
    np.testing.assert_array_equal(slide_times(ways, speeds), each)
    assert each[-1] == math.inf
    assert np.isnan(slide_times([math.nan, 3.0], 10.0)).tolist() == [True, False]


@pytest.mark.parametrize("x", [0.0, -2.0, math.nan, math.inf])
def test_ordinary_play_keeps_nan_where_there_is_no_answer(x: float) -> None:
    found = ordinary_chance([x, 6.0], [0.5, 0.5], grid=GRID)
    for one in (found.chance, found.set_chance, found.off_spot_chance, found.on_net):
        assert np.isnan(one).tolist() == [True, False]
