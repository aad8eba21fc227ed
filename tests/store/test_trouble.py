"""A file that is locked, read-only, damaged, foreign, newer or missing: one clear error each."""

import os
import sqlite3
from contextlib import closing, contextmanager

import pytest

from tendline.base import InputError, StoreError
from tendline.store import data_folder, open_store
from tendline.store.database import Database
from tendline.store.failures import store_error
from tendline.store.migrate import bring_up_to_date, upgrade
from tests.store.samples import set_up, shot


@contextmanager
def as_a_user_without_rights():
    """Act as the system's nobody where the tests run as the administrator (who may everything)."""
    if os.name == "nt":
        pytest.skip("needs file rights as Unix has them")
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


def prepared(path):
    with open_store(path) as store:
        store.games.start(set_up(), game="g1")
        store.games.add("g1", shot("a"))


def test_a_locked_file_says_so_and_loses_nothing(store, path):
    store.games.start(set_up(), game="g1")
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match="in use by another program") as caught:
            store.games.add("g1", shot("a"))
        assert "Nothing was lost" in str(caught.value)
        assert len(store.games.events("g1")) == 1  # reading goes on meanwhile
        other.execute("ROLLBACK")
    assert store.games.add("g1", shot("a")) == 1


def test_a_read_only_file_can_be_read_but_not_written(tmp_path):
    folder = tmp_path / "locked"
    folder.mkdir()
    path = folder / "club.db"
    prepared(path)
    tmp_path.chmod(0o755)
    for parent in tmp_path.parents:
        if parent.name.startswith(("pytest-", "popen-")):
            parent.chmod(0o755)
    path.chmod(0o444)
    folder.chmod(0o555)
    try:
        with as_a_user_without_rights(), open_store(path) as store:
            assert store.is_read_only
            assert len(store.games.game("g1").shots) == 1
            with pytest.raises(StoreError, match="may only be read, so nothing can be saved"):
                store.games.add("g1", shot("b"))
    finally:
        folder.chmod(0o755)
        path.chmod(0o644)


@pytest.mark.parametrize("damage", ["not a database", "header", "middle", "cut"])
def test_a_damaged_file_is_told_and_left_as_it_is(path, damage):
    prepared(path)
    data = bytearray(path.read_bytes())
    if damage == "not a database":
        data = bytearray(b"games, games, games\n" * 400)
    elif damage == "header":
        data[0:16] = b"\xff" * 16
    elif damage == "middle":
        data[4096:] = os.urandom(len(data) - 4096)
    else:
        data = data[: len(data) // 3]
    path.write_bytes(data)
    with pytest.raises(StoreError) as caught:
        open_store(path)
    assert "damaged" in str(caught.value)
    assert "Restore the last backup" in str(caught.value)
    assert path.read_bytes() == bytes(data)


def test_a_file_of_another_program_is_refused(path):
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE songs (name TEXT)")
        other.commit()
    with pytest.raises(StoreError, match="a database of another program"):
        open_store(path)


def test_a_newer_file_is_refused(path):
    prepared(path)
    with closing(sqlite3.connect(path)) as other:
        other.execute("UPDATE alembic_version SET version_num = '9999'")
        other.commit()
    with pytest.raises(StoreError, match="made by a newer tendline; got version 9999"):
        open_store(path)


def test_a_missing_file_is_told_when_it_must_be_there(path):
    with pytest.raises(StoreError, match="there is no such file"):
        open_store(path, create=False)
    assert not path.exists()


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError, match="the data folder cannot be made"):
        open_store(tmp_path / "file" / "club.db")


def test_a_full_disk_is_told(path):
    prepared(path)
    with open_store(path) as store:
        with store.database.engine.connect() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
            connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")
        big = [shot(f"s{i}") for i in range(4000)]
        with pytest.raises(StoreError, match="no room left on the disk"):
            store.games.add("g1", *big)
        assert len(store.games.events("g1")) == 2


def test_an_old_file_that_may_only_be_read_says_what_to_do(path):
    database = Database(path)
    upgrade(database, "0001")
    database.is_read_only = True
    with pytest.raises(StoreError, match="must be brought up to date but may only be read"):
        bring_up_to_date(database)
    database.close()


def test_a_file_that_is_a_folder_cannot_be_opened(tmp_path):
    with pytest.raises(StoreError, match="cannot be opened"):
        open_store(tmp_path)


def test_what_the_database_cannot_name_is_still_one_clear_error(path):
    error = store_error(path, sqlite3.OperationalError("something odd"))
    assert "could not be used; got something odd" in str(error)


def test_errors_of_ours_pass_through_a_transaction(store):
    store.games.start(set_up(), game="g1")
    with pytest.raises(InputError):
        store.games.add("g1", shot("start"))


def test_the_data_folder_follows_the_environment(monkeypatch, tmp_path):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path / "mine"))
    assert data_folder() == tmp_path / "mine"
    with open_store() as store:
        assert store.path == tmp_path / "mine" / "club.db"
    assert (tmp_path / "mine").stat().st_mode & 0o777 == 0o700 or os.name == "nt"
    monkeypatch.delenv("TENDLINE_DATA")
    assert data_folder().name == "tendline"
