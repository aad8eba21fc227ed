"""Her replies: where she can be, and how, when the shot leaves."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.ice import rink
from tendline.motion import MoveKind, arrival_times
from tendline.play.deke import COMMIT_OFFSETS, SHADES, Surface, best_commit, bridged
from tendline.play.ground import STEEPEST_LINE, line_bearing, puck_line
from tendline.play.reply import BUTTERFLY, READY, Limits, Pairs, Way, _rest_to_rest, replies
from tests.play.cases import PARAMETERS, RINK, goaltender

MOTION = goaltender().motion
POSTS = np.array([[[0.3, 0.5, 0.9], [0.3, -0.5, -0.9]], [[0.3, 0.4, 0.4], [0.3, -0.4, -0.4]]])
LIMITS = Limits(
    least_depth=0.3, most_depth=1.83, puck_gap=1.0, most_delay=0.25, save_reaction=0.15,
    seal_from=math.radians(55.0), seal_near=0.2, posts=POSTS,
)  # fmt: skip


def _replies(start, release, time, *, wrong_foot=0.0, drops=False, reaches=False):
    pairs = Pairs(
        start=np.array([start], float),
        release=np.array([release], float),
        time=np.array([time], float),
        wrong_foot=np.array([wrong_foot], float),
        drops=np.array([drops]),
        reaches=np.array([reaches]),
    )
    return replies(pairs, MOTION, LIMITS)


def test_for_a_shot_now_she_stays_where_she_is():
    made = _replies((1.2, 0.1, 0.0), (6.0, 0.0), 0.0, drops=True)
    assert list(made.pose[Way.NEAREST, 0]) == [1.2, 0.1, 0.0]
    assert made.delay[Way.NEAREST, 0] == 0.0
    assert made.usable[:, 0].tolist() == [way in (Way.NEAREST, Way.DROP) for way in Way]
    assert made.held[Way.NEAREST, 0] == READY
    assert made.held[Way.DROP, 0] == BUTTERFLY


def test_before_she_has_reacted_she_is_still_set_where_she_was():
    made = _replies((1.2, -0.6, -0.5), (6.0, 3.5), 0.5 * MOTION.reaction)
    assert list(made.pose[Way.NEAREST, 0, :2]) == [1.2, -0.6]
    assert made.delay[Way.NEAREST, 0] == 0.0


def test_with_time_to_spare_she_is_set_on_the_new_line():
    made = _replies((1.2, -0.6, -0.5), (6.0, 3.5), 3.0)
    x, y, facing = made.pose[Way.NEAREST, 0]
    assert y / x == pytest.approx(3.5 / 6.0)
    assert facing == pytest.approx(math.atan2(3.5, 6.0))
    assert made.delay[Way.NEAREST, 0] == 0.0
    assert not made.usable[Way.STOP_SHORT, 0]
    assert made.usable[Way.OUT, 0]
    assert np.hypot(*made.pose[Way.OUT, 0, :2]) == pytest.approx(LIMITS.most_depth)


def test_on_the_way_the_missing_time_delays_her_up_to_a_limit():
    made = _replies((1.2, -0.6, -0.5), (6.0, 3.5), 0.7)
    missing = made.set_time[Way.NEAREST, 0] - 0.7
    assert missing > 0.0
    assert made.delay[Way.NEAREST, 0] == pytest.approx(min(missing, LIMITS.most_delay))
    assert made.usable[Way.SLIDE, 0]
    assert made.usable[Way.STOP_SHORT, 0]


def test_stopping_short_she_is_set_in_time_on_the_same_way():
    start, release, time = (1.2, -0.6, -0.5), (6.0, 3.5), 0.75
    made = _replies(start, release, time)
    short = made.pose[Way.STOP_SHORT, 0, :2]
    near = made.target[Way.NEAREST, 0]
    gone = np.hypot(*(short - start[:2]))
    whole = np.hypot(*(near - start[:2]))
    assert 0.0 < gone < whole
    whole_way, part = near - np.array(start[:2]), short - np.array(start[:2])
    assert whole_way[0] * part[1] - whole_way[1] * part[0] == pytest.approx(0.0, abs=1e-12)
    turn = math.atan2(3.5, 6.0) + 0.5
    direction = math.atan2(*reversed(near - start[:2])) - (-0.5 + 0.5 * turn)
    times = arrival_times(gone, MOTION, direction=direction, facing_change=turn)
    assert float(times.set_time) <= time + 0.05


def test_a_wrong_foot_costs_as_much_as_a_shorter_time():
    late = _replies((1.2, -0.6, -0.5), (6.0, 3.5), 0.8, wrong_foot=0.1)
    short = _replies((1.2, -0.6, -0.5), (6.0, 3.5), 0.7)
    assert late.pose[Way.NEAREST] == pytest.approx(short.pose[Way.NEAREST])
    assert late.set_time[Way.NEAREST, 0] == pytest.approx(short.set_time[Way.NEAREST, 0] + 0.1)


def test_a_reach_is_under_way_before_the_release():
    made = _replies((1.2, 0.0, 0.0), (1.5, 1.0), 0.5, reaches=True)
    assert made.usable[Way.REACH, 0]
    moving = 0.5 - MOTION.reaction
    assert made.delay[Way.REACH, 0] == pytest.approx(-LIMITS.save_reaction - moving)
    assert not _replies((1.2, 0.0, 0.0), (1.5, 1.0), 0.5).usable[Way.REACH, 0]


def test_a_sharp_shot_may_be_met_on_the_post_by_someone_beside_it():
    beside = _replies((0.35, 0.45, 1.0), (0.5, 3.0), 0.0)
    assert beside.usable[Way.STAND_ON_POST, 0]
    assert list(beside.pose[Way.STAND_ON_POST, 0]) == list(POSTS[0, 0])
    away = _replies((1.2, 0.0, 0.0), (0.5, 3.0), 0.0)
    assert not away.usable[Way.STAND_ON_POST, 0]
    in_time = _replies((1.2, 0.0, 0.0), (0.5, 3.0), 2.0)
    assert in_time.usable[Way.DOWN_ON_POST, 0]
    in_front = _replies((0.35, 0.45, 1.0), (6.0, 0.0), 2.0)
    assert not in_front.usable[Way.STAND_ON_POST, 0]


@settings(deadline=None, max_examples=40)
@given(
    st.floats(0.3, 2.5), st.floats(-0.5, 0.5), st.floats(3.0, 12.0), st.floats(-6.0, 6.0),
    st.floats(0.0, 2.0),
)  # fmt: skip
def test_replies_have_a_mirror(depth, aside, x, y, time):
    one = _replies((depth, aside, 0.3), (x, y), time, drops=True, reaches=True)
    other = _replies((depth, -aside, -0.3), (x, -y), time, drops=True, reaches=True)
    flip = np.array([1.0, -1.0, -1.0])
    assert (one.usable == other.usable).all()
    used = one.usable
    assert one.pose[used] == pytest.approx(other.pose[used] * flip, abs=1e-9)
    assert one.delay[used] == pytest.approx(other.delay[used], abs=1e-9)


@settings(deadline=None, max_examples=40)
@given(st.floats(0.01, 4.0))
def test_the_way_covered_in_a_time_is_the_inverse_of_the_time_for_a_way(distance):
    law = MOTION.law(MoveKind.T_PUSH)
    time = np.array([law.duration(distance)])
    assert _rest_to_rest(law, time)[0] == pytest.approx(distance, rel=1e-6)


def test_the_line_leans_with_the_puck_and_swings_behind_the_net():
    goal = RINK.goal
    assert line_bearing((6.0, 0.0), goal) == 0.0
    assert line_bearing((0.1, 5.0), goal) == STEEPEST_LINE
    assert line_bearing((-1.5, 5.0), goal) == STEEPEST_LINE
    assert line_bearing((-1.5, 0.0), goal) == 0.0
    assert line_bearing((-1.5, -0.4), goal) == -line_bearing((-1.5, 0.4), goal)


def test_a_line_keeps_her_in_front_clear_of_the_puck_and_of_people():
    line = puck_line((6.0, 0.0), RINK.goal, PARAMETERS.model, people=((2.0, 0.0),))
    assert _allows(line, 1.0, 0.0)
    assert not _allows(line, 2.0, 0.1)  # somebody stands there
    assert not _allows(line, 1.0, 0.9)  # too far beside the line
    assert not _allows(line, 0.2, 0.0)  # nearer than the least depth
    near = puck_line((1.6, 0.0), RINK.goal, PARAMETERS.model)
    assert not _allows(near, 0.8, 0.0)  # no room to the puck
    below = puck_line((-1.5, 3.0), RINK.goal, PARAMETERS.model)
    x, y = below.place(0.5, 0.0)
    assert x < y
    assert not _allows(below, 0.3, 1.2)  # behind the goal line
    # by hand: 0.8 m along and 0.5 m off the line is 0.94 m from the goal's centre, beyond 0.9 m
    assert not _allows(below, 0.8, -0.5)
    assert _allows(below, 0.7, -0.5)
    # by hand: 0.4 m along 80 degrees is 0.07 m out, nearer to the goal line than 0.1 m
    assert not _allows(below, 0.4, 0.0)
    assert _allows(below, 0.4, -0.2)


def test_with_the_puck_below_the_goal_line_she_stays_between_the_posts_of_a_small_goal():
    """By hand: 0.6 m along 80 degrees, 0.4 m off it, is 0.52 m aside; the post is at 0.51 m."""
    goal = rink(small_goal=True).goal
    line = puck_line((-1.5, 3.0), goal, PARAMETERS.model)
    assert goal.half_width == pytest.approx(0.51)
    assert not _allows(line, 0.6, -0.4)
    assert _allows(line, 0.55, -0.4)


def test_waiting_she_faces_the_puck_but_turns_no_further_than_seventy_degrees():
    """By hand: from 1 m out a puck at (1, 5) is 90 degrees off; behind the net 70 at a post."""
    place = np.array([[1.0, 0.0]])
    for puck, degrees in (((5.0, 4.0), 45.0), ((1.0, 5.0), 70.0), ((-1.5, -4.0), -70.0),
                          ((-1.5, 0.0), 0.0)):  # fmt: skip
        facing = puck_line(puck, RINK.goal, PARAMETERS.model).poses(place)[0, 2]
        assert math.degrees(facing) == pytest.approx(degrees)


@pytest.mark.parametrize("small", [False, True])
def test_across_the_goal_line_her_limits_do_not_jump(small):
    """A puck a centimetre in front of the goal line is as good as one a centimetre behind it."""
    goal = rink(small_goal=small).goal
    front, behind = (puck_line((x, 4.0), goal, PARAMETERS.model) for x in (0.01, -0.01))
    assert front.bearing == behind.bearing
    assert front.most_depth == pytest.approx(behind.most_depth)
    assert front.furthest == pytest.approx(behind.furthest)
    assert front.most_aside == pytest.approx(behind.most_aside)


def test_the_sharper_the_puck_the_nearer_to_the_posts_she_stays():
    """By hand: half way from 55 to 80 degrees the limit is half way from 3 m to 0.9 m."""
    limits = []
    for degrees in (30.0, 55.0, 67.5, 80.0, 85.0):
        angle = math.radians(degrees)
        puck = (8.0 * math.cos(angle), 8.0 * math.sin(angle))
        limits.append(puck_line(puck, RINK.goal, PARAMETERS.model).most_depth)
    assert limits == pytest.approx([3.0, 3.0, 1.95, 0.9, 0.9])


def test_beside_a_sharp_puck_she_may_stand_on_the_post():
    """By hand: at 80 degrees her room to the puck has shrunk to her own half width."""
    angle = math.radians(80.0)
    puck = (math.cos(angle), math.sin(angle))
    line = puck_line(puck, RINK.goal, PARAMETERS.model)
    assert line.gap == pytest.approx(0.25)
    assert line.most_depth == pytest.approx(0.75)
    # by hand: half way, at 67.5 degrees and 2 m, from 1 m (2 m less her usual room) to 0.9 m
    half = math.radians(67.5)
    between = puck_line((2 * math.cos(half), 2 * math.sin(half)), RINK.goal, PARAMETERS.model)
    assert (between.gap, between.most_depth) == pytest.approx((0.625, 0.95))
    straight = puck_line((1.0, 0.0), RINK.goal, PARAMETERS.model)
    assert (straight.gap, straight.most_depth) == pytest.approx((0.7, 0.3))


def _allows(line, depth, offset):
    return bool(line.allowed(np.array([depth]), np.array(offset))[0])


def _surface_of(depths, left, right, *, set_again, backed, late=0.1, shot=None):
    """Return a surface of two moves, his left and right, and a late shot (none: never worth it)."""
    count = len(depths)
    shot = np.zeros(count) if shot is None else shot
    moves = np.stack([left, right])
    return Surface(
        depths=depths,
        round_her=moves,
        late_shot=np.repeat(shot[None, None, :], len(COMMIT_OFFSETS), axis=1),
        round_her_moving=moves[:, COMMIT_OFFSETS.index(0.0)] + late,
        late_shot_moving=shot + late,
        weights=np.array([1.0, 1.0]),
        set_again=np.asarray(set_again, float),
        backed=np.asarray(backed, float),
    )


def _surface():
    depths = np.array([0.5, 1.0, 2.0])
    # his left is worse with her right of the line and the other way round; deeper is better
    base = 0.2 + 0.1 * depths
    aside = np.array(COMMIT_OFFSETS)
    return _surface_of(
        depths, base[None, :] - 0.2 * aside[:, None], base[None, :] + 0.2 * aside[:, None],
        set_again=[9.0, 0.9, 0.05], backed=[9.1, 1.0, 0.1],
    )  # fmt: skip


def test_a_surface_runs_straight_between_places_and_takes_his_better_move():
    surface = _surface()
    # by hand: at 1.5 m, 0.15 m left: 0.2 + 0.15 + 0.2 * 0.15 = 0.38
    assert surface.at(np.array([1.5]), np.array([0.15]))[0, 0] == pytest.approx(0.38)
    chance, shade, moving = surface.shaded(surface.depths)
    assert moving[0] == pytest.approx(chance[0] + 0.1)
    assert chance[0] == pytest.approx([0.25, 0.3, 0.4])
    assert shade == pytest.approx([0, 0, 0], abs=1e-12)
    assert np.ptp(SHADES) > 0.0


def test_she_backs_up_as_far_as_she_can_and_helps():
    surface = _surface()
    best, along, aside = best_commit(surface, np.array([2.0, 0.5]), np.array([0.0, 0.3]))
    # from 2 m she reaches all depths down to 0.5 (9 m of time): 0.25 there
    assert best[0, 0] == pytest.approx(0.25)
    assert along[0] == pytest.approx(0.5)
    # at 0.5 m and 0.3 m off the line she steps onto it: 0.25 instead of 0.31
    assert best[0, 1] == pytest.approx(0.25)
    assert aside[1] == pytest.approx(0.0, abs=1e-12)


def test_she_is_met_where_the_late_shot_and_the_way_round_cost_the_same():
    """By hand: 0.2 + 0.1 d going round, 0.6 - 0.3 d shooting late: equal at 1 m, 0.3 each."""
    depths = np.array([0.5, 2.0])
    row = np.repeat((0.2 + 0.1 * depths)[None, :], len(COMMIT_OFFSETS), axis=0)
    surface = _surface_of(
        depths, row, row, set_again=[9.0, 9.0], backed=[9.5, 9.5], shot=0.6 - 0.3 * depths
    )
    best, along, _ = best_commit(surface, np.array([2.0]), np.array([0.0]))
    assert along[0] == pytest.approx(1.0, abs=0.03)
    assert best[:, 0] == pytest.approx([0.3, 0.3], abs=0.01)


def test_she_never_comes_out_to_meet_him():
    """Even where further out would be better, he commits against her no further out than she is."""
    depths = np.array([0.5, 1.0, 2.0])
    better_out = np.repeat((0.8 - 0.3 * depths)[None, :], len(COMMIT_OFFSETS), axis=0)
    surface = _surface_of(
        depths, better_out, better_out, set_again=np.full(3, 9.0), backed=np.full(3, 9.5), late=0.0
    )
    best, along, _ = best_commit(surface, np.array([0.7]), np.array([0.0]))
    assert along[0] <= 0.7
    assert best[0, 0] == pytest.approx(0.8 - 0.3 * 0.7)  # by hand: met where she stands


def test_the_harder_she_must_back_up_the_later_she_is():
    """by hand: best at 0.5 m. Set again after 1.0 m; half of the next 0.4 m costs half of 0.1."""
    depths = np.array([0.5, 1.7])
    aside = np.array(COMMIT_OFFSETS)[:, None]
    rising = np.array([[0.2, 0.9]])
    surface = _surface_of(
        depths, rising - 0.2 * aside, rising + 0.2 * aside,
        set_again=np.full(2, 1.0), backed=np.full(2, 1.4),
    )  # fmt: skip
    best, along, _ = best_commit(surface, np.array([1.4, 1.7]), np.zeros(2))
    assert best[0, 0] == pytest.approx(0.2)
    assert best[0, 1] == pytest.approx(0.2 + 0.5 * 0.1)
    assert along == pytest.approx([0.5, 0.5])


def test_where_she_cannot_get_there_she_is_met_on_her_way():
    """By hand: she comes 0.4 m, from 1.7 m to 1.3 m: 0.2 + 0.8 * 0.7 / 1.2 and 0.1 for being late.

    From 0.6 m off the line she comes to 0.2 m off it: 0.2 + 0.5 * 0.2 and 0.1.
    """
    depths = np.array([0.5, 1.7])
    aside = np.array(COMMIT_OFFSETS)[:, None]
    rising = np.array([[0.2, 0.9]])
    surface = _surface_of(
        depths, rising - 0.5 * aside, rising + 0.5 * aside,
        set_again=np.full(2, 0.2), backed=np.full(2, 0.4),
    )  # fmt: skip
    best, along, off = best_commit(surface, np.array([1.7, 0.5]), np.array([0.0, 0.6]))
    assert best[0] == pytest.approx([0.2 + 0.8 * 0.7 / 1.2 + 0.1, 0.2 + 0.1 + 0.1])
    assert along == pytest.approx([1.3, 0.5])
    assert off == pytest.approx([0.0, 0.2])


def test_backing_up_never_helps_her_against_what_he_can_do_to_one_who_stands():
    surface = replace(_surface(), round_her_moving=np.zeros((2, 3)))
    standing, _, moving = surface.shaded(surface.depths)
    assert moving[0] == pytest.approx(standing[0])


def test_places_without_an_answer_are_bridged():
    chance = np.array([[0.2, np.nan, 0.4], [np.nan, 0.3, 0.5]])
    assert bridged(chance) == pytest.approx(np.array([[0.2, 0.3, 0.4], [0.3, 0.3, 0.5]]))
