"""Write a drill in a real browser: with the mouse, with a finger, with keys; nothing is lost."""

from __future__ import annotations

import re
import time

import pytest
from playwright.sync_api import Page, expect

from tests.browser.editing import (
    SETTLED,
    built,
    four_people,
    middle,
    open_new,
    person,
    place,
    says,
    script,
    tap_ice,
    tool,
    touch_ice,
    verb,
)

pytestmark = pytest.mark.browser


def test_a_drill_for_four_is_built_with_the_mouse(desk: Page) -> None:
    open_new(desk)
    four_people(desk, tap_ice, lambda one: one.click())
    expect(desk.locator(".desk-time .tl-bar")).to_have_count(5, timeout=SETTLED)
    expect(desk.locator("[data-part='answer']")).to_contain_text("shots a minute", timeout=SETTLED)
    expect(desk.locator("[data-kept]")).to_contain_text("Saved", timeout=SETTLED)
    desk.locator("[data-keep]").click()
    expect(desk).to_have_url(re.compile(r"/drills/Y\d\d$"), timeout=SETTLED)
    expect(desk.locator("h1")).to_have_text("New drill.")


def test_a_drill_for_four_is_built_with_a_finger(tablet: Page) -> None:
    open_new(tablet)
    four_people(tablet, touch_ice, lambda one: one.tap())
    expect(tablet.locator(".desk-time .tl-bar")).to_have_count(5, timeout=SETTLED)
    small = [
        (one.get_attribute("data-add") or one.inner_text(), box)
        for one in tablet.locator("drill-editor button:visible").all()
        if (box := one.bounding_box()) and (box["height"] < 43.5 or box["width"] < 43.5)
    ]
    assert not small


def test_a_sign_is_dragged_from_the_tools_and_then_on_the_ice(desk: Page) -> None:
    open_new(desk)
    box = tool(desk, "F").bounding_box()
    assert box
    desk.mouse.move(box["x"] + 20, box["y"] + 20)
    desk.mouse.down()
    desk.mouse.move(*place(desk, 9.0, 4.0), steps=8)
    desk.mouse.up()
    says(desk, "F1 at (9, 4)")
    desk.mouse.move(*place(desk, 9.0, 4.0))
    desk.mouse.down()
    desk.mouse.move(*place(desk, 7.0, -6.0), steps=6)
    desk.mouse.move(*place(desk, 6.3, -6.5), steps=3)
    expect(desk.locator(".desk-overlay text")).to_have_text("right dot")
    desk.mouse.up()
    says(desk, "F1 at right dot")


def test_a_finger_drags_a_person(tablet: Page) -> None:
    open_new(tablet)
    tool(tablet, "F").tap()
    touch_ice(tablet, 9.0, 4.0)
    says(tablet, "F1 at (9, 4)")
    client = tablet.context.new_cdp_session(tablet)
    x, y = place(tablet, 9.0, 4.0)
    far_x, far_y = place(tablet, 13.0, -3.0)
    client.send(
        "Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]}
    )
    for step in range(1, 11):
        point = {"x": x + (far_x - x) * step / 10, "y": y + (far_y - y) * step / 10}
        client.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [point]})
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    says(tablet, "F1 at (13, -3)")


def test_a_way_is_drawn_freehand_and_its_points_are_moved(desk: Page) -> None:
    open_new(desk)
    tool(desk, "F").click()
    tap_ice(desk, 18.0, 6.0)
    says(desk, "F1 at (18, 6)")
    verb(desk, "skates").click()
    desk.mouse.move(*place(desk, 18.0, 6.0))
    desk.mouse.down()
    for x, y in ((15, 7), (12, 6), (11, 2), (12, -2), (14, -4)):
        desk.mouse.move(*place(desk, x, y), steps=4)
    desk.mouse.up()
    expect(desk.locator("[data-script]")).to_have_value(
        re.compile(r"F1 skates via .* and .* to \(14, -4\)"), timeout=SETTLED
    )
    desk.locator(".desk-ice .tl-row[data-row='0']").focus()
    desk.keyboard.press("Enter")
    handle = desk.locator(".desk-ice .tl-handle.tl-end")
    expect(handle).to_be_visible()
    desk.wait_for_timeout(300)
    desk.mouse.move(*middle(desk, handle))
    desk.mouse.down()
    desk.mouse.move(*place(desk, 17.0, -2.0), steps=6)
    desk.mouse.up()
    says(desk, "to (17, -2)")


