"""The array form and the chain planner are one formula."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import Level
from tendline.body import Pose, Stance
from tendline.motion import (
    MoveKind,
    arrival_times,
    covered_at,
    motion_parameters,
    quickest_chain,
    state_at,
)
from tendline.motion.kinds import TRAVELS_DOWN, TRAVELS_ON_FEET

LEVELS = st.sampled_from(list(Level))
DISTANCES = st.just(0.0) | st.floats(1e-6, 7.0)
ANGLES = st.floats(-math.pi, math.pi)
TURNS = st.just(0.0) | st.floats(1e-6, 3.0) | st.floats(-3.0, -1e-6)


def poses(distance, direction, turn, facing=0.4):
    heading = facing + turn / 2 + direction
    start = Pose(1.0, 0.2, facing)
    end = Pose(
        1.0 + distance * math.cos(heading), 0.2 + distance * math.sin(heading), facing + turn
    )
    return start, end


@settings(max_examples=80, deadline=None)
@given(LEVELS, DISTANCES, ANGLES, TURNS, st.booleans())
def test_arrays_equal_the_chain(level, distance, direction, turn, down):
    parameters = motion_parameters(level)
    start, end = poses(distance, direction, turn)
    if down:
        end = Pose(end.x, end.y, end.facing, Stance.BUTTERFLY)
    chain = quickest_chain(start, end, parameters)
    found = arrival_times(distance, parameters, direction=direction, facing_change=turn, down=down)
    assert float(found.arrival) == pytest.approx(chain.arrival, abs=1e-7)
    assert float(found.set_time) == pytest.approx(chain.set_time, abs=1e-7)


@settings(max_examples=60, deadline=None)
@given(DISTANCES, ANGLES, TURNS, st.floats(0.0, 4.0))
def test_metres_covered_equal_the_state_of_the_chain(distance, direction, turn, time):
    parameters = motion_parameters(Level.ADULT)
    start, end = poses(distance, direction, turn)
    chain = quickest_chain(start, end, parameters)
    state = state_at(chain, time)
    covered, is_set = covered_at(
        distance, time, parameters, direction=direction, facing_change=turn
    )
    walked = math.hypot(state.pose.x - start.x, state.pose.y - start.y)
    assert float(covered) == pytest.approx(walked, abs=1e-6)
    assert bool(is_set) == state.is_set


def test_shapes_broadcast_and_nan_stays_nan():
    parameters = motion_parameters(Level.U13)
    found = arrival_times(
        np.array([[0.5], [np.nan]]), parameters, direction=np.array([0.0, 1.0, 3.0])
    )
    assert found.arrival.shape == (2, 3)
    assert np.isfinite(found.arrival[0]).all()
    assert np.isnan(found.set_time[1]).all()


def test_down_and_near_no_slide_beats_the_fall():
    adult = motion_parameters(Level.ADULT)
    near = np.array([1e-4, 0.01, 0.05])
    found = arrival_times(near, adult, reaction=0.0, down=True)
    assert (found.arrival >= adult.drop).all()
    for distance, arrival in zip(near, found.arrival, strict=True):
        end = Pose(1.0, float(distance), 0.0, Stance.BUTTERFLY)
        chain = quickest_chain(Pose(1.0, 0.0, 0.0), end, adult, reaction=0.0)
        assert chain.arrival == pytest.approx(arrival, abs=1e-9)


def test_on_the_knees_arrays_equal_the_chain_when_feet_and_slides_are_slow():
    adult = motion_parameters(Level.ADULT)
    for kind in (*TRAVELS_ON_FEET, MoveKind.BUTTERFLY_SLIDE):
        adult = adult.with_law(kind, adult.law(kind).scaled(0.1))
    knees = 0
    for turn in (0.0, 0.1, 0.3, 0.9):
        for distance in (0.2, 0.9, 2.6):
            start, end = poses(distance, 1.2, turn)
            low = Pose(end.x, end.y, end.facing, Stance.BUTTERFLY)
            chain = quickest_chain(start, low, adult)
            found = arrival_times(distance, adult, direction=1.2, facing_change=turn, down=True)
            assert float(found.set_time) == pytest.approx(chain.set_time, abs=1e-9)
            knees += chain.steps[-1].move in TRAVELS_DOWN
    assert knees >= 10


def test_two_pushes_are_covered_one_after_the_other():
    adult = motion_parameters(Level.ADULT)
    start, end = Pose(1.0, 0.0, 0.0), Pose(1.0, 3.5, 0.0)
    chain = quickest_chain(start, end, adult, reaction=0.1)
    assert len(chain.steps) == 2
    times = np.linspace(0.0, chain.set_time + 0.1, 80)
    covered, is_set = covered_at(3.5, times, adult, reaction=0.1)
    states = [state_at(chain, float(t)) for t in times]
    assert covered == pytest.approx([one.pose.y for one in states], abs=1e-9)
    assert list(is_set) == [one.is_set for one in states]


def test_many_places_are_the_same_as_few():
    adult = motion_parameters(Level.ADULT)
    distances = np.linspace(0.0, 3.5, 20_001)
    found = arrival_times(distances, adult)
    assert found.arrival.shape == distances.shape
    some = np.arange(0, distances.size, 997)
    few = [float(arrival_times(float(distances[i]), adult).set_time) for i in some]
    assert found.set_time[some] == pytest.approx(few, abs=1e-12)
    assert arrival_times(np.zeros((0, 3)), adult).arrival.shape == (0, 3)


def test_just_beyond_one_push_arrays_equal_the_chain():
    adult = motion_parameters(Level.ADULT)
    for settle in (0.2, 0.5):
        law = replace(adult.t_push, settle=settle)
        slow = adult.with_law(MoveKind.T_PUSH, law)
        for direction in (0.55, 0.75, 1.4, 2.2, 2.55):
            for distance in np.arange(3.0, 3.6, 0.05):
                start, end = poses(float(distance), direction, 0.0)
                chain = quickest_chain(start, end, slow)
                found = arrival_times(distance, slow, direction=direction)
                assert float(found.set_time) == pytest.approx(chain.set_time, abs=1e-9)
                assert float(found.arrival) == pytest.approx(chain.arrival, abs=1e-9)


def test_a_slow_settling_push_before_a_drop_still_has_to_settle():
    adult = motion_parameters(Level.ADULT)
    for kind in (*TRAVELS_DOWN, MoveKind.BUTTERFLY_SLIDE):
        adult = adult.with_law(kind, adult.law(kind).scaled(0.1))
    adult = adult.with_law(MoveKind.T_PUSH, replace(adult.t_push, settle=0.9))
    start, end = poses(1.6, 1.5, 0.0)
    chain = quickest_chain(start, Pose(end.x, end.y, end.facing, Stance.BUTTERFLY), adult)
    assert [step.move for step in chain.steps] == [MoveKind.T_PUSH, MoveKind.DROP]
    assert chain.set_time == pytest.approx(chain.steps[0].finish + 0.9)  # by hand: 0.9 > 0.284
    found = arrival_times(1.6, adult, direction=1.5, down=True)
    assert float(found.set_time) == pytest.approx(chain.set_time, abs=1e-9)
