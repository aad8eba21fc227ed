"""Every number can be asked where it comes from, and be changed."""

from __future__ import annotations

import re

from starlette.testclient import TestClient


def test_the_list_counts_what_is_assumed(app: TestClient):
    page = app.get("/origin").text
    total, assumed = map(
        int, re.search(r"(\d+) numbers, (\d+) of them only assumed", page).groups()
    )
    assert total > assumed > 0
    only = app.get("/origin.json?only=assumed").json()
    assert sum(len(group["lines"]) for group in only["groups"]) == assumed


def test_a_figure_of_the_reading_page_says_how_far_it_would_move(app: TestClient):
    page = app.get("/read").text
    link = re.search(r'class="figure" href="([^"]+figure=depth[^"]*)"', page)[1].replace(
        "&amp;", "&"
    )
    note = app.get(link, headers={"X-Fragment": "1"}).text
    assert "assumed" in note
    assert "Change it" in note
    assert "<html" not in note


def test_a_setting_is_kept_shown_and_given_back(app: TestClient):
    settings = [
        line
        for group in app.get("/origin.json").json()["groups"]
        for line in group["lines"]
        if line["is_setting"]
    ]
    one = settings[0]
    middle = (float(one["low"]) + float(one["high"])) / 2
    app.post(f"/origin/constant/{one['key']}", data={"value": str(middle)})
    assert "set by the coach" in app.get(f"/origin/constant/{one['key']}").text
    app.post(f"/origin/constant/{one['key']}", data={"value": ""})
    assert "set by the coach" not in app.get(f"/origin/constant/{one['key']}").text


def test_a_value_out_of_range_is_refused(app: TestClient):
    one = next(
        line
        for group in app.get("/origin.json").json()["groups"]
        for line in group["lines"]
        if line["is_setting"]
    )
    answer = app.post(f"/origin/constant/{one['key']}", data={"value": "1e9"})
    assert answer.status_code == 422
    assert "out of range" in answer.text
