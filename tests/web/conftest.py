"""The real app in memory, over the demo club in a file of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tendline.store import Store, open_store
from tendline.web.app import create_app
from tendline.work.demo import load_demo


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("demo") / "club.db"
    with open_store(path) as store:
        load_demo(store)
    return path


@pytest.fixture
def store(demo_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    monkeypatch.setenv("TENDLINE_DATA", str(demo_file.parent))
    own = tmp_path / "club.db"
    own.write_bytes(demo_file.read_bytes())
    with open_store(own) as opened:
        yield opened


@pytest.fixture
def app(store: Store) -> TestClient:
    return TestClient(create_app(store))


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[TestClient]:
    """The app over a club in which nobody and nothing is yet."""
    with open_store(tmp_path / "empty.db") as opened:
        yield TestClient(create_app(opened))
