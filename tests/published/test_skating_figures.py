"""Skaters of the drill clock against published sprint figures (facts.md, skating)."""

import math

import pytest

from tendline.base import Level, fact
from tendline.drill.skating import glide, skating_of

MEN = skating_of(Level.MEN_ELITE)


def speed_after(distance):
    made = glide(((0.0, 0.0), (60.0, 0.0)), MEN, speed=MEN.top_speed, end_speed=math.inf)
    k = int(abs(made.x - distance).argmin())
    return float(made.speed[k])


def test_speed_hardly_rises_beyond_the_published_distance():
    # published: Stastny 2023, Biol Sport 40: mean sprint speed stops rising after 26 m
    plateau = fact("skating.speed_plateau_distance", "").value
    assert speed_after(plateau) > 0.90 * MEN.top_speed
    gain = speed_after(plateau + 5) / speed_after(plateau)
    assert 1.0 < gain < 1.03


def test_acceleration_starts_at_the_published_peak_and_is_low_after_fifteen_metres():
    # published: Stastny 2023: peak acceleration up to 5.89 m/s2, under 3 m/s2 by 15 m
    made = glide(((0.0, 0.0), (30.0, 0.0)), MEN, speed=MEN.top_speed, end_speed=math.inf)
    first = (made.speed[3] ** 2 - made.speed[0] ** 2) / (2 * (made.x[3] - made.x[0]))
    assert first == pytest.approx(5.89, rel=0.10)
    k = int(abs(made.x - 15).argmin())
    at_15 = (made.speed[k + 1] ** 2 - made.speed[k] ** 2) / (2 * (made.x[k + 1] - made.x[k]))
    assert at_15 < 3.0
