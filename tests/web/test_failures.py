"""Every failure comes in one shape: asked, came, allowed, what to do next."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient


@pytest.mark.parametrize(
    ("path", "status", "words"),
    [
        ("/read?F1=90,0,left", 422, "F1"),
        ("/read?F1=six,0,left", 422, "a number is needed"),
        ("/read?F2=6,3,left", 422, "somebody must have the puck"),
        ("/read?F1=6,3,left&level=U99", 404, "U13"),
        ("/read?F1=6,3,left&stature=0.5", 422, "0.5"),
        ("/read?F1=6,3,left&stature=3", 422, "3"),
        ("/read?F1=-0.5,0,left", 422, "F1"),
        ("/read?F1=nan,0,left", 422, "F1"),
        ("/games/none", 404, "none"),
        ("/drills/none", 404, "none"),
        ("/goaltenders/none", 404, "none"),
        ("/drills?theme=flying", 404, "flying"),
        ("/origin/constant/none", 404, "none"),
        ("/origin/figure?page=read&figure=nonsense", 404, "nonsense"),
        ("/nowhere", 404, "nothing at this address"),
        ("/tonight?minutes=5", 422, "minutes"),
        ("/tonight?day=tomorrow", 422, "tomorrow"),
    ],
)
def test_a_wrong_question_is_answered_in_words(app: TestClient, path: str, status: int, words: str):
    page = app.get(path, headers={"accept": "text/html"})
    assert page.status_code == status, page.text
    assert words in page.text
    assert "Traceback" not in page.text


def test_data_callers_get_the_same_failure_as_data(app: TestClient):
    answer = app.get("/read.json?F1=90,0,left")
    assert answer.status_code == 422
    error = answer.json()["error"]
    assert error["item"] == "F1"
    assert error["came"]
    assert error["allowed"]


def test_markup_in_an_address_stays_inert(app: TestClient):
    page = app.get("/drills/<script>alert(1)</script>")
    assert page.status_code == 404
    assert "<script>alert" not in page.text
