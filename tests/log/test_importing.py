"""Tables in: what is read, what is refused, and in which words."""

import random
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, Level, NotFoundError, ScoringSituation, ShotResult, ShotType
from tendline.ice import rink
from tendline.log import (
    ColumnMapping,
    Ends,
    FileUnit,
    ImportRefusedError,
    Origin,
    Readiness,
    RinkEnd,
    Strength,
    fitting,
    import_table,
    mapping_from_dict,
    mapping_to_dict,
    read_table,
    ready_mappings,
    replay,
    text_of,
)
from tendline.log.placing import place
from tests.log.samples import FAR_NET

DAY = date(2026, 11, 25)
PLAIN = ColumnMapping(
    name="plain",
    columns={
        "game": "game", "team": "team", "goaltender": "goalie", "period": "period",
        "elapsed": "time", "x": "x", "y": "y", "result": "result", "shot_type": "type",
        "situation": "situation", "readiness": "state", "screened": "screen",
    },
    values={"result": {"G": "goal", "S": "save"}, "period": {"OT": "4"}},
)  # fmt: skip
HEAD = "game,team,goalie,period,time,x,y,result,type,situation,state,screen"


def table(*lines, head=HEAD):
    return read_table("\n".join([head, *lines]))


def games(read):
    return [replay(one.events, game=one.id) for one in read.games]


def one_game(*lines, mapping=PLAIN, **more):
    (game,) = games(import_table(table(*lines), mapping, day=DAY, **more))
    return game


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


# --- frames -----------------------------------------------------------------------------------

CENTRED = {"origin": Origin.CENTRE, "ends": Ends.NEARER}


@pytest.mark.parametrize(
    ("frame", "given_place"),
    [
        # by hand, for a shot 6 m out and 2 m to her left; L = 54.25 m, width 25.91 m, boards 3.35 m
        ({}, (6.0, 2.0)),
        ({"x_out": False}, (-6.0, 2.0)),
        ({"y_left": False}, (6.0, -2.0)),
        ({"unit": FileUnit.FEET}, (6.0 / 0.3048, 2.0 / 0.3048)),
        ({"unit": FileUnit.YARDS}, (6.0 / 0.9144, 2.0 / 0.9144)),
        (CENTRED, (6.0 - FAR_NET / 2, 2.0)),
        (CENTRED, (FAR_NET / 2 - 6.0, -2.0)),
        ({**CENTRED, "y_left": False}, (6.0 - FAR_NET / 2, -2.0)),
        ({"origin": Origin.CORNER, "ends": Ends.NEARER}, (6.0 + 3.353, 2.0 + 25.908 / 2)),
        ({"origin": Origin.CORNER, "ends": Ends.NEARER, "y_left": False}, (6.0 + 3.353, 25.908 / 2 - 2.0)),
    ],
)  # fmt: skip
def test_every_frame_of_a_file_leads_to_the_same_place(frame, given_place):
    mapping = ColumnMapping(name="f", columns={"x": "x", "y": "y", "result": "r"}, **frame)
    found = place(mapping, x=given_place[0], y=given_place[1], period=1)
    assert found == pytest.approx((6.0, 2.0), abs=0.01)


def test_ends_switched_by_period_in_the_file_are_turned_back():
    mapping = ColumnMapping(
        name="f",
        columns={"x": "x", "y": "y", "result": "r"},
        origin=Origin.CENTRE,
        ends=Ends.BY_PERIOD,
    )
    low = (6.0 - FAR_NET / 2, 2.0)
    high = (FAR_NET / 2 - 6.0, -2.0)
    for period, (x, y) in ((1, low), (2, high), (3, low)):
        assert place(mapping, x=x, y=y, period=period) == pytest.approx((6.0, 2.0), abs=0.01)


@settings(deadline=None, max_examples=40)
@given(
    st.floats(1, 20), st.floats(-10, 10), st.integers(1, 4), st.sampled_from(FileUnit),
    st.booleans(), st.booleans(), st.booleans(), st.sampled_from((Origin.CENTRE, Origin.CORNER)),
)  # fmt: skip
def test_a_place_written_in_any_frame_comes_back(x, y, period, unit, x_out, y_left, near, origin):
    """Writes a place the way such a file would, by its own formula, and reads it back."""
    sheet = rink()
    at_low_end = near == (period % 2 == 1)
    wx, wy = (x, y) if at_low_end else (sheet.far_net_x - x, -y)
    wx, wy = (
        (wx - sheet.red_line_x, wy)
        if origin is Origin.CENTRE
        else (wx + sheet.goal_line_to_boards, wy)
    )
    if not y_left:
        wy = -wy
    if origin is Origin.CORNER:
        wy += sheet.width / 2
    if not x_out:
        wx = -wx
    mapping = ColumnMapping(
        name="f", columns={"x": "x", "y": "y", "result": "r"}, unit=unit, x_out=x_out,
        y_left=y_left, origin=origin, ends=Ends.BY_PERIOD, near_end_first=near,
    )  # fmt: skip
    found = place(mapping, x=wx / unit.metres, y=wy / unit.metres, period=period)
    assert found == pytest.approx((x, y), abs=1e-6)


