"""Drills as pages and files: filters, cards, films, and names that stay words."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

STARTS = {
    "pdf": b"%PDF",
    "svg": b"<svg",
    "png": b"\x89PNG",
    "gif": b"GIF89a",
    "webm": b"\x1a\x45\xdf\xa3",
    "html": b"<!doctype html>",
    "drill": b"drill E08:",
}  # published: first bytes of each format's specification


@pytest.mark.parametrize("kind", STARTS)
def test_a_drill_can_be_taken_as_a_file(app: TestClient, kind: str):
    answer = app.get(f"/drills/E08/file.{kind}")
    assert answer.status_code == 200
    assert answer.content.startswith(STARTS[kind])


def test_an_unknown_kind_or_branch_is_refused_in_words(app: TestClient):
    assert "pdf" in app.get("/drills/E08/file.exe").text
    assert "drive" in app.get("/drills/E08/file.gif?branch=nowhere").text


def test_filters_narrow_the_list_and_the_booklet(app: TestClient):
    every = app.get("/drills.json").json()
    lateral = app.get("/drills.json?theme=lateral").json()
    assert 0 < len(lateral) < len(every)
    assert all("lateral" in one["themes"] for one in lateral)
    assert app.get("/drills/booklet.pdf?theme=lateral&age=U9").content.startswith(b"%PDF")


def test_the_address_holds_every_condition_and_no_blank_one(app: TestClient):
    typed = "/drills?words=&goaltenders=2&skaters=+&ice=half+ice&theme=lateral&age="
    moved = app.get(typed, follow_redirects=False)
    assert moved.status_code == 303
    assert moved.headers["location"] == "/drills?theme=lateral&goaltenders=2&ice=half+ice"
    page = app.get(moved.headers["location"]).text
    found = app.get(moved.headers["location"].replace("/drills", "/drills.json")).json()
    assert f"{len(found)} of " in page
    assert 'name="goaltenders" type="number"' in page
    assert "<option selected>half ice</option>" in page
    assert "/drills/booklet.pdf?theme=lateral&amp;goaltenders=2&amp;ice=half+ice" in page


def test_nothing_fits_says_what_to_leave_out_and_what_that_gives(app: TestClient):
    page = app.get("/drills?words=wrap&nets=0").text
    assert "No drill fits all of this." in page
    assert "booklet.pdf" not in page
    for query, words in (("nets=0", "the words &#39;wrap&#39;"), ("words=wrap", "no net")):
        count = len(app.get(f"/drills.json?{query}").json())
        assert (
            f'<a class="button" href="/drills?{query}">{words}</a> <span>then {count} fit' in page
        )
    pairs = app.get("/drills?words=zzz&skaters=0&theme=breakaway").text
    assert "as no single one will do" in pairs
    hopeless = app.get("/drills?words=zzz&minutes=1&skaters=0&theme=breakaway&nets=0").text
    assert "does not help either" in hopeless


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("skaters=many", "0 to 40"),
        ("skaters=-1", "0 to 40"),
        ("minutes=1e3", "0 to 120"),
        ("nets=99", "0 to 6"),
        ("ice=the+pond", "half ice"),
        ("theme=laterl", "lateral"),
        ("age=U99", "U9"),
    ],
)
def test_a_condition_that_cannot_be_meant_is_refused_in_words(
    app: TestClient, query: str, said: str
):
    answer = app.get(f"/drills?{query}")
    assert answer.status_code in (404, 422)
    assert said in answer.text


def test_the_page_that_plays_offline_asks_nobody(app: TestClient):
    page = app.get("/drills/L01/file.html").text
    assert "default-src 'none'" in page
    assert "http://" not in page.replace("http://www.w3.org/2000/svg", "")
    assert "https://" not in page


def test_every_drill_shows_its_safety_lines(app: TestClient):
    page = app.get("/drills/T10").text
    assert "pegs" in page
    assert "medical" in page


def test_both_eyes_of_a_moment_are_drawn_from_the_run(app: TestClient):
    early = app.get("/drills/L01/eyes?way=0&seconds=0.5").text
    late = app.get("/drills/L01/eyes?way=0&seconds=2.0").text
    assert early.count("<svg") == 2
    assert early != late


@pytest.mark.parametrize("query", ["way=9&seconds=1", "way=0&seconds=-1"])
def test_a_moment_that_is_not_in_the_run_is_refused(app: TestClient, query: str):
    assert app.get(f"/drills/L01/eyes?{query}").status_code == 422
