"""Goaltenders in the club's file (invented people)."""

from datetime import date

import pytest

from tendline.base import InputError, Level, Side
from tendline.store import open_store
from tendline.work.goaltenders import file_of, goaltenders, save_goaltender

DAY = date(2026, 11, 25)


@pytest.fixture
def store(tmp_path):
    with open_store(tmp_path / "club.db") as opened:
        yield opened


def test_she_is_added_with_a_team_and_listed(store):
    save_goaltender(store, "ida", day=DAY, name="Ida", level=Level.U15, team="First", stature=1.6)
    line = goaltenders(store, DAY)[0]
    assert (line.id, line.name, line.level, line.catches, line.games) == (
        "ida", "Ida", "U15", "left", 0,
    )  # fmt: skip
    assert store.club.team("First").goaltenders == ("ida",)


def test_a_change_keeps_what_is_not_given(store):
    save_goaltender(store, "ida", day=DAY, name="Ida", catching_hand=Side.RIGHT, stature=1.6)
    save_goaltender(store, "ida", day=DAY, stature=1.62)
    file = file_of(store, "ida")
    assert file.display_name == "Ida"
    assert file.catching_hand is Side.RIGHT
    assert [one.metres for one in file.statures] == [1.6, 1.62]


def test_two_join_one_team_and_nobody_twice(store):
    for name in ("ida", "bea", "ida"):
        save_goaltender(store, name, day=DAY, team="First")
    assert store.club.team("First").goaltenders == ("ida", "bea")


def test_nobody_has_no_file(store):
    assert file_of(store, "nobody") is None


@pytest.mark.parametrize("name", ["", "Ida", "i d", "a/b", "-a", "x" * 50])
def test_a_short_name_is_plain(store, name):
    with pytest.raises(InputError, match="short name"):
        save_goaltender(store, name, day=DAY)


def test_a_stature_that_cannot_be_is_refused(store):
    with pytest.raises(InputError, match="stature"):
        save_goaltender(store, "ida", day=DAY, stature=3.0)
