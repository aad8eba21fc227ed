"""What a table's columns hold is guessed from its heading, its words and its places."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.ice import other_end, rink
from tendline.log import Ends, FileUnit, Origin, read_table
from tendline.log.guessing import guess, result_word, shot_rows, words_in
from tendline.log.names import FIELD_NAMES, RESULT_WORDS, SHOT_TYPE_WORDS

RINK = rink()


def spots(count: int, seed: int = 1) -> list[tuple[float, float]]:
    """Shots as they fall in games: most between 3 and 18 m, on both sides (metres, net's frame)."""
    random.seed(seed)
    found = []
    while len(found) < count:
        away, turn = random.uniform(3, 18), random.uniform(-1.1, 1.1)
        found.append((away * math.cos(turn), away * math.sin(turn)))
    return found


def table(places, head="x,y,result", tail="save"):
    return read_table("\n".join([head, *(f"{x:.3f},{y:.3f},{tail}" for x, y in places)]))


def test_headings_with_unit_capitals_and_signs_are_known():
    found = guess(
        read_table(
            "gameId;Date;Shooting Team;goalie_name;PER;time;xCoord;y-coord;Shot Result;shotType\n"
            "7;2026-11-14;Blues;K. Lang;1;3:20;6;-2;Saved;Wrist shot\n"
        )
    )
    assert found.columns == {
        "game": "gameId", "day": "Date", "team": "Shooting Team", "goaltender": "goalie_name",
        "period": "PER", "elapsed": "time", "x": "xCoord", "y": "y-coord",
        "result": "Shot Result", "shot_type": "shotType",
    }  # fmt: skip
    assert found.values == {"result": {"Saved": "save"}, "shot_type": {"Wrist shot": "wrist"}}


def test_a_unit_in_the_heading_is_taken():
    assert guess(read_table("x_ft,y_ft,result\n20,3,goal\n")).unit is FileUnit.FEET
    assert guess(read_table("x (m),y (m),result\n6,1,goal\n")).unit is FileUnit.METRES


def test_a_column_of_words_is_not_taken_for_a_place():
    found = guess(read_table("x,y,result\nleft,near,goal\n"))
    assert "x" not in found.columns
    assert "y" not in found.columns


def test_what_became_of_it_is_found_by_its_words_when_the_heading_says_nothing():
    found = guess(read_table("x,y,col7\n6,2,SOG\n5,1,Goal\n9,-3,Missed shot\n"))
    assert found.columns["result"] == "col7"
    assert found.values["result"] == {"SOG": "save", "Goal": "goal", "Missed shot": "wide"}


def test_rows_that_are_no_shots_are_told_by_their_words():
    text = "event,x,y,outcome\nshot,6,2,saved\nfaceoff,0,0,won\nshot,4,1,goal\n"
    found = guess(read_table(text))
    assert found.where == {"event": ("shot",)}
    assert found.values["result"] == {"saved": "save", "goal": "goal"}
    mixed = guess(read_table("x,y,event\n6,2,SHOT\n0,0,FACEOFF\n4,1,GOAL\n"))
    assert mixed.where == {"event": ("SHOT", "GOAL")}


FRAMES = [
    (FileUnit.METRES, Origin.GOAL, Ends.SHOT_AT, True),
    (FileUnit.FEET, Origin.GOAL, Ends.SHOT_AT, True),
    (FileUnit.METRES, Origin.GOAL, Ends.SHOT_AT, False),
    (FileUnit.METRES, Origin.CENTRE, Ends.NEARER, True),
    (FileUnit.FEET, Origin.CENTRE, Ends.NEARER, True),
    (FileUnit.METRES, Origin.CORNER, Ends.NEARER, True),
    (FileUnit.FEET, Origin.CORNER, Ends.NEARER, True),
    (FileUnit.FEET, Origin.CENTRE, Ends.SHOT_AT, False),
]


def written(spot, frame, *, far=False):
    """Return a place as a file in that frame writes it (by hand: the inverse of reading it)."""
    unit, origin, ends, x_out = frame
    x, y = other_end(RINK, *spot) if far and ends is Ends.NEARER else spot
    if origin is Origin.CENTRE:
        x -= RINK.red_line_x
    elif origin is Origin.CORNER:
        x, y = x + RINK.goal_line_to_boards, y + RINK.width / 2
    return (x if x_out else -x) / unit.metres, y / unit.metres


@pytest.mark.parametrize("frame", FRAMES, ids=lambda one: " ".join(str(part) for part in one))
def test_unit_and_frame_are_found_from_where_shots_lie(frame):
    """A guess from 80 shots may miss; the page shows it and lets it be changed."""
    right = 0
    for seed in range(100):
        places = [written(one, frame, far=at % 2 == 1) for at, one in enumerate(spots(80, seed))]
        found = guess(table(places))
        same = (found.unit, found.origin, found.ends, found.x_out) == frame
        right += same and "frame" in found.sure
    assert right >= 97


def test_places_that_fit_no_ice_are_not_called_sure():
    found = guess(table([(900.0, 900.0)] * 20))
    assert "frame" not in found.sure


def test_words_are_counted_and_too_many_are_none():
    counted = read_table("a\nx\ny\nx\n")
    assert words_in(counted, "a") == (("x", 2), ("y", 1))
    assert words_in(counted, "b") == ()
    assert words_in(read_table("a\n" + "\n".join(map(str, range(99)))), "a") == ()
    assert len(shot_rows(counted, {"a": ("x",)}).rows) == 2


@pytest.mark.parametrize("word", [*RESULT_WORDS])
def test_every_known_result_word_is_read_in_any_capitals(word):
    assert result_word(word.upper()) == RESULT_WORDS[word]


def test_words_in_the_lists_can_be_met():
    # By hand: what is looked up has no signs and no capitals.
    for names in FIELD_NAMES.values():
        assert all(one.isalnum() and one == one.lower() for one in names)
    assert all(one.isalnum() for one in (*RESULT_WORDS, *SHOT_TYPE_WORDS))


@given(st.text(max_size=300))
@settings(deadline=None, max_examples=60)
def test_a_guess_never_fails_on_a_table_that_can_be_read(text):
    try:
        read = read_table("x,y,result\n" + text)
    except ValueError:
        return
    guess(read)
