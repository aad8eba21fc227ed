"""Bring games in through the page: whole or not at all, and every refusal names its row."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

GOOD = (
    "game,season,period,elapsed_s,seq,team,home,player,goaltender,kind,x_m,y_m,outcome,empty_net,penalty_shot\n"
    "g1,2026-27,1,18,1,t6,1,p5,kx,,3.66,5.01,saved,0,0\n"
    "g1,2026-27,1,25,2,t6,0,p2,kx,,4.57,-0.78,goal,0,0\n"
)


def send(app: TestClient, text: str, **fields: str):
    files = {"file": ("shots.csv", text.encode(), "text/csv")}
    return app.post("/games/import", data={"day": "2026-11-20", **fields}, files=files)


def test_a_table_that_fits_is_brought_in_once(app: TestClient):
    before = len(app.get("/games.json").json())
    first = send(app, GOOD)
    assert first.status_code == 200, first.text
    assert len(app.get("/games.json").json()) == before + 1
    assert "nothing was added" in send(app, GOOD).text
    assert len(app.get("/games.json").json()) == before + 1


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (GOOD.replace("4.57,-0.78", "457,-78"), "line 3"),
        (GOOD.replace("goal,0,0", "flew,0,0"), "flew"),
        ("a,b\n1,2\n", "no mapping fits"),
        ("", "empty"),
    ],
)
def test_a_table_that_does_not_fit_leaves_everything_as_it_was(
    app: TestClient, text: str, words: str
):
    before = app.get("/games.json").json()
    answer = send(app, text)
    assert answer.status_code == 422
    assert words in answer.text
    assert app.get("/games.json").json() == before


def test_the_paper_chart_is_a_pdf(app: TestClient):
    assert app.get("/games/chart.pdf").content.startswith(b"%PDF")
