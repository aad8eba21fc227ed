"""Log a game through the pages: nothing lost, nothing doubled, refusals in words."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

SHOT = {
    "kind": "shot",
    "id": "s-1",
    "frame": "net",
    "x": 6.0,
    "y": 3.0,
    "result": "goal",
    "situation": "rebound",
}


@pytest.fixture
def game(app: TestClient) -> str:
    sent = {
        "day": "2026-11-21",
        "team": "Kettle Harbour U15",
        "opponent": "Blue Valley",
        "goaltender": "ronja",
    }
    answer = app.post("/games", data=sent, follow_redirects=False)
    return answer.headers["location"].removesuffix("/log")


def shots(app: TestClient, game: str) -> list[dict]:
    return app.get(f"{game}.json").json()["shots"]


def test_a_logged_shot_is_in_the_file_when_the_answer_comes(app: TestClient, game: str):
    answer = app.post(f"{game}/events", json={"events": [SHOT]})
    assert answer.status_code == 200
    assert "Saved: 1." in answer.text
    assert [one["result"] for one in shots(app, game)] == ["goal"]


def test_the_same_tap_sent_twice_counts_once(app: TestClient, game: str):
    for _ in range(2):
        assert app.post(f"{game}/events", json={"events": [SHOT]}).status_code == 200
    assert len(shots(app, game)) == 1


def test_undo_takes_the_last_entry_back(app: TestClient, game: str):
    app.post(f"{game}/events", json={"events": [SHOT]})
    app.post(f"{game}/undo")
    assert shots(app, game) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"x": 200.0}, "x"),
        ({"result": "flew away"}, "flew away"),
        ({"kind": "dance"}, "dance"),
        ({"id": "no spaces please"}, "id"),
    ],
)
def test_an_impossible_entry_is_refused_and_nothing_is_saved(
    app: TestClient, game: str, change: dict, words: str
):
    answer = app.post(f"{game}/events", json={"events": [SHOT, {**SHOT, "id": "s-2", **change}]})
    assert answer.status_code in (404, 422)
    assert words in answer.text
    assert shots(app, game) == []


def test_a_shot_by_words_needs_no_script(app: TestClient, game: str):
    app.post(f"{game}/shots", data={"x": "4.5", "y": "-1", "result": "save, held", "situation": ""})
    assert [one["result"] for one in shots(app, game)] == ["save, held"]


def test_a_change_of_goaltender_credits_the_right_person(app: TestClient, game: str):
    app.post(f"{game}/events", json={"events": [SHOT]})
    app.post(f"{game}/goaltender", data={"person": "milo"})
    app.post(f"{game}/events", json={"events": [{**SHOT, "id": "s-2"}]})
    assert [one["goaltender"] for one in shots(app, game)] == ["ronja", "milo"]
