"""A real browser on a real server, with every request watched."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Generator, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, sync_playwright

FLAGS = [
    "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    executable = os.environ.get("E2E_CHROMIUM") or shutil.which("chromium")
    if not executable:
        if os.environ.get("CI"):
            pytest.fail("no Chromium: install it or set E2E_CHROMIUM")
        pytest.skip("no Chromium here (set E2E_CHROMIUM): browser tests did not run")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=executable, chromium_sandbox=False, args=FLAGS
        )
        yield started
        started.close()


SHOWN_LINES = 40
"""How much of what the server said last stands beside a test that failed."""
START_SECONDS = 60.0


@dataclass
class Server:
    """The program serving the demo club on a port of its own, stopped and started at will.

    What it says goes to a file: nobody reads a pipe while tests run, and a full one would stop it.
    """

    data: Path
    port: int = 0
    process: subprocess.Popen[bytes] | None = None
    address: str = ""

    @property
    def said(self) -> Path:
        """Return the file that holds everything the server has said, over all its starts."""
        return self.data / "server.log"

    def last_words(self, lines: int = SHOWN_LINES) -> str:
        """Return the last lines the server has said."""
        try:
            return "\n".join(self.said.read_text("utf-8", errors="replace").splitlines()[-lines:])
        except OSError:
            return "(it has said nothing)"

    def start(self) -> None:
        environment = {**os.environ, "TENDLINE_DATA": str(self.data), "PYTHONUNBUFFERED": "1"}
        before = self.said.stat().st_size if self.said.exists() else 0
        with self.said.open("ab") as said:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "tendline", "serve", "--demo", "--port", str(self.port)],
                env=environment, stdin=subprocess.DEVNULL, stdout=said, stderr=subprocess.STDOUT,
            )  # fmt: skip
        patience = time.monotonic() + START_SECONDS
        while time.monotonic() < patience:
            with self.said.open("rb") as file:
                file.seek(before)
                new = file.read().decode("utf-8", errors="replace")
            if found := re.search(r"http://127\.0\.0\.1:(\d+)[^\n]*\n", new):
                self.port = int(found[1])
                self.address = f"http://127.0.0.1:{self.port}"
                return
            if self.process.poll() is not None:
                break
            time.sleep(0.1)
        pytest.fail(f"the server did not start: {self.last_words()}")

    def kill(self) -> None:
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
            self.process = None


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Show what the server said last beside a test that failed."""
    report = yield
    running = getattr(item, "funcargs", {}).get("server")
    if report.failed and isinstance(running, Server):
        report.sections.append(("What the server said last", running.last_words()))
    return report


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    running = Server(tmp_path_factory.mktemp("club"))
    running.start()
    yield running
    running.kill()


@dataclass
class Watch:
    """What a page must not do: fail, complain, or ask any other host."""

    page: Page
    faults: list[str] = field(default_factory=list)

    def _console(self, said: ConsoleMessage) -> None:
        # A server killed on purpose is reported by the browser itself; that is no fault of a page.
        if said.type == "error" and "ERR_CONNECTION_REFUSED" not in said.text:
            self.faults.append(f"console: {said.text}")

    def attach(self, own: str) -> None:
        self.page.on("pageerror", lambda error: self.faults.append(f"error: {error}"))
        self.page.on("console", self._console)
        self.page.on(
            "request",
            lambda asked: (
                None
                if asked.url.startswith((own, "data:", "blob:"))
                else self.faults.append(f"asked {asked.url}")
            ),
        )


@pytest.fixture
def tablet(browser: Browser, server: Server) -> Iterator[Page]:
    """Return a page on a tablet in portrait; the test fails if it errs or asks another host."""
    context = browser.new_context(
        viewport={"width": 800, "height": 1180}, has_touch=True, base_url=server.address
    )
    page = context.new_page()
    watch = Watch(page)
    watch.attach(server.address)
    yield page
    context.close()
    assert not watch.faults


@pytest.fixture
def desk(browser: Browser, server: Server) -> Iterator[Page]:
    """Return a page on a laptop screen, watched likewise."""
    context = browser.new_context(viewport={"width": 1280, "height": 860}, base_url=server.address)
    page = context.new_page()
    watch = Watch(page)
    watch.attach(server.address)
    yield page
    context.close()
    assert not watch.faults
