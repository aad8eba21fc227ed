"""Picking columns through the page: guess, change, keep, import; nothing is lost or kept unasked."""

from __future__ import annotations

import html
import re

import pytest
from starlette.testclient import TestClient

from tests.work.test_mapping_desk import TEXT


def start(app: TestClient, text: str = TEXT):
    return app.post("/games/columns", files={"file": ("t.csv", text.encode(), "text/csv")})


def fields(page: str) -> dict[str, list[str]]:
    """Return what the page's form would send, by name."""
    found: dict[str, list[str]] = {}
    body = re.search(r"<form method=\"post\" action=\"/games/columns/look\".*</form>", page, re.S)
    assert body
    pattern = (
        r"<textarea name=\"(text)\" hidden>\n(.*?)</textarea>|<input ([^>]*)>"
        r"|<select name=\"([^\"]+)\">(.*?)</select>"
    )
    for text, value, given, name, options in re.findall(pattern, body[0], re.S):
        if text:
            found[text] = [html.unescape(value)]
        elif name:
            chosen = re.search(r"<option(?: value=\"([^\"]*)\")? selected>([^<]*)", options)
            first = re.search(r"<option(?: value=\"([^\"]*)\")?>([^<]*)", options)
            take = chosen or first
            assert take
            one = take[1] if take[1] is not None else take[2]
            found.setdefault(name, []).append(html.unescape(one))
        else:
            key = re.search(r'name="([^"]+)"', given)
            value_of = re.search(r'value="([^"]*)"', given)
            if key and ("checkbox" not in given or "checked" in given):
                found.setdefault(key[1], []).append(html.unescape(value_of[1] if value_of else ""))
    return found


def answer_of(page: str) -> str:
    found = re.search(r"<h1>(.*?)</h1>", page, re.S)
    assert found
    return html.unescape(found[1])


def test_a_table_shows_our_guess_its_rows_and_what_is_refused(app: TestClient):
    page = start(app)
    assert page.status_code == 200, page.text
    assert answer_of(page.text).startswith("4 of 7 rows read as shots, 1 goal; 2 refused")
    assert "Line 8" in page.text
    assert "<svg" in page.text
    sent = fields(page.text)
    assert sent["col.x"] == ["xCoord"]
    assert sent["unit"] == ["ft"]
    assert sent["where"] == ["SHOT", "GOAL"]
    assert dict(zip(sent["raw.result"], sent["word.result"], strict=True)) == {
        "SHOT": "save", "GOAL": "goal",
    }  # fmt: skip


def test_looking_again_at_what_the_page_sent_changes_nothing(app: TestClient):
    first = start(app).text
    again = app.post("/games/columns/look", data=fields(first)).text
    assert fields(again) == fields(first)
    assert answer_of(again) == answer_of(first)
    assert app.get("/games/columns").text.count("(yours)") == 0


def test_the_pages_own_script_gets_the_parts_without_the_table(app: TestClient):
    first = start(app).text
    parts = app.post("/games/columns/look", data=fields(first), headers={"X-Fragment": "1"}).text
    assert answer_of(parts) == answer_of(first)
    assert fields(parts)["text"] == [""]


def test_a_pasted_table_reads_like_a_file(app: TestClient):
    pasted = app.post("/games/columns", data={"text": TEXT})
    assert answer_of(pasted.text) == answer_of(start(app).text)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"unit": ["m"]}, "do not fit the ice"),
        ({"col.result": [""]}, "no column for result"),
        ({"where_column": [""]}, "3 refused"),
        ({"where": ["GOAL"]}, "1 of 7 rows read as shots, 1 goal; 6 passed over"),
    ],
)
def test_each_pick_shows_at_once_what_it_does(app: TestClient, change: dict, says: str):
    sent = fields(start(app).text) | change
    page = app.post("/games/columns/look", data=sent)
    assert page.status_code == 200
    text = html.unescape(page.text)
    assert says in text


def test_picks_are_kept_under_a_name_and_used_for_the_import(app: TestClient):
    before = len(app.get("/games.json").json())
    ours = sum("Ronja" in one["goaltenders"] for one in app.get("/games.json").json())
    sent = fields(start(app).text)
    nameless = app.post("/games/columns/import", data=sent)
    assert nameless.status_code == 422
    assert "need a name" in nameless.text
    assert fields(nameless.text)["text"] == sent["text"]
    sent["name"] = ["our rink"]
    stopped = app.post("/games/columns/import", data=sent)
    assert stopped.status_code == 422
    assert "nothing was imported" in stopped.text
    assert len(app.get("/games.json").json()) == before
    sent |= {"leave_out": ["yes"], "person": ["ronja"], "only": ["Kim Lang"], "level": ["U15"]}
    done = app.post("/games/columns/import", data=sent)
    assert done.status_code == 200, done.text
    assert "2 rows left out" in done.text
    games = app.get("/games.json").json()
    assert len(games) == before + 1
    assert sum("Ronja" in one["goaltenders"] for one in games) > ours
    assert "<strong>our rink</strong> (yours)" in app.get("/games/columns").text
    kept = app.get("/games/columns/kept.json?name=our+rink").json()
    assert kept["unit"] == "ft"
    assert "known: &#39;our rink&#39;" in start(app).text


def test_refused_rows_come_as_a_table(app: TestClient):
    answer = app.post("/games/columns/refused.csv", data=fields(start(app).text))
    assert answer.headers["content-type"].startswith("text/csv")
    assert "off the ice" in answer.text
    assert len(answer.text.strip().splitlines()) == 3


@pytest.mark.parametrize(
    ("text", "words"), [("", "no table"), ("\n\n", "no table"), ("a,a\n1,2\n", "share a name")]
)
def test_what_is_no_table_is_refused_in_words(app: TestClient, text: str, words: str):
    answer = app.post("/games/columns", data={"text": text})
    assert answer.status_code == 422
    assert words in answer.text


def test_words_of_a_stranger_stay_words(app: TestClient):
    nasty = "x,y,result,<b>\n6,1,</textarea><script>alert(1)</script>,2\n5,2,goal,3\n"
    page = start(app, nasty)
    assert page.status_code == 200
    assert "<script>alert" not in page.text
    assert fields(page.text)["text"] == [nasty.replace("\r\n", "\n")]


def test_a_table_that_is_too_large_is_refused_before_it_is_read(app: TestClient):
    answer = app.post(
        "/games/columns", content=b"", headers={"content-length": "99000000",
        "content-type": "multipart/form-data; boundary=x"},
    )  # fmt: skip
    assert answer.status_code == 422
    assert "too large" in answer.text


def test_unknown_columns_to_take_out_are_told(app: TestClient):
    assert app.get("/games/columns/kept.json?name=none").status_code == 404
