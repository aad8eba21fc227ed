"""The demo club: invented, complete, the same every time, and with something to find."""

from datetime import date

import pytest

from tendline.base import Level, StoreError
from tendline.log import NoteKind, findings, records_of
from tendline.people import ConsentItem, has_consent, is_minor
from tendline.store import Club, open_store
from tendline.work.demo import TODAY, load_demo, open_demo
from tendline.work.demo_club.cast import FIXTURES
from tendline.work.demo_club.season import season
from tendline.work.why import why


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    with open_demo(tmp_path_factory.mktemp("demo") / "demo.db") as store:
        yield store


def test_it_has_minors_and_an_adult_in_two_teams(demo):
    files = {one.id: one for one in demo.people.files()}
    minors = [one for one in files.values() if is_minor(one, TODAY)]
    assert len(minors) == 3
    assert len(files) == 4
    assert [one.level for one in demo.club.teams()] == [Level.ADULT, Level.U15]
    for one in demo.club.teams():
        assert set(one.goaltenders) <= set(files)
    for one in files.values():
        assert has_consent(one, ConsentItem.FILE, TODAY)


def test_about_ten_games_before_today_all_replay_without_a_warning(demo):
    headers = demo.games.headers()
    assert len(headers) == len(FIXTURES) == 11
    assert all(date(2026, 9, 1) < one.day < TODAY for one in headers)
    for one in headers:
        game = demo.games.game(one.id)
        assert game.warnings == ()
        assert game.ended
        assert all(shot.x > 0 for shot in game.shots)
        assert all(goal.rating is not None for goal in game.goals)
        assert {note.purpose for note in game.notes} >= {NoteKind.WELL, NoteKind.NEXT, NoteKind.CUE}


def test_the_relief_goaltender_is_credited_from_the_change_on(demo):
    game = demo.games.game("demo-g06")
    assert game.goaltenders == ("milo", "ronja")
    assert game.seconds_of("milo") == 900 + 430
    early = [one for one in game.shots if (one.period, one.elapsed) < (2, 430)]
    assert {one.goaltender for one in early} == {"milo"}
    assert {one.goaltender for one in game.shots if one not in early} == {"ronja"}


def test_save_shares_are_such_as_games_give(demo):
    for person in demo.people.ids():
        found = records_of(demo.games.of(person), person)
        assert 0.70 < found.total.saved.value < 0.96
        assert found.goals_against_average is not None


def test_the_main_job_finds_that_she_is_not_set_and_gives_up_rebounds(demo):
    games = demo.games.of("ronja", last=6)
    costs = why(demo, "ronja", games)
    shots = [one for game in games for one in game.shots_of("ronja")]
    found = findings(shots, costs=costs.chances, causes=costs.causes, stage_theme="rebounds")
    names = [one.theme for one in found.themes]
    assert names[0] == "being set"
    assert set(names) <= {"being set", "rebound", "recovery", "east-west"}
    assert 0.4 <= found.stage_share <= 0.6
    assert len(costs.by_shot) > 100


def test_it_is_the_same_every_time(tmp_path):
    first = list(season())
    assert first == list(season())
    with open_store(tmp_path / "a.db") as store:
        load_demo(store)
        before = [store.games.events(one.id) for one in store.games.headers()]
        load_demo(store)
        assert [store.games.events(one.id) for one in store.games.headers()] == before
        assert len(store.notes.about("ronja")) == 3


def test_it_is_never_mixed_with_a_clubs_own_data(tmp_path):
    with open_store(tmp_path / "own.db") as store:
        store.club.save(Club(name="Our club"))
        with pytest.raises(StoreError, match="never mixed with a club's own data"):
            load_demo(store)
        assert store.games.headers() == ()


def test_it_lies_in_a_file_of_its_own(monkeypatch, tmp_path):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_demo() as store:
        assert store.path == tmp_path / "demo.db"
    assert not (tmp_path / "club.db").exists()
