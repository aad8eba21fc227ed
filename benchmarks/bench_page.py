"""How the pages feel in a real browser: frames a second of a run, delay while dragging, films.

Run: python benchmarks/bench_page.py (needs Chromium). Starts the program on the demo club, plays a
drill for five seconds counting animation frames, drags an attacker across the ice for three
seconds measuring the time from each question to its answer, and times a GIF and an MP4.
"""

from __future__ import annotations

import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

from playwright.sync_api import Page, Request, sync_playwright

PLAY_SECONDS = 5.0
DRAG_STEPS = 60

COUNT_FRAMES = """seconds => new Promise(done => {
  let frames = 0; const start = performance.now();
  const tick = now => {
    frames += 1;
    if (now - start > 1000 * seconds) done(frames / seconds);
    else requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
})"""


def frames_a_second(page: Page) -> float:
    """Return how many frames a second the browser draws while a run plays."""
    page.goto("/drills/E08")
    page.locator("#speed").select_option("0.5")
    page.get_by_role("button", name="Play").click()
    return float(page.evaluate(COUNT_FRAMES, PLAY_SECONDS))


def answer_times(page: Page) -> list[float]:
    """Return the milliseconds from each question sent while dragging to its answer."""
    page.goto("/read")
    times: list[float] = []

    def note(asked: Request) -> None:
        if "/read/answer" in asked.url:
            times.append(asked.timing["responseEnd"])

    page.on(
        "requestfinished",
        lambda asked: (
            times.append(asked.timing["responseEnd"]) if "/read/answer" in asked.url else None
        ),
    )
    box = page.locator(".tl-person[data-name='F2']").bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(DRAG_STEPS):
        page.mouse.move(x + 2 * step, y - 2 * step)
        page.wait_for_timeout(50)
    page.mouse.up()
    page.wait_for_timeout(500)
    return times[2:]


def film_times(page: Page) -> dict[str, float]:
    """Return seconds to make a film of each kind, program's work and transfer together."""
    found = {}
    for kind in ("gif", "mp4"):
        start = time.perf_counter()
        page.request.get(f"/drills/E08/file.{kind}")
        found[kind] = time.perf_counter() - start
    return found


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        server = subprocess.Popen(
            [sys.executable, "-m", "tendline", "serve", "--demo", "--port", "0"],
            env={**os.environ, "TENDLINE_DATA": folder}, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        assert server.stdout
        address = next(
            m[0] for line in server.stdout if (m := re.search(r"http://127\.0\.0\.1:\d+", line))
        )
        try:
            with sync_playwright() as playwright:
                browser = playwright.chromium.launch(
                    executable_path=os.environ.get("E2E_CHROMIUM") or shutil.which("chromium"),
                    chromium_sandbox=False,
                )
                page = browser.new_page(base_url=address, viewport={"width": 1280, "height": 860})
                page.goto("/drills/E08")
                print(f"animation: {frames_a_second(page):.0f} frames a second")
                times = answer_times(page)
                low, high = statistics.median(times), statistics.quantiles(times, n=20)[-1]
                print(
                    f"dragging: answer after {low:.0f} ms (median of {len(times)}), "
                    f"95 in 100 under {high:.0f} ms"
                )
                for kind, seconds in film_times(page).items():
                    print(f"film as {kind}: {seconds:.1f} s")
                browser.close()
        finally:
            server.terminate()


if __name__ == "__main__":
    main()
