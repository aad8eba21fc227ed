"""Games in the file: saved when it says so, once, in order, and never changed."""

import threading
from datetime import UTC, date, datetime

import pytest
from sqlalchemy.exc import DBAPIError

from tendline.base import InputError, NotFoundError, ShotResult
from tendline.log import GameEnd, GoaltenderChange, NoteTaken, Undo
from tendline.store import open_store
from tests.store.samples import set_up, shot


def test_what_was_added_is_there_after_opening_again(store, path):
    store.games.start(set_up(), game="g1")
    store.games.add("g1", shot("a"), shot("b", result=ShotResult.GOAL))
    store.close()
    with open_store(path) as again:
        game = again.games.game("g1")
    assert [one.id for one in game.shots] == ["a", "b"]
    assert game.id == "g1"


def test_the_same_event_again_is_not_saved_twice(store):
    store.games.start(set_up(), game="g1")
    assert store.games.add("g1", shot("a")) == 1
    assert store.games.add("g1", shot("a"), shot("b")) == 1
    later = shot("a", made_at=datetime(2026, 11, 25, tzinfo=UTC))
    assert store.games.add("g1", later) == 0  # sent again with another time of sending
    assert len(store.games.events("g1")) == 3


def test_another_event_under_the_same_id_is_refused_and_nothing_is_saved(store):
    store.games.start(set_up(), game="g1")
    store.games.add("g1", shot("a"))
    with pytest.raises(
        InputError, match="two different events came under one id; got result 'goal' after 'save'"
    ):
        store.games.add("g1", shot("b"), shot("a", result=ShotResult.GOAL))
    assert [one.id for one in store.games.events("g1")] == ["start", "a"]


def test_the_same_id_in_two_games_are_two_events(store):
    for name in ("g1", "g2"):
        store.games.start(set_up(), game=name)
        assert store.games.add(name, shot("a")) == 1


def test_a_game_must_be_set_up_first(store):
    with pytest.raises(NotFoundError, match="the game was never set up; got g9"):
        store.games.add("g9", shot("a"))
    with pytest.raises(NotFoundError, match="no game of that id; got g9"):
        store.games.events("g9")


def test_several_games_are_saved_all_or_none(store):
    with pytest.raises(NotFoundError):
        store.games.add_many([("g1", (set_up(), shot("a"))), ("g2", (shot("b"),))])
    assert store.games.headers() == ()


def test_the_list_of_games_is_newest_first_with_its_people(store):
    store.games.start(set_up(day=date(2026, 11, 7)), game="g1")
    store.games.add("g1", GoaltenderChange(id="c", goaltender="milo"), GameEnd(id="e"))
    store.games.start(set_up(day=date(2026, 11, 21), team="Adults", goaltender="petra"), game="g2")
    first, second = store.games.headers()
    assert (first.id, second.id) == ("g2", "g1")
    assert second.goaltenders == ("ronja", "milo")
    assert (second.events, second.ended, first.ended) == (3, True, False)
    assert [one.id for one in store.games.headers(team="Adults")] == ["g2"]
    assert [one.id for one in store.games.headers(goaltender="milo")] == ["g1"]


def test_the_last_games_of_a_goaltender_come_oldest_first(store):
    for number in range(1, 5):
        store.games.start(set_up(day=date(2026, 11, number)), game=f"g{number}")
    assert [one.id for one in store.games.of("ronja", last=2)] == ["g3", "g4"]
    assert store.games.of("nobody") == ()


def test_the_file_itself_refuses_to_change_or_delete_events(store):
    store.games.start(set_up(), game="g1")
    store.games.add("g1", shot("a"))
    for change in ("DELETE FROM events", "UPDATE events SET id = 'x'"):
        with (
            pytest.raises(DBAPIError, match="game events are never"),
            store.database.engine.begin() as c,
        ):
            c.exec_driver_sql(change)
    assert len(store.games.events("g1")) == 2


def test_undo_and_notes_are_events_too(store):
    store.games.start(set_up(), game="g1")
    store.games.add("g1", shot("a"), NoteTaken(id="n", text="calm"), Undo(id="u", undoes="a"))
    game = store.games.game("g1")
    assert game.shots == ()
    assert game.notes[0].text == "calm"


def test_four_devices_at_once_lose_nothing(path):
    with open_store(path) as store:
        store.games.start(set_up(), game="g1")

        def tap(device):
            for number in range(10):
                store.games.add("g1", shot(f"d{device}-{number}"))

        threads = [threading.Thread(target=tap, args=(one,)) for one in range(4)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        events = store.games.events("g1")
    assert len(events) == 41
    for device in range(4):
        mine = [one.id for one in events if one.id.startswith(f"d{device}-")]
        assert mine == [f"d{device}-{number}" for number in range(10)]
