"""Replay: what counts, which end, whose shot."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, ScoringSituation, ShotResult
from tendline.ice import Zone, other_end, rink
from tendline.log import (
    ChanceSeen,
    Context,
    Frame,
    GameEnd,
    Given,
    GoalRating,
    GoaltenderChange,
    NoteTaken,
    PeriodStart,
    Readiness,
    ShotDetail,
    Undo,
    event_from_dict,
    event_to_dict,
    replay,
    standing,
)
from tests.log.samples import FAR, FAR_NET, NEAR, NOON, set_up, shot

QUICK = settings(deadline=None, max_examples=60)


def test_a_shot_in_the_nets_frame_stays_where_it_was():
    game = replay([set_up(), shot("a", x=6.1, y=-7.5)])
    (only,) = game.shots
    assert (only.x, only.y, only.number, only.period) == (6.1, -7.5, 1, 1)
    assert only.zone is Zone.RIGHT_CIRCLE
    assert only.distance == pytest.approx(9.667, abs=0.001)  # by hand: sqrt(6.1^2 + 7.5^2)


def test_ends_switch_every_period_and_are_turned_once():
    # by hand: 6 m out and 2 m to her left at the far net is (L - 6, -2) on the picture
    game = replay(
        [
            set_up(),
            shot("a", x=6.0, y=2.0, frame=Frame.RINK),
            PeriodStart(id="p2", period=2),
            shot("b", x=FAR_NET - 6.0, y=-2.0, frame=Frame.RINK),
            PeriodStart(id="p3", period=3),
            shot("c", x=6.0, y=2.0, frame=Frame.RINK),
        ]
    )
    for one in game.shots:
        assert (one.x, one.y) == pytest.approx((6.0, 2.0), abs=0.01)
    assert game.defended_end is NEAR


def test_ends_do_not_switch_when_the_league_keeps_them():
    game = replay(
        [set_up(ends_switch=False), PeriodStart(id="p2", period=2), shot("b", frame=Frame.RINK)]
    )
    assert game.defended_end is NEAR
    assert game.shots[0].x == 6.0


def test_an_end_said_at_a_period_start_holds_from_there_on():
    game = replay(
        [
            set_up(first_end=FAR),
            PeriodStart(id="p2", period=2, defended_end=FAR),
            PeriodStart(id="p3", period=3),
        ]
    )
    assert game.defended_end is NEAR


def test_a_shots_own_period_wins_over_the_running_one():
    late = shot("late", x=6.0, y=2.0, frame=Frame.RINK, period=1)
    game = replay([set_up(), PeriodStart(id="p2", period=2), late])
    assert (game.shots[0].period, game.shots[0].x) == (1, 6.0)


def test_the_places_of_the_context_turn_with_the_shot():
    around = Context(pass_x=FAR_NET - 5.0, pass_y=3.0, goaltender_x=FAR_NET - 1.0, goaltender_y=0.1)
    game = replay(
        [set_up(first_end=FAR), shot("a", x=FAR_NET - 6, y=-2, frame=Frame.RINK, context=around)]
    )
    context = game.shots[0].context
    assert (context.pass_x, context.pass_y) == pytest.approx((5.0, -3.0), abs=0.01)
    assert (context.goaltender_x, context.goaltender_y) == pytest.approx((1.0, -0.1), abs=0.01)


def test_the_same_event_twice_counts_once():
    game = replay([set_up(), shot("a"), shot("a"), set_up()])
    assert len(game.shots) == 1


def test_of_two_events_under_one_id_the_first_counts():
    game = replay([set_up(), shot("a", x=5.0), shot("a", x=9.0)])
    assert [one.x for one in game.shots] == [5.0]


def test_an_undo_cannot_undo_a_later_undo_or_itself():
    events = [set_up(), shot("a"), Undo(id="u1", undoes="u2"), Undo(id="u2", undoes="a")]
    assert [one.id for one in standing(events)] == ["start", "u1", "u2"]
    assert replay([set_up(), shot("a"), Undo(id="u", undoes="u")]).shots[0].id == "a"


def test_undo_takes_out_the_event_it_names_and_redo_brings_it_back():
    base = [set_up(), shot("a"), shot("b")]
    undone = [*base, Undo(id="u1", undoes="a")]
    assert [one.id for one in replay(undone).shots] == ["b"]
    assert replay(undone).can_redo == "u1"
    redone = [*undone, Undo(id="u2", undoes="u1")]
    assert [one.id for one in replay(redone).shots] == ["a", "b"]
    assert replay(redone).can_redo == ""
    again = [*redone, Undo(id="u3", undoes="a")]
    assert [one.id for one in replay(again).shots] == ["b"]


def test_an_undo_that_arrives_before_its_event_still_takes_it_out():
    assert replay([set_up(), Undo(id="u", undoes="a"), shot("a")]).shots == ()


def test_undos_that_name_each_other_do_not_hang():
    game = replay([set_up(), shot("a"), Undo(id="u1", undoes="u2"), Undo(id="u2", undoes="u1")])
    assert len(game.shots) == 1


def test_what_can_be_undone_is_the_newest_event_that_counts():
    game = replay([set_up(), shot("a"), shot("b"), Undo(id="u", undoes="b")])
    assert game.can_undo is not None
    assert game.can_undo.id == "a"
    assert replay([set_up()]).can_undo is None


def test_shots_go_to_the_person_in_the_net():
    game = replay(
        [
            set_up(),
            shot("a"),
            GoaltenderChange(id="c1", goaltender="milo"),
            shot("b"),
            GoaltenderChange(id="c2", goaltender=""),
            shot("c", result=ShotResult.GOAL),
        ]
    )
    assert [one.goaltender for one in game.shots] == ["ronja", "milo", ""]
    assert game.goaltenders == ("ronja", "milo")
    assert not game.shots[2].on_goal  # an empty net is nobody's goal


def test_a_change_entered_late_takes_effect_before_the_shot_it_names():
    game = replay(
        [set_up(), shot("a"), shot("b"), GoaltenderChange(id="c", goaltender="milo", before="b")]
    )
    assert [one.goaltender for one in game.shots] == ["ronja", "milo"]


def test_a_change_entered_late_goes_by_the_clock_where_there_is_one():
    game = replay(
        [
            set_up(),
            shot("a", elapsed=100.0),
            shot("b", elapsed=200.0),
            GoaltenderChange(id="c", goaltender="milo", period=1, elapsed=150.0),
            shot("d", elapsed=120.0),
        ]
    )
    assert [one.goaltender for one in game.shots] == ["ronja", "milo", "ronja"]


def test_an_undone_change_gives_the_shots_back():
    events = [set_up(), GoaltenderChange(id="c", goaltender="milo"), shot("a")]
    assert replay(events).shots[0].goaltender == "milo"
    assert replay([*events, Undo(id="u", undoes="c")]).shots[0].goaltender == "ronja"


def test_time_in_the_net_comes_from_the_clock():
    change = GoaltenderChange(id="c", goaltender="milo", period=2, elapsed=430.0)
    game = replay([set_up(period_length=900.0), change, GameEnd(id="e")])
    # by hand: 900 + 430 = 1330 s and 2700 - 1330 = 1370 s
    assert game.seconds_of("ronja") == 1330.0
    assert game.seconds_of("milo") == 1370.0


def test_time_in_the_net_is_unknown_when_a_change_had_no_clock():
    game = replay([set_up(), GoaltenderChange(id="c", goaltender="milo"), GameEnd(id="e")])
    assert game.seconds_of("ronja") is None


def test_overtime_counts_to_the_second_it_ended():
    game = replay([set_up(), PeriodStart(id="p4", period=4), GameEnd(id="e", elapsed=95.0)])
    assert game.seconds_of("ronja") == 3 * 1200 + 95


def test_details_said_later_complete_a_shot():
    game = replay(
        [
            set_up(),
            shot("a"),
            ShotDetail(id="d", shot="a", readiness=Readiness.MOVING, screened=True,
                       goaltender_x=1.1, goaltender_y=0.2),
        ]
    )  # fmt: skip
    only = game.shots[0]
    assert only.context.readiness is Readiness.MOVING
    assert only.context.goaltender_x == 1.1
    assert only.situation is ScoringSituation.SCREEN
    assert only.situation_given is Given.INFERRED


def test_the_last_rating_of_a_goal_counts():
    game = replay(
        [
            set_up(),
            shot("a", result=ShotResult.GOAL),
            GoalRating(id="r1", shot="a", rating=2),
            GoalRating(id="r2", shot="a", rating=0, with_goaltender=True),
        ]
    )
    rating = game.goals[0].rating
    assert rating is not None
    assert (rating.rating, rating.with_goaltender) == (0, True)


def test_what_speaks_of_an_unknown_shot_is_told_and_left_out():
    game = replay([set_up(), GoalRating(id="r", shot="nowhere", rating=1)])
    assert game.warnings == ("r speaks of a shot that is not in the log",)


def test_a_second_shot_soon_after_the_first_is_a_rebound():
    game = replay([set_up(), shot("a", elapsed=100.0), shot("b", elapsed=102.0)])
    assert game.shots[1].situation is ScoringSituation.REBOUND
    assert game.shots[0].situation is None


def test_chances_and_notes_are_kept():
    game = replay(
        [
            set_up(),
            ChanceSeen(id="ch", x=3.0, y=1.0, frame=Frame.NET),
            NoteTaken(id="n", text="calm", about="ronja", made_at=NOON),
        ]
    )
    assert game.chances[0].goaltender == "ronja"
    assert game.notes[0].text == "calm"


@pytest.mark.parametrize("events", [[], [shot("a")], [set_up(), set_up(id="other")]])
def test_a_game_needs_exactly_one_set_up(events):
    with pytest.raises(InputError, match="a game needs one set-up"):
        replay(events)


def test_a_shot_off_the_ice_is_told():
    assert replay([set_up(), shot("a", x=60.0)]).warnings == ("shot 1 lies off the ice",)


# --- properties -------------------------------------------------------------------------------


@st.composite
def logs(draw):
    """A set-up and then a mix of shots, changes, undos and period starts; ids are e0, e1, ..."""
    events = [set_up(first_end=draw(st.sampled_from((NEAR, FAR))))]
    count = draw(st.integers(0, 14))
    for index in range(count):
        name = f"e{index}"
        kind = draw(st.sampled_from(("shot", "shot", "undo", "change", "period")))
        if kind == "shot":
            events.append(
                shot(name, x=draw(st.floats(0.5, 20)), y=draw(st.floats(-9, 9)),
                     frame=draw(st.sampled_from(tuple(Frame))),
                     result=draw(st.sampled_from(tuple(ShotResult))))
            )  # fmt: skip
        elif kind == "undo":
            events.append(Undo(id=name, undoes=f"e{draw(st.integers(0, max(index - 1, 0)))}"))
        elif kind == "change":
            events.append(GoaltenderChange(id=name, goaltender=draw(st.sampled_from(("g", "h")))))
        else:
            events.append(PeriodStart(id=name, period=draw(st.integers(1, 4))))
    return events


def substance(game):
    return (game.shots, game.goaltender, game.period, game.stints, game.notes)


@QUICK
@given(logs(), st.data())
def test_sending_any_part_again_changes_nothing(events, data):
    again = data.draw(st.lists(st.sampled_from(events), max_size=6))
    assert substance(replay([*events, *again])) == substance(replay(events))


@QUICK
@given(logs())
def test_undo_then_redo_of_the_newest_event_changes_nothing(events):
    before = replay(events)
    if before.can_undo is None:
        return
    undone = [*events, Undo(id="undo", undoes=before.can_undo.id)]
    redone = [*undone, Undo(id="redo", undoes="undo")]
    assert replay(undone).can_redo == "undo"
    assert substance(replay(redone)) == substance(before)


@QUICK
@given(logs())
def test_undoing_everything_leaves_the_bare_game(events):
    game, step = replay(events), 0
    while game.can_undo is not None:
        events = [*events, Undo(id=f"u{step}", undoes=game.can_undo.id)]
        game, step = replay(events), step + 1
        assert step < 50
    assert game.shots == ()
    assert game.goaltender == "ronja"


@QUICK
@given(logs())
def test_events_survive_the_way_to_a_dictionary_and_back(events):
    assert [event_from_dict(event_to_dict(one)) for one in events] == events


@QUICK
@given(
    st.lists(
        st.tuples(st.floats(0.5, 20), st.floats(-9, 9), st.integers(1, 4)), min_size=1, max_size=8
    ),
    st.randoms(use_true_random=False),
)
def test_shots_that_say_their_period_may_arrive_in_any_order(places, random):
    taps = [
        shot(f"s{i}", x=x, y=y, frame=Frame.RINK, period=p) for i, (x, y, p) in enumerate(places)
    ]
    mixed = list(taps)
    random.shuffle(mixed)
    starts = [PeriodStart(id="p2", period=2), PeriodStart(id="p3", period=3)]

    def placed(events):
        return sorted((one.id, one.x, one.y, one.period) for one in replay(events).shots)

    assert placed([set_up(), *taps, *starts]) == placed([set_up(), *starts, *mixed])


@QUICK
@given(st.floats(0.5, 25), st.floats(-10, 10), st.integers(1, 6), st.sampled_from((NEAR, FAR)))
def test_a_place_tapped_at_either_end_comes_back_the_same(x, y, period, first):
    far = (first is FAR) == (period % 2 == 1)
    tap = other_end(rink(), x, y) if far else (x, y)
    events = [set_up(first_end=first), shot("a", *tap, frame=Frame.RINK, period=period)]
    only = replay(events).shots[0]
    assert (only.x, only.y) == pytest.approx((x, y), abs=1e-9)


def test_the_places_of_the_log_match_the_test_sheet():
    assert rink().far_net_x == pytest.approx(FAR_NET, abs=0.01)
