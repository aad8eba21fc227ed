"""Goaltenders' pages: add, see what each reader may see, take data out, erase for good."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient


def test_a_goaltender_is_added_with_as_little_as_a_short_name(empty: TestClient):
    answer = empty.post("/goaltenders", data={"short": "ab"})
    assert answer.status_code == 200
    assert "ab" in empty.get("/goaltenders").text


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"short": "A. B."}, "small letters"),
        ({"stature": "tall"}, "height"),
        ({"stature": "9"}, "9"),
        ({"born": "last year"}, "year of birth"),
    ],
)
def test_what_cannot_be_is_refused_in_words(empty: TestClient, change: dict[str, str], words: str):
    answer = empty.post("/goaltenders", data={"short": "ab", **change})
    assert answer.status_code == 422
    assert words in answer.text


def test_a_parent_sees_no_record_no_notes_and_no_other_child(app: TestClient):
    coach = app.get("/goaltenders/ronja").text
    parent = app.get("/goaltenders/ronja?reader=parent").text
    assert "How they came" in coach
    assert "How they came" not in parent
    assert "Erase her" not in parent
    assert "Milo" not in parent


def test_an_unknown_reader_sees_the_least(app: TestClient):
    assert "How they came" not in app.get("/goaltenders/ronja?reader=stranger").text


def test_her_data_can_be_taken_out_and_hold_nobody_else(app: TestClient):
    taken = app.get("/goaltenders/ronja.json")
    assert "attachment" in taken.headers["content-disposition"]
    assert "Milo" not in taken.text


def test_erasing_needs_her_short_name_and_is_complete(app: TestClient):
    assert app.post("/goaltenders/ronja/erase", data={"confirm": "yes"}).status_code == 422
    assert app.get("/goaltenders/ronja").status_code == 200
    assert app.post("/goaltenders/ronja/erase", data={"confirm": "ronja"}).status_code == 200
    assert app.get("/goaltenders/ronja").status_code == 404
    assert "Ronja" not in app.get("/games").text


def test_the_timed_tests_are_a_sheet_without_a_name(app: TestClient):
    sheet = app.get("/goaltenders/ronja/tests.pdf")
    assert sheet.headers["content-type"] == "application/pdf"
    assert sheet.content.startswith(b"%PDF")
