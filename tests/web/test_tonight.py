"""Tonight's page: the numbers of the car park can be given, and stay open when they are not."""

from __future__ import annotations

from starlette.testclient import TestClient

from tendline.store import Store


def test_nets_skaters_and_people_to_serve_can_be_given(app: TestClient) -> None:
    page = app.get("/tonight", params={"place": "half ice", "nets": 3, "skaters": 40}).text
    assert 'name="nets" min="0" max="200" value="3" placeholder="1 as usual"' in page
    assert 'name="skaters" min="0" max="200" value="40"' in page
    assert "nets=3&amp;skaters=40" in page  # the printed sheet is that of the same evening
    assert "each of 40 skaters has a turn about every" in page


def test_numbers_left_open_stay_open(app: TestClient) -> None:
    page = app.get("/tonight").text
    assert 'name="nets" min="0" max="200" value="" placeholder="2 as usual"' in page
    assert "skaters=" not in page


def test_a_number_that_cannot_be_read_is_named(app: TestClient) -> None:
    answer = app.get("/tonight", params={"nets": "two"})
    assert answer.status_code == 422
    assert "number of nets" in answer.text


FOUR = {
    "present": ["ronja", "milo", "ilse", "petra"], "helpers": 4, "block_place": "full ice",
    "kind": "ten-minute block", "minutes": 10,
}  # fmt: skip


def test_stations_stand_beside_each_other_with_who_runs_them(app: TestClient) -> None:
    page = app.get("/tonight", params={**FOUR, "run_by": "Anna <b>, "}).text
    assert "2 stations at the same time" in page
    assert 'aria-label="Station A"' in page
    assert "run by <strong>Anna &lt;b&gt;</strong>" in page
    assert "nobody named yet" in page
    assert "run_by=Anna" in page.split("sheet.pdf?")[1].split('"')[0]
    assert app.get("/tonight/sheet.pdf", params={**FOUR, "run_by": "Anna"}).status_code == 200


def test_without_stations_nobody_is_asked_to_run_one(app: TestClient) -> None:
    page = app.get("/tonight", params={"present": "ronja", "kind": "ten-minute block",
                                       "minutes": 10}).text  # fmt: skip
    assert "at the same time" not in page
    assert "run by" not in page


def test_a_rule_that_is_not_kept_stands_there_with_its_limit_and_where_to_change_it(
    app: TestClient, store: Store
) -> None:
    store.choices.set("practice.shots_of_game", 0.5)
    page = app.get("/tonight").text
    part = page.split("Not kept tonight")[1].split("<details>")[0]
    assert "V11" in part
    assert "shots in a practice against her own game average: 0.5 (common practice)" in part
    assert 'href="/origin/constant/practice.shots_of_game"' in part
    assert app.get("/origin/constant/practice.shots_of_game").status_code == 200
    assert app.get("/origin/constant/practice.weight.shot").status_code == 200
    store.choices.set("practice.shots_of_game", 5)
    assert "V11" not in app.get("/tonight").text.split("<details><summary>Rules")[0]