def test_keys_are_enough(desk: Page) -> None:
    open_new(desk)
    desk.locator(".desk-ice .tl-person").first.focus()
    desk.keyboard.press("Shift+F")
    says(desk, "F1 at left dot")
    desk.keyboard.press("Shift+F")
    says(desk, "F2 at right dot")
    person(desk, "F1").focus()
    desk.keyboard.press("Enter")
    desk.keyboard.press("Shift+ArrowUp")
    desk.keyboard.press("ArrowLeft")
    says(desk, "F1 at (6.6, 6.8)")
    desk.keyboard.press("p")
    expect(desk.locator("[data-aim-place]")).to_be_focused()
    desk.keyboard.type("F2")
    desk.keyboard.press("Enter")
    says(desk, "at the whistle: F1 passes to F2")
    person(desk, "F2").focus()
    desk.keyboard.press("Enter")
    expect(desk.locator(".desk-next")).to_contain_text("F2, forward")
    desk.keyboard.press("x")
    says(desk, "when F2 has the puck: F2 shoots")
    person(desk, "F2").focus()
    desk.keyboard.press("Delete")
    expect(desk.locator("[data-script]")).not_to_have_value(re.compile("F2"), timeout=SETTLED)
    desk.keyboard.press("Control+z")
    says(desk, "when F2 has the puck: F2 shoots")


def test_what_is_typed_is_drawn_and_a_fault_stands_at_its_line(desk: Page) -> None:
    built(desk)
    expect(desk.locator(".desk-ice .tl-row")).to_have_count(2)
    box = desk.locator("[data-script]")
    box.fill(script(desk).replace("F2 shoots", "F2 shots"))
    fault = desk.locator("[data-faults]")
    expect(fault).to_contain_text("nobody can do that", timeout=SETTLED)
    expect(fault).to_contain_text("Did you mean 'shoots'?")
    expect(desk.locator(".desk-gutter li.fault")).to_have_count(1)
    tool(desk, "F").click()
    tap_ice(desk, 15.0, 0.0)
    expect(desk.locator("[data-said]")).to_contain_text("mend it first")
    fault.get_by_role("button", name="Put it right").click()
    expect(desk.locator(".desk-gutter li.fault")).to_have_count(0, timeout=SETTLED)
    says(desk, "F2 shoots")


def test_a_line_that_cannot_happen_is_pinned(desk: Page) -> None:
    built(desk)
    box = desk.locator("[data-script]")
    box.fill(script(desk).replace("at the whistle: F1 passes", "on the shot: F1 passes"))
    expect(desk.locator("[data-part='answer']")).to_contain_text("cannot happen", timeout=SETTLED)
    expect(desk.locator(".desk-gutter li.fault")).to_have_count(1)


def test_undo_and_redo_go_all_the_way(desk: Page) -> None:
    open_new(desk)
    empty = script(desk)
    for count in range(1, 6):
        tool(desk, "cone").click()
        tap_ice(desk, 10.0 + count, -6.0 + 2 * count)
        expect(desk.locator(".desk-ice .tl-thing")).to_have_count(count, timeout=SETTLED)
    full = script(desk)
    for _ in range(5):
        desk.locator("[data-step='undo']").click()
    assert script(desk) == empty
    expect(desk.locator("[data-step='undo']")).to_be_disabled()
    for _ in range(5):
        desk.locator("[data-step='redo']").click()
    assert script(desk) == full
    expect(desk.locator("[data-step='redo']")).to_be_disabled()


