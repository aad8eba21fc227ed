"""Counts and identities: saves = shots - goals, the save share, goals against per 60 minutes."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, ShotResult
from tendline.log import (
    Context,
    GameEnd,
    GoalRating,
    GoaltenderChange,
    by,
    rebound_control,
    records,
    records_of,
    replay,
    wilson,
)
from tests.log.samples import set_up, shot


def played(results, **more):
    shots = [shot(f"s{i}", result=one, **more) for i, one in enumerate(results)]
    return replay([set_up(), *shots, GameEnd(id="end")])


@settings(deadline=None, max_examples=50)
@given(st.lists(st.sampled_from(tuple(ShotResult)), max_size=30))
def test_saves_are_shots_less_goals_in_every_cell(results):
    found = records(played(results).shots)
    for cell in (found.total, *found.zones, *found.situations, found.home_plate, found.outside):
        assert cell.saves == cell.shots - cell.goals
        assert cell.shots <= cell.attempts
    assert sum(one.shots for one in found.zones) == found.total.shots
    assert sum(one.shots for one in found.situations) + found.unsaid.shots == found.total.shots
    assert found.home_plate.shots + found.outside.shots == found.total.shots
    assert found.total.attempts == len(results)


def test_save_share_and_goals_against_average_by_hand():
    # by hand: 27 shots, 4 goals -> 23/27 = 0.852; 4 goals in 45 min -> 4 * 60 / 45 = 5.33
    game = replay(
        [
            set_up(period_length=900.0),
            *[
                shot(f"s{i}", result=ShotResult.GOAL if i < 4 else ShotResult.SAVE)
                for i in range(27)
            ],
            GameEnd(id="end"),
        ]
    )
    found = records_of([game], "ronja")
    assert found.total.saved.value == pytest.approx(0.852, abs=0.0005)
    assert found.goals_against_average == pytest.approx(5.333, abs=0.001)
    assert found.games == 1
    # GAA = shots per 60 minutes times (1 - save share), the published identity
    per_hour = found.total.shots * 3600 / found.seconds
    assert found.goals_against_average == pytest.approx(per_hour * (1 - found.total.saved.value))


def test_goals_into_an_empty_net_are_nobodys():
    game = replay(
        [
            set_up(),
            shot("a", result=ShotResult.GOAL, context=Context(empty_net=True)),
            GoaltenderChange(id="c", goaltender=""),
            shot("b", result=ShotResult.GOAL),
        ]
    )
    assert records(game.shots).total.shots == 0
    assert [one.on_goal for one in game.shots] == [False, False]


def test_rebound_control_counts_only_saves_where_it_was_said():
    game = played(
        [
            ShotResult.SAVE, ShotResult.SAVE_HELD, ShotResult.SAVE_HELD,
            ShotResult.SAVE_SAFE_REBOUND,
            ShotResult.SAVE_DANGEROUS_REBOUND, ShotResult.GOAL,
        ]
    )  # fmt: skip
    found = rebound_control(game.shots)
    assert (found.count, found.of) == (3, 4)


def test_ratings_are_counted():
    game = replay(
        [
            set_up(),
            shot("a", result=ShotResult.GOAL),
            shot("b", result=ShotResult.GOAL),
            GoalRating(id="r1", shot="a", rating=0),
            GoalRating(id="r2", shot="b", rating=2),
        ]
    )
    assert records(game.shots).ratings == (1, 0, 1)


def test_records_by_any_name():
    game = played([ShotResult.SAVE, ShotResult.GOAL])
    (only,) = by(game.shots, lambda one: f"period {one.period}")
    assert (only.name, only.goals) == ("period 1", 1)


def test_the_average_is_unknown_without_a_clock():
    game = replay([set_up(), shot("a"), GoaltenderChange(id="c", goaltender="m"), GameEnd(id="e")])
    assert records_of([game], "ronja").goals_against_average is None


@pytest.mark.parametrize(
    ("count", "of", "low", "high"),
    [
        # other tool: statsmodels-style Wilson intervals worked by hand with z = 1.959964
        (4, 11, 0.1517, 0.6462),
        (0, 10, 0.0, 0.2775),
        (10, 10, 0.7225, 1.0),
        (50, 826, 0.0462, 0.0789),  # published beside the open event tables: 0.0462 .. 0.0789
    ],
)
def test_wilson_intervals(count, of, low, high):
    found = wilson(count, of)
    assert (found.low, found.high) == pytest.approx((low, high), abs=0.0001)


def test_nothing_of_nothing_has_no_share_and_the_whole_span():
    found = wilson(0, 0)
    assert math.isnan(found.value)
    assert (found.low, found.high, found.words) == (0.0, 1.0, "none seen")


def test_counts_come_before_percentages_in_words():
    assert wilson(4, 11).words == "4 of 11 (between 15 and 65 in 100)"


@pytest.mark.parametrize(("count", "of"), [(3, 2), (-1, 2), (0, -1)])
def test_counts_that_make_no_sense_are_refused(count, of):
    with pytest.raises(InputError, match="counts make no sense"):
        wilson(count, of)
