"""Every page answers, names itself, holds its data twin, and asks no other host."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from tendline.base import LengthUnit
from tendline.web.reading.forms import View, read_form
from tendline.web.reading.present import tall_words
from tendline.web.shell import urls
from tendline.web.shell.render import numbers
from tendline.web.shell.static import static_files, static_url

PAGES = [
    "/tonight",
    "/read",
    "/read/beside",
    "/read/board",
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


def test_a_name_of_a_player_is_no_number():
    # by hand
    assert numbers("Pass to F3, 3 goals in 100; set 0.2 s before.") == [
        ("Pass to F3, ", False),
        ("3 goals in 100", True),
        ("; set ", False),
        ("0.2 s", True),
        (" before.", False),
    ]
    assert numbers("from 0.5 to 1.5 m out")[1] == ("0.5 to 1.5 m", True)
    assert numbers("4 of 11, a 2-on-1")[0] == ("4 of 11", True)


def test_a_puck_behind_the_net_can_be_read(app: TestClient):
    page = app.get("/read?F1=-1.5,-3.0,left&F2=4.5,1.0,right")
    assert page.status_code == 200
    assert "of the net open" in page.text


def test_the_full_answer_follows_once_nobody_moves(app: TestClient):
    where = "/read/answer?F1=7.2,-5,left&F2=6,4,right"
    full = app.get(where, headers={"X-Fragment": "full"}).text
    assert 'data-part="assumptions"' in full
    assert "What would move the answer most" in full
    assert 'data-part="assumptions"' not in app.get(where).text


def test_the_board_has_the_answer_the_ice_and_the_table_large(app: TestClient):
    page = app.get("/read/board?F1=7.2,-5,left&F2=6,4,right").text
    assert 'class="board"' in page
    for part in ("answer", "table", "puck-eye"):
        assert page.count(f'data-part="{part}"') == 1
    assert "<ice-board" in page
    assert 'data-part="under"' not in page


def test_two_situations_side_by_side_share_one_scale_and_say_what_changes(app: TestClient):
    page = app.get("/read/beside?F1=7.2,-5,left&F2=6,4,right").text
    curves = re.findall(r"<svg[^>]*tl-depth-curve.*?</svg>", page, re.S)
    scales = [re.findall(r'text-anchor="end"[^>]*>(\d+)<', curve) for curve in curves]
    assert len(curves) == 2
    assert scales[0]
    assert scales[0] == scales[1]
    assert "With even numbers she stands" in page
    even = app.get("/read/beside?F1=7.2,-5,left&D1=5,-3").text
    assert "Every attacker has a defender already." in even
    feet = app.get("/read/beside?F1=7.2,-5,left&F2=6,4,right&unit=ft").text
    assert "How far out, feet" in feet
    assert "In metres" in feet


def test_a_height_is_said_as_people_say_it():
    # by hand: 1.70 m is 66.9 inches
    assert tall_words(1.70, LengthUnit.METRES) == "1.70 m"
    assert tall_words(1.70, LengthUnit.FEET) == "5 ft 7 in"


def test_somebody_near_the_edge_of_the_near_view_gets_the_whole_zone():
    assert read_form([("F1", "15,-3,left")]).view is View.ZONE
    assert read_form([("F1", "13,-3,left")]).view is View.NEAR


def test_a_play_at_the_net_is_seen_close_and_keeps_its_window_while_dragged(app: TestClient):
    where = "F1=4.0,-2.0,left&F2=3.0,2.0,right"
    page = app.get(f"/read?{where}").text
    assert 'data-shown="close"' in page
    assert 'data-shown="near"' in app.get("/read?F1=9.0,-2.0,left").text
    held = {"X-Fragment": "dragging", "X-Shown": "near"}
    dragged = app.get(f"/read/answer?{where}", headers=held).text
    assert 'data-shown="near"' in dragged
    assert 'data-shown="close"' in app.get(f"/read/answer?{where}").text
