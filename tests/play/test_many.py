"""Many situations at once and the map of the zone give what one by one gives."""

from __future__ import annotations

import numpy as np
import pytest

from tendline.base import InputError
from tendline.body import Pose
from tendline.play import (
    OptionKind,
    depth_map,
    evaluate_many,
    evaluate_place,
    read,
    read_many,
)
from tendline.play.coming import _surface
from tests.play.cases import (
    ACROSS,
    BREAKAWAY,
    PARAMETERS,
    TWO_ON_ONE,
    attacker,
    defender,
    goaltender,
    situation,
)

SHOT = frozenset({OptionKind.SHOOT})
BEHIND = situation(attacker("F1", -2.0, 0.0))


def test_reads_of_many_equal_reads_of_one():
    found = read_many([ACROSS, BREAKAWAY], goaltender(), PARAMETERS)
    for moment, one in zip((ACROSS, BREAKAWAY), found, strict=True):
        alone = read(moment, goaltender(), PARAMETERS, detail=False)
        assert one is not None
        assert (one.depth, one.offset, one.loss) == (alone.depth, alone.offset, alone.loss)


def test_one_situation_without_an_answer_leaves_the_others_alone():
    found = read_many([BEHIND, ACROSS], goaltender(), PARAMETERS, options=SHOT)
    assert found[0] is None
    assert found[1] is not None


def test_poses_where_she_cannot_be_have_no_answer():
    """Off the ice, in the net, on the puck: refused one by one, NaN among many."""
    poses = [Pose(1.0, 20.0, 0.0), Pose(-0.3, 0.0, 0.0), Pose(6.1, -3.5, 0.0), Pose(0.9, -0.4, 0.0)]
    found = evaluate_many([ACROSS] * 4, goaltender(), PARAMETERS, poses, options=SHOT)
    assert np.isnan(found).tolist() == [True, True, True, False]


def test_dragging_the_others_does_not_work_out_coming_in_again():
    """What he can make of coming in hangs on him and her alone; the cache must know that."""
    _surface.cache_clear()
    for y in (-1.0, 0.0, 1.0):
        moment = situation(
            attacker("F1", 9.0, 0.0, vx=-6.0), attacker("F2", 8.0, 4 + y), defender("D1", 5.0, y)
        )
        read(moment, goaltender(), PARAMETERS, detail=False)
    assert _surface.cache_info().misses == 1


def test_workers_change_nothing():
    moments = [ACROSS, BREAKAWAY]
    alone = read_many(moments, goaltender(), PARAMETERS, options=SHOT)
    shared = read_many(moments, goaltender(), PARAMETERS, options=SHOT, workers=2)
    assert [(one.depth, one.loss) for one in alone] == [(one.depth, one.loss) for one in shared]


def test_evaluating_many_equals_evaluating_one():
    poses = [Pose(0.9, -0.4, -0.4), Pose(1.5, 0.1, 0.1), Pose(1.2, 0.0, 0.0)]
    moments = [ACROSS, BREAKAWAY, TWO_ON_ONE]
    found = evaluate_many(moments, goaltender(), PARAMETERS, poses)
    for moment, pose, loss in zip(moments, poses, found, strict=True):
        alone = evaluate_place(moment, goaltender(), PARAMETERS, pose)
        assert loss == pytest.approx(alone.loss, abs=1e-6)


def test_one_place_without_an_answer_is_nan():
    found = evaluate_many(
        [BEHIND, ACROSS], goaltender(), PARAMETERS, [Pose(1, 0, 0)] * 2, options=SHOT
    )
    assert np.isnan(found[0])
    assert np.isfinite(found[1])
    with pytest.raises(InputError, match="one pose per situation"):
        evaluate_many([ACROSS], goaltender(), PARAMETERS, [])


def test_the_map_is_nan_where_the_puck_cannot_be_and_has_names_elsewhere():
    found = depth_map(situation(attacker("F1", 6, 0)), goaltender(), PARAMETERS, step=5.0,
                      options=SHOT)  # fmt: skip
    assert found.depth.shape == (len(found.x), len(found.y))
    on_line = found.x == 0.0
    assert np.isnan(found.depth[on_line]).all()  # by hand: no shot from the goal line
    in_front = np.ix_(found.x == 10.0, found.y == 0.0)
    assert np.isfinite(found.depth[in_front])
    assert found.worst[in_front] == "shoot now"
    assert found.y == pytest.approx(-found.y[::-1])
    with pytest.raises(InputError, match="spacing of the map"):
        depth_map(ACROSS, goaltender(), PARAMETERS, step=0.0)


def test_nothing_asked_is_nothing_answered():
    assert read_many([], goaltender(), PARAMETERS) == ()
    assert evaluate_many([], goaltender(), PARAMETERS, []).shape == (0,)
