"""Exact areas: by hand, against a fine grid, mirrored; bodies beside the puck and in the line."""

import numpy as np
import pytest
import shapely

from tendline import body, ice
from tendline.base import Level
from tendline.body import Limb
from tendline.sight import cover, exact_cover, mouth_grid
from tendline.sight.shadow import Ring
from tests.sight.figures import READY, figure

GOAL = ice.goal()
FINE = mouth_grid(GOAL, 400, 300)
TALL = body.build_goaltender(stature=1.86, level=Level.MEN_ELITE)


def area(rings: tuple[Ring, ...]) -> float:
    """Return the area of rings under the even-odd rule."""
    shape = shapely.Polygon()
    for ring in rings:
        shape = shape.symmetric_difference(shapely.Polygon(ring))
    return float(shape.area)


def test_a_ball_throws_a_round_shadow() -> None:
    # by hand: tangent cone of half-angle asin(0.2 / 9) from 10 m, seen square on.
    ball = figure([(0, 1.0, 0.0, 0.6, 1.0, 0.0, 0.6, 0.2)])
    radius = 10.0 * np.tan(np.arcsin(0.2 / 9.0))
    exact = exact_cover([10.0, 0.0, 0.6], ball, GOAL)
    assert exact.share == pytest.approx(np.pi * radius**2 / GOAL.area, abs=1e-6)


def test_a_ball_seen_aslant_throws_an_ellipse() -> None:
    # by hand: a cone of half-angle a meeting a plane whose normal makes the angle t with its axis
    # cuts an ellipse of semi-axes L tan-like: minor b = L sin a / sqrt(cos(t+a) cos(t-a)),
    # major A = L sin a cos a / (cos(t+a) cos(t-a)), with L the eye's distance from the plane.
    tilt, out = np.radians(30.0), 4.0
    eye = np.array([out, out * np.tan(tilt), 0.6])
    centre = eye * [0.4, 0.4, 1.0]  # on the line from the eye to the mouth's middle
    distance = np.linalg.norm(eye - centre)
    half = np.arcsin(0.15 / distance)
    both = np.cos(tilt + half) * np.cos(tilt - half)
    minor, major = out * np.sin(half) / np.sqrt(both), out * np.sin(half) * np.cos(half) / both
    ball = figure([(0, *centre, *centre, 0.15)])
    assert exact_cover(eye, ball, GOAL).share * GOAL.area == pytest.approx(
        np.pi * minor * major, rel=2e-5
    )


@pytest.mark.parametrize("stance", list(body.Stance), ids=str)
def test_exact_areas_agree_with_a_fine_grid(stance: body.Stance) -> None:
    rng = np.random.default_rng(list(body.Stance).index(stance))
    for _ in range(3):
        puck = [rng.uniform(3.0, 14.0), rng.uniform(-7.0, 7.0), rng.uniform(0.0127, 0.6)]
        placed = body.posed(
            TALL,
            body.Pose(
                rng.uniform(0.1, 1.4), rng.uniform(-0.6, 0.6), rng.uniform(-0.9, 0.9), stance
            ),
        )
        # a grid of 120,000 cells is itself good to about 0.001 here
        assert exact_cover(puck, placed, GOAL).share == pytest.approx(
            cover(puck, placed, FINE).share, abs=1e-3
        )


@pytest.mark.parametrize(
    "rows",
    [
        [(6, 1.0, -0.4, 0.05, 1.0, 0.6, 0.05, 0.04)],  # beside the puck: shadow to the horizon
        [(6, 0.6, 0.1, 0.05, 2.2, 0.1, 0.05, 0.04)],  # runs past the puck
        [(2, -0.3, 0.8, 0.2, 0.4, 0.7, 0.2, 0.15)],  # reaches through the goal line
        [(2, -0.5, 0.0, 0.2, -0.4, 0.0, 0.2, 0.15)],  # behind the goal line: hides nothing
        [(0, 2.5, 0.0, 0.5, 3.0, 0.0, 0.5, 0.2)],  # behind the puck: hides nothing
    ],
)
def test_awkward_bodies_agree_with_a_fine_grid(rows: list[tuple[float, ...]]) -> None:
    puck = [1.1, -0.2, 0.0127]
    odd = figure(rows)
    assert exact_cover(puck, odd, GOAL).share == pytest.approx(
        cover(puck, odd, FINE).share, abs=1.5e-3
    )


def test_outlines_and_open_rings_make_up_the_mouth() -> None:
    placed = body.posed(TALL, body.Pose(1.1, 0.1, 0.2))
    exact = exact_cover([8.0, 2.0, 0.0127], placed, GOAL)
    assert area(exact.open_rings) == pytest.approx((1 - exact.share) * GOAL.area, rel=1e-9)
    assert set(exact.outlines) == set(Limb)
    union = shapely.union_all(
        [shapely.Polygon(ring).buffer(0) for rings in exact.outlines.values() for ring in rings[:1]]
    )
    assert union.area <= exact.share * GOAL.area + 1e-9


def test_the_mirror_image_covers_the_same() -> None:
    one = exact_cover([7.0, 3.0, 0.0127], READY.placed(1.0, 0.2, 0.3), GOAL)
    other = exact_cover([7.0, -3.0, 0.0127], READY.mirrored().placed(1.0, -0.2, -0.3), GOAL)
    assert one.share == pytest.approx(other.share, abs=1e-9)
