"""Size, growth, gear and stance against published tables."""

import math

import numpy as np
import pytest

from tendline.base import Sex, fact_table
from tendline.body import (
    GrowthTable,
    Part,
    Stance,
    build_goaltender,
    capsules,
    mass_at,
    stature_at,
)
from tendline.body.stances import skeleton
from tendline.ice import RuleSet

Z95 = 1.6448536269514722  # standard normal quantile of 0.95
SEXES = {Sex.MALE: "boys", Sex.FEMALE: "girls"}

# Published: CDC 2000 growth charts, percentiles P5, P50, P95 at the half-month nodes; stature in
# centimetres and weight in kilograms, printed to one decimal.
PRINTED = [
    (Sex.MALE, 7.0, (113.2, 122.0, 131.0), (18.7, 23.2, 30.9)),
    (Sex.MALE, 9.0, (123.8, 133.7, 144.1), (22.7, 28.7, 40.4)),
    (Sex.MALE, 11.0, (132.4, 143.7, 155.5), (27.5, 36.1, 52.6)),
    (Sex.MALE, 13.0, (143.6, 156.4, 169.5), (34.2, 45.8, 66.1)),
    (Sex.MALE, 15.0, (156.7, 170.1, 182.4), (43.0, 56.5, 78.8)),
    (Sex.MALE, 18.0, (164.2, 176.2, 187.8), (53.2, 67.3, 92.0)),
    (Sex.FEMALE, 7.0, (113.1, 121.8, 131.3), (18.2, 22.9, 31.5)),
    (Sex.FEMALE, 9.0, (123.2, 133.1, 143.8), (22.3, 29.1, 41.8)),
    (Sex.FEMALE, 11.0, (132.4, 144.3, 156.4), (27.8, 37.4, 55.0)),
    (Sex.FEMALE, 13.0, (145.9, 157.3, 168.6), (34.6, 46.0, 67.6)),
    (Sex.FEMALE, 15.0, (151.3, 161.9, 172.6), (40.8, 52.1, 75.8)),
    (Sex.FEMALE, 18.0, (152.5, 163.1, 173.8), (45.4, 56.2, 80.8)),
]


@pytest.mark.parametrize(("sex", "age", "stature", "weight"), PRINTED)
def test_growth_table_to_the_printed_digits(sex, age, stature, weight):
    for z, tall, heavy in zip((-Z95, 0.0, Z95), stature, weight, strict=True):
        assert round(100.0 * stature_at(age, sex, z), 1) == tall
        assert round(mass_at(age, sex, z), 1) == heavy


@pytest.mark.parametrize("sex", list(Sex))
def test_every_percentile_of_both_tables(sex):
    """Published: CDC 2000, all rows P5, P50, P95; the LMS formula gives them to better than 1e-6."""
    for quantity, reader in (("stature", stature_at), ("weight", mass_at)):
        rows = fact_table(f"body.cdc.{quantity}_{SEXES[sex]}")
        for name, z in (("P5", -Z95), ("P50", 0.0), ("P95", Z95)):
            ours = [reader(age, sex, z) for age in rows["age_y"]]
            assert ours == pytest.approx(rows[name], rel=2e-6), (quantity, name)


@pytest.mark.parametrize(("sex", "age", "median", "spread"), [
    (Sex.MALE, 7, 121.7338, 0.04342), (Sex.MALE, 12, 149.0807, 0.04753),
    (Sex.MALE, 19, 176.5432, 0.04134), (Sex.FEMALE, 7, 120.8105, 0.04525),
    (Sex.FEMALE, 12, 151.2327, 0.04523), (Sex.FEMALE, 19, 163.1548, 0.04009),
])  # fmt: skip
def test_who_2007_height_for_age(sex, age, median, spread):
    # published: WHO 2007 height-for-age, M in cm and S; the facts keep M to 1e-6 m
    ours = 100.0 * stature_at(age, sex, table=GrowthTable.WHO_2007)
    assert ours == pytest.approx(median, abs=1e-4)
    one_up = 100.0 * stature_at(age, sex, 1.0, table=GrowthTable.WHO_2007)
    assert one_up == pytest.approx(median * (1.0 + spread), abs=1e-3)


