"""Say which column holds what in a real browser: the answer follows every pick."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Server
from tests.browser.test_access import AXE, RULES
from tests.work.test_mapping_desk import TEXT

pytestmark = pytest.mark.browser


def open_picks(page: Page) -> None:
    page.goto("/games/columns")
    page.get_by_label("or the table itself").fill(TEXT)
    page.get_by_role("button", name="Read it").click()
    page.locator("column-picks:defined").wait_for(state="attached")


def test_the_answer_follows_the_picks_and_the_focus_stays(desk: Page) -> None:
    open_picks(desk)
    heading = desk.locator("h1")
    expect(heading).to_contain_text("4 of 7 rows read as shots")
    expect(desk.get_by_role("button", name="Look again")).to_be_hidden()
    unit = desk.get_by_label("Places are in")
    unit.focus()
    unit.select_option("m")
    expect(desk.locator("[data-part=answer]")).to_contain_text("do not fit the ice")
    expect(unit).to_be_focused()
    unit.select_option("ft")
    expect(heading).to_contain_text("4 of 7 rows read as shots")
    word = desk.get_by_label(re.compile(r"^GOAL \(1 time\)"))
    word.focus()
    word.select_option("save")
    expect(heading).to_contain_text("4 of 7 rows read as shots, 0 goals")
    expect(desk.get_by_label(re.compile(r"^GOAL \(1 time\)"))).to_be_focused()


def test_columns_are_kept_and_the_table_imported_without_a_mouse(desk: Page) -> None:
    open_picks(desk)
    desk.get_by_label("Keep these columns as").focus()
    desk.keyboard.type("browser rink")
    desk.get_by_label("leave refused rows out").focus()
    desk.keyboard.press("Space")
    desk.get_by_role("button", name="Keep them and import").focus()
    desk.keyboard.press("Enter")
    expect(desk.locator(".lead").first).to_contain_text("browser rink")
    desk.goto("/games/columns")
    expect(desk.locator("li", has_text="browser rink")).to_contain_text("(yours)")


def test_the_picks_fit_a_phone_break_no_rule_and_print_what_was_read(
    browser: Browser, server: Server, tmp_path: Path
) -> None:
    for theme in ("paper", "dark"):
        context = browser.new_context(
            viewport={"width": 390, "height": 844}, has_touch=True, base_url=server.address,
            bypass_csp=True,
        )  # fmt: skip
        page = context.new_page()
        page.add_init_script(f"localStorage.setItem('tendline-theme', '{theme}')")
        open_picks(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        for one in page.locator("column-picks select:visible, column-picks button:visible").all():
            box = one.bounding_box()
            assert box
            assert box["height"] >= 47.5
        page.add_script_tag(path=AXE)
        found = page.evaluate("rules => axe.run(document, rules)", RULES)
        assert not [f"{one['id']}: {one['nodes'][0]['html'][:100]}" for one in found["violations"]]
        page.emulate_media(media="print")
        expect(page.locator("[data-part=preview] table")).to_be_visible()
        expect(page.get_by_label("Places are in")).to_be_hidden()
        context.close()