# --- the play before, from a stream of events ---------------------------------------------------

STREAM = next(one for one in ready_mappings() if one.name == "event stream")
STREAM_HEAD = (
    "game,season,period,clock_left_s,seq,team,home,skaters_own,skaters_opp,goals_own,goals_opp,"
    "player,event,kind,completed,x_m,y_m,player2,x2_m,y2_m,outcome,traffic,one_timer"
)


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


# --- mappings and tables ------------------------------------------------------------------------


def test_ready_mappings_go_to_a_dictionary_and_back():
    assert len(ready_mappings()) == 3
    for one in (*ready_mappings(), PLAIN):
        assert mapping_from_dict(mapping_to_dict(one)) == one


def test_the_fitting_mapping_is_found_by_the_columns():
    assert fitting(tuple(STREAM_HEAD.split(",")), ready_mappings()) is STREAM
    assert fitting(("a", "b"), ready_mappings()) is None


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"name": "m", "columns": {"x": "a", "y": "b"}}, "no column for result"),
        ({"name": "m", "columns": {"x": "a", "y": "b", "results": "c"}}, "Did you mean 'result'"),
        ({"name": "m", "columns": {}, "units": "m"}, "Did you mean 'unit'"),
        ({"name": "m", "columns": {}, "unit": "metre"}, "allowed: m, ft, yd, in"),
        ({"name": "m"}, "the mapping cannot be read"),
        ({"name": "m", "columns": {}, "stream": {"pases": {}}}, "the mapping cannot be read"),
    ],
)
def test_a_mapping_that_makes_no_sense_is_refused(data, words):
    with pytest.raises((InputError, NotFoundError)) as caught:
        mapping_from_dict(data)
    assert words in str(caught.value)


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_common_separators_and_decimal_commas_are_read(separator):
    decimal = "6,5" if separator != "," else "6.5"
    cells = ["1", "Reds", "kim", "1", "10", decimal, "2", "S", "", "", "", ""]
    text = HEAD.replace(",", separator) + "\n" + separator.join(cells)
    (game,) = games(import_table(read_table(text), PLAIN, day=DAY))
    assert game.shots[0].x == 6.5


def test_marks_and_old_encodings_are_read():
    assert text_of(b"\xef\xbb\xbfa,b") == "a,b"
    assert text_of("Zürich".encode("cp1252")) == "Zürich"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "the file is empty"),
        ("\n \n", "the file is empty"),
        ("a,b,a\n1,2,3", "two columns share a name; got a"),
        ('a,b\n1,"2' + "x" * 140_000, "cannot be read as a table"),
    ],
)
def test_what_is_no_table_is_refused(text, words):
    with pytest.raises(InputError, match=words):
        read_table(text)


def test_a_spreadsheet_file_is_no_text():
    with pytest.raises(InputError, match="Save the sheet as CSV"):
        text_of(b"PK\x03\x04\x00\x00\x00\x00")


def test_short_rows_are_filled_and_empty_lines_left_out():
    read = read_table("a,b\n1\n\n2,3,4\n")
    assert [dict(one.cells) for one in read.rows] == [{"a": "1", "b": ""}, {"a": "2", "b": "3"}]
    assert [one.line for one in read.rows] == [2, 4]


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


def test_a_stream_without_a_clock_says_nothing_of_the_play_before():
    played = streamed(
        event("soon", "A", "pass", 6, -5, completed=1),
        event("", "A", "shot", 6, 4, outcome="saved"),
        event("", "B", "shot", 8, 1, outcome="missed"),
    )
    assert played["B"].shots[0].context.pass_x is None


def test_files_that_are_too_large_are_refused(monkeypatch):
    monkeypatch.setattr("tendline.log.table.MOST_BYTES", 10)
    monkeypatch.setattr("tendline.log.table.MOST_ROWS", 2)
    with pytest.raises(InputError, match="the file is too large"):
        text_of(b"x" * 11)
    with pytest.raises(InputError, match="too many rows"):
        read_table("a\n1\n2\n3")
