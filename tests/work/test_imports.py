"""Importing a file into the club: once, all or nothing, corrected by importing again."""

import json
from datetime import date
from pathlib import Path

import pytest

from tendline.base import InputError, Level, NotFoundError
from tendline.log import FIELDS, ColumnMapping, FileUnit, ImportRefusedError, mapping_from_dict
from tendline.store import open_store
from tendline.work.imports import choose_mapping, import_games, known_mappings, save_mapping

DAY = date(2026, 11, 25)
HEAD = "game,season,period,elapsed_s,seq,team,home,player,goaltender,kind,x_m,y_m,outcome,empty_net,penalty_shot"


def row(clock, x, y, outcome="saved", game="g1", team="A", goaltender="kim"):
    return f"{game},s,1,{clock},1,{team},1,p1,{goaltender},wristshot,{x},{y},{outcome},0,0"


GOOD = [
    row(10, 6, 2),
    row(60, 9, -3, "goal"),
    row(90, 4, 1),
    row(95, 7, 3, team="B", goaltender="lou"),
]


def data(*rows):
    return "\n".join([HEAD, *rows]).encode()


@pytest.fixture
def store(tmp_path):
    with open_store(tmp_path / "club.db") as opened:
        yield opened


def shots(store, game="g1:B"):
    return [(one.x, one.y, one.result.value) for one in store.games.game(game).shots]


def test_a_file_is_imported_and_said_in_words(store):
    done = import_games(store, data(*GOOD), day=DAY, level=Level.U18)
    assert done.words == "Imported with the mapping 'shots on goal': 4 shots in 2 games."
    assert done.games == ("g1:B", "g1:A")
    assert shots(store) == [(6.0, 2.0, "save"), (9.0, -3.0, "goal"), (4.0, 1.0, "save")]
    assert store.games.game("g1:B").level is Level.U18


def test_the_same_file_again_adds_nothing_whatever_the_day(store):
    import_games(store, data(*GOOD), day=DAY)
    done = import_games(store, data(*GOOD), day=date(2026, 12, 1))
    assert done.new_events == 0
    assert "All of it was there already" in done.words
    assert store.games.game("g1:B").day == DAY


def test_a_longer_file_adds_only_what_is_new(store):
    import_games(store, data(*GOOD), day=DAY)
    done = import_games(store, data(*GOOD, row(200, 5, 0, "goal")), day=DAY)
    assert done.new_events == 1
    assert len(shots(store)) == 4


def test_a_corrected_row_replaces_the_wrong_one_and_back_again(store):
    import_games(store, data(*GOOD), day=DAY)
    mended = [row(10, 6, 2, "goal"), *GOOD[1:]]
    done = import_games(store, data(*mended), day=DAY)
    assert done.replaced_games == 1
    assert "now say what this file says" in done.words
    assert sorted(shots(store)) == sorted(
        [(6.0, 2.0, "goal"), (9.0, -3.0, "goal"), (4.0, 1.0, "save")]
    )
    import_games(store, data(*GOOD), day=DAY)
    assert sorted(shots(store)) == sorted(
        [(6.0, 2.0, "save"), (9.0, -3.0, "goal"), (4.0, 1.0, "save")]
    )
    assert len(store.games.game("g1:B").shots) == 3


def test_a_bad_row_stops_everything_unless_it_is_left_out(store):
    bad = data(*GOOD, row(300, 80, 2))
    with pytest.raises(ImportRefusedError, match="1 of 5 shots cannot be used"):
        import_games(store, bad, day=DAY)
    assert store.games.headers() == ()
    done = import_games(store, bad, day=DAY, leave_out_bad_rows=True)
    assert "1 rows left out" in done.words


def test_only_one_goaltenders_games_under_a_persons_id(store):
    import_games(store, data(*GOOD), day=DAY, goaltenders=["lou"], people={"lou": "louise"})
    assert [one.goaltenders for one in store.games.headers()] == [("louise",)]


def test_own_mappings_come_first_and_are_found_by_name_or_columns(store):
    own = ColumnMapping(
        name="rink scorer", columns={"x": "across", "y": "up", "result": "end"}, unit=FileUnit.FEET
    )
    save_mapping(store, own)
    assert known_mappings(store)[0] == own
    assert choose_mapping(store, ("across", "up", "end", "more")) == own
    assert choose_mapping(store, (), "rink scorer") == own
    with pytest.raises(NotFoundError, match="Did you mean 'rink scorer'"):
        choose_mapping(store, (), "ring scorer")
    with pytest.raises(InputError, match="no mapping fits the columns of this file; got a, b"):
        choose_mapping(store, ("a", "b"))


def test_a_mapping_in_a_file_is_used_and_kept(store, tmp_path):
    path = tmp_path / "rink.json"
    path.write_text(
        '{"name": "rink", "unit": "ft", "columns": {"x": "out", "y": "left", "result": "end"},'
        ' "values": {"result": {"G": "goal"}}}'
    )
    table = b"out,left,end\n20,5,G\n30,-10,save\n"
    done = import_games(store, table, day=DAY, mapping=str(path))
    (shot, _) = store.games.game(done.games[0]).shots
    assert shot.x == pytest.approx(6.096)  # by hand: 20 ft
    assert shot.is_goal
    assert shot.goaltender.startswith("our-net")
    assert import_games(store, table, day=DAY).new_events == 0  # found by its columns from now on


@pytest.mark.parametrize(
    ("text", "words"),
    [("{,", "the mapping's file is no JSON"), ("[1]", "a mapping is a JSON object; got list")],
)
def test_a_mapping_file_that_is_none_is_told(store, tmp_path, text, words):
    path = tmp_path / "bad.json"
    path.write_text(text)
    with pytest.raises(InputError, match=words):
        choose_mapping(store, (), str(path))
    with pytest.raises(InputError, match="the mapping's file cannot be read"):
        choose_mapping(store, (), str(tmp_path / "none.json"))


def test_a_file_that_names_no_goaltender_can_be_given_one(store, tmp_path):
    path = tmp_path / "plain.json"
    path.write_text('{"name": "plain", "columns": {"x": "x", "y": "y", "result": "r"}}')
    done = import_games(
        store, b"x,y,r\n6,1,save\n", day=DAY, mapping=str(path), people={"": "ronja"}
    )
    assert store.games.game(done.games[0]).goaltenders == ("ronja",)


def test_the_mapping_in_the_guide_can_be_read_as_it_stands():
    text = (Path(__file__).parents[2] / "docs" / "do" / "import-games.md").read_text("utf-8")
    lines = text.split("## Write a mapping")[1].splitlines()
    block = "\n".join(line[4:] for line in lines if line.startswith("    "))
    mapping = mapping_from_dict(json.loads(block))
    assert mapping.unit is FileUnit.FEET
    for field in mapping.columns:
        assert field in FIELDS
