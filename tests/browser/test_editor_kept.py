"""Writing a drill in a real browser, nothing is lost: tabs, programs, windows, saved drills."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Server
from tests.browser.editing import (
    SETTLED,
    built,
    fresh,
    says,
    script,
    tap_ice,
    tool,
)

pytestmark = pytest.mark.browser


def test_killing_the_tab_loses_nothing(desk: Page) -> None:
    built(desk)
    tool(desk, "D").click()
    tap_ice(desk, 4.0, 2.0)
    says(desk, "D1 at (4, 2)")
    kept, address = script(desk), desk.url
    assert "draft=" in address
    desk.close(run_before_unload=False)
    again = fresh(desk.context, address)
    assert script(again) == kept
    again.locator("[data-step='undo']").click()
    assert "D1" not in script(again)


def test_killing_the_program_and_the_tab_loses_nothing(desk: Page, server: Server) -> None:
    built(desk)
    expect(desk.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    server.kill()
    desk.locator("[data-script]").press("Control+End")
    desk.locator("[data-script]").type("  F1 stops\n")
    desk.locator("[data-add='C']").click()
    tap_ice(desk, 20.0, 0.0)
    expect(desk.locator("[data-kept]")).to_contain_text("does not answer", timeout=SETTLED)
    address, context = desk.url, desk.context
    desk.close(run_before_unload=False)
    server.start()
    again = fresh(context, address)
    says(again, "F1 stops")
    says(again, "C at ")
    expect(again.locator("[data-offers]")).to_contain_text("is back")
    expect(again.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    server.kill()
    server.start()
    again.evaluate("localStorage.clear()")
    again.reload()
    says(again, "C at ")


def test_starting_again_from_the_saved_drill_can_be_taken_back(desk: Page) -> None:
    desk.goto("/drills/L03/edit")
    saved = script(desk)
    tool(desk, "cone").click()
    tap_ice(desk, 15.0, 3.0)
    says(desk, "cone A at (15, 3)")
    changed = script(desk)
    expect(desk.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    desk.reload()
    assert script(desk) == changed
    desk.get_by_role("button", name="Start from the saved drill").click()
    assert script(desk) == saved
    desk.locator("[data-step='undo']").click()
    assert script(desk) == changed


def test_two_windows_do_not_overwrite_each_other(desk: Page) -> None:
    built(desk)
    expect(desk.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    other = fresh(desk.context, desk.url)
    other.evaluate("localStorage.clear()")
    for count in range(3):
        tool(other, "cone").click()
        tap_ice(other, 10.0 + 2 * count, 0.0)
        expect(other.locator(".desk-ice .tl-thing")).to_have_count(count + 1, timeout=SETTLED)
    expect(other.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    tool(desk, "net").click()
    tap_ice(desk, 15.0, 5.0)
    says(desk, "net 2 at")
    expect(desk.locator("[data-offers]")).to_contain_text("Another window", timeout=SETTLED)
    desk.get_by_role("button", name="Keep mine").click()
    expect(desk.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    says(desk, "net 2 at")
