"""What must hold for every chain, whatever the figures."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tendline.base import Level
from tendline.body import Pose, Stance
from tendline.motion import (
    CATALOGUE,
    arrival_times,
    is_down,
    motion_parameters,
    quickest_chain,
    state_at,
)
from tendline.motion.edges import paths
from tendline.motion.parameters import LAW_FIELDS
from tendline.motion.plan import displacement, path_cost

ADULT = motion_parameters(Level.ADULT)
PLACES = st.builds(
    Pose,
    x=st.floats(-0.5, 4.0),
    y=st.floats(-2.5, 2.5),
    facing=st.floats(-2.0, 2.0),
    stance=st.sampled_from(list(Stance)),
)
LEVELS = st.sampled_from(list(Level))


def mirrored(pose):
    return Pose(pose.x, -pose.y, -pose.facing, pose.stance.mirrored)


def assert_same_pose(one, other):
    assert one.stance is other.stance
    assert (one.x, one.y, one.facing) == pytest.approx((other.x, other.y, other.facing), abs=1e-9)


@settings(max_examples=120, deadline=None)
@given(PLACES, PLACES, LEVELS)
def test_a_chain_is_whole(start, end, level):
    chain = quickest_chain(start, end, motion_parameters(level))
    here, clock = start, chain.reaction
    for step in chain.steps:
        assert_same_pose(step.start, here)
        assert step.begin == pytest.approx(clock)
        assert step.finish > step.begin
        here, clock = step.end, step.finish
    assert_same_pose(here, end)
    assert chain.arrival == pytest.approx(clock)
    assert chain.set_time >= chain.arrival


@settings(max_examples=120, deadline=None)
@given(PLACES, PLACES, LEVELS)
def test_every_move_starts_from_a_stance_that_allows_it(start, end, level):
    rows = {row.kind: row for row in CATALOGUE}
    for step in quickest_chain(start, end, motion_parameters(level)).steps:
        row = rows[step.move]
        if row.ends_down:
            assert is_down(step.end.stance)
        if row.keeps_stance:
            assert step.start.stance in (Stance.READY, Stance.NARROW)
            assert step.end.stance is Stance.READY
        if row.longest is not None:
            assert step.distance <= row.longest + 1e-6


@settings(max_examples=120, deadline=None)
@given(PLACES, PLACES, LEVELS)
def test_the_mirror_swaps_legs_and_nothing_else(start, end, level):
    parameters = motion_parameters(level)
    chain = quickest_chain(start, end, parameters)
    other = quickest_chain(mirrored(start), mirrored(end), parameters)
    assert other.arrival == chain.arrival
    assert other.set_time == chain.set_time
    assert [one.move for one in other.steps] == [one.move for one in chain.steps]
    for one, two in zip(chain.steps, other.steps, strict=True):
        assert two.drive_leg is (one.drive_leg.other if one.drive_leg else None)
        assert_same_pose(mirrored(one.end), two.end)


@settings(max_examples=80, deadline=None)
@given(PLACES, PLACES, LEVELS)
def test_more_time_never_leaves_her_further_away(start, end, level):
    chain = quickest_chain(start, end, motion_parameters(level))
    times = np.linspace(0.0, chain.set_time + 0.1, 60)
    states = [state_at(chain, float(t)) for t in times]
    left = [math.hypot(end.x - s.pose.x, end.y - s.pose.y) for s in states]
    assert (np.diff(left) <= 1e-9).all()
    assert_same_pose(states[-1].pose, end)
    assert states[-1].is_set
    assert not states[-1].moving


@settings(max_examples=80, deadline=None)
@given(PLACES, PLACES, LEVELS, st.floats(1.0, 2.0))
def test_a_quicker_goaltender_is_never_set_later(start, end, level, share):
    slow = motion_parameters(level)
    quick = slow
    for kind in LAW_FIELDS:
        quick = quick.with_law(kind, slow.law(kind).scaled(share))
    assert (
        quickest_chain(start, end, quick).set_time
        <= quickest_chain(start, end, slow).set_time + 1e-9
    )


@settings(max_examples=80, deadline=None)
@given(st.floats(-math.pi, math.pi), st.floats(-2.0, 2.0), LEVELS, st.booleans())
def test_further_is_never_sooner(direction, turn, level, down):
    distances = np.linspace(0.0, 6.0, 121)
    found = arrival_times(
        distances, motion_parameters(level), direction=direction, facing_change=turn, down=down
    )
    assert (np.diff(found.set_time) >= -1e-9).all()


@settings(max_examples=80, deadline=None)
@given(st.floats(0.05, 3.0), st.floats(0.05, 3.0), st.floats(-math.pi, math.pi))
def test_a_stop_on_the_way_never_helps(first, second, direction):
    both = arrival_times(first + second, ADULT, direction=direction, reaction=0.0)
    one = arrival_times([first, second], ADULT, direction=direction, reaction=0.0)
    assert float(both.set_time) <= float(one.set_time.sum()) + 1e-9


@settings(max_examples=80, deadline=None)
@given(PLACES, PLACES, st.floats(0.0, 3.0))
def test_a_deadline_brings_her_down_only_when_she_cannot_be_set(start, end, deadline):
    assume(not is_down(end.stance))
    free = quickest_chain(start, end, ADULT)
    bound = quickest_chain(start, end, ADULT, deadline=deadline)
    if free.set_time <= deadline:
        assert bound == free
    elif not bound.as_asked:
        assert bound.ends_down
        assert bound.set_time <= deadline or bound.arrival < free.arrival
    else:
        assert bound == free


def test_the_answer_is_the_same_every_time():
    start, end = Pose(0.4, 0.6, 0.5), Pose(0.9, -0.5, -0.3)
    assert quickest_chain(start, end, ADULT) == quickest_chain(start, end, ADULT)


def test_straight_moves_agree_with_the_arrays_to_a_billionth():
    distances = np.linspace(0.01, 6.0, 97)
    found = arrival_times(distances, ADULT, reaction=0.25)
    for index, distance in enumerate(distances):
        chain = quickest_chain(Pose(1, 0, 0), Pose(1, float(distance), 0), ADULT, reaction=0.25)
        assert abs(chain.arrival - found.arrival[index]) < 1e-9
        assert abs(chain.set_time - found.set_time[index]) < 1e-9


@settings(max_examples=60, deadline=None)
@given(PLACES, PLACES)
def test_no_path_of_the_graph_beats_the_answer(start, end):
    # The certificate of the search: every legal path, compared one by one.
    chain = quickest_chain(start, end, ADULT, reaction=0.0)
    asked = displacement(start, end)
    every = [path_cost(path)[0] for path in paths(start.stance, end.stance, asked, ADULT)]
    assert chain.set_time == pytest.approx(min(every))
