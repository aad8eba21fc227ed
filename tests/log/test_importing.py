"""Rows of a table become games and shots, or are refused, and in which words."""

import random
from datetime import date

import pytest

from tendline.base import InputError, Level, ScoringSituation, ShotResult, ShotType
from tendline.log import (
    ColumnMapping,
    FileUnit,
    ImportRefusedError,
    Readiness,
    RinkEnd,
    import_table,
    read_table,
)
from tests.log.tables import DAY, HEAD, PLAIN, games, one_game, table


def test_a_row_becomes_a_shot_with_all_that_it_says():
    game = one_game("1,Reds,kim,2,3:20,6.5,-2.0,G,snap,screen,moving,1")
    (shot,) = game.shots
    assert (shot.x, shot.y, shot.period, shot.elapsed) == (6.5, -2.0, 2, 200.0)
    assert (shot.result, shot.shot_type) == (ShotResult.GOAL, ShotType.SNAP)
    assert (shot.situation, shot.goaltender) == (ScoringSituation.SCREEN, "kim")
    assert shot.context.readiness is Readiness.MOVING
    assert shot.context.screened is True


def test_values_are_mapped_whatever_their_case():
    game = one_game("1,Reds,kim,ot,10,6,2,g,,,,")
    assert (game.shots[0].is_goal, game.shots[0].period) == (True, 4)


def test_each_game_and_net_is_a_game_of_its_own():
    read = import_table(
        table("1,Reds,kim,1,10,6,2,S,,,,", "1,Blues,lou,1,20,6,2,G,,,,", "2,Reds,kim,1,9,6,2,S,,,,"),
        PLAIN, day=DAY,
    )  # fmt: skip
    assert [one.id for one in read.games] == [
        "1:Blues",
        "1:Reds",
        "2:against-Reds-" + read.games[2].id[-8:],
    ]
    assert read.faced == (("kim", 2), ("lou", 1))
    assert read.words == "3 shots in 3 games"


def test_a_change_of_goaltender_credits_the_right_person():
    game = one_game(
        "1,Reds,kim,1,10,6,2,S,,,,", "1,Reds,lou,1,20,6,2,G,,,,", "1,Reds,lou,2,5,6,2,S,,,,"
    )
    assert [one.goaltender for one in game.shots] == ["kim", "lou", "lou"]
    assert game.goaltenders == ("kim", "lou")


def test_only_games_of_the_wanted_goaltender_are_kept():
    rows = table("1,Reds,kim,1,10,6,2,S,,,,", "2,Reds,lou,1,20,6,2,G,,,,")
    read = import_table(rows, PLAIN, day=DAY, goaltenders=["lou"], people={"lou": "louise"})
    assert [one.goaltenders for one in games(read)] == [("louise",)]
    with pytest.raises(InputError, match=r"no game with that goaltender.*Did you mean 'lou'"):
        import_table(rows, PLAIN, day=DAY, goaltenders=["lue"])


def test_odd_names_become_usable_ids():
    game = one_game("1,Reds,Kim O'Dell,1,10,6,2,S,,,,")
    assert game.shots[0].goaltender.startswith("Kim-O-Dell-")


def test_level_and_rule_set_reach_the_game():
    game = one_game("1,Reds,kim,1,10,6,2,S,,,,", level=Level.U15)
    assert game.level is Level.U15


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("1,Reds,kim,1,10,six,2,S,,,,", "line 2: column 'x' cannot be read as x; got 'six'; allowed: a number"),
        ("1,Reds,kim,1,10,,2,S,,,,", "column 'x' cannot be read as x; got ''"),
        ("1,Reds,kim,1,10,nan,2,S,,,,", "column 'x' cannot be read as x; got 'nan'"),
        ("1,Reds,kim,1,10,6,2,Z,,,,", "column 'result' cannot be read as result; got 'Z'; allowed: G, S"),
        ("1,Reds,kim,1,10,6,2,,,,,", "column 'result' cannot be read as result; got ''"),
        ("1,Reds,kim,1,10,6,2,S,snapp,,,", "Did you mean 'snap'"),
        ("1,Reds,kim,1,10,6,2,S,,net drives,,", "Did you mean 'net drive'"),
        ("1,Reds,kim,1,10,6,2,S,,,asleep,", "allowed: set, moving, down"),
        ("1,Reds,kim,1,10,6,2,S,,,,maybe", "allowed: yes or no, 1 or 0"),
        ("1,Reds,kim,first,10,6,2,S,,,,", "allowed: a whole number"),
        ("1,Reds,kim,99,10,6,2,S,,,,", "allowed: 1 to 20"),
        ("1,Reds,kim,1,99:99,6,2,S,,,,", "allowed: seconds, or minutes:seconds"),
        ("1,Reds,kim,1,-5,6,2,S,,,,", "allowed: 0 to 7200 s"),
        ("1,Reds,kim,1,10,61,2,S,,,,", "the shot lies off the ice; got (61, 2) m; allowed: -3 to 58 m out"),
    ],
)  # fmt: skip
def test_a_bad_row_is_named_and_nothing_is_imported(line, words):
    good = [f"1,Reds,kim,1,{t},6,2,S,,,," for t in range(3)]
    with pytest.raises(ImportRefusedError) as caught:
        import_table(table(line, *good), PLAIN, day=DAY)
    assert "1 of 4 shots cannot be used, so nothing was imported" in str(caught.value)
    assert words in str(caught.value)
    assert len(caught.value.rows) == 1
    read = import_table(table(line, *good), PLAIN, day=DAY, leave_out_bad_rows=True)
    assert read.words == "3 shots in 1 games; 1 rows left out"


