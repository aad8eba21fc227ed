"""The answer as a whole: what it says, what it hangs on, and what must come out by itself."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from tendline.base import InputError, Level, Settings, Side
from tendline.body import Pose
from tendline.play import (
    COMING_IN,
    DepthName,
    Numbers,
    OptionKind,
    evaluate_place,
    numbers_word,
    play_parameters,
    read,
)
from tendline.play.constants import TIGHT_SHARE
from tests.play.cases import (
    ACROSS,
    BREAKAWAY,
    LEVEL,
    PARAMETERS,
    TWO_ON_ONE,
    TWO_ON_TWO,
    attacker,
    defender,
    goaltender,
    situation,
)

SHOT_AND_PASS = frozenset({OptionKind.SHOOT, OptionKind.ONE_TIMER, OptionKind.SETTLE})


def _depth(moment, **more):
    return read(moment, goaltender(), PARAMETERS, detail=False, **more).depth


def _even_is_deeper_out(options):
    odd = situation(*TWO_ON_TWO.attackers, TWO_ON_TWO.defenders[0])
    return _depth(TWO_ON_TWO, options=options) > _depth(odd, options=options) + 0.15


def test_an_even_rush_calls_her_further_out_than_a_two_on_one_because_of_the_pass():
    assert _even_is_deeper_out(SHOT_AND_PASS)
    assert not _even_is_deeper_out(frozenset({OptionKind.SHOOT}))


def test_with_every_option_the_even_rush_still_calls_her_further_out():
    assert _depth(TWO_ON_TWO) > _depth(TWO_ON_ONE) + 0.15


def test_without_the_pass_the_two_on_one_lets_her_out():
    without = frozenset(OptionKind) - SHOT_AND_PASS | {OptionKind.SHOOT}
    assert _depth(TWO_ON_ONE, options=without) > _depth(TWO_ON_ONE) + 0.5


def test_numbers_are_recognised_from_places_alone():
    assert read(TWO_ON_ONE, goaltender(), PARAMETERS, detail=False).numbers is Numbers.ODD
    assert read(TWO_ON_TWO, goaltender(), PARAMETERS, detail=False).numbers is Numbers.EVEN
    assert read(BREAKAWAY, goaltender(), PARAMETERS, detail=False).numbers is Numbers.ALONE
    assert numbers_word(TWO_ON_ONE) == "2-on-1"
    passed = situation(attacker("F1", 6, 0), defender("D1", 12, 0))
    assert numbers_word(passed) == "lone carrier"  # by hand: he is further from the goal
    four = situation(attacker("F1", 9, 0), defender("D1", 5, 0), defender("D2", 4, 2))
    assert read(four, goaltender(), PARAMETERS, detail=False).numbers is Numbers.OUTNUMBERED


def test_the_answer_is_two_sentences_with_the_numbers_in_them():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    assert len(answer.answer) == 2
    assert f"{answer.depth:.1f} m out" in answer.answer[0]
    assert answer.worst.words in answer.answer[1]
    assert "goals in 100" in str(answer)


def test_every_reason_holds_its_number_and_known_keys():
    from tendline.motion import MOTION_CONSTANTS
    from tendline.play import play_constants

    known = {one.key for one in (*play_constants(ACROSS.level), *MOTION_CONSTANTS)}
    found = read(ACROSS, goaltender(), PARAMETERS, detail=False).reasons
    assert len(found) >= 4
    for one in found:
        assert math.isfinite(one.value)
        assert set(one.keys) <= known
        assert one.text.endswith(".")


def test_the_band_holds_the_depth_and_the_curve_runs_through_it():
    answer = read(ACROSS, goaltender(), PARAMETERS)
    assert answer.band.low <= answer.depth <= answer.band.high
    at_depth = np.interp(answer.depth, answer.curve.depth, answer.curve.combined)
    assert at_depth == pytest.approx(answer.loss, abs=0.01)
    assert len(answer.curve.names) == len(answer.options)


def test_options_are_ranked_and_their_losses_add_up():
    answer = read(ACROSS, goaltender(), PARAMETERS)
    losses = [one.loss for one in answer.options]
    assert losses == sorted(losses, reverse=True)
    cut = PARAMETERS.model.cut_loss
    for one in answer.options:
        chance = one.goal_chance + one.after_save
        by_hand = one.comes_off * chance + (1 - one.comes_off) * cut
        assert one.loss == pytest.approx(by_hand, abs=1e-9)
        assert 0.0 <= one.goal_chance <= 1.0
    mean = sum(losses) / len(losses)
    tremble = PARAMETERS.model.tremble
    assert answer.loss == pytest.approx((1 - tremble) * losses[0] + tremble * mean, abs=1e-9)


def test_the_answer_from_its_own_spot_is_what_evaluate_place_says():
    answer = read(ACROSS, goaltender(), PARAMETERS)
    place = evaluate_place(ACROSS, goaltender(), PARAMETERS, answer.spot)
    assert place.loss == pytest.approx(answer.loss, abs=1e-9)
    assert place.depth == pytest.approx(answer.depth, abs=1e-9)
    assert [one.option for one in place.options] == [one.option for one in answer.options]


def test_a_habit_of_passing_draws_her_in_and_one_of_shooting_lets_her_out():
    options = SHOT_AND_PASS
    passes = _depth(ACROSS, options=options, habits={OptionKind.ONE_TIMER: 60})
    shoots = _depth(ACROSS, options=options, habits={OptionKind.SHOOT: 60})
    assert passes < shoots - 0.2


def test_habits_count_as_stated():
    answer = read(ACROSS, goaltender(), PARAMETERS, habits={OptionKind.SHOOT: 4}, detail=False)
    assert answer.observed == 4
    assert answer.worst_share == pytest.approx(12 / 16)  # by hand: n0 = 12
    shot = answer.option("shoot now")
    assert shot.weight == pytest.approx(1.0)


@pytest.mark.parametrize("moment", [TWO_ON_ONE, ACROSS, BREAKAWAY])
def test_the_depth_has_its_published_name(moment):
    answer = read(moment, goaltender(), PARAMETERS, detail=False)
    expected = {
        DepthName.DEFENSIVE: answer.depth < 0.5,
        DepthName.CONSERVATIVE: 0.5 <= answer.depth < 1.6,
        DepthName.BASE: 1.1 <= answer.depth <= 2.08,
        DepthName.AGGRESSIVE: answer.depth > 1.4,
    }
    assert expected[answer.depth_name]


def test_nobody_to_shoot_or_pass_is_refused():
    with pytest.raises(InputError, match="no option is left"):
        read(ACROSS, goaltender(), PARAMETERS, options=frozenset())


def test_an_unknown_option_is_refused_by_name():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    with pytest.raises(InputError, match="no option of that name"):
        answer.option("juggle")


@pytest.mark.parametrize(
    ("pose", "words"),
    [
        (Pose(6.0, -3.4, 0.0), "the puck lies inside the goaltender"),
        (Pose(-0.4, 0.0, 0.0), "she stands inside the net"),
        (Pose(1.0, 20.0, 0.0), "goaltender: distance to the side is out of range"),
    ],
)
def test_places_where_she_cannot_be_are_refused(pose, words):
    with pytest.raises(InputError, match=words):
        evaluate_place(ACROSS, goaltender(), PARAMETERS, pose)


def test_a_time_that_makes_no_sense_is_refused():
    with pytest.raises(InputError, match="time until set"):
        evaluate_place(ACROSS, goaltender(), PARAMETERS, Pose(1, 0, 0), late=-1.0)


@pytest.mark.parametrize("puck", [(0.9, 0.0), (0.56, 0.0), (0.5, 0.5), (0.1, 0.7), (-0.2, 1.2)])
def test_a_puck_in_the_crease_still_has_an_answer(puck):
    moment = situation(attacker("F1", *puck), attacker("F2", 4.0, 1.0))
    answer = read(moment, goaltender(), PARAMETERS, detail=False)
    assert 0.3 <= answer.depth <= 0.9
    assert 0.0 < answer.loss < 1.0
    place = evaluate_place(moment, goaltender(), PARAMETERS, answer.spot)
    assert place.loss == pytest.approx(answer.loss, abs=0.05)


@pytest.mark.parametrize("puck", [(0.54, 0.0), (0.3, 0.0), (0.1, 0.3)])
def test_a_puck_at_her_feet_is_covered_not_computed(puck):
    moment = situation(attacker("F1", *puck), attacker("F2", 4.0, 1.0))
    with pytest.raises(InputError, match="puck: the puck lies at her feet"):
        read(moment, goaltender(), PARAMETERS, detail=False)


def test_she_keeps_her_room_to_a_carrier_who_is_not_on_the_puck():
    """The puck lies loose at the point, its carrier in front of her: nobody stands in him."""
    on_it = situation(attacker("F1", 16.0, 0.0))
    beside = replace(on_it, carrier=attacker("F1", 1.5, 0.0), puck=(16.0, 0.0))
    room = PARAMETERS.model.body_room
    here, there = (read(one, goaltender(), PARAMETERS, detail=False) for one in (on_it, beside))
    assert math.dist((here.spot.x, here.spot.y), (1.5, 0.0)) < room
    assert math.dist((there.spot.x, there.spot.y), (1.5, 0.0)) > room - 1e-3


@pytest.mark.parametrize("kinds", [{OptionKind.DEKE}, {OptionKind.COME_IN}, set(COMING_IN)])
def test_coming_in_may_be_all_that_is_left_to_the_attack(kinds):
    on = frozenset(kinds)
    answer = read(BREAKAWAY, goaltender(), PARAMETERS, options=on, detail=False)
    assert {one.option.kind for one in answer.options} == on
    place = evaluate_place(BREAKAWAY, goaltender(), PARAMETERS, answer.spot, options=on)
    assert place.loss == pytest.approx(answer.loss, abs=1e-9)


def test_a_crease_full_of_people_is_refused_by_name():
    crowd = [
        defender(f"D{n}", x, y)
        for n, (x, y) in enumerate(
            (0.3 + 0.5 * i, 0.4 * j) for i in range(6) for j in (-1.5, -0.5, 0.5, 1.5)
        )
    ]
    moment = situation(attacker("F1", 7.0, 0.0), *crowd)
    with pytest.raises(InputError, match="no room for her to stand"):
        read(moment, goaltender(), PARAMETERS, detail=False)


def test_beside_somebody_in_the_crease_half_the_usual_room_must_do():
    """A mate in the crease, the puck in the corner: no place of hers lies 0.8 m from him."""
    mate = attacker("F2", 0.49, -0.31)
    moment = situation(attacker("F1", 0.06, -8.5), mate)
    answer = read(moment, goaltender(), PARAMETERS, detail=False)
    away = math.dist((answer.spot.x, answer.spot.y), mate.place)
    room = PARAMETERS.model.body_room
    assert TIGHT_SHARE.value * room - 1e-3 <= away < room
    at = np.interp(answer.depth, answer.curve.depth, answer.curve.combined)
    assert np.isfinite(at)


def test_room_is_found_between_people():
    crowd = [defender(f"D{n}", x, 0.0) for n, x in enumerate((0.4, 1.0, 1.8, 2.6))]
    moment = situation(attacker("F1", 7.0, 0.0), *crowd)
    wide = play_parameters(LEVEL, Settings.of({"play.offset_most": 0.9, "play.body_room": 0.5}))
    answer = read(moment, goaltender(), wide, detail=False)
    for one in crowd:
        assert math.dist((one.x, one.y), (answer.spot.x, answer.spot.y)) >= 0.5 - 1e-9


def test_answers_and_replies_say_themselves_in_words():
    answer = read(ACROSS, goaltender(), PARAMETERS, detail=False)
    shot = answer.option("shoot now")
    assert str(shot) == f"shoot now: {100 * shot.loss:.0f} goals in 100"
    words = {one.reply.words for one in answer.options}
    assert all(words)
    far = read(situation(attacker("F1", 16.0, 0.0)), goaltender(), PARAMETERS, detail=False)
    assert far.option("shoot now").reply.words == "hold and react"


def test_a_place_without_any_answer_is_an_error(monkeypatch):
    import tendline.play.answers as module

    real = module.meetings

    def nowhere(engine, pose):
        return tuple(replace(one, loss=math.nan) for one in real(engine, pose))

    monkeypatch.setattr(module, "meetings", nowhere)
    with pytest.raises(InputError, match="she cannot stand there"):
        evaluate_place(ACROSS, goaltender(), PARAMETERS, Pose(1.0, 0.0, 0.0))


GRID = np.arange(0.4, 2.9, 0.1)
MOST_ABOVE_BOTH = 0.012
"""No point of an option's curve lies further above both its neighbours, or below."""
MOST_TOGETHER = 0.002
"""The same for all options together, which decide."""


