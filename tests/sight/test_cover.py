"""Coverage and gaps: the kernel against its numpy twin, by hand, mirrored, and bad input."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline import ice
from tendline.base import InputError
from tendline.sight import cover, cover_many, cover_reference, mouth_grid
from tests.sight.figures import BUTTERFLY, READY, figure

GRID = mouth_grid(ice.goal())
PUCK_HEIGHT = 0.0127


def test_a_ball_on_the_line_blocks_the_disc_it_shadows() -> None:
    # by hand: a ball of 0.2 m radius 1 m out at mid-height, puck level with it 10 m away:
    # tangent cone half-angle asin(0.2 / 9), shadow radius on the mouth 10 tan(asin(0.2 / 9)).
    ball = figure([(0, 1.0, 0.0, 0.6, 1.0, 0.0, 0.6, 0.2)])
    seen = cover([10.0, 0.0, 0.6], ball, mouth_grid(ice.goal(), 400, 300))
    radius = 10.0 * np.tan(np.arcsin(0.2 / 9.0))
    assert seen.share == pytest.approx(np.pi * radius**2 / ice.goal().area, abs=0.0005)


def test_gap_is_the_distance_from_the_line_to_the_surface() -> None:
    # by hand: a level line along y = target, a ball of 0.1 m centred on y = 0 one metre out.
    ball = figure([(4, 1.0, 0.0, 0.6, 1.0, 0.0, 0.6, 0.1)])
    grid = mouth_grid(ice.goal())
    seen = cover([5.0, 0.0, 0.6], ball, grid)
    middle = grid.rows // 2
    for column in (0, 10, grid.columns - 1):
        target = np.array([-5.0, grid.y[column], grid.z[middle] - 0.6])
        to_ball = np.array([-4.0, 0.0, 0.0])
        distance = np.linalg.norm(np.cross(to_ball, target)) / np.linalg.norm(target)
        assert seen.gap[middle, column] == pytest.approx(distance - 0.1, abs=1e-5)
        assert seen.limb[middle, column] == 4


@settings(max_examples=40, deadline=None)
@given(
    x=st.floats(2.5, 20.0), y=st.floats(-12.0, 12.0), depth=st.floats(0.3, 1.6),
    side=st.floats(-0.5, 0.5), facing=st.floats(-1.0, 1.0), low=st.booleans(),
)  # fmt: skip
def test_kernel_and_numpy_twin_agree(
    x: float, y: float, depth: float, side: float, facing: float, low: bool
) -> None:
    body = (BUTTERFLY if low else READY).placed(depth, side, facing)
    fast = cover([x, y, PUCK_HEIGHT], body, GRID)
    plain = cover_reference([x, y, PUCK_HEIGHT], body, GRID)
    assert np.abs(fast.limb_gap - plain.limb_gap).max() < 2e-5
    assert fast.share == pytest.approx(plain.share, abs=2 / GRID.size)


@settings(max_examples=40, deadline=None)
@given(
    x=st.floats(2.5, 20.0), y=st.floats(-12.0, 12.0), depth=st.floats(0.3, 1.6),
    side=st.floats(-0.5, 0.5), facing=st.floats(-1.0, 1.0),
)  # fmt: skip
def test_the_mirror_image_is_seen_exactly_alike(
    x: float, y: float, depth: float, side: float, facing: float
) -> None:
    one = cover([x, y, PUCK_HEIGHT], READY.placed(depth, side, facing), GRID)
    other = cover([x, -y, PUCK_HEIGHT], READY.mirrored().placed(depth, -side, -facing), GRID)
    assert one.share == other.share
    np.testing.assert_array_equal(one.limb_gap, other.limb_gap[:, :, ::-1])


def test_no_body_leaves_the_net_open() -> None:
    nobody = figure([(0, 9.0, 9.0, 0.1, 9.0, 9.0, 0.1, 0.01)])
    assert cover([5.0, 0.0, PUCK_HEIGHT], nobody, GRID).share == 0.0


@pytest.mark.parametrize(
    ("puck", "words"),
    [
        ([0.0, 0.0, 0.01], "in front of the goal line"),
        ([-0.4, 0.2, 0.01], "in front of the goal line"),
        ([np.nan, 0.0, 0.01], "finite coordinates"),
        ([np.inf, 0.0, 0.01], "finite coordinates"),
        ([4.0], "finite coordinates"),
        ([4.0, 0.0, -0.2], "below the ice"),
        ([1.2, 0.0, 0.9], "inside the goaltender"),
    ],
)
def test_a_wrong_puck_is_named(puck: list[float], words: str) -> None:
    with pytest.raises(InputError, match=words) as caught:
        cover(puck, READY.placed(1.2, 0.0, 0.0), GRID)
    assert caught.value.item == "puck"


def test_a_grid_that_cannot_be_is_refused() -> None:
    with pytest.raises(InputError, match="number of rows; got 1; allowed: 2 to 400"):
        mouth_grid(ice.goal(), 37, 1)


def test_many_placements_give_the_same_shares_as_one_by_one() -> None:
    rng = np.random.default_rng(4)
    count = 600
    pucks = np.column_stack(
        [rng.uniform(3, 15, count), rng.uniform(-6, 6, count), np.full(count, PUCK_HEIGHT)]
    )
    poses = np.column_stack(
        [rng.uniform(0.2, 1.4, count), rng.uniform(-0.5, 0.5, count), rng.uniform(-0.8, 0.8, count)]
    )
    shares = cover_many(pucks, poses, READY, GRID)
    np.testing.assert_array_equal(shares, cover_many(pucks, poses, READY, GRID, threads=2))
    for row in range(0, count, 60):
        single = cover(pucks[row], READY.placed(*poses[row]), GRID)
        assert shares[row] == pytest.approx(single.share, abs=2 / GRID.size)


def test_nan_stays_in_its_own_cell() -> None:
    pucks = np.array(
        [[6.0, 0, 0.01], [np.nan, 0, 0.01], [-1.0, 0, 0.01], [1.0, 0.0, 0.9], [6.0, 0, -1.0]]
    )
    shares = cover_many(pucks, [1.0, 0.0, 0.0], READY, GRID)
    assert np.isfinite(shares).tolist() == [True, False, False, False, False]
    with pytest.raises(InputError, match="as many pucks as poses"):
        cover_many(np.ones((2, 3)), np.ones((3, 3)), READY, GRID)
    with pytest.raises(InputError, match="three numbers each"):
        cover_many(np.ones((2, 2)), np.ones((2, 3)), READY, GRID)


def test_a_puck_without_height_lies_on_the_ice() -> None:
    body = READY.placed(1.1, 0.0, 0.0)
    assert cover([8.0, 1.0], body, GRID).share == cover([8.0, 1.0, PUCK_HEIGHT], body, GRID).share


def test_a_puck_above_or_below_a_limb_is_not_inside_it() -> None:
    # by hand: a level rod at 1 m; pucks on the ice under it, in it, and above it
    rod = figure([(0, 2.0, -0.5, 1.0, 2.0, 0.5, 1.0, 0.1)])
    shares = cover_many(
        [[2.0, 0.0, 0.0127], [2.0, 0.0, 1.05], [2.0, 0.0, 1.2]], [0.0, 0.0, 0.0], rod, GRID
    )
    assert np.isnan(shares).tolist() == [False, True, False]


@settings(max_examples=40, deadline=None)
@given(
    far=st.floats(3.0, 20.0), share=st.floats(0.4, 0.95), angle=st.floats(-1.1, 1.1),
    radius=st.floats(0.1, 0.4), high=st.floats(0.3, 1.2),
)  # fmt: skip
def test_a_puck_coming_down_her_line_sees_less_net_past_a_solid_body(
    far: float, share: float, angle: float, radius: float, high: float
) -> None:
    # a post on the line from puck to goal centre hides more the nearer the puck is (similar
    # triangles); a body with holes in it need not, for the holes grow as well
    x, y = 0.9 * np.cos(angle), 0.9 * np.sin(angle)
    body = figure([(0, x, y, 0.0, x, y, high, radius)])
    shares = [
        cover([d * np.cos(angle), d * np.sin(angle), PUCK_HEIGHT], body, GRID).share
        for d in (far, max(far * share, 1.4))
    ]
    assert shares[1] >= shares[0] - 1 / GRID.size


@pytest.mark.parametrize("far", [12.0, 8.0, 5.0])
def test_the_butterfly_hides_more_from_a_nearer_puck(far: float) -> None:
    nearer, further = (
        cover([d, 0.0, PUCK_HEIGHT], BUTTERFLY.placed(1.0, 0.0, 0.0), GRID).share
        for d in (far - 2.0, far)
    )
    assert nearer > further
