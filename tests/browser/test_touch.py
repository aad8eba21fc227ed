"""A finger on the ice moves who it holds and nothing else; anywhere else it scrolls the page."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, CDPSession, Page, expect

from tests.browser.conftest import Server, Watch

pytestmark = pytest.mark.browser
PLAY = "/read?F1=7.20,-5.00,left&F2=6.20,4.60,right&D1=6.40,0.60"


@pytest.fixture
def phone(browser: Browser, server: Server) -> Iterator[Page]:
    """Return a page on a phone in portrait; the test fails if it errs or asks another host."""
    context = browser.new_context(
        viewport={"width": 390, "height": 700}, has_touch=True, is_mobile=True,
        base_url=server.address,
    )  # fmt: skip
    page = context.new_page()
    watch = Watch(page)
    watch.attach(server.address)
    yield page
    context.close()
    assert not watch.faults


def finger(page: Page, start: tuple[float, float], by: tuple[float, float]) -> None:
    """Put a finger down, move it in small steps and lift it, as the browser itself would see it."""
    client: CDPSession = page.context.new_cdp_session(page)

    def send(kind: str, *points: dict[str, float]) -> None:
        client.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": list(points)})

    x, y = start
    send("touchStart", {"x": x, "y": y})
    for step in range(1, 13):
        send("touchMove", {"x": x + by[0] * step / 12, "y": y + by[1] * step / 12})
        page.wait_for_timeout(16)
    send("touchEnd")
    page.wait_for_timeout(300)


def ice_in_sight(page: Page) -> dict[str, float]:
    page.goto(PLAY)
    page.locator("ice-board:defined").wait_for(state="attached")
    page.locator("ice-board svg").first.scroll_into_view_if_needed()
    page.evaluate("document.querySelector('ice-board svg').scrollIntoView({block: 'center'})")
    page.wait_for_timeout(200)
    box = page.locator("ice-board svg").first.bounding_box()
    assert box
    return dict(box)


def centre(page: Page, name: str) -> tuple[float, float]:
    box = page.locator(f"ice-board .tl-person[data-name='{name}']").bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def scrolled(page: Page) -> float:
    return float(page.evaluate("scrollY"))


@pytest.mark.parametrize("way", [(0.0, -110.0), (0.0, 60.0), (-60.0, -50.0)])
def test_a_finger_on_somebody_moves_him_and_not_the_page(
    phone: Page, way: tuple[float, float]
) -> None:
    ice_in_sight(phone)
    before = scrolled(phone)
    x, y = centre(phone, "F2")
    finger(phone, (x, y), way)
    assert scrolled(phone) == before
    expect(phone).not_to_have_url(f"{phone.url.split('/read')[0]}{PLAY}")
    moved = centre(phone, "F2")
    assert moved == (pytest.approx(x + way[0], abs=5), pytest.approx(y + way[1], abs=5))


def test_a_finger_on_empty_ice_scrolls_the_page_and_moves_nobody(phone: Page) -> None:
    box = ice_in_sight(phone)
    before, url = scrolled(phone), phone.url
    finger(phone, (box["x"] + 0.5 * box["width"], box["y"] + 0.12 * box["height"]), (0.0, -150.0))
    assert scrolled(phone) > before + 50
    assert phone.url == url


def test_a_finger_on_the_words_scrolls_the_page(phone: Page) -> None:
    phone.goto(PLAY)
    box = phone.locator("[data-part='answer']").first.bounding_box()
    assert box
    finger(phone, (box["x"] + 100, box["y"] + 40), (0.0, -200.0))
    assert scrolled(phone) > 50
