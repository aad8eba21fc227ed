"""The server that browser tests run against never waits for a reader, and says why it failed."""

from __future__ import annotations

import os
from types import SimpleNamespace
from typing import Any, cast

import pytest

from tests.browser.conftest import SHOWN_LINES, Server, pytest_runtest_makereport

pytestmark = pytest.mark.browser
PIPE_HOLDS = 65_536
"""Bytes a pipe takes before the writer waits (published: pipe(7), since Linux 2.6.11)."""


def said_with(server: Server, lines: int) -> None:
    server.said.write_text("".join(f"line {one}: {'x' * 60}\n" for one in range(lines)), "utf-8")


def test_what_the_server_says_goes_to_a_file_not_to_a_pipe(server: Server) -> None:
    assert server.process is not None
    assert server.process.stdout is None
    assert "Serving on http://127.0.0.1" in server.said.read_text("utf-8")
    if os.path.isdir(f"/proc/{server.process.pid}/fd"):
        for stream in (1, 2):
            target = os.readlink(f"/proc/{server.process.pid}/fd/{stream}")
            assert target == str(server.said)


def test_only_the_end_of_a_long_log_is_shown(tmp_path: Any) -> None:
    quiet = Server(tmp_path)
    assert "nothing" in quiet.last_words()
    said_with(quiet, 2 * PIPE_HOLDS // 60)
    shown = quiet.last_words().splitlines()
    assert len(shown) == SHOWN_LINES
    assert shown[-1].startswith(f"line {2 * PIPE_HOLDS // 60 - 1}:")


@pytest.mark.parametrize("failed", [True, False])
def test_a_test_that_fails_shows_it_and_one_that_passes_does_not(
    tmp_path: Any, failed: bool
) -> None:
    server = Server(tmp_path)
    said_with(server, 3)
    item = SimpleNamespace(funcargs={"server": server})
    report = SimpleNamespace(failed=failed, sections=[])
    making = pytest_runtest_makereport(cast(Any, item), cast(Any, None))
    next(making)
    with pytest.raises(StopIteration) as done:
        making.send(cast(Any, report))
    assert done.value.value is report
    assert [words for _, words in report.sections] == ([server.last_words()] if failed else [])
