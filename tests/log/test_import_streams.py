"""The play before a shot, from a stream of events."""

import pytest

from tendline.base import ScoringSituation
from tendline.log import Strength, import_table, read_table
from tests.log.tables import DAY, STREAM, STREAM_HEAD, games


def event(clock, team, what, x, y, *, kind="", completed="", outcome="", own=5, opp=5, traffic=0):
    flags = f"{traffic},0" if what == "shot" else ","
    return f"g,s,1,{clock},0,{team},1,{own},{opp},0,0,p1,{what},{kind},{completed},{x},{y},,,,{outcome},{flags}"


def streamed(*lines):
    read = import_table(read_table("\n".join([STREAM_HEAD, *lines])), STREAM, day=DAY)
    return {one.team: one for one in games(read)}


def test_a_pass_across_before_the_shot_makes_it_east_west():
    played = streamed(
        event(900, "A", "pass", 6, -5, completed=1),
        event(899, "A", "shot", 6, 4, outcome="saved"),
        event(800, "B", "shot", 8, 1, outcome="missed"),
    )
    (shot,) = played["B"].shots
    assert shot.situation is ScoringSituation.EAST_WEST
    assert (shot.context.pass_x, shot.context.pass_y, shot.context.since_pass) == (6.0, -5.0, 1.0)
    assert shot.elapsed == 301.0
    assert shot.goaltender == "B"  # the defending team stands for its goaltender


@pytest.mark.parametrize(
    ("between", "expected"),
    [
        ([], ScoringSituation.EAST_WEST),
        ([event(900, "B", "recovery", 40, 0)], ScoringSituation.CLEAR_SHOT),
        ([event(900, "A", "recovery", 10, 0)], ScoringSituation.EAST_WEST),
        ([event(900, "B", "penalty", 40, 0)], ScoringSituation.EAST_WEST),
    ],
)
def test_the_other_team_getting_the_puck_ends_the_pass(between, expected):
    played = streamed(
        event(901, "A", "pass", 6, -5, completed=1),
        *between,
        event(899, "A", "shot", 6, 4, outcome="saved"),
        event(800, "B", "shot", 8, 1, outcome="missed"),
    )
    assert played["B"].shots[0].situation is expected


def test_an_entry_before_the_shot_makes_it_an_entry_and_a_dump_does_not():
    for kind, expected in (
        ("carried", ScoringSituation.ENTRY),
        ("dumped", ScoringSituation.CLEAR_SHOT),
    ):
        played = streamed(
            event(905, "A", "entry", 19, -5, kind=kind),
            event(901, "A", "shot", 9, 4, outcome="saved"),
            event(800, "B", "shot", 8, 1, outcome="missed"),
        )
        assert played["B"].shots[0].situation is expected


def test_a_second_shot_within_three_seconds_is_a_rebound_unless_the_first_was_blocked():
    for outcome, expected in (
        ("saved", ScoringSituation.REBOUND),
        ("blocked", ScoringSituation.CLEAR_SHOT),
    ):
        played = streamed(
            event(903, "A", "shot", 12, 4, outcome=outcome),
            event(901, "A", "shot", 3, 1, outcome="saved"),
            event(800, "B", "shot", 8, 1, outcome="missed"),
        )
        assert played["B"].shots[1].situation is expected


def test_a_new_period_forgets_the_play_before():
    played = streamed(
        event(1, "A", "pass", 6, -5, completed=1),
        event(1200, "A", "shot", 6, 4, outcome="saved").replace("g,s,1", "g,s,2", 1),
        event(800, "B", "shot", 8, 1, outcome="missed"),
    )
    assert played["B"].shots[0].situation is ScoringSituation.CLEAR_SHOT


def test_skaters_tell_the_strength_and_a_pulled_goaltender():
    played = streamed(
        event(900, "A", "shot", 6, 4, outcome="goal", own=5, opp=6),
        event(890, "A", "shot", 6, 4, outcome="goal", own=5, opp=4),
        event(800, "B", "shot", 8, 1, outcome="missed"),
    )
    pulled, short = played["B"].shots
    assert pulled.context.empty_net
    assert not pulled.on_goal
    assert short.context.strength is Strength.SHORT_HANDED


def test_a_stream_without_a_clock_says_nothing_of_the_play_before():
    played = streamed(
        event("soon", "A", "pass", 6, -5, completed=1),
        event("", "A", "shot", 6, 4, outcome="saved"),
        event("", "B", "shot", 8, 1, outcome="missed"),
    )
    assert played["B"].shots[0].context.pass_x is None
