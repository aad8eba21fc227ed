"""The quickest legal chain of moves."""

import math

import pytest

from tendline.base import InputError, Level, Side
from tendline.body import Pose, Stance
from tendline.motion import MoveKind, chain_by, motion_parameters, quickest_chain, state_at

ADULT = motion_parameters(Level.ADULT)


def moves(chain):
    return [step.move for step in chain.steps]


def test_a_little_to_the_side_is_a_short_shuffle_driven_by_the_other_leg():
    chain = quickest_chain(Pose(0.6, 0.0, 0.0), Pose(0.6, -0.2, 0.0), ADULT)
    assert moves(chain) == [MoveKind.SHORT_SHUFFLE]
    assert chain.legs == (Side.LEFT,)  # left leg drives to her right
    assert chain.steps[0].keeps_stance


def test_from_post_to_post_is_a_t_push_of_nine_tenths_of_a_second():
    chain = quickest_chain(Pose(0.3, -0.6, 0.0), Pose(0.3, 0.6, 0.0), ADULT, reaction=0.0)
    assert moves(chain) == [MoveKind.T_PUSH]
    assert chain.legs == (Side.RIGHT,)
    # Common practice, no source: 0.9 s with stop (facts: locomotion.tpush_post_to_post).
    assert chain.arrival == pytest.approx(0.9, abs=0.005)
    assert chain.set_time > chain.arrival


def test_out_and_back_are_c_cuts():
    out = quickest_chain(Pose(0.6, 0.0, 0.0), Pose(1.0, 0.0, 0.0), ADULT)
    back = quickest_chain(Pose(1.5, 0.0, 0.0), Pose(0.6, 0.0, 0.0), ADULT)
    assert moves(out) == [MoveKind.C_CUT_FORWARD]
    assert moves(back) == [MoveKind.C_CUT_BACK]


def test_going_down_on_the_spot_is_a_drop_at_free_fall_pace():
    chain = quickest_chain(
        Pose(0.6, 0.0, 0.0), Pose(0.6, 0.0, 0.0, Stance.BUTTERFLY), ADULT, reaction=0.0
    )
    assert moves(chain) == [MoveKind.DROP]
    assert chain.arrival == pytest.approx(0.284)  # published: FRAYNE15, computed 2h/v
    assert chain.steps[0].edge == ""


def test_too_late_on_the_feet_she_slides_and_says_so():
    start, end = Pose(0.6, 0.7, 0.2), Pose(0.6, -0.7, -0.2)
    on_feet = quickest_chain(start, end, ADULT, reaction=0.2)
    late = quickest_chain(start, end, ADULT, reaction=0.2, deadline=on_feet.set_time - 0.1)
    assert on_feet.as_asked
    assert not late.as_asked
    assert late.ends_down
    assert moves(late) == [MoveKind.BUTTERFLY_SLIDE]
    assert late.arrival < on_feet.arrival
    never = quickest_chain(start, end, ADULT, reaction=0.2, deadline=0.3, allow_down=False)
    assert never == on_feet


def test_from_the_knees_the_leg_that_will_push_comes_up_first():
    chain = quickest_chain(
        Pose(0.6, 0.7, 0.0, Stance.BUTTERFLY), Pose(0.6, -0.7, 0.0), ADULT, reaction=0.0
    )
    assert moves(chain) == [MoveKind.FULL_RECOVERY, MoveKind.T_PUSH]
    assert [step.edge for step in chain.steps] == [
        "left leg up first, onto its inside edge", "inside edge of the left skate"
    ]  # fmt: skip
    assert chain.distance == pytest.approx(1.4)
    assert chain.legs == (Side.LEFT, Side.LEFT)


def test_nothing_to_do_takes_no_time():
    pose = Pose(0.6, 0.1, 0.3)
    chain = quickest_chain(pose, pose, ADULT)
    assert chain.steps == ()
    assert (chain.arrival, chain.set_time) == (0.0, 0.0)
    assert state_at(chain, 0.0).is_set


def test_a_reaction_that_is_not_a_number_is_refused():
    with pytest.raises(InputError, match="reaction"):
        quickest_chain(Pose(0, 0, 0), Pose(1, 0, 0), ADULT, reaction=math.nan)


def test_a_named_move_is_timed_wise_or_not():
    start, end = Pose(0.6, 0.6, 0.0), Pose(0.6, -0.6, 0.0)
    shuffled = chain_by((MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE), start, end, ADULT)
    assert moves(shuffled) == [MoveKind.STEP_SHUFFLE]
    assert shuffled.steps[0].count == 3  # by hand: 1.2 m in steps of 0.4 m
    assert shuffled.legs == (Side.LEFT,)
    best = quickest_chain(start, end, ADULT, reaction=0.0)
    assert shuffled.set_time > best.set_time
    ahead = chain_by((MoveKind.T_PUSH,), start, Pose(1.6, 0.6, 0.0), ADULT)
    assert moves(ahead) == [MoveKind.T_PUSH]  # outside its sector, as the script says
    low = chain_by((MoveKind.BUTTERFLY_PUSH,), start, end, ADULT, reaction=0.1)
    assert moves(low) == [MoveKind.DROP, MoveKind.BUTTERFLY_PUSH]
    assert low.end.stance is Stance.BUTTERFLY
    with pytest.raises(InputError, match="covers no distance"):
        chain_by((MoveKind.DROP,), start, end, ADULT)


def test_a_very_long_way_is_full_pushes_and_a_rest():
    chain = quickest_chain(Pose(1.0, -3.5, 0.0), Pose(1.0, 3.5, 0.0), ADULT, reaction=0.0)
    # By hand: 7 m is two full pushes of 3 m and a rest of 1 m.
    assert [step.distance for step in chain.steps] == pytest.approx([3.0, 3.0, 1.0])
    assert [step.end.y for step in chain.steps] == pytest.approx([-0.5, 2.5, 3.5])
    assert set(chain.legs) == {Side.RIGHT}


def test_the_leg_that_comes_up_is_the_one_that_pushes_whichever_way_she_turns():
    # she goes to her right and turns to her left on the way: the left leg drives, and comes up
    chain = quickest_chain(
        Pose(0.6, 0.9, -0.5, Stance.BUTTERFLY), Pose(0.6, -0.9, 0.4), ADULT, reaction=0.0
    )
    assert chain.steps[0].move is MoveKind.FULL_RECOVERY
    assert chain.legs == (Side.LEFT, Side.LEFT)
    # on the spot the turn alone decides
    turned = quickest_chain(
        Pose(0.6, 0.0, 0.0, Stance.BUTTERFLY), Pose(0.6, 0.0, 0.9), ADULT, reaction=0.0
    )
    assert turned.legs == (Side.RIGHT, Side.RIGHT)


def test_getting_up_on_the_spot_takes_the_recovery_of_which_the_end_is_settling():
    chain = quickest_chain(
        Pose(0.6, 0.0, 0.0, Stance.BUTTERFLY), Pose(0.6, 0.0, 0.0), ADULT, reaction=0.0
    )
    assert chain.set_time == pytest.approx(ADULT.recovery)
    assert chain.arrival == pytest.approx(ADULT.recovery - ADULT.recovery_settle)
    assert 0.0 < ADULT.recovery_settle < ADULT.recovery


def test_both_edges_work_in_a_c_cut():
    chain = quickest_chain(Pose(0.5, 0.0, 0.0), Pose(1.8, 0.0, 0.0), ADULT)
    assert [(step.drive_leg, step.edge) for step in chain.steps] == [
        (None, "inside edges of both skates in turn")
    ]
