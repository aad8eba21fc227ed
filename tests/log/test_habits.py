"""An opponent's habits as counts, and records beside expectation."""

from datetime import date

import pytest

from tendline.base import ScoringSituation, ShotResult, ShotType, Side
from tendline.log import (
    Context,
    NoteKind,
    NoteTaken,
    compare,
    habits,
    option_counts,
    records,
    replay,
)
from tendline.play import OptionKind
from tests.log.samples import set_up, shot

S = ScoringSituation


def game(*events, name="g1", day=21, opponent="Harrow Lake"):
    return replay([set_up(day=date(2026, 11, day), opponent=opponent), *events], game=name)


def by(number, hand=Side.LEFT, **more):
    return Context(shooter=number, shooter_hand=hand, **more)


def test_a_shooter_is_counted_from_the_third_shot_on():
    found = habits(
        [
            game(
                *(shot(f"a{i}", y=-3.0, situation=S.ENTRY, context=by("14")) for i in range(3)),
                shot("b", y=3.0, situation=S.CLEAR_SHOT, context=by("14")),
                shot("c", context=by("9")),
            )
        ],
        "Harrow Lake",
    )
    (only,) = found.shooters
    assert (only.number, only.shots, only.hand) == ("14", 4, Side.LEFT)
    assert only.words == "14: shoots left, from her right 3 times of 4 seen, entry 3 of 4"


def test_a_hand_seen_both_ways_is_not_claimed():
    shots = [
        shot(f"a{i}", context=by("14", hand))
        for i, hand in enumerate((Side.LEFT, Side.RIGHT, Side.LEFT))
    ]
    assert habits([game(*shots)], "Harrow Lake").shooters[0].hand is None


def test_the_card_says_how_much_was_seen_and_keeps_notes_newest_first():
    notes = [
        game(NoteTaken(id="n", text="old", purpose=NoteKind.OPPONENT), day=1),
        game(NoteTaken(id="n", text="new", purpose=NoteKind.OPPONENT), shot("a", situation=S.SCREEN),
             NoteTaken(id="m", text="private", about="ronja"), name="g2", day=20),
        game(shot("a"), name="g3", opponent="Stonebridge"),
    ]  # fmt: skip
    found = habits(notes, "Harrow Lake")
    assert found.words == (
        "Harrow Lake: 1 shots seen in 2 games.",
        "screen: 1 of 1 (between 21 and 100 in 100)",
        "new",
        "old",
    )
    assert habits(notes, "Nobody").words == ("Nobody: nothing logged yet.",)


@pytest.mark.parametrize(
    ("event", "kind"),
    [
        (shot("a", situation=S.CLEAR_SHOT), OptionKind.SHOOT),
        (shot("a", context=Context(pass_x=6.0, pass_y=-4.0, one_timer=True)), OptionKind.ONE_TIMER),
        (shot("a", context=Context(pass_x=6.0, pass_y=-4.0)), OptionKind.SETTLE),
        (shot("a", shot_type=ShotType.TIP), OptionKind.TIP),
        (shot("a", situation=S.NET_DRIVE), OptionKind.NET_DRIVE),
        (shot("a", x=0.4, shot_type=ShotType.WRAP), OptionKind.WRAP),
        (shot("a", situation=S.REBOUND), None),
        (shot("a"), None),
    ],
)
def test_shots_become_counts_of_options(event, kind):
    found = option_counts(game(event).shots)
    assert found == ({} if kind is None else {kind: 1})


def test_a_record_stands_beside_what_was_to_be_expected():
    shots = [
        shot(f"a{i}", x=8.0, y=0.0, situation=S.CLEAR_SHOT,
             result=ShotResult.GOAL if i < 2 else ShotResult.SAVE) for i in range(30)
    ] + [
        shot(f"b{i}", x=8.0, y=0.0, situation=S.SCREEN,
             result=ShotResult.GOAL if i < 8 else ShotResult.SAVE) for i in range(10)
    ]  # fmt: skip
    played = game(*shots).shots
    found = compare(played)
    (zone,) = found.zones
    assert zone.expected == pytest.approx(10.0)  # by hand: her own level, so the sum is her goals
    assert zone.words == "10 goals on 40 shots, about 10.0 to expect: as expected"
    clear, screen = found.situations
    assert (clear.expected, screen.expected) == pytest.approx(
        (7.5, 2.5)
    )  # by hand: 30 and 10 of 40
    assert (
        screen.words == "8 goals on 10 shots, about 2.5 to expect: more than chance usually gives"
    )
    assert "fewer" in clear.words
    assert sum(one.record.goals for one in found.situations) == records(played).total.goals
    assert "NHL" in found.source


def test_a_difference_within_two_spreads_could_be_chance():
    shots = [
        shot(f"{name}{i}", x=8.0, y=0.0, situation=kind,
             result=ShotResult.GOAL if i < goals else ShotResult.SAVE)
        for name, kind, goals in (("a", S.CLEAR_SHOT, 2), ("b", S.SCREEN, 5)) for i in range(20)
    ]  # fmt: skip
    clear, screen = compare(game(*shots).shots).situations
    # by hand: 3.5 to expect of each, spread sqrt(20 * 0.175 * 0.825) = 1.7
    assert screen.spread == pytest.approx(1.699, abs=0.001)
    assert screen.words.endswith("as expected")
    assert compare(game(*shots[:22]).shots).zones[0].record.goals == 4
    assert clear.record.goals == 2


def test_nothing_to_compare_is_no_error():
    assert compare(()).zones == ()
