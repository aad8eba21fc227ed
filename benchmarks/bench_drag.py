"""From a finger's move to the new answer drawn, in a real browser, and what it costs the server.

Run: python benchmarks/bench_drag.py [--moves 200] [--address http://127.0.0.1:8765 --pid PID]
(needs Chromium). Without an address it serves the demo club itself. Four people stand on the ice
and the carrier has four options to choose from; one attacker is dragged along a fixed path.

*One at a time*: a move, then nothing until its answer is drawn. *Streaming*: a move every frame;
counted is how old the finger's place is when the answer to it is drawn. The start is the time
stamp that the browser gives the pointer's event, the end the frame after the page has changed.
Server CPU is the run time of all its threads (Linux only), so it can exceed the wall time.
"""

from __future__ import annotations

import argparse
import math
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

PLAY = "F1=7.2,-5.0,left&F2=6.2,4.6,right&F3=11.5,0.5,left&D1=6.4,0.6&level=U18&stature=1.70"
WARM_UP = 20
FRAME = 1000.0 / 60.0

WATCH = """() => {
  window.drag = { moved: 0, ages: [], places: new Map(), answers: 0, sizes: [] };
  const board = document.querySelector("ice-board");
  document.addEventListener("pointermove", event => { window.drag.moved = event.timeStamp; }, true);
  document.addEventListener("pointermove", event => {
    window.drag.places.set(board.query, event.timeStamp);
  });
  board.addEventListener("board-answered", event => {
    const at = window.drag.places.get(event.detail.query);
    requestAnimationFrame(() => setTimeout(() => {
      if (at !== undefined) window.drag.ages.push(performance.now() - at);
      window.drag.answers += 1;
    }));
  });
}"""
ANSWERED = "count => window.drag.answers >= count"


def cpu_seconds(pid: int) -> float:
    """Return the seconds that all threads of a process have run."""
    total = 0
    for task in Path(f"/proc/{pid}/task").iterdir():
        try:
            total += int((task / "schedstat").read_text().split()[0])
        except (FileNotFoundError, ProcessLookupError):
            continue
    return total / 1e9


def spot(step: int) -> tuple[float, float]:
    """Return how far the finger is from where it began, in pixels: a slow figure of eight."""
    turn = 2.0 * math.pi * step / 100.0
    return 60.0 * math.sin(turn), 30.0 * math.sin(2.0 * turn)


def grab(page: Page) -> tuple[float, float]:
    """Open the page, take hold of the second attacker and return where the finger is."""
    page.goto(f"/read?{PLAY}")
    page.evaluate(WATCH)
    box = page.locator(".tl-person[data-name='F2']").bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    return x, y


def one_at_a_time(page: Page, pid: int, moves: int) -> tuple[list[float], list[float]]:
    """Return milliseconds of wall and of server CPU for each move."""
    x, y = grab(page)
    wall, cpu = [], []
    for step in range(1, moves + WARM_UP + 1):
        aside, up = spot(step)
        count = page.evaluate("() => (window.drag.ages.length = 0, window.drag.answers)")
        before = cpu_seconds(pid)
        page.mouse.move(x + aside, y - up)
        page.wait_for_function(ANSWERED, arg=count + 1, polling=5)
        ages = page.evaluate("() => window.drag.ages")
        if step > WARM_UP and ages:
            wall.append(ages[-1])
            cpu.append(1000.0 * (cpu_seconds(pid) - before))
    page.mouse.up()
    page.wait_for_timeout(800)
    return wall, cpu


STREAM = """async ([x, y, moves]) => {
  const board = document.querySelector("ice-board");
  for (let step = 1; step <= moves; step += 1) {
    const turn = 2 * Math.PI * step / 100;
    board.dispatchEvent(new PointerEvent("pointermove", {
      bubbles: true, pointerId: 1,
      clientX: x + 60 * Math.sin(turn), clientY: y - 30 * Math.sin(2 * turn),
    }));
    await new Promise(done => requestAnimationFrame(done));
  }
  await new Promise(done => setTimeout(done, 500));
}"""


def streaming(page: Page, pid: int, moves: int) -> tuple[list[float], float, int]:
    """Return the ages of the answers drawn, server CPU a second of dragging, and their count."""
    x, y = grab(page)
    page.evaluate(STREAM, [x, y, WARM_UP])
    page.evaluate("() => { window.drag.ages.length = 0; window.drag.answers = 0; }")
    before = cpu_seconds(pid)
    page.evaluate(STREAM, [x, y, moves])
    spent = cpu_seconds(pid) - before
    ages = page.evaluate("() => window.drag.ages")
    page.mouse.up()
    page.wait_for_timeout(800)
    return ages, spent, len(ages)


def told(name: str, times: list[float]) -> str:
    """Return one line: median and 95th percentile."""
    high = statistics.quantiles(times, n=20)[-1]
    return f"{name}: median {statistics.median(times):.0f} ms, 95 in 100 within {high:.0f} ms"


def measure(address: str, pid: int, moves: int) -> None:
    """Drive the browser and print."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=os.environ.get("E2E_CHROMIUM") or shutil.which("chromium"),
            chromium_sandbox=False,
        )
        page = browser.new_page(base_url=address, viewport={"width": 1280, "height": 900})
        print(f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
        wall, cpu = one_at_a_time(page, pid, moves)
        print(told(f"one at a time, {len(wall)} moves, move to answer drawn", wall))
        print(told("  server CPU, all threads", cpu))
        ages, spent, count = streaming(page, pid, moves)
        print(told(f"streaming, {moves} moves, {count} answers, age when drawn", ages))
        print(f"  server CPU for each answer: {1000.0 * spent / max(count, 1):.0f} ms")
        browser.close()


def main() -> None:
    """Measure a running program, or one started for it."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    ask.add_argument("--moves", type=int, default=200)
    ask.add_argument("--address")
    ask.add_argument("--pid", type=int)
    asked = ask.parse_args()
    if asked.address and asked.pid:
        measure(asked.address, asked.pid, asked.moves)
        return
    with tempfile.TemporaryDirectory() as folder:
        server = subprocess.Popen(
            [sys.executable, "-m", "tendline", "serve", "--demo", "--port", "0"],
            env={**os.environ, "TENDLINE_DATA": folder}, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        assert server.stdout
        try:
            address = next(
                m[0] for line in server.stdout if (m := re.search(r"http://127\.0\.0\.1:\d+", line))
            )
            measure(address, server.pid, asked.moves)
        finally:
            server.terminate()


if __name__ == "__main__":
    main()