def test_a_bar_is_dragged_later_and_onto_another(desk: Page) -> None:
    built(desk)
    bar = desk.locator(".tl-bar[data-row='1'] [data-edge='start']")
    bar.scroll_into_view_if_needed()
    box = bar.bounding_box()
    assert box
    desk.mouse.move(box["x"] + 22, box["y"] + box["height"] / 2)
    desk.mouse.down()
    desk.mouse.move(box["x"] + 182, box["y"] + box["height"] / 2, steps=10)
    desk.mouse.up()
    expect(desk.locator("[data-script]")).to_have_value(
        re.compile(r"\d(\.\d)? s later: F2 shoots"), timeout=SETTLED
    )
    drawn = desk.locator(".tl-bar[data-row='1']")
    expect(drawn).to_have_attribute("aria-label", re.compile("s later"), timeout=SETTLED)
    bar = drawn.locator("[data-edge='start']")
    bar.scroll_into_view_if_needed()
    box = bar.bounding_box()
    above = desk.locator(".tl-bar[data-row='0'] .tl-bar-shape").bounding_box()
    assert box
    assert above
    desk.mouse.move(box["x"] + 22, box["y"] + box["height"] / 2)
    desk.mouse.down()
    desk.mouse.move(above["x"] + 0.9 * above["width"], above["y"] + 8, steps=10)
    desk.mouse.up()
    expect(desk.locator("[data-script]")).to_have_value(
        re.compile(r"\n  F2 shoots\n"), timeout=SETTLED
    )


def test_keys_move_a_bar_and_it_keeps_the_focus(desk: Page) -> None:
    built(desk)
    desk.locator(".tl-bar[data-row='1']").focus()
    desk.keyboard.press("ArrowRight")
    says(desk, "0.1 s later: F2 shoots")
    expect(desk.locator(".tl-bar[data-row='1']")).to_have_attribute(
        "aria-label", re.compile("0.1 s later"), timeout=SETTLED
    )
    desk.keyboard.press("ArrowRight")
    says(desk, "0.2 s later: F2 shoots")


def test_the_answer_follows_while_dragging(desk: Page) -> None:
    built(desk)
    before = desk.locator(".desk-time svg").inner_html()
    desk.mouse.move(*place(desk, 6.1, 6.7))
    desk.mouse.down()
    desk.mouse.move(*place(desk, 14.0, 6.0), steps=10)
    expect(desk.locator(".desk-time svg")).not_to_have_js_property(
        "innerHTML", before, timeout=SETTLED
    )
    assert "F1 at left dot" in script(desk)
    desk.mouse.up()
    says(desk, "F1 at (14, 6)")


def test_a_choice_has_ways_of_its_own(desk: Page) -> None:
    built(desk)
    person(desk, "F2").click()
    desk.locator("[data-choose]").click()
    says(desk, "choice by F2")
    person(desk, "F2").click()
    into = desk.locator("[data-into]")
    expect(into).to_be_visible()
    into.select_option(label="into two")
    verb(desk, "skates").click()
    tap_ice(desk, 3.0, -4.0)
    says(desk, "    branch two\n      F2 skates to (3, -4)")
    expect(desk.locator("[data-way]")).to_have_count(2, timeout=SETTLED)


def test_a_repair_is_looked_at_applied_and_taken_back(desk: Page) -> None:
    built(desk)
    more = "\n".join(f"  meanwhile: F{k} shoots" for k in (1, 2, 1))
    box = desk.locator("[data-script]")
    box.fill(script(desk).replace("play\n", "play\n", 1).rstrip("\n") + f"\n{more}\n")
    before = script(desk)
    first = desk.locator("[data-preview='0']")
    expect(first).to_be_visible(timeout=SETTLED)
    first.click()
    expect(desk.locator("[data-preview-bar]")).to_be_visible()
    assert script(desk) != before
    expect(desk.locator(".desk-gutter li.changed").first).to_be_attached()
    desk.locator("[data-preview-back]").click()
    assert script(desk) == before
    desk.locator("[data-apply='0']").click()
    expect(desk.locator("[data-said]")).to_contain_text("Applied")
    assert script(desk) != before
    desk.locator("[data-step='undo']").click()
    assert script(desk) == before


