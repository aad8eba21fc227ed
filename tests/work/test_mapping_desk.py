"""Picking columns: what is read, refused and passed over is every row; kept picks can be used."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest

from tendline.base import InputError
from tendline.log import Ends, FileUnit, ImportRefusedError, Origin, read_table
from tendline.store import Store, open_store
from tendline.work.imports import import_games
from tendline.work.mapping_desk import (
    Picks,
    carried_over,
    keep_picks,
    mapping_of,
    picks_of,
    refused_table,
    start_picks,
    try_picks,
)

HEAD = "gameId;date;team;goalieName;period;time;xCoord;yCoord;event;shotType"
ROWS = (
    "7;2026-11-14;Blue Valley;Kim Lang;1;3:20;62;-12;SHOT;Wrist",
    "7;2026-11-14;Blue Valley;Kim Lang;1;4:02;80;5;GOAL;Snap",
    "7;2026-11-14;Blue Valley;Kim Lang;1;5:40;0;0;FACEOFF;",
    "7;2026-11-14;Blue Valley;Kim Lang;2;1:11;-71;-8;SHOT;Poke",
    "7;2026-11-14;Blue Valley;Kim Lang;2;2:15;-60;18;SHOT;Wrist",
    "7;2026-11-14;Blue Valley;Kim Lang;3;8:35;170;9;SHOT;Wrist",
    "7;2026-11-14;Blue Valley;Kim Lang;3;abc;60;-9;SHOT;=1+1",
)
TEXT = "\n".join([HEAD, *ROWS])
DAY = date(2026, 11, 25)


@pytest.fixture
def store(tmp_path) -> Iterator[Store]:
    with open_store(tmp_path / "club.db") as opened:
        yield opened


def started(store: Store, text: str = TEXT) -> Picks:
    return replace(start_picks(store, read_table(text)).picks, name="our rink")


def test_a_guess_reads_what_can_be_read_and_names_the_rest(store):
    found = start_picks(store, read_table(TEXT))
    assert not found.kept
    picks = found.picks
    assert (picks.unit, picks.origin, picks.ends) == (FileUnit.FEET, Origin.CENTRE, Ends.NEARER)
    trial = try_picks(store, read_table(TEXT), picks)
    assert trial.usable
    assert [one.line for one in trial.refused] == [7, 8]
    assert "off the ice" in trial.refused[0].reason
    assert "'abc'" in trial.refused[1].reason
    assert trial.answer == (
        "4 of 7 rows read as shots, 1 goal; 2 refused; 1 passed over, as they are no shots."
    )
    first = trial.rows[0]
    # By hand: 62 ft from the middle is 27 ft, 8.2 m, from the far goal line at 89 ft; seen from
    # there, 12 ft on the -y side lie to her left.
    assert (first.line, first.side) == (2, "8.2 m out, 3.7 m to her left")
    assert trial.goaltenders == ("Kim Lang",)


def test_no_row_is_ever_unaccounted_for(store):
    table = read_table(TEXT)
    picks = started(store)
    for change in (
        {}, {"where": {}}, {"unit": FileUnit.METRES}, {"values": {}},
        {"where": {"event": ("GOAL",)}},
    ):  # fmt: skip
        trial = try_picks(store, table, replace(picks, **change))
        assert trial.read + len(trial.refused) + trial.passed_over == len(table.rows)


def test_a_wrong_unit_is_told_for_the_whole_table_and_rows_still_show(store):
    trial = try_picks(store, read_table(TEXT), replace(started(store), unit=FileUnit.METRES))
    assert trial.fault is not None
    assert "do not fit the ice" in trial.fault.asked
    assert not trial.usable


def test_without_a_needed_column_nothing_is_read(store):
    picks = replace(started(store), columns={"x": "xCoord", "y": "yCoord"})
    trial = try_picks(store, read_table(TEXT), picks)
    assert trial.fault is not None
    assert "result" in trial.fault.came
    assert trial.answer.startswith("Not readable yet")


def test_refused_rows_can_be_taken_out_mended_and_no_formula_runs(store):
    table = read_table(TEXT)
    trial = try_picks(store, table, started(store))
    rows = list(
        csv.reader(
            io.StringIO(refused_table(table, trial.refused).decode("utf-8-sig")), delimiter=";"
        )
    )
    assert rows[0] == ["line", "reason", *table.columns]
    assert rows[1][0] == "7"
    assert rows[2][-1] == "'=1+1"
    assert rows[2][rows[0].index("yCoord")] == "-9"  # a number stays a number


def test_kept_picks_import_the_table_and_are_found_for_the_next(store):
    table = read_table(TEXT)
    keep_picks(store, table, started(store), replacing=False)
    with pytest.raises(ImportRefusedError, match="2 of 6 shots"):
        import_games(store, TEXT.encode(), day=DAY)
    done = import_games(store, TEXT.encode(), day=DAY, leave_out_bad_rows=True)
    assert done.mapping.name == "our rink"
    (game,) = (store.games.game(one) for one in done.games)
    assert [one.is_goal for one in game.shots] == [False, True, False, False]
    again = start_picks(store, table)
    assert again.kept
    assert again.picks.name == "our rink"
    assert try_picks(store, table, again.picks).read == 4


def test_a_name_that_is_taken_is_only_replaced_on_purpose(store):
    table = read_table(TEXT)
    picks = started(store)
    keep_picks(store, table, picks, replacing=False)
    keep_picks(store, table, picks, replacing=False)  # the same again is no change
    other = replace(picks, y_left=False)
    with pytest.raises(InputError, match="of that name"):
        keep_picks(store, table, other, replacing=False)
    keep_picks(store, table, other, replacing=True)
    assert store.mappings.all()["our rink"]["y_left"] is False


@pytest.mark.parametrize("name", ["", "   ", "a/b", "x.json", "n" * 61])
def test_a_name_must_be_one(store, name):
    with pytest.raises(InputError, match="need a name"):
        keep_picks(store, read_table(TEXT), replace(started(store), name=name), replacing=False)


def test_what_the_page_cannot_show_of_a_mapping_is_kept(store):
    head = (
        "game,team_att,team_def,gt,period,elapsed_s,x_m,y_m,result,player,screening_players,"
        "gt_x_m,gt_y_m,gt_def_on_ice,skaters_att,skaters_def,event,gt_ref_dx_m,gt_ref_dy_m,by"
    )
    table = read_table(f"{head}\ng,A,B,k,1,10,6,1,saved,9,0,1,0,1,5,5,shot,0.1,0,att\n")
    found = start_picks(store, table)
    assert found.picks.base == "tracked events"
    mapping = mapping_of(store, found.picks, table)
    assert mapping.stream is not None
    assert mapping.minus == {"goaltender_x": "gt_ref_dx_m", "goaltender_y": "gt_ref_dy_m"}
    assert "corrections" in carried_over(store, found.picks)
    assert carried_over(store, replace(found.picks, base="")) == ""
    assert picks_of(mapping).columns == found.picks.columns
