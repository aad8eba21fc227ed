"""Find drills by what is there: with keys, on a phone, and from an address somebody sent."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Server

pytestmark = pytest.mark.browser


def test_drills_are_found_with_keys_alone(desk: Page) -> None:
    desk.goto("/drills")
    desk.get_by_label("Goaltenders there").focus()
    desk.keyboard.type("2")
    desk.keyboard.press("Tab")
    desk.keyboard.type("3")
    desk.keyboard.press("Enter")
    expect(desk).to_have_url(re.compile(r"/drills\?goaltenders=2&skaters=3$"))
    expect(desk.locator("h1")).to_have_text(re.compile(r"^\d+ of \d+ drills fit\.$"))
    fits = int(desk.locator("h1").inner_text().split()[0])
    expect(desk.locator("table.drills tbody tr")).to_have_count(fits)


def test_an_address_opens_the_same_answer_and_loosening_widens_it(desk: Page) -> None:
    desk.goto("/drills?words=wrap&nets=0")
    expect(desk.locator("h1")).to_have_text("No drill fits all of this.")
    expect(desk.get_by_label("Words in it")).to_have_value("wrap")
    way = desk.locator(".leave-out li").first
    promised = re.search(r"then (\d+) fit", way.inner_text())
    assert promised
    way.get_by_role("link").click()
    expect(desk.locator("table.drills tbody tr")).to_have_count(int(promised[1]))


def test_the_form_can_be_used_with_gloves_on_a_phone(browser: Browser, server: Server) -> None:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, base_url=server.address
    )
    page = context.new_page()
    page.goto("/drills")
    forty_eight = 48  # by hand: 3 rem, the smallest control the look allows
    for one in page.locator("form input:visible, form select:visible, form summary").all():
        box = one.bounding_box()
        assert box
        assert box["height"] >= forty_eight - 0.5
    find = page.get_by_role("button", name="Find", exact=True).bounding_box()
    assert find
    assert min(find["width"], find["height"]) >= 15 / 25.4 * 96 - 0.5  # 15 mm
    page.get_by_label("Ice there").select_option("cross ice")
    page.get_by_role("button", name="Find", exact=True).tap()
    expect(page.locator("h1")).to_contain_text("drills fit")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    page.emulate_media(media="print")
    expect(page.get_by_role("search")).to_be_hidden()
    expect(page.locator("table.drills")).to_be_visible()
    context.close()
