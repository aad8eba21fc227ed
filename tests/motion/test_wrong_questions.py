"""Wrong questions about moves are named; NaN stays in its own place of an array."""

import math

import numpy as np
import pytest

from tendline.base import InputError, Level
from tendline.body import Pose
from tendline.motion import (
    MoveKind,
    arrival_times,
    chain_by,
    covered_at,
    drop_time,
    free_fall_time,
    motion_parameters,
    quickest_chain,
    sheet_for,
    state_at,
    usually_later_than,
    usually_taught_at,
)

ADULT = motion_parameters(Level.ADULT)
HERE, THERE = Pose(1.0, 0.0, 0.0), Pose(1.0, 1.0, 0.0)
CHAIN = quickest_chain(HERE, THERE, ADULT)


@pytest.mark.parametrize("reaction", [math.nan, math.inf, -0.1])
@pytest.mark.parametrize(
    "ask",
    [
        lambda r: quickest_chain(HERE, THERE, ADULT, reaction=r),
        lambda r: chain_by((MoveKind.T_PUSH,), HERE, THERE, ADULT, reaction=r),
        lambda r: arrival_times(1.0, ADULT, reaction=r),
        lambda r: covered_at(1.0, 0.5, ADULT, reaction=r),
        ADULT.with_reaction,
    ],
)
def test_a_reaction_is_a_time(ask, reaction: float) -> None:
    with pytest.raises(InputError, match="reaction must be a time"):
        ask(reaction)


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: arrival_times([1.0, -0.5], ADULT), "a distance cannot be negative; got -0.5 m"),
        (lambda: covered_at([1.0, -0.5], 1.0, ADULT), "a distance cannot be negative; got -0.5 m"),
        (lambda: state_at(CHAIN, math.nan), "her state is asked at a time"),
        (
            lambda: quickest_chain(HERE, THERE, ADULT, deadline=math.nan),
            "a deadline must be a time",
        ),
        (lambda: drop_time(-0.1, 2.8), "a height to fall must not be negative"),
        (lambda: drop_time(0.4, 0.0), "the end speed must be above zero"),
        (lambda: free_fall_time(math.nan, 9.8), "a height to fall must not be negative"),
        (lambda: free_fall_time(0.4, -9.8), "the gravity must be above zero"),
        (lambda: ADULT.t_push.scaled(0.0), "the share of pace must be above zero"),
        (lambda: sheet_for(math.nan), "age is out of range"),
        (lambda: usually_taught_at(-1), "age is out of range"),
        (lambda: usually_later_than(math.inf), "age is out of range"),
    ],
)
def test_wrong_questions_are_named(ask, words: str) -> None:
    with pytest.raises(InputError, match=words):
        ask()


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("down", [False, True])
def test_nan_and_infinity_stay_in_their_own_place(bad: float, down: bool) -> None:
    for words in (
        {"distance": [1.0, bad]},
        {"distance": 1.0, "direction": [1.2, bad]},
        {"distance": 1.0, "facing_change": [0.2, bad]},
    ):
        found = arrival_times(parameters=ADULT, down=down, **words)
        assert np.isnan(found.arrival).tolist() == [False, True]
        assert np.isnan(found.set_time).tolist() == [False, True]
        covered, is_set = covered_at(time=9.0, parameters=ADULT, **words)
        assert np.isnan(covered).tolist() == [False, True]
        assert is_set.tolist() == [True, False]
    covered, is_set = covered_at([1.0, 1.0], [math.nan, math.inf], ADULT)
    assert np.isnan(covered).tolist() == [True, False]
    assert is_set.tolist() == [False, True]
