"""Flights against an independent integration of the equations, by hand, and at their limits."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from tendline.base import InputError, Level, Settings, ShotType, Side
from tendline.shot import (
    flight,
    flight_time,
    highest_at,
    puck_speed,
    release_point,
    release_time,
    screened,
    shot_constants,
    shot_parameters,
    slide_time,
)
from tendline.shot.constants import DRAG_COEFFICIENT, age_ratio
from tendline.shot.parameters import drag_per_metre

BARE = Settings.of({"puck.cd_edge_on": DRAG_COEFFICIENT.low})


@pytest.mark.parametrize(
    ("distance", "height", "speed"),
    [(5.0, 1.0, 31.0), (15.0, 0.6, 30.0), (18.0, 1.1, 25.0), (9.0, 0.3, 14.0)],
)
def test_the_launch_hits_the_target_in_an_independent_integration(
    distance: float, height: float, speed: float
) -> None:
    # other tool: scipy's Runge-Kutta on the full equations with quadratic drag on the whole speed
    path = flight([distance, 0.0, 0.0127], [0.0, 0.0, height], speed=speed)
    k = drag_per_metre()

    def moving(_: float, state: np.ndarray) -> list[float]:
        v = math.hypot(state[2], state[3])
        return [state[2], state[3], -k * v * state[2], -9.81 - k * v * state[3]]

    start = [0.0, 0.0127, speed * math.cos(path.launch_angle), speed * math.sin(path.launch_angle)]
    run = solve_ivp(moving, (0.0, path.time), start, rtol=1e-9, atol=1e-9)
    # drag is taken along the level way: good to about a centimetre
    assert run.y[0, -1] == pytest.approx(distance, abs=0.02)
    assert run.y[1, -1] == pytest.approx(height, abs=0.015)
    assert math.hypot(run.y[2, -1], run.y[3, -1]) == pytest.approx(path.arrival_speed, rel=0.01)


def test_without_drag_a_flight_is_a_parabola() -> None:
    # by hand: t = d / (v cos a), arc over the chord = g t^2 / 8
    path = flight([8.0, 0.0, 0.0], [0.0, 0.0, 0.0], speed=20.0, settings=BARE)
    angle = 0.5 * math.asin(9.81 * 8.0 / 400.0)
    assert path.launch_angle == pytest.approx(angle, rel=0.02)
    assert path.time == pytest.approx(8.0 / (20.0 * math.cos(angle)), rel=0.02)
    assert path.arc == pytest.approx(path.highest, rel=0.03)


def test_forty_metres_a_second_lose_about_two_over_fifteen_metres() -> None:
    # published: facts.md, puck speed table, cd_edge_on (computed there with air of 1.2 kg/m3)
    settings = Settings.of({"shot.air_density": 1.2})
    lost = 40.0 * (1.0 - math.exp(-15.0 * drag_per_metre(settings)))
    assert lost == pytest.approx(2.0, abs=0.3)


def test_flight_times_broadcast_and_keep_nan() -> None:
    times = flight_time([5.0, 10.0, np.nan], 30.0)
    assert times[1] > 2 * times[0] > 2 * 5.0 / 30.0
    assert np.isnan(times[2])


def test_a_sliding_puck_slows_by_friction_and_may_stop() -> None:
    # by hand: 10 m/s, mu g = 0.981: v^2 - 2 mu g d = 80.38 after 10 m
    assert slide_time(10.0, 10.0) == pytest.approx((10.0 - math.sqrt(80.38)) / 0.981)
    assert slide_time(10.0, 3.0) == math.inf


def test_the_envelope_is_the_highest_reachable_point() -> None:
    top = float(highest_at(17.0, 14.0))  # 2.76 m by hand: 9.99 - 7.23
    assert top == pytest.approx(2.76, abs=0.01)
    reached = flight([17.0, 0.0, 0.0], [0.0, 0.0, 0.5], speed=14.0, settings=BARE)
    assert reached.launch_angle < math.atan(14.0**2 / (9.81 * 17.0))  # the envelope's own launch
    with pytest.raises(InputError, match="cannot reach the target in the air"):
        flight([17.0, 0.0, 0.0], [0.0, 0.0, top + 0.1], speed=14.0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: flight_time(5.0, 0.0), "a puck needs speed"),
        (lambda: flight_time(5.0, -2.0), "a puck needs speed"),
        (lambda: flight_time(-1.0, 20.0), "a way cannot be negative"),
        (lambda: flight([5.0, 0.0], [0.0, 0.0, 0.0], speed=20.0), "three finite numbers"),
        (lambda: flight([5.0, 0.0, np.nan], [0.0, 0.0, 0.0], speed=20.0), "three finite numbers"),
        (lambda: flight([5.0, 0.0, 0.0], [0.0, 0.0, 0.0], speed=0.0), "puck speed is out of range"),
        (lambda: flight([3.0, 0.0, 0.0], [0.0, 0.0, 4.0], speed=14.0), "cannot reach the target"),
        (lambda: slide_time(5.0, 0.0), "puck speed is out of range"),
        (lambda: release_point(np.nan, 0.0, hand=Side.LEFT), "a shooter needs a place"),
        (
            lambda: screened(clear_seconds=-1.0, hidden_at_release=0.0),
            "clear sight is out of range",
        ),
        (
            lambda: screened(clear_seconds=1.0, hidden_at_release=2.0),
            "hidden share is out of range",
        ),
    ],
)
def test_wrong_questions_are_named(call, words: str) -> None:
    with pytest.raises(InputError, match=words):
        call()


def test_the_blade_is_on_the_hand_the_shooter_holds_it() -> None:
    # by hand: a shooter straight in front looks along -x; his left is -y (her right)
    left = release_point(8.0, 0.0, hand=Side.LEFT)
    right = release_point(8.0, 0.0, hand=Side.RIGHT)
    back = release_point(8.0, 0.0, hand=Side.LEFT, shot_type=ShotType.BACKHAND)
    assert left[0] == pytest.approx(7.5)
    assert left[1] == pytest.approx(-0.6)
    assert right[1] == pytest.approx(0.6)
    assert back[1] == pytest.approx(0.45)
    assert release_point(8.0, 0.0, hand=Side.LEFT, shot_type=ShotType.TIP)[1] == pytest.approx(
        0.0, abs=1e-12
    )


def test_the_blade_of_a_shooter_at_an_angle() -> None:
    # by hand: at (3, 4) he looks along (-0.6, -0.8), his left is (0.8, -0.6)
    point = release_point(3.0, 4.0, hand=Side.LEFT)
    np.testing.assert_allclose(point, [3 - 0.3 + 0.48, 4 - 0.4 - 0.36, 0.0127])


def test_release_points_mirror_with_the_hand() -> None:
    one = release_point(6.0, 2.0, hand=Side.LEFT)
    other = release_point(6.0, -2.0, hand=Side.RIGHT)
    np.testing.assert_allclose(one * [1, -1, 1], other, atol=1e-12)


def test_a_screen_costs_time_and_sight() -> None:
    clear = screened(clear_seconds=2.0, hidden_at_release=0.0)
    assert (clear.delay, clear.hidden) == (0.0, 0.0)
    late = screened(clear_seconds=0.2, hidden_at_release=0.0)
    blind = screened(clear_seconds=0.0, hidden_at_release=1.0)
    assert 0.0 < late.delay < blind.delay
    assert blind.hidden > 0.0


def test_speeds_rise_with_age_and_level() -> None:
    ages = [Level.U9, Level.U11, Level.U13, Level.U15, Level.U18, Level.MEN_ELITE]
    speeds = [puck_speed(level) for level in ages]
    assert speeds == sorted(speeds)
    assert puck_speed(Level.U13) == 17.0  # published (common practice): puck.wrist_u13
    assert (
        puck_speed(Level.U13, ShotType.SLAP)
        > puck_speed(Level.U13)
        > puck_speed(Level.U13, ShotType.WRAP)
    )


def test_slap_ratio_lies_between_the_published_pairs() -> None:
    # published: women 29 / 24 m/s (common practice), men 33.3 (VILLA06) / 31 m/s (practice)
    ratio = puck_speed(Level.ADULT, ShotType.SLAP) / puck_speed(Level.ADULT)
    assert 33.3 / 31.0 < ratio < 29.0 / 24.0


def test_reactions_fall_with_age_as_measured() -> None:
    # published: SART84 as reworked in facts.md, RT(8) = 0.317 s and RT(14) = 0.201 s
    assert age_ratio(Level.U9) / age_ratio(Level.U15) == pytest.approx(0.317 / 0.201, rel=0.01)
    ages = [Level.U9, Level.U11, Level.U13, Level.U15, Level.U18]
    reactions = [shot_parameters(level).reaction for level in ages]
    assert reactions == sorted(reactions, reverse=True)
    assert shot_parameters(Level.U18).reaction == shot_parameters(Level.MEN_ELITE).reaction


def test_release_times_come_from_the_table_and_can_be_set() -> None:
    assert release_time(Level.U13, ShotType.SNAP) == 0.15  # published (practice)
    assert release_time(Level.U13, ShotType.SNAP, Settings.of({"puck.release_snap": 0.2})) == 0.2


def test_every_constant_of_a_level_is_listed_and_changes_the_parameters() -> None:
    base = shot_parameters(Level.U13)
    for constant in shot_constants(Level.U13):
        if not constant.is_setting:
            continue
        other = constant.low if constant.value != constant.low else constant.high
        assert shot_parameters(Level.U13, Settings.of({constant.key: other})) != base, constant.key


def test_a_wraparound_leaves_from_the_blade_ahead_of_him() -> None:
    # by hand: he looks along -y from (0.3, 2): the blade lies 0.5 m ahead, not beside him
    point = release_point(0.3, 2.0, hand=Side.LEFT, shot_type=ShotType.WRAP, facing=-math.pi / 2)
    np.testing.assert_allclose(point, [0.3, 1.5, 0.0127], atol=1e-12)


def test_children_move_their_limbs_by_their_own_quickness() -> None:
    # by hand: 0.85 of an elite adult's 5 m/s and 60 m/s2 for the catching hand at U9
    child, man = shot_parameters(Level.U9), shot_parameters(Level.MEN_ELITE)
    assert man.limb_speed[4] == 5.0
    assert child.limb_speed[4] == pytest.approx(0.85 * 5.0)
    assert child.limb_acceleration[4] == pytest.approx(0.85 * 60.0)
    assert child.limb_reach == man.limb_reach
    assert child.limb_sureness[4] < 0.3 * man.limb_sureness[4]
