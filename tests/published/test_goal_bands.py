"""Goal chances by distance and angle against game tables that did not choose our numbers.

Published: NHL 2011-12 even-strength shots (facts, game.ev_by_distance and ev_by_angle), every second
band; women's league shots on goal in the open data. The men's table gives bands but not places, so
both need the open data beside the repository.
"""

import sys
from pathlib import Path

import numpy as np
import pytest

from tendline import ice
from tendline.base import Level
from tendline.shot import ordinary_chance
from tendline.sight import mouth_grid

STUDY = Path(__file__).resolve().parents[2] / "studies" / "calibration"
sys.path.insert(0, str(STUDY))
import tables  # noqa: E402

GRID = mouth_grid(ice.goal(), 19, 13)
CLOSE = 0.015  # of the band's 95 % interval

needs_data = pytest.mark.skipif(
    not tables.OPEN_DATA.is_dir(), reason="the open game data are not beside the repository"
)


def held(places: tables.Places, bands: tables.Bands, chance: np.ndarray) -> list[bool]:
    """Return for each band whether ours lies in the data's interval or close to it."""
    ours = tables.by_band(places, bands, chance)
    made = []
    for value, shots, goals in zip(ours, bands.shots, bands.goals, strict=True):
        low, high = tables.wilson(goals, shots)
        made.append(low - CLOSE <= value <= high + CLOSE)
    return made


@needs_data
def test_men_by_distance_and_angle_in_the_bands_not_fitted() -> None:
    places = tables.men_places()
    found = ordinary_chance(places.x, places.y, grid=GRID)
    results = [r for bands in tables.men_bands() for r in held(places, bands, found.chance)[1::2]]
    assert len(results) == 10
    assert sum(results) >= 9


@needs_data
def test_women_by_distance_and_angle_fitted_in_no_band() -> None:
    places, by_distance, by_angle = tables.women_shots()
    found = ordinary_chance(places.x, places.y, level=Level.WOMEN_ELITE, grid=GRID)
    results = held(places, by_distance, found.chance) + held(places, by_angle, found.chance)
    assert len(results) == 22
    assert sum(results) >= 0.9 * len(results)
    # sharp angles and the last three metres but the last one and a half (56 shots) are among them
    assert all(held(places, by_angle, found.chance)[5:])
    assert held(places, by_distance, found.chance)[1]


@needs_data
def test_intervals_of_a_rate_are_those_of_the_open_tables() -> None:
    # other tool: the intervals printed in the open data's own table
    assert tables.wilson(22, 61) == pytest.approx((0.2517, 0.4861), abs=5e-5)
