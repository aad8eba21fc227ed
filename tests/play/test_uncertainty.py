"""How far the answer moves with its assumptions."""

from __future__ import annotations

import numpy as np
import pytest

from tendline.motion import MoveKind
from tendline.play import read
from tendline.play.read import best_depth, place_losses, prepare
from tendline.play.search import lowest_place
from tendline.play.uncertainty import assumptions, paced, step_of
from tests.play.cases import ACROSS, LEVEL, PARAMETERS, goaltender


@pytest.fixture(scope="module")
def answer():
    return read(ACROSS, goaltender(), PARAMETERS)


def test_a_step_is_a_fifth_or_the_end_of_the_range():
    for one in assumptions(LEVEL):
        constant = one.constant
        low, high = step_of(constant, constant.value)
        assert constant.low <= low < constant.value < high <= constant.high
        assert high - constant.value <= 0.2 * abs(constant.value) + 1e-12


def test_another_assumption_is_answered_by_the_middle_of_its_band():
    engine, weights = prepare(
        ACROSS, goaltender(), PARAMETERS, habits=None, options=None, fine=False
    )
    depth, loss = best_depth(engine, weights, 0.0)
    field = lowest_place(engine.line, place_losses(engine), weights, only=0.0)
    assert depth == pytest.approx(0.5 * (field.band.low + field.band.high))
    assert field.band.width > 0.1
    assert loss == field.row.min()


def test_the_full_answer_looks_at_depths_a_hand_apart(answer):
    assert np.diff(answer.curve.depth).max() <= 0.1 + 1e-9


def test_the_assumption_that_matters_most_comes_first(answer):
    swings = [one.depth_swing for one in answer.sensitivities]
    assert swings == sorted(swings, reverse=True)
    assert swings[0] > 0.0
    keys = [one.key for one in answer.sensitivities]
    assert len(set(keys)) == len(keys)
    assert {f"play.pass_speed.{LEVEL.value}", "play.settle_time"} <= set(keys)


def test_central_differences_have_the_right_sign(answer):
    by_key = {one.key: one for one in answer.sensitivities}
    quicker_pass = by_key[f"play.pass_speed.{LEVEL.value}"]
    assert quicker_pass.depth_low >= quicker_pass.depth_high
    assert quicker_pass.loss_low <= quicker_pass.loss_high + 1e-9
    slower_reaction = next(one for one in answer.sensitivities if one.key.startswith("motion.reac"))
    assert slower_reaction.loss_low <= slower_reaction.loss_high


def test_intervals_hold_the_chance(answer):
    for one in answer.options:
        assert 0.0 <= one.chance_low <= one.goal_chance <= one.chance_high <= 1.0
    assert any(one.chance_high > one.chance_low for one in answer.options)


def test_pace_scales_every_travelling_move():
    motion = goaltender().motion
    quick = paced(motion, 1.25)
    law, old = quick.law(MoveKind.T_PUSH), motion.law(MoveKind.T_PUSH)
    assert law.top_speed == pytest.approx(1.25 * old.top_speed)
    assert quick.reaction == motion.reaction
    with pytest.raises(ValueError, match="above zero"):
        paced(motion, 0.0)
