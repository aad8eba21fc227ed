"""Chains between many pairs of poses: the times of each chain, NaN in its own row."""

import numpy as np
import pytest

from tendline.base import InputError, Level
from tendline.body import Pose, Stance
from tendline.motion import arrival_times, chain_times, motion_parameters, quickest_chain

ADULT = motion_parameters(Level.ADULT)


@pytest.mark.parametrize(
    "stances",
    [(Stance.READY, Stance.READY), (Stance.BUTTERFLY, Stance.READY),
     (Stance.REVERSE_VH_LEFT, Stance.READY), (Stance.READY, Stance.VH_RIGHT)],
)  # fmt: skip
def test_times_of_many_chains_are_those_of_each(stances) -> None:
    rng = np.random.default_rng(3)
    starts = np.column_stack(
        [rng.uniform(0.2, 2, 12), rng.uniform(-1, 1, 12), rng.normal(0, 1, 12)]
    )
    ends = np.column_stack([rng.uniform(0.2, 2, 12), rng.uniform(-1, 1, 12), rng.normal(0, 1, 12)])
    starts[3, 1] = np.nan
    ends[7, 2] = np.inf
    arrival, set_time = chain_times(starts, ends, ADULT, stances=stances, reaction=0.1)
    for row in range(12):
        if row in (3, 7):
            assert np.isnan([arrival[row], set_time[row]]).all()
            continue
        chain = quickest_chain(
            Pose(*starts[row], stances[0]), Pose(*ends[row], stances[1]), ADULT, reaction=0.1
        )
        assert (arrival[row], set_time[row]) == (chain.arrival, chain.set_time)


def test_from_the_ready_stance_the_array_form_says_the_same() -> None:
    ends = [[1.0, 0.3 + 0.4 * n, 0.0] for n in range(6)]
    arrival, set_time = chain_times([1.0, 0.0, 0.0], ends, ADULT)
    found = arrival_times([0.3 + 0.4 * n for n in range(6)], ADULT)
    np.testing.assert_allclose(arrival, found.arrival, atol=1e-9)
    np.testing.assert_allclose(set_time, found.set_time, atol=1e-9)


def test_shapes_and_reactions_that_do_not_fit_are_named() -> None:
    with pytest.raises(InputError, match="as many starts as ends"):
        chain_times(np.ones((2, 3)), np.ones((3, 3)), ADULT)
    with pytest.raises(InputError, match="reaction must be a time"):
        chain_times([1.0, 0.0, 0.0], [1.0, 1.0, 0.0], ADULT, reaction=-1.0)