def test_names_with_markup_stay_words(desk: Page) -> None:
    built(desk)
    box = desk.locator("[data-script]")
    hostile = "<img src=x onerror=document.title='owned'>"
    box.fill(
        script(desk)
        .replace(": New drill", f": {hostile}")
        .replace("F1 at left dot", f'F1 at left dot, "{hostile}"')
    )
    expect(desk.locator("h1")).to_have_text(hostile, timeout=SETTLED)
    person(desk, "F1").click()
    expect(desk.get_by_label("Called")).to_have_value(hostile)
    assert desk.locator("main img").count() == 0
    assert "owned" not in desk.title() or "onerror" in desk.title()


def test_from_empty_ice_to_a_drill_for_two(desk: Page, capsys: pytest.CaptureFixture[str]) -> None:
    open_new(desk)
    begin = time.perf_counter()
    tool(desk, "F").click()
    tap_ice(desk, 6.1, 6.7)
    expect(person(desk, "F1")).to_be_visible()
    tool(desk, "F").click()
    tap_ice(desk, 6.1, -6.7)
    expect(person(desk, "F2")).to_be_visible()
    person(desk, "F1").click()
    verb(desk, "passes").click()
    person(desk, "F2").click()
    says(desk, "F1 passes to F2")
    person(desk, "F2").click()
    verb(desk, "shoots").click()
    says(desk, "F2 shoots")
    written = time.perf_counter() - begin
    expect(desk.locator(".desk-time .tl-bar")).to_have_count(2, timeout=SETTLED)
    expect(desk.locator("[data-part='answer']")).to_contain_text("shots a minute", timeout=SETTLED)
    answered = time.perf_counter() - begin
    with capsys.disabled():
        print(
            f"\nempty ice to a valid drill for two: 9 taps, {written:.1f} s by machine, answer on the page after {answered:.1f} s"
        )


def test_a_script_is_seen_running_before_it_is_saved(desk: Page) -> None:
    desk.goto("/drills/L01/edit")
    expect(tool(desk, "F")).to_be_visible()
    summary = desk.get_by_text("See it run", exact=True)
    summary.focus()
    desk.keyboard.press("Enter")
    moving = desk.locator("[data-part='play']")
    expect(moving.locator("svg")).to_be_visible(timeout=SETTLED)
    own = person(desk, "F1").get_attribute("transform")
    moving.locator("#time").fill("20")
    expect(moving.locator("#clock")).to_have_text("1.6 s")  # by hand: 20 pictures at 12.5 a second
    assert person(desk, "F1").get_attribute("transform") == own
    before = moving.locator("#run").text_content()
    edited = script(desk).replace("F2 at right dot", "F2 at (14, -3)")
    assert edited != script(desk)
    desk.locator("[data-script]").fill(edited)
    expect(moving.locator("#run")).not_to_have_text(before or "", timeout=SETTLED)
    expect(moving.locator("#clock")).to_have_text("1.6 s")
    shown = moving.locator("#run").text_content()
    desk.locator("[data-script]").fill(edited.replace("people", "peeple"))
    expect(moving).to_have_class(re.compile(r"\bstale\b"), timeout=SETTLED)
    assert moving.locator("#run").text_content() == shown
    desk.locator("[data-script]").fill(edited)
    expect(moving).not_to_have_class(re.compile(r"\bstale\b"), timeout=SETTLED)
    desk.locator("h1").click()
    desk.keyboard.press("r")
    expect(moving.locator("#play")).to_have_text("Stop")
    desk.keyboard.press("r")
    expect(moving.locator("#play")).to_have_text("Play")
