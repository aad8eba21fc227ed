"""Moves against published figures."""

import pytest

from tendline.base import Level, fact_table
from tendline.motion import drop_time, free_fall_time, motion_parameters

STANDARD_GRAVITY = 9.80665
"""Published: standard acceleration of gravity, CGPM 1901 [m/s2]."""


def test_drop_time_against_free_fall():
    # Published: peak pad drop speed 2.82 m/s, junior goaltenders (Frayne and others 2015).
    # By hand: 2 * 0.40 / 2.82 = 0.28369; sqrt(2 * 0.40 / 9.80665) = 0.28562.
    speed = fact_table("locomotion.butterfly_peak_drop_speed")["v"]
    assert speed == 2.82
    assert drop_time(0.40, speed) == pytest.approx(0.28369, abs=5e-6)
    assert free_fall_time(0.40, STANDARD_GRAVITY) == pytest.approx(0.28562, abs=5e-6)
    assert motion_parameters(Level.ADULT).drop == pytest.approx(drop_time(0.40, speed), abs=5e-4)


@pytest.mark.parametrize(
    ("level", "age", "printed"),
    # Published: simple acoustic reaction time 0.465 s at age 5 falling as (age/5)^-0.815 to the
    # adult level at 16 (Dev Med Child Neurol 1984); the table of facts.md prints 0.317 at 8, 0.264
    # at 10, 0.228 at 12, 0.201 at 14.
    [(Level.U9, 8, 0.317), (Level.U11, 10, 0.264), (Level.U13, 12, 0.228), (Level.U15, 14, 0.201)],
)
def test_children_react_slower_along_the_published_line(level, age, printed):
    at_sixteen = 0.465 * (16 / 5) ** -0.815
    assert 0.465 * (age / 5) ** -0.815 == pytest.approx(printed, abs=0.0005)
    # Published: adults 0.213 s, corrected for hardware (Woods and others 2015).
    assert motion_parameters(level).reaction == pytest.approx(
        0.213 * printed / at_sixteen, abs=0.001
    )


def test_pushes_start_within_the_published_acceleration_of_skaters():
    # Published: highest peak acceleration in 60 studies 5.89 m/s2 (Stastny and others 2023).
    adult = motion_parameters(Level.ADULT)
    assert max(
        law.acceleration
        for law in (
            adult.t_push, adult.step_shuffle, adult.forward_push, adult.butterfly_slide,
            adult.c_cut_forward, adult.c_cut_back,
        )
    ) <= 5.89 + 1e-9  # fmt: skip
