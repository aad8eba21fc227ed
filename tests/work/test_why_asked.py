"""Asking the engine about a person's games: whose body, and what when nothing is known."""

from datetime import date

import pytest

from tendline.base import Level, ShotResult
from tendline.log import Context, Frame, GameSetUp, Readiness, ShotTaken
from tendline.people import GoaltenderFile, Stature
from tendline.store import open_store
from tendline.work.why import why


@pytest.fixture
def store(tmp_path):
    with open_store(tmp_path / "club.db") as opened:
        set_up = GameSetUp(
            id="s",
            day=date(2026, 11, 21),
            team="A",
            opponent="B",
            goaltender="kim",
            level=Level.U15,
        )
        shot = ShotTaken(
            id="a", x=6.0, y=2.0, frame=Frame.NET, result=ShotResult.GOAL,
            context=Context(readiness=Readiness.SET),
        )  # fmt: skip
        opened.games.start(set_up, game="g")
        opened.games.add("g", shot)
        yield opened


def best(store):
    return why(store, "kim", store.games.of("kim")).by_shot["a"].best


def test_no_games_give_no_answers(store):
    assert why(store, "nobody", store.games.of("nobody")).by_shot == {}


def test_her_own_height_counts_where_her_file_knows_it(store):
    unknown = best(store)
    store.people.save_file(
        GoaltenderFile(
            id="kim", display_name="Kim", level=Level.U15,
            statures=(Stature(metres=1.40, day=date(2026, 11, 1)),),
        )
    )  # fmt: skip
    assert best(store) > unknown  # a smaller goaltender leaves more


def test_a_file_that_cannot_be_read_does_not_stop_the_answer(store):
    unknown = best(store)
    store.people.save("kim", {"display_name": ""})
    assert best(store) == unknown
