"""Wrong questions about bodies are named."""

import math

import pytest

from tendline.base import InputError, Level, NotFoundError, Sex
from tendline.body import (
    Capsules,
    Pose,
    Stance,
    build_by_age,
    build_goaltender,
    capsules,
    mass_for_stature,
    place,
    posed,
    stature_at,
)

HER = build_goaltender(1.7)


@pytest.mark.parametrize("stature", [0.5, 3.0, 0.0, -1.7, math.nan, math.inf])
def test_a_stature_that_is_no_goaltenders(stature: float) -> None:
    with pytest.raises(InputError, match="stature is out of range") as caught:
        build_goaltender(stature)
    assert "0.95 to 2.2 m" in str(caught.value)


@pytest.mark.parametrize("stature", [0.4, 2.6, -1.0, math.nan])
def test_a_mass_for_a_stature_that_nobody_has(stature: float) -> None:
    with pytest.raises(InputError, match="stature is out of range"):
        mass_for_stature(stature)


@pytest.mark.parametrize("mass", [0.0, -50.0, 500.0, math.nan])
def test_a_mass_that_nobody_has(mass: float) -> None:
    with pytest.raises(InputError, match="mass is out of range"):
        build_goaltender(1.7, mass=mass)


@pytest.mark.parametrize(("age", "z"), [(5.0, 0.0), (math.nan, 0.0), (12.0, 9.0), (12.0, math.nan)])
def test_ages_and_scores_without_a_row(age: float, z: float) -> None:
    for ask in (stature_at, build_by_age):
        with pytest.raises(InputError, match="is out of range"):
            ask(age, Sex.FEMALE, z)


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: build_goaltender(1.7, "both"), "no catching hand of that name; got 'both'"),
        (lambda: build_goaltender(1.7, level="U99"), "no level of that name; got 'U99'"),
        (lambda: build_goaltender(1.7, rule_set="pond"), "no rule set of that name; got 'pond'"),
        (lambda: capsules(HER, "buterfly"), "no stance of that name; got 'buterfly'"),
        (lambda: Pose(1.0, 0.0, 0.0, "buterfly"), "Did you mean 'butterfly'"),
    ],
)
def test_names_outside_the_vocabulary(ask, words: str) -> None:
    with pytest.raises(NotFoundError, match=words):
        ask()


def test_a_stance_by_its_plain_name_is_that_stance() -> None:
    pose = Pose(1.0, 0.0, 0.0, "paddle down")
    assert pose.stance is Stance.PADDLE_DOWN
    assert pose.stance.is_down
    assert build_goaltender(1.7, "right", "U13", "IIHF").level is Level.U13
    assert posed(HER, pose).start.tolist() == posed(
        HER, Pose(1.0, 0.0, 0.0, Stance.PADDLE_DOWN)
    ).start.tolist()  # fmt: skip


@pytest.mark.parametrize("radius", [math.nan, math.inf, -0.1])
def test_a_segment_without_a_radius(radius: float) -> None:
    with pytest.raises(InputError, match="every segment needs a radius"):
        Capsules.of([[0, 0, 1]], [[0, 0, 2]], [radius], [0])


def test_places_that_are_not_finite() -> None:
    with pytest.raises(InputError, match="a pose needs a place"):
        Pose(1.0, math.nan, 0.0)
    with pytest.raises(InputError, match="a place needs three numbers"):
        place(capsules(HER), x=1.0, y=0.0, facing=math.inf)
