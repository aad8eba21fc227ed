"""Tonight's page: the numbers of the car park can be given, and stay open when they are not."""

from __future__ import annotations

from starlette.testclient import TestClient


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
