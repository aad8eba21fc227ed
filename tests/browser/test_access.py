"""Every page passes the accessibility rules (WCAG 2.2 A and AA), in paper and in the dark theme."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.conftest import Server

pytestmark = pytest.mark.browser
AXE = Path(__file__).parent / "vendor" / "axe.min.js"
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}
PAGES = [
    "/tonight",
    "/tonight?present=ronja&present=milo&present=ilse&present=petra&helpers=4&block_place=full+ice",
    "/read",
    "/read/beside",
    "/read/board",
    "/read/map",
    "/drills",
    "/drills/E08",
    "/games",
    "/games/columns",
    "/goaltenders/ronja",
    "/season",
    "/origin?only=assumed",
]


@pytest.mark.parametrize("theme", ["paper", "dark"])
@pytest.mark.parametrize("path", PAGES)
def test_a_page_breaks_no_accessibility_rule(
    browser: Browser, server: Server, path: str, theme: str
) -> None:
    context = browser.new_context(
        viewport={"width": 800, "height": 1180}, base_url=server.address, bypass_csp=True
    )
    page = context.new_page()
    page.add_init_script(f"localStorage.setItem('tendline-theme', '{theme}')")
    page.goto(path)
    page.add_script_tag(path=AXE)
    found = page.evaluate("rules => axe.run(document, rules)", RULES)
    context.close()
    faults = [
        f"{one['id']}: {one['help']} ({one['nodes'][0]['html'][:120]}; {len(one['nodes'])} places)"
        for one in found["violations"]
    ]
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("path", PAGES)
def test_a_page_fits_a_phone_in_portrait(browser: Browser, server: Server, path: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, base_url=server.address)
    page = context.new_page()
    page.goto(path)
    width = page.evaluate("document.documentElement.scrollWidth")
    context.close()
    assert width <= 390
