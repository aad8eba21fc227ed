"""A drill plays in the browser; a hidden branch stays hidden until it happens."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser


def seen(page: Page) -> tuple[list[str], str, str]:
    """Return everything the page shows of the run: places, words, the rule's length."""
    places = [
        one.get_attribute("transform") or ""
        for one in page.locator(".player [data-name], .tl-moving-puck").all()
    ]
    words = page.locator("#words").inner_text() + page.locator("#line").inner_text()
    return places, words, page.locator("#time").get_attribute("max") or ""


def test_a_run_plays_to_its_end_and_says_set_or_moving(desk: Page) -> None:
    desk.goto("/drills/L01")
    desk.locator("#speed").select_option("1")
    desk.get_by_role("button", name="Play").click()
    expect(desk.locator("#clock")).not_to_have_text("0.0 s")
    expect(desk.locator("#state")).to_contain_text("set", timeout=15_000)
    desk.get_by_role("button", name="Stop").click()
    before = desk.locator("#clock").inner_text()
    for _ in range(3):
        desk.get_by_role("button", name="One step on").click()
    assert desk.locator("#clock").inner_text() != before


def test_a_hidden_branch_shows_nothing_before_it_is_chosen(desk: Page) -> None:
    # By hand: E08's carrier reads at the cone, three seconds and more after the whistle.
    shown = set()
    for _ in range(12):
        desk.goto("/drills/E08")
        desk.locator("#way").select_option("")
        for time in ("0", "10", "25"):
            desk.locator("#time").fill(time)
            places, words, length = seen(desk)
            shown.add((time, tuple(places), words, length))
    assert len(shown) == 3


def test_a_branch_chosen_by_hand_is_named(desk: Page) -> None:
    desk.goto("/drills/E08")
    desk.locator("#way").select_option("1")
    expect(desk.locator("#words")).to_contain_text("defender")


def test_the_picture_follows_her_and_shows_both_eyes(desk: Page) -> None:
    desk.goto("/drills/L01")
    whole = desk.locator(".player svg").first.get_attribute("viewBox")
    desk.get_by_label("follow the goaltender").check()
    near = desk.locator(".player svg").first.get_attribute("viewBox")
    assert near != whole
    desk.get_by_label("what the puck and she see").check()
    expect(desk.locator("[data-eyes] svg")).to_have_count(2)
    first = desk.locator("[data-eyes]").inner_html()
    desk.locator("#time").fill("20")
    expect(desk.locator("[data-eyes]")).not_to_have_text("")
    desk.wait_for_timeout(800)
    assert desk.locator("[data-eyes]").inner_html() != first
    desk.get_by_label("follow the goaltender").uncheck()
    assert desk.locator(".player svg").first.get_attribute("viewBox") == whole
