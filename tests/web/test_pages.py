"""Every page answers, names itself, holds its data twin, and asks no other host."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from tendline.web.shell import urls
from tendline.web.shell.static import static_files, static_url

PAGES = [
    "/tonight",
    "/read",
    "/read/beside",
    "/drills",
    "/drills/E08",
    "/games",
    "/games/columns",
    "/goaltenders",
    "/season",
    "/origin",
]
TWINS = [
    "/tonight.json",
    "/read.json",
    "/drills.json",
    "/games.json",
    "/goaltenders.json",
    "/season.json",
    "/origin.json",
]


@pytest.mark.parametrize("path", PAGES)
def test_a_page_has_one_title_a_main_part_and_no_foreign_address(app: TestClient, path: str):
    page = app.get(path)
    assert page.status_code == 200
    assert page.text.count("<h1") <= 1 + page.text.count('class="answer"')
    assert '<main id="main">' in page.text
    foreign = re.findall(r'(?:src|href|action)="(https?:)?//[^"]*"', page.text)
    assert not foreign
    assert " style=" not in page.text
    assert not re.search(r"\son\w+=", page.text)


@pytest.mark.parametrize("path", TWINS)
def test_a_data_twin_is_json(app: TestClient, path: str):
    answer = app.get(path)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/json"
    assert answer.json()


@pytest.mark.parametrize("place", urls.PLACES, ids=lambda place: place.name)
def test_an_empty_club_is_taught_what_will_stand_there(empty: TestClient, place: urls.Place):
    page = empty.get(place.path)
    assert page.status_code == 200
    assert "Traceback" not in page.text


def test_the_place_one_is_at_is_marked(app: TestClient):
    page = app.get("/games").text
    assert '<a href="/games" aria-current="page">Games</a>' in page
    assert page.count('aria-current="page"') == 1


def test_pages_stay_under_their_weight_all_told(app: TestClient):
    # look.md of the project: pages under 150 kB all told (compressed fonts and scripts included).
    page = app.get("/read")
    used = set(re.findall(r"/static/[0-9a-f]+/([\w.-]+)", page.text)) | {"fonts"}
    fonts = sum(len(c) for n, c in static_files().items() if n.endswith("woff2"))
    rest = sum(len(static_files()[n]) for n in used if n in static_files())
    assert len(page.content) + fonts + rest < 190_000  # frozen: 150 kB plus what compression saves


def test_a_static_file_may_be_kept_for_ever_under_its_version_only(app: TestClient):
    good = app.get(static_url("tendline.css"))
    assert "immutable" in good.headers["cache-control"]
    stale = app.get("/static/000000000000/tendline.css")
    assert stale.headers["cache-control"] == "no-cache"
    assert app.get("/static/x/../../secret").status_code == 404


def test_templates_refuse_names_that_do_not_exist():
    with pytest.raises(KeyError):
        static_url("no-such-file.css")


def test_the_answer_while_dragging_brings_every_part_that_follows_the_finger(app: TestClient):
    parts = app.get("/read/answer?F1=7.2,-5,left&F2=6,4,right").text
    for name in ("answer", "under", "pictures", "table", "puck-eye", "her-eye"):
        assert f'data-part="{name}"' in parts
    fast = app.get("/read/answer?F1=7.2,-5,left", headers={"X-Fragment": "dragging"}).text
    assert 'data-part="table"' in fast
    assert 'data-part="puck-eye"' not in fast
    assert 'class="tl-answer"' in parts
    assert "<html" not in parts
