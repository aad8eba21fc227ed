"""Recommended depths against where tracked goaltenders stood (open data; skipped where absent).

Other tool: open tracking set st23, goaltender positions corrected as its README says.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from tendline.base import InputError, Level
from tendline.ice import RuleSet, rink
from tendline.play import Attacker, Defender, Situation, read
from tests.play.cases import PARAMETERS, goaltender

DATA = Path(__file__).parents[3] / "shared" / "data" / "tracked_events_st23.csv"
RINK = rink(RuleSet.IIHF)
EVERY = 4  # every fourth shot is enough for medians
NEAR_CARRIER = 0.3  # an attacker this near to the puck is the shooter [m]


def _number(text):
    return float(text) if text else None


def _people(row, side):
    places = ((_number(row[f"{side}{n}_x_m"]), _number(row[f"{side}{n}_y_m"])) for n in range(1, 7))
    return [(x, y) for x, y in places if x is not None and y is not None]


def _asked(row):
    """Return puck distance, tracked and recommended depth along its line of one shot, or None."""
    x, y = _number(row["x_m"]), _number(row["y_m"])
    gx, gy = _number(row["gt_x_m"]), _number(row["gt_y_m"])
    if None in (x, y, gx, gy):
        return None
    gx -= _number(row["gt_ref_dx_m"]) or 0.0
    gy -= _number(row["gt_ref_dy_m"]) or 0.0
    mates = [p for p in _people(row, "a") if math.dist(p, (x, y)) > NEAR_CARRIER and p[0] < 20]
    mates = mates[:4]
    others = [p for p in _people(row, "d") if math.dist(p, (x, y)) > 0.1]
    try:
        moment = Situation(
            rink=RINK,
            carrier=Attacker(name="C", x=x, y=y),
            mates=tuple(Attacker(name=f"A{n}", x=a, y=b) for n, (a, b) in enumerate(mates)),
            defenders=tuple(Defender(name=f"D{n}", x=a, y=b) for n, (a, b) in enumerate(others)),
            level=Level.MEN_ELITE,
        )
        answer = read(moment, goaltender(), PARAMETERS, detail=False)
    except InputError:
        return None
    away = math.hypot(x, y)
    return away, (gx * x + gy * y) / away, answer.depth


@pytest.fixture(scope="module")
def compared():
    if not DATA.is_file():
        pytest.skip("open tracking data not at hand (../shared/data)")
    with DATA.open(encoding="utf-8") as file:
        shots = [row for row in csv.DictReader(file) if row["event"] == "shot"]
    found = [one for row in shots[::EVERY] if (one := _asked(row)) is not None]
    return np.array(found)


def _medians(compared, low, high):
    rows = compared[(compared[:, 0] >= low) & (compared[:, 0] < high)]
    assert len(rows) >= 8
    return np.median(rows[:, 1]), np.median(rows[:, 2])


@pytest.mark.parametrize(("low", "high"), [(0.0, 8.0), (8.0, 15.0), (15.0, 25.0)])
def test_the_median_depths_are_within_half_a_metre(compared, low, high):
    tracked, ours = _medians(compared, low, high)
    assert ours == pytest.approx(tracked, abs=0.5)


def test_depth_is_given_up_as_the_puck_comes_nearer(compared):
    far, near = _medians(compared, 12.0, 21.0), _medians(compared, 0.0, 8.0)
    assert far[1] > near[1] + 0.2
    assert far[0] > near[0] - 0.1
