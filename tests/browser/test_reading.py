"""Read the play in a real browser: the answer follows the finger, the keys and the touch."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser
PLAY = "/read?D1=6.40,0.60&F1=7.20,-5.00,left&F2=6.20,4.60,right"


def answer(page: Page) -> str:
    return page.locator("[data-part='answer'] h1").inner_text()


def centre(page: Page, name: str) -> tuple[float, float]:
    box = page.locator(f".tl-person[data-name='{name}']").bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_dragging_a_mate_changes_the_answer_and_the_address(desk: Page) -> None:
    desk.goto(PLAY)
    before = desk.locator("[data-part='table']").text_content()
    x, y = centre(desk, "F2")
    desk.mouse.move(x, y)
    desk.mouse.down()
    desk.mouse.move(x + 40, y - 160, steps=8)
    desk.mouse.up()
    expect(desk).to_have_url(re.compile(r"F2=(?!6\.20)\d+\.\d\d,-?\d+\.\d\d"))
    assert desk.locator("[data-part='table']").text_content() != before
    moved_x, moved_y = centre(desk, "F2")
    assert (moved_x, moved_y) == (pytest.approx(x + 40, abs=3), pytest.approx(y - 160, abs=3))


def test_the_address_brings_the_same_play_back(desk: Page) -> None:
    desk.goto("/read?F1=9.00,-3.00,left&F2=3.00,3.00,right")
    first = answer(desk)
    desk.reload()
    assert answer(desk) == first


def test_arrow_keys_nudge_and_undo_takes_back(desk: Page) -> None:
    desk.goto(PLAY)
    person = desk.locator(".tl-person[data-name='F1']")
    person.focus()
    desk.keyboard.press("Shift+ArrowUp")
    expect(desk).to_have_url(re.compile(r"F1=7\.70,-5\.00"))
    desk.keyboard.press("Control+z")
    expect(desk).to_have_url(re.compile(r"F1=7\.20,-5\.00"))


def test_a_finger_drags_on_a_tablet(tablet: Page) -> None:
    tablet.goto(PLAY)
    x, y = centre(tablet, "F1")
    client = tablet.context.new_cdp_session(tablet)
    client.send(
        "Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]}
    )
    for step in range(1, 9):
        point = {"x": x - 10 * step, "y": y - 6 * step}
        client.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [point]})
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    expect(tablet).to_have_url(re.compile(r"F1=(?!7\.20)"))
    moved_x, _ = centre(tablet, "F1")
    assert moved_x == pytest.approx(x - 80, abs=4)


def test_a_number_says_where_it_comes_from(desk: Page) -> None:
    desk.goto("/read")
    desk.locator("[data-part='answer'] a.figure").first.click()
    note = desk.locator("dialog.where-from")
    expect(note).to_be_visible()
    expect(note).to_contain_text("assumed")
    desk.keyboard.press("Escape")
    expect(note).to_be_hidden()


def test_mirror_puts_everyone_on_the_other_side(desk: Page) -> None:
    desk.goto("/read?F1=7.20,-5.00,left&F2=6.20,4.60,right")
    desk.get_by_role("button", name="Mirror", exact=True).click()
    expect(desk).to_have_url(re.compile(r"F1=7\.20,5\.00.*F2=6\.20,-4\.60"))


@pytest.mark.parametrize("width", [1400, 1024, 390])
def test_the_ice_does_not_move_while_somebody_is_dragged(desk: Page, width: int) -> None:
    desk.set_viewport_size({"width": width, "height": 900})
    desk.goto("/read?F1=7.20,-5.00,left&F2=6.20,4.60,right&F3=11.50,0.50,left&D1=6.40,0.60")
    board = desk.locator("ice-board svg")
    x, y = centre(desk, "F2")
    desk.mouse.move(x, y)
    desk.mouse.down()
    tops = set()
    for step in range(1, 13):
        desk.mouse.move(x + 4 * step, y - 3 * step)
        desk.wait_for_timeout(80)
        box = board.bounding_box()
        assert box
        tops.add(round(box["y"]))
    desk.mouse.up()
    assert len(tops) == 1


def test_what_follows_only_at_rest_is_greyed_while_dragging_and_fresh_after(desk: Page) -> None:
    desk.goto("/read")
    x, y = centre(desk, "F1")
    desk.mouse.move(x, y)
    desk.mouse.down()
    desk.mouse.move(x - 30, y - 30, steps=3)
    expect(desk.locator("body")).to_have_class(re.compile("moving"))
    before = desk.locator("[data-part='puck-eye']").inner_html()
    desk.mouse.up()
    expect(desk.locator("body")).not_to_have_class(re.compile("moving"))
    assert desk.locator("[data-part='puck-eye']").inner_html() != before


def test_at_rest_the_page_comes_to_what_a_reload_shows(desk: Page) -> None:
    desk.goto("/read?F1=7.20,-5.00,left&F2=6.20,4.60,right")
    desk.locator(".tl-person[data-name='F1']").focus()
    with desk.expect_response(
        lambda reply: (
            "/read/answer" in reply.url and reply.request.headers.get("x-fragment") == "full"
        )
    ):
        desk.keyboard.press("ArrowUp")
    desk.wait_for_timeout(300)
    live = desk.locator("[data-part='table']").inner_text(), answer(desk)
    desk.reload()
    assert live == (desk.locator("[data-part='table']").inner_text(), answer(desk))


def test_the_board_can_be_dragged_too(desk: Page) -> None:
    desk.goto("/read/board?F1=7.20,-5.00,left&F2=6.20,4.60,right")
    before = desk.locator("[data-part='table']").text_content()
    x, y = centre(desk, "F2")
    desk.mouse.move(x, y)
    desk.mouse.down()
    desk.mouse.move(x - 60, y + 60, steps=4)
    desk.mouse.up()
    expect(desk).to_have_url(re.compile(r"/read/board\?.*F2=(?!6\.20)"))
    assert desk.locator("[data-part='table']").text_content() != before
