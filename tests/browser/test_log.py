"""Log a shot in three taps; kill the program between taps; nothing is lost or doubled."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Server

pytestmark = pytest.mark.browser


@pytest.fixture
def game(tablet: Page) -> Page:
    tablet.goto("/games")
    tablet.get_by_label("Day").fill("2026-11-21")
    tablet.get_by_label("Our team").fill("Harbour U15")
    tablet.get_by_label("Against").fill("Blue Valley")
    tablet.get_by_role("button", name="Log it").click()
    expect(tablet).to_have_url(re.compile(r"/games/.+/log$"))
    tablet.locator("shot-log:defined").wait_for(state="attached")
    return tablet


def tap_ice(page: Page, right: float = 0.6, down: float = 0.5) -> None:
    box = page.locator("[data-ice] svg").bounding_box()
    assert box
    page.touchscreen.tap(box["x"] + right * box["width"], box["y"] + down * box["height"])


def finish(page: Page, how: str = "east-west", result: str = "goal") -> None:
    page.get_by_role("button", name=how, exact=True).tap()
    page.get_by_role("button", name=result, exact=True).tap()


def shots(page: Page) -> int:
    return page.locator("[data-part='tally'] tbody tr").filter(has_not_text="No shot yet").count()


def test_three_taps_log_a_shot_and_undo_takes_it_back(game: Page) -> None:
    tap_ice(game)
    finish(game)
    expect(game.locator("[data-said]")).to_contain_text("Saved: 1.")
    assert shots(game) == 1
    game.get_by_role("button", name="Undo").tap()
    expect(game.locator("[data-part='tally']")).to_contain_text("No shot yet")


def test_every_target_is_large_enough_for_gloves(game: Page) -> None:
    tap_ice(game)
    fifteen_millimetres = 15 / 25.4 * 96  # by hand: CSS pixels are 1/96 inch
    for button in game.locator("button.target:visible").all():
        box = button.bounding_box()
        assert box
        assert box["height"] >= fifteen_millimetres - 0.5
        assert box["width"] >= fifteen_millimetres - 0.5


def test_killing_the_program_between_taps_loses_nothing(game: Page, server: Server) -> None:
    tap_ice(game)
    server.kill()
    game.get_by_role("button", name="rebound", exact=True).tap()
    game.get_by_role("button", name="save, held", exact=True).tap()
    expect(game.locator("[data-said]")).to_contain_text("Not saved yet")
    server.start()
    expect(game.locator("[data-said]")).to_contain_text("Saved: 1.", timeout=20_000)
    server.kill()
    server.start()
    game.reload()
    assert shots(game) == 1


def test_a_half_finished_shot_survives_a_reload(game: Page) -> None:
    tap_ice(game)
    game.reload()
    finish(game, "screen", "wide")
    expect(game.locator("[data-said]")).to_contain_text("Saved: 1.")