def test_many_bad_rows_are_counted_and_the_first_are_shown():
    bad = [f"1,Reds,kim,1,{t},oops,2,S,,,," for t in range(9)]
    with pytest.raises(ImportRefusedError, match="and 4 more") as caught:
        import_table(table(*bad, "1,Reds,kim,1,1,6,2,S,,,,"), PLAIN, day=DAY)
    assert [one.item for one in caught.value.rows] == [f"line {n}" for n in range(2, 11)]


def ordinary(count=40, factor=1.0, seed=1, turn=1.0):
    draw = random.Random(seed)
    return [
        f"1,Reds,kim,1,{t},{turn * factor * draw.uniform(2, 17):.2f},{factor * draw.uniform(-8, 8):.2f},S,,,,"
        for t in range(count)
    ]


def test_feet_read_as_metres_are_found_out():
    with pytest.raises(InputError, match="do not fit the ice in the unit m") as caught:
        import_table(table(*ordinary(factor=1 / 0.3048)), PLAIN, day=DAY)
    assert "shots off the ice, for example line" in caught.value.came
    assert "Nothing was imported. The places fit the unit ft" in caught.value.hint


def test_metres_read_as_feet_are_found_out():
    from dataclasses import replace

    feet = replace(PLAIN, unit=FileUnit.FEET)
    with pytest.raises(InputError, match="huddle at the goal in the unit ft") as caught:
        import_table(table(*ordinary()), feet, day=DAY)
    assert "The places fit the unit m" in caught.value.hint


def test_a_wrong_unit_is_not_forgiven_by_leaving_rows_out():
    rows = table(*ordinary(factor=1 / 0.3048))
    with pytest.raises(InputError, match="do not fit the ice"):
        import_table(rows, PLAIN, day=DAY, leave_out_bad_rows=True)


def test_an_axis_that_points_the_wrong_way_is_found_out():
    near = [
        f"1,Reds,kim,1,{t},{-abs(random.Random(t).uniform(0.2, 3)):.2f},{5 + t % 3},S,,,,"
        for t in range(20)
    ]
    with pytest.raises(InputError, match="from behind the goal line") as caught:
        import_table(table(*near), PLAIN, day=DAY)
    assert "Turn the x axis round" in caught.value.hint


def test_a_file_without_shots_says_what_rows_it_looked_for():
    mapping = ColumnMapping(
        name="m", columns={"x": "x", "y": "y", "result": "r"}, where={"what": ("shot",)}
    )
    with pytest.raises(InputError, match="rows that have 'what' = shot"):
        import_table(read_table("what,x,y,r\npass,1,1,1"), mapping, day=DAY)


def test_a_mapping_that_names_missing_columns_is_refused():
    with pytest.raises(
        InputError, match=r"lacks columns that the mapping names.*Did you mean 'res"
    ):
        import_table(read_table(HEAD.replace("result", "results") + "\n1"), PLAIN, day=DAY)


def test_progress_is_told():
    told = []
    import_table(
        table(*ordinary()), PLAIN, day=DAY, progress=lambda done, of: told.append((done, of))
    )
    assert told[0] == (0, 40)


def test_the_same_table_gives_the_same_events():
    first = import_table(table(*ordinary()), PLAIN, day=DAY)
    again = import_table(table(*ordinary()), PLAIN, day=DAY)
    assert first == again
    assert RinkEnd.NEAR is games(first)[0].defended_end


@pytest.mark.parametrize(
    ("columns", "line", "words"),
    [
        ({"day": "when"}, "6,1,save,yesterday", "allowed: a date such as 2026-11-25"),
        ({"attackers": "when"}, "6,1,save,9", "attackers is out of range; got 9"),
        ({"target_z": "when"}, "6,1,save,8", "target_z is out of range; got 8 m"),
    ],
)
def test_what_a_shot_cannot_be_is_told_with_its_line(columns, line, words):
    mapping = ColumnMapping(name="m", columns={"x": "x", "y": "y", "result": "r", **columns})
    with pytest.raises(ImportRefusedError) as caught:
        import_table(read_table(f"x,y,r,when\n{line}\n6,1,save,"), mapping, day=DAY)
    assert words in str(caught.value)
    assert caught.value.rows[0].item == "line 2"


def test_a_pass_and_the_goaltender_in_the_shots_own_row_are_read():
    mapping = ColumnMapping(
        name="m",
        columns={
            "x": "x", "y": "y", "result": "r", "pass_x": "px", "pass_y": "py", "since_pass": "s",
            "goaltender_x": "gx", "goaltender_y": "gy", "day": "day",
        },
        minus={"goaltender_x": "dx"},
    )  # fmt: skip
    read = import_table(
        read_table("x,y,r,px,py,s,gx,gy,dx,day\n6,4,save,6,-5,0.8,1.4,0.1,0.3,2026-01-02"),
        mapping, day=DAY,
    )  # fmt: skip
    (game,) = games(read)
    context = game.shots[0].context
    assert (context.pass_x, context.pass_y, context.since_pass) == (6.0, -5.0, 0.8)
    assert (context.goaltender_x, context.goaltender_y) == pytest.approx((1.1, 0.1))
    assert game.day == date(2026, 1, 2)
    assert game.shots[0].situation is ScoringSituation.EAST_WEST
