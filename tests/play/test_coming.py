"""A carrier who comes in: where she is met, what he can make of it, and shots met by dropping."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tendline.base import Level, Settings, Side
from tendline.motion import MoveKind
from tendline.play import COMING_IN, OptionKind, evaluate_place, read
from tendline.play.coming import met_coming_in, surface_of
from tendline.play.deke import (
    BLOCKS,
    COMMIT_OFFSETS,
    commit_depths,
    late_releases,
    moves_from,
    retreats,
)
from tendline.play.firing import HEAD_START, Part, candidates
from tendline.play.geometry import LEAST_OUT
from tendline.play.loose import second_chances
from tendline.play.read import prepare
from tendline.play.reply import LONGEST_REACH
from tendline.shot.constants import REACTION
from tests.play.cases import (
    BREAKAWAY,
    LEVEL,
    PARAMETERS,
    TWO_ON_ONE,
    attacker,
    goaltender,
    situation,
)

ON_LINE = COMMIT_OFFSETS.index(0.0)
MODEL = PARAMETERS.model


def _engine(moment, *kinds):
    engine, _ = prepare(
        moment, goaltender(), PARAMETERS, habits=None, options=frozenset(kinds or COMING_IN),
        fine=False,
    )  # fmt: skip
    return engine


@pytest.mark.parametrize("aside", [0.4, -0.4])
@pytest.mark.parametrize("bearing", [0.0, 0.6, -0.6])
def test_without_time_she_is_met_on_her_own_side_of_the_line(aside, bearing):
    """He is 2.5 m away at full speed: by hand she has moved no more than a few centimetres."""
    ux, uy = math.cos(bearing), math.sin(bearing)
    engine = _engine(situation(attacker("F1", 2.5 * ux, 2.5 * uy, vx=-8 * ux, vy=-8 * uy)))
    pose = np.array([[1.0 * ux - aside * uy, 1.0 * uy + aside * ux, bearing]])
    met = met_coming_in(engine, pose)
    assert met.aside[0] == pytest.approx(aside, abs=0.1)
    assert met.along[0] == pytest.approx(1.0, abs=0.1)


def test_with_time_it_does_not_matter_where_she_waits():
    engine = _engine(situation(attacker("F1", 14.0, 0.0)))
    met = met_coming_in(engine, np.array([[1.5, 0.0, 0.0], [2.0, 0.5, 0.0], [2.5, -0.5, 0.0]]))
    assert np.ptp(met.along) == pytest.approx(0.0, abs=1e-9)
    assert np.ptp(met.chance, axis=1) == pytest.approx([0.0, 0.0], abs=1e-9)


def test_what_is_switched_off_is_not_weighed():
    both, late, round_her = (
        surface_of(_engine(BREAKAWAY, *kinds)).weights.tolist()
        for kinds in (COMING_IN, (OptionKind.COME_IN,), (OptionKind.DEKE,))
    )
    assert both == [MODEL.deke_open, 1.0]
    assert late == [0.0, 1.0]
    assert round_her == [MODEL.deke_open, 0.0]


def test_still_backing_up_she_is_beaten_more_easily():
    surface = surface_of(_engine(BREAKAWAY))
    round_her = surface.round_her_moving - surface.round_her[:, ON_LINE]
    late_shot = surface.late_shot_moving - surface.late_shot[0, ON_LINE]
    assert min(round_her.min(), late_shot.min()) > -1e-6
    assert max(round_her.max(), late_shot.max()) > 0.03


def test_a_carrier_who_comes_in_has_no_second_shot():
    """What may follow is in the share of his moves that come off."""
    options = read(TWO_ON_ONE, goaltender(), PARAMETERS, detail=False).options
    after = {one.option.kind: one.after_save for one in options}
    assert after[OptionKind.DEKE] == after[OptionKind.COME_IN] == 0.0
    assert after[OptionKind.SHOOT] > 0.0
    engine = _engine(TWO_ON_ONE, OptionKind.SHOOT, *COMING_IN)
    pose = np.array([[1.0, -0.4, -0.4]])
    parts = [
        Part(one, pose, np.array([[5.0, -2.0]]), np.zeros(1), np.full(1, one.speed))
        for one in engine.threats
    ]
    assert (candidates(engine, parts).loose == 0.0).tolist() == [False, True, True]


def test_the_shown_reply_is_to_the_move_that_costs_most():
    """By hand: with her right of the line he goes round her left, and the other way round."""
    moment = situation(attacker("F1", 3.2, 0.0, vx=-8.0))
    for y, side in ((-0.5, 1.0), (0.5, -1.0)):
        pose = read(moment, goaltender(), PARAMETERS, detail=False).spot
        pose = type(pose)(1.0, y, 0.0)
        answer = evaluate_place(moment, goaltender(), PARAMETERS, pose).option("go round her")
        assert side * (answer.release[1] - y) > 0.3


def test_the_late_shot_leaves_in_front_of_her_or_where_the_puck_is():
    poses = np.array([[1.0, 0.0, 0.0], [5.0, 0.0, 0.0]])
    assert late_releases((6.0, 0.0), poses, 2.5) == pytest.approx(
        np.array([[3.5, 0.0], [6.0, 0.0]])  # by hand: 1 + 2.5; the puck is 1 m in front of her
    )


def test_his_moves_beside_her_and_round_her():
    """By hand, she 2 m out on the line, he straight ahead, a left-handed stick.

    His forehand is on her right: he pulls it 1.1 m there and 0.9 m to her left, 0.3 m in front.
    Round her he skates wide and shoots 0.8 m out, 0.9 m off the line.
    """
    moment = situation(attacker("F1", 8.0, 0.0))
    moves = moves_from(np.array([[2.0, 0.0, 0.0]]), moment, PARAMETERS)
    assert moves.release == pytest.approx(
        np.array([[2.3, 0.9], [2.3, -1.1], [0.8, 0.9], [0.8, -0.9]])
    )
    snap = dict(PARAMETERS.release_times)
    release = next(value for kind, value in snap.items() if kind.value == "snap")
    pull = MODEL.deke_share * PARAMETERS.top_speed
    assert moves.time[:2] == pytest.approx([0.9 / pull + release, 1.1 / pull + release])
    way = math.hypot(1.3, 1.8) + math.hypot(2.0 - 0.8, 1.8 - 0.9)
    pace = MODEL.carry_share * PARAMETERS.top_speed
    assert moves.time[2:] == pytest.approx([way / pace + release] * 2)
    assert moves.speed[1] > moves.speed[0]  # harder on the forehand
    assert moves.speed[3] > moves.speed[2]
    other = situation(attacker("F1", 8.0, 0.0, hand=Side.RIGHT))
    swapped = moves_from(np.array([[2.0, 0.0, 0.0]]), other, PARAMETERS)
    assert swapped.time[0] == pytest.approx(moves.time[1])
    assert len(moves.time) == BLOCKS


def test_he_commits_no_further_out_than_just_beyond_her_stick():
    """By hand: 3 m less 1.3 m; from far off the furthest place that is looked at."""
    assert commit_depths((3.0, 0.0), MODEL)[[0, -1]] == pytest.approx([0.3, 1.7])
    assert commit_depths((9.0, 0.0), MODEL)[[0, -1]] == pytest.approx([0.3, 3.0])


def test_she_backs_up_while_he_comes_and_less_far_if_she_is_to_be_set():
    """By hand: 6.7 m at 10 m/s are 0.67 s; from there her reaction and her settling go off."""
    her = goaltender()
    law = her.motion.law(MoveKind.C_CUT_BACK)
    moment = situation(attacker("F1", 9.0, 0.0, vx=-10.0))
    found = retreats((9.0, 0.0), np.array([1.0]), moment, her, PARAMETERS)
    left = 0.67 - her.motion.reaction
    wanted = law.covered_many(50.0, np.array([left - law.settle, left]))
    assert [float(one[0]) for one in found] == pytest.approx(wanted.tolist())
    assert found[0] < found[1]


def test_no_move_ends_behind_the_goal_line():
    angle = math.radians(75.0)
    moment = situation(attacker("F1", 4 * math.cos(angle), 4 * math.sin(angle)))
    moves = moves_from(np.array([[0.2, 0.6, angle]]), moment, PARAMETERS)
    assert moves.release[:, 0].min() == pytest.approx(LEAST_OUT)


def test_she_drops_as_he_shoots_only_where_the_shot_comes_from_near_her():
    """By hand: from her, not from the goal, the puck needs less than drop and reaction together."""
    speed = 30.0
    her = goaltender()
    late_drop = speed * (her.motion.drop + PARAMETERS.shot.reaction)
    engine = _engine(situation(attacker("F1", late_drop + 1.0, 0.0)), OptionKind.SHOOT)
    poses = np.array([[0.5, 0.0, 0.0], [1.5, 0.0, 0.0]])
    part = Part(
        engine.threats[0], poses, np.array([[late_drop + 1.0, 0.0]] * 2), np.zeros(2),
        np.full(2, speed),
    )  # fmt: skip
    assert candidates(engine, [part]).pairs.drops.tolist() == [False, True]


@pytest.mark.parametrize("level", Level)
def test_no_reach_begins_before_what_the_kernel_is_told(level):
    """Delays are moved ahead by HEAD_START to stay positive, whatever reaction is set."""
    assert LONGEST_REACH + REACTION[level].high <= HEAD_START


def test_nobody_who_can_reach_a_loose_puck_means_no_second_shot():
    her = goaltender()
    nobody = Settings.of({"shot.second_reach": 0.0})
    found = second_chances(np.array([0.3, 2.0]), her.build, BREAKAWAY.rink.goal, LEVEL, nobody)
    assert found.tolist() == [0.0, 0.0]


def test_nothing_to_answer_is_an_empty_batch():
    assert len(candidates(_engine(BREAKAWAY), []).pairs.time) == 0
