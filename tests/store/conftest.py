"""An open, empty store in a folder of its own for each test."""

import pytest

from tendline.store import open_store


@pytest.fixture
def path(tmp_path):
    return tmp_path / "club.db"


@pytest.fixture
def store(path):
    with open_store(path, busy_seconds=0.1) as opened:
        yield opened