@pytest.mark.parametrize(("part", "ratio"), [
    ("ankle_height", 0.039), ("thigh", 0.245), ("shank", 0.246), ("trunk", 0.818 - 0.530),
    ("upper_arm", 0.186), ("forearm", 0.146), ("hand", 0.108), ("foot", 0.152),
])  # fmt: skip
def test_segment_lengths(part, ratio):
    # published: Winter, Biomechanics and Motor Control of Human Movement, shares of stature
    assert getattr(build_goaltender(1.80), part) == pytest.approx(ratio * 1.80)


def test_lengths_of_the_leg_add_up_to_the_published_heights():
    # published: Winter, heights of knee 0.285 and hip 0.530 of stature, which no length is made of
    build = build_goaltender(1.80)
    knee = build.ankle_height + build.shank
    assert knee == pytest.approx(0.285 * 1.80)
    assert knee + build.thigh == pytest.approx(0.530 * 1.80)


@pytest.mark.parametrize(("stature", "limit"), [
    (1.60, 0.865), (1.68, 0.865), (1.69, 0.89), (1.75, 0.89), (1.76, 0.93), (1.82, 0.93),
    (1.83, 0.965), (2.00, 0.965),
])  # fmt: skip
def test_iihf_pad_length_by_stature(stature, limit):
    # published: IIHF Official Rule Book 2014-2018, leg pads
    from tendline.body.constants import IihfGear

    assert IihfGear().pad_limit(stature) == limit
    assert build_goaltender(stature, rule_set=RuleSet.IIHF).pad_length <= limit


def angle(a: np.ndarray, b: np.ndarray) -> float:
    return math.degrees(math.acos(float(a @ b / np.linalg.norm(a) / np.linalg.norm(b))))


@pytest.mark.parametrize("stature", [1.1, 1.45, 1.6486, 1.8438])
def test_the_ready_stance_bends_knees_and_trunk_as_measured(stature):
    """Published: Alexander & Shackel, Hockey goalie analysis: knees about 90, trunk about 40 deg."""
    bones = skeleton(build_goaltender(stature), Stance.READY)
    for leg in (bones.left_leg, bones.right_leg):
        flexion = 180.0 - angle(leg.hip - leg.knee, leg.ankle - leg.knee)
        assert flexion == pytest.approx(90.0, abs=0.5)
    assert angle(bones.neck - bones.pelvis, np.array([0.0, 0.0, 1.0])) == pytest.approx(40.0)


@pytest.mark.parametrize("stature", [1.70, 1.8438, 2.0])
def test_the_blade_lies_25_to_30_centimetres_ahead_of_the_skates(stature):
    """Published: the same source, stick blade 0.25-0.30 m ahead of the skates (adults)."""
    body = capsules(build_goaltender(stature), Stance.READY)
    skates = np.isin(body.part, [int(Part.LEFT_SKATE), int(Part.RIGHT_SKATE)])
    blade = body.part == int(Part.BLADE)
    toe = (np.maximum(body.start[skates, 0], body.end[skates, 0]) + body.radius[skates]).max()
    back = (np.minimum(body.start[blade, 0], body.end[blade, 0]) - body.radius[blade]).min()
    assert 0.25 <= back - toe <= 0.30


def test_gloves_are_level_and_both_ahead_of_her():
    # published (coaching): gloves the same height, in front
    bones = skeleton(build_goaltender(1.8), Stance.READY)
    glove, blocker = bones.glove_arm.hand, bones.blocker_arm.hand
    assert glove[2] == pytest.approx(blocker[2], abs=0.03)
    assert min(glove[0], blocker[0]) > bones.neck[0]