@pytest.mark.parametrize(
    ("level", "stature", "people"),
    [
        (
            Level.U18, 1.70,
            (attacker("F1", 7.2, -5), attacker("F2", 6.2, 4.6, hand=Side.RIGHT),
             defender("D1", 6.4, 0.6)),
        ),
        (
            Level.U15, 1.66,
            (attacker("F1", 8.5, -5), attacker("F2", 7, 4.5), defender("D1", 5.5, 1)),
        ),
        (
            Level.U15, 1.66,
            (attacker("F1", 8.5, -5, vx=-6), attacker("F2", 7, 4.5, vx=-6),
             defender("D1", 5.5, 1, vx=-5)),
        ),
        (Level.U15, 1.66, (attacker("F1", 10.1, -7.9),)),
    ],
)  # fmt: skip
def test_no_curve_has_spikes_or_holes(level, stature, people):
    her, parameters = goaltender(stature, level=level), play_parameters(level)
    curve = read(situation(*people, level=level), her, parameters).curve
    limits = [*(MOST_ABOVE_BOTH for _ in curve.loss), MOST_TOGETHER]
    for row, most in zip((*curve.loss, curve.combined), limits, strict=True):
        values = np.interp(GRID, curve.depth, row)
        over = np.minimum(values[1:-1] - values[:-2], values[1:-1] - values[2:])
        under = np.minimum(values[:-2] - values[1:-1], values[2:] - values[1:-1])
        assert max(over.max(), under.max()) <= most
