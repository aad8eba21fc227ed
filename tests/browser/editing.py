"""What the tests of the drill editor do on its page."""

from __future__ import annotations

import re

from playwright.sync_api import BrowserContext, Locator, Page, expect

SETTLED = 15_000


def place(page: Page, x: float, y: float) -> tuple[float, float]:
    """Return where a place on the ice (m) is on the screen."""
    found = page.evaluate(
        """([x, y]) => {
          const svg = document.querySelector(".desk-ice svg");
          const seen = svg.getBoundingClientRect();
          if (seen.bottom > innerHeight) scrollBy(0, seen.bottom - innerHeight + 4);
          const at = new DOMPoint(-y, -x).matrixTransform(svg.getScreenCTM());
          return [at.x, at.y];
        }""",
        [x, y],
    )
    return found[0], found[1]


def tap_ice(page: Page, x: float, y: float) -> None:
    page.mouse.click(*place(page, x, y))


def touch_ice(page: Page, x: float, y: float) -> None:
    page.touchscreen.tap(*place(page, x, y))


def person(page: Page, name: str) -> Locator:
    return page.locator(f".desk-ice .tl-person[data-name='{name}']")


def script(page: Page) -> str:
    return page.locator("[data-script]").input_value()


def says(page: Page, words: str) -> None:
    expect(page.locator("[data-script]")).to_have_value(
        re.compile(re.escape(words)), timeout=SETTLED
    )


def tool(page: Page, kind: str) -> Locator:
    return page.locator(f"[data-add='{kind}']")


def verb(page: Page, word: str) -> Locator:
    return page.locator(f"[data-verb='{word}']")


def middle(page: Page, one: Locator) -> tuple[float, float]:
    """Return the middle of something that may be drawn anew at any moment."""
    for _ in range(40):
        box = one.bounding_box()
        if box:
            return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        page.wait_for_timeout(100)
    raise AssertionError("it is not on the page")


def open_new(page: Page) -> None:
    page.goto("/drills/new")
    expect(tool(page, "F")).to_be_visible()
    expect(page.locator(".desk-ice svg")).to_be_visible()


def fresh(context: BrowserContext, address: str) -> Page:
    page = context.new_page()
    page.goto(address)
    expect(tool(page, "F")).to_be_visible()
    return page


def four_people(page: Page, tap, press) -> None:  # type: ignore[no-untyped-def]
    """Two forwards, a defender and a coach; a pass across, a carry, a shot, a screen."""
    for role, x, y, line in (
        ("F", 6.1, 6.7, "F1 at left dot"),
        ("F", 6.1, -6.7, "F2 at right dot"),
        ("D", 4.0, 1.0, "D1 at (4, 1)"),
        ("C", 20.0, 0.0, "C at "),
    ):
        press(tool(page, role))
        tap(page, x, y)
        says(page, line)
    press(person(page, "C"))
    press(verb(page, "passes"))
    press(person(page, "F1"))
    says(page, "at the whistle: C passes to F1")
    press(person(page, "F1"))
    press(verb(page, "carries"))
    tap(page, 12.0, 3.0)
    says(page, "F1 carries to (12, 3)")
    press(verb(page, "passes"))
    press(person(page, "F2"))
    says(page, "F1 passes to F2")
    press(person(page, "D1"))
    press(verb(page, "screens"))
    tap(page, 2.6, 0.3)
    says(page, "D1 screens at (2.6, 0.3)")
    press(person(page, "F2"))
    press(verb(page, "shoots"))
    says(page, "F2 shoots")


def built(page: Page) -> None:
    open_new(page)
    box = page.locator("[data-script]")
    box.fill(
        script(page)
        .rstrip("\n")
        .replace(
            "  G at crease top",
            "  F1 at left dot, with a puck\n  F2 at right dot\n  G at crease top",
        )
        + "\n\nplay\n  at the whistle: F1 passes to F2\n  F2 shoots\n"
    )
    expect(page.locator(".desk-time .tl-bar")).to_have_count(2, timeout=SETTLED)
