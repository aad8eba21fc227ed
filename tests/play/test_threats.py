"""Options made ready: which exist, when they shoot, how likely they come off."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import Level, ShotType, Side
from tendline.play import PASSES, Option, OptionKind, play_parameters
from tendline.play.geometry import crosses_net, forehand
from tendline.play.passes import pass_kinds, struck_share
from tendline.play.threats import carried, threats
from tests.play.cases import ACROSS, PARAMETERS, RINK, attacker, defender, situation

GOAL = RINK.goal


def _kinds(moment):
    return [one.option.kind for one in threats(moment, PARAMETERS)]


def _threat(moment, kind):
    return next(one for one in threats(moment, PARAMETERS) if one.option.kind is kind)


def test_a_carrier_in_front_may_shoot_carry_and_go_round_her():
    assert _kinds(situation(attacker("F1", 6, 0))) == [
        OptionKind.SHOOT, OptionKind.CARRY, OptionKind.CARRY, OptionKind.DEKE, OptionKind.COME_IN,
    ]  # fmt: skip


def test_kinds_switched_off_are_left_out():
    on = frozenset({OptionKind.SHOOT})
    assert [one.option.kind for one in threats(ACROSS, PARAMETERS, on)] == [OptionKind.SHOOT]


@pytest.mark.parametrize(
    ("puck", "mate", "kinds"),
    [
        ((6, -3), (6, 3), (OptionKind.ONE_TIMER, OptionKind.SETTLE)),
        ((-1.5, 5), (4, 0), (OptionKind.LOW_PASS, OptionKind.SETTLE)),
        ((-1.5, 5), (10, 0), (OptionKind.HIGH_PASS, OptionKind.SETTLE)),
        ((6, -3), (16, 3), (OptionKind.POINT_SHOT,)),
        ((6, 0), (9, 1), (OptionKind.TRAILER,)),
    ],
)
def test_a_pass_is_called_by_where_it_goes(puck, mate, kinds):
    moment = situation(attacker("F1", *puck), attacker("F2", *mate))
    assert pass_kinds(moment, moment.mates[0], PARAMETERS) == kinds
    assert all(kind.is_pass for kind in kinds)


def test_only_passes_are_passes():
    assert OptionKind.SHOOT not in PASSES
    assert not OptionKind.TIP.is_pass


def test_a_puck_behind_the_net_may_be_wrapped_and_walked_out_but_not_shot():
    kinds = _kinds(situation(attacker("F1", -1.6, 1.5)))
    assert kinds == [OptionKind.WALK_OUT, OptionKind.WRAP, OptionKind.WRAP]


def test_a_pass_through_the_net_does_not_exist():
    kinds = _kinds(situation(attacker("F1", -1.6, 0.0), attacker("F2", 4, 0)))
    assert not any(kind.is_pass for kind in kinds)


def test_a_receiver_behind_the_goal_line_is_no_threat():
    kinds = _kinds(situation(attacker("F1", 5, 0), attacker("F2", -1.5, 5)))
    assert not any(kind.is_pass for kind in kinds)


def test_a_wide_carrier_may_drive_the_net_and_a_central_one_may_not():
    assert OptionKind.NET_DRIVE in _kinds(situation(attacker("F1", 6, 5)))
    assert OptionKind.NET_DRIVE not in _kinds(situation(attacker("F1", 6, 1)))


def test_a_mate_in_front_may_tip_a_point_shot():
    moment = situation(attacker("F1", 17, 0), attacker("F2", 3, 0.3))
    tip = _threat(moment, OptionKind.TIP)
    assert tip.release == (3, 0.3)
    wide = situation(attacker("F1", 17, 0), attacker("F2", 3, 2.5))
    assert OptionKind.TIP not in _kinds(wide)


def test_a_one_timer_leaves_when_the_pass_arrives_and_its_delay_is_over():
    one = _threat(ACROSS, OptionKind.ONE_TIMER)
    flight = one.length / one.puck_speed
    assert one.time == pytest.approx(flight + PARAMETERS.release_time(ShotType.ONE_TIMER))
    settled = _threat(ACROSS, OptionKind.SETTLE)
    later = PARAMETERS.model.settle_time + PARAMETERS.release_time(ShotType.WRIST)
    assert settled.time == pytest.approx(flight + later)


def test_a_defender_in_the_lane_cuts_half_the_passes_and_stops_most_carriers():
    free = situation(*ACROSS.attackers)
    marked = situation(*ACROSS.attackers, defender("D1", 6.0, 0.0))
    assert _threat(free, OptionKind.ONE_TIMER).lane == 1.0
    assert _threat(marked, OptionKind.ONE_TIMER).lane == pytest.approx(0.5, abs=0.01)  # cut_most
    in_the_way = situation(attacker("F1", 6.0, 0.0), defender("D1", 4.0, 0.0))
    assert _threat(in_the_way, OptionKind.DEKE).lane == pytest.approx(0.1, abs=0.01)  # stop_most


def test_a_defender_skating_back_stops_before_the_net():
    coming = situation(attacker("F1", 9.0, 0.0, vx=-6.0), defender("D1", 4.0, 0.0, vx=-8.0))
    assert _threat(coming, OptionKind.DEKE).lane < 0.15


def test_a_defender_before_the_shooter_blocks_some_shots():
    free = situation(attacker("F1", 9, 0))
    marked = situation(attacker("F1", 9, 0), defender("D1", 7.5, 0.0))
    assert _threat(free, OptionKind.SHOOT).comes_off == 1.0
    assert _threat(marked, OptionKind.SHOOT).comes_off < 0.8


def test_the_forehand_is_on_the_side_of_the_hand():
    # by hand: he faces the net from straight out, so his left is her right (-y)
    assert forehand(attacker("F1", 6, 0, hand=Side.LEFT), (6, 0)) == pytest.approx((0, -1))
    assert forehand(attacker("F1", 6, 0, hand=Side.RIGHT), (6, 0)) == pytest.approx((0, 1))


def test_a_blade_open_to_the_pass_strikes_more_one_timers():
    model = PARAMETERS.model
    place, puck = (6.0, 3.0), (6.0, -3.0)
    opened = struck_share(attacker("F2", *place, hand=Side.LEFT), puck, place, PARAMETERS)
    closed = struck_share(attacker("F2", *place, hand=Side.RIGHT), puck, place, PARAMETERS)
    assert model.one_timer_closed <= closed < opened <= model.one_timer_open


@pytest.mark.parametrize(
    ("start", "end", "crosses"),
    [
        ((-1.6, 0.0), (4.0, 0.0), True),
        ((-0.5, 2.0), (-0.5, -2.0), True),
        ((-1.6, 2.0), (4.0, 2.0), False),
        ((4.0, 0.0), (0.5, 0.0), False),
        ((-2.0, 3.0), (-2.0, -3.0), False),
        ((0.0, 2.0), (0.0, -2.0), False),  # along the goal line: touches the edge only
    ],
)
def test_ways_through_the_net_are_recognised(start, end, crosses):
    assert crosses_net(start, end, GOAL) is crosses
    assert crosses_net(end, start, GOAL) is crosses


def test_carrying_by_hand():
    assert carried(1.0, 0.0, 4.0, 4.0) == pytest.approx(2.0)  # a t^2 / 2
    assert carried(2.0, 0.0, 4.0, 4.0) == pytest.approx(6.0)  # 2 m, then 4 m at top speed
    assert carried(1.0, 5.0, 4.0, 4.0) == pytest.approx(5.0)  # already faster


@settings(deadline=None, max_examples=40)
@given(st.floats(1.0, 15.0), st.floats(-6.0, 6.0), st.floats(2.0, 12.0), st.floats(-5.0, 5.0))
def test_every_chance_is_a_chance_and_every_time_is_finite(x, y, mate_x, mate_y):
    if math.hypot(x - mate_x, y - mate_y) < 0.5:
        return
    moment = (
        situation(
            attacker("F1", x, y, vx=-3), attacker("F2", mate_x, mate_y), defender("D1", 3.3, 0.7)
        )
        if math.hypot(x - 3.3, y - 0.7) > 0.1 and math.hypot(mate_x - 3.3, mate_y - 0.7) > 0.1
        else None
    )
    if moment is None:
        return
    found = threats(moment, PARAMETERS)
    assert len({one.option.key for one in found}) == len(found)
    for one in found:
        assert 0.0 <= one.comes_off <= 1.0
        assert math.isfinite(one.time)
        assert one.time >= 0.0
        assert one.speed > 0.0
        assert one.release[0] > 0.0


def test_every_option_has_words_and_a_short_label():
    for kind in OptionKind:
        option = Option(kind, "F2")
        assert option.words
        assert len(option.short) <= 24
        assert option.key.startswith(kind.value)


def test_faster_skaters_are_at_the_net_sooner():
    slow = situation(attacker("F1", 12, 6), pace=0.6)
    quick = replace(slow, pace=1.0)
    assert _threat(quick, OptionKind.NET_DRIVE).time < _threat(slow, OptionKind.NET_DRIVE).time


def test_a_pass_of_no_length_is_as_open_as_can_be():
    mate = attacker("F2", 6.0, 3.0)
    assert struck_share(mate, (6.0, 3.0), (6.0, 3.0), PARAMETERS) == PARAMETERS.model.one_timer_open


def test_a_wrap_to_the_far_post_goes_round_the_back_of_the_net():
    near, far = (
        one
        for one in threats(situation(attacker("F1", -0.6, 1.4)), PARAMETERS)
        if one.option.kind is OptionKind.WRAP
    )
    assert near.option.to == "left"
    # by hand: at least once across the back of the net and forward to the post
    assert far.length > near.length + 2 * 1.05
    assert far.time > near.time


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("pace", [4.0, 6.0, 9.0])
def test_a_mate_who_would_run_out_of_room_eases_off_and_keeps_his_options(sign, pace):
    moment = situation(
        attacker("F1", 8.5, -5.0 * sign, vx=-pace), attacker("F2", 7.0, 4.5 * sign, vx=-pace),
        defender("D1", 5.5, sign, vx=-5.0), level=Level.U15,
    )  # fmt: skip
    found = {one.option.kind: one for one in threats(moment, play_parameters(Level.U15))}
    for kind in (OptionKind.ONE_TIMER, OptionKind.SETTLE):
        assert 1.5 <= found[kind].release[0] < 7.0
        assert found[kind].release[1] == 4.5 * sign


def test_a_mate_with_room_is_met_in_full_stride():
    moment = situation(attacker("F1", 12.0, -4.0), attacker("F2", 11.0, 4.0, vx=-3.0))
    found = {one.option.kind: one for one in threats(moment, PARAMETERS)}
    one = found[OptionKind.ONE_TIMER]
    flight = math.dist((12.0, -4.0), one.release) / one.puck_speed
    assert one.release[0] == pytest.approx(11.0 - 3.0 * flight, abs=1e-6)  # by hand
