"""Where she is at an instant, and what happens when the play changes under way."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, Level, Side
from tendline.body import Pose, Stance
from tendline.motion import (
    MoveKind,
    load_of,
    motion_parameters,
    quickest_chain,
    redirected,
    state_at,
)

ADULT = motion_parameters(Level.ADULT)
LEFT, RIGHT = Pose(0.4, 0.7, 0.2), Pose(0.4, -0.7, -0.2)


def test_she_stands_set_until_she_has_reacted():
    chain = quickest_chain(LEFT, RIGHT, ADULT, reaction=0.2)
    before = state_at(chain, 0.19)
    assert before.is_set
    assert not before.moving
    assert before.pose == LEFT


def test_between_arrival_and_set_she_is_still_but_not_set():
    chain = quickest_chain(LEFT, RIGHT, ADULT)
    between = state_at(chain, 0.5 * (chain.arrival + chain.set_time))
    assert not between.moving
    assert not between.is_set
    assert between.speed == 0.0


def test_going_back_along_the_line_is_a_retreat():
    chain = quickest_chain(Pose(1.8, 0.0, 0.0), Pose(0.6, 0.0, 0.0), ADULT, reaction=0.0)
    middle = state_at(chain, 0.5 * chain.arrival)
    assert middle.retreat == pytest.approx(middle.speed)
    assert middle.vx < 0.0


def test_a_change_of_mind_makes_her_brake_and_push_back():
    chain = quickest_chain(LEFT, RIGHT, ADULT, reaction=0.0)
    back = redirected(chain, LEFT, ADULT, time=0.35, reaction=0.1)
    moves = [step.move for step in back.steps]
    assert moves[:2] == [MoveKind.T_PUSH, MoveKind.STOP]
    assert back.steps[0].cut_short
    assert back.end == LEFT
    # By hand: she leaves with the left leg and comes back with the right.
    assert back.steps[0].drive_leg is Side.LEFT
    assert back.steps[-1].drive_leg is Side.RIGHT
    assert load_of(back.steps).hard_stops == 1 + (back.steps[-1].move is MoveKind.T_PUSH)


def test_a_drop_cannot_be_broken_off():
    down = quickest_chain(LEFT, Pose(0.4, 0.7, 0.2, Stance.BUTTERFLY), ADULT, reaction=0.0)
    up = redirected(down, LEFT, ADULT, time=0.1, reaction=0.05)
    assert [step.move for step in up.steps] == [MoveKind.DROP, MoveKind.FULL_RECOVERY]
    assert load_of(up.steps).drops == 1


def test_before_she_has_moved_a_change_costs_nothing_but_her_reaction():
    chain = quickest_chain(LEFT, RIGHT, ADULT, reaction=0.3)
    there = Pose(0.9, 0.7, 0.2)
    changed = redirected(chain, there, ADULT, time=0.05, reaction=0.2)
    fresh = quickest_chain(LEFT, there, ADULT, reaction=0.25)
    assert changed.steps == fresh.steps
    assert changed.set_time == fresh.set_time


@settings(max_examples=80, deadline=None)
@given(
    st.floats(0.0, 2.0),
    st.floats(0.0, 0.4),
    st.builds(Pose, st.floats(0.0, 3.0), st.floats(-2.0, 2.0), st.floats(-1.0, 1.0)),
    st.sampled_from([Stance.READY, Stance.BUTTERFLY]),
)
def test_a_changed_chain_has_no_jump(time, reaction, end, stance):
    first = quickest_chain(LEFT, Pose(0.4, -0.7, -0.2, stance), ADULT, reaction=0.1)
    chain = redirected(first, end, ADULT, time=time, reaction=reaction)
    ticks = np.arange(0.0, chain.set_time + 0.2, 0.004)
    states = [state_at(chain, float(t)) for t in ticks]
    path = np.array([(s.pose.x, s.pose.y) for s in states])
    assert np.hypot(*np.diff(path, axis=0).T).max(initial=0.0) < 3.5 * 0.004 + 1e-6
    last = states[-1].pose
    assert (last.x, last.y) == pytest.approx((end.x, end.y), abs=1e-9)
    for one, two in zip(chain.steps, chain.steps[1:], strict=False):
        assert (one.end.x, one.end.y) == pytest.approx((two.start.x, two.start.y), abs=1e-9)
        assert two.begin >= one.finish - 1e-9
    same = [state_at(first, float(t)).pose for t in ticks if t < time + reaction]
    for one, two in zip(same, states, strict=False):
        assert (one.x, one.y) == pytest.approx((two.pose.x, two.pose.y), abs=1e-9)


def test_a_change_at_no_time_is_refused():
    chain = quickest_chain(LEFT, RIGHT, ADULT)
    with pytest.raises(InputError, match="time of the chain"):
        redirected(chain, LEFT, ADULT, time=math.nan)
