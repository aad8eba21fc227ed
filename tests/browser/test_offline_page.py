"""The page of one drill that is sent to a phone plays from a file, asking nobody."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.draw.test_film import page

pytestmark = pytest.mark.browser


def test_the_page_plays_in_a_browser(browser: Browser, tmp_path: Path) -> None:
    target = tmp_path / "drill.html"
    target.write_text(page(), "utf-8")
    faults: list[str] = []
    asked: list[str] = []
    tab = browser.new_page()
    tab.on("pageerror", lambda error: faults.append(str(error)))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(target.as_uri())
    person = tab.locator(".tl-animation [data-name=F1]")
    before = person.get_attribute("transform")
    tab.locator("#time").fill("7")
    after = person.get_attribute("transform")
    assert before == "translate(5 -14)"
    assert after == "translate(5 -6)"
    assert tab.locator("#state").inner_text() == "▨ moving"
    assert tab.locator("#line").inner_text() == "F1 shoots"
    assert tab.locator('.tl-her[data-stance="butterfly"]').get_attribute("display") == "inline"
    tab.locator("#way").select_option("1")
    assert tab.locator("#clock").inner_text() == "0.0 s"
    tab.locator("#play").click()
    tab.get_by_role("button", name="Play", exact=True).wait_for()
    assert tab.locator("#clock").inner_text() == "0.3 s"
    tab.close()
    assert faults == []
    assert [one for one in asked if not one.startswith(("file:", "data:"))] == []
