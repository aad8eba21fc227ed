"""Backups: whole, checked, never overwriting; restore keeps what was there."""

import sqlite3
from contextlib import closing
from datetime import timedelta

import pytest

from tendline.base import NotFoundError, StoreError
from tendline.store import back_up, backups_of, check_backup, open_store, restore
from tendline.store.database import Database
from tendline.store.migrate import upgrade
from tests.store.samples import EVENING, set_up, shot


@pytest.fixture
def played(store):
    store.games.start(set_up(), game="g1")
    store.games.add("g1", shot("a"))
    return store


def test_a_backup_made_in_use_holds_everything(played):
    made = back_up(played, moment=EVENING)
    assert made.name == "club-2026-11-25-200000.db"
    assert made.parent.name == "backups"
    check_backup(made)
    with open_store(made) as copy:
        assert len(copy.games.events("g1")) == 2
    assert [one.path for one in backups_of(played.path)] == [made]


def test_a_backup_never_overwrites_another(played):
    first, second = back_up(played, moment=EVENING), back_up(played, moment=EVENING)
    assert first != second
    with pytest.raises(StoreError, match="a file of that name is there already"):
        back_up(played, moment=EVENING, target=first)


def test_restore_brings_the_games_back_and_keeps_what_was_there(played, path):
    made = back_up(played, moment=EVENING)
    played.games.add("g1", shot("later"))
    played.close()
    done = restore(made, path, moment=EVENING + timedelta(hours=1))
    with open_store(path) as store:
        assert [one.id for one in store.games.events("g1")] == ["start", "a"]
    assert done.kept is not None
    with open_store(done.kept) as kept:
        assert [one.id for one in kept.games.events("g1")] == ["start", "a", "later"]


def test_restore_sets_a_damaged_file_aside(played, path):
    made = back_up(played, moment=EVENING)
    played.close()
    path.write_bytes(b"\xff" * 5000)
    done = restore(made, path, moment=EVENING)
    assert done.kept is not None
    assert "damaged" in done.kept.name
    assert done.kept.read_bytes() == b"\xff" * 5000
    with open_store(path) as store:
        assert len(store.games.events("g1")) == 2


def test_restore_into_an_empty_folder(played, tmp_path):
    made = back_up(played, moment=EVENING)
    done = restore(made, tmp_path / "new" / "club.db", moment=EVENING)
    assert done.kept is None
    with open_store(done.path) as store:
        assert len(store.games.events("g1")) == 2


def test_a_bad_backup_changes_nothing(played, path, tmp_path):
    bad = tmp_path / "bad.db"
    bad.write_bytes(b"nothing of the kind" * 300)
    foreign = tmp_path / "foreign.db"
    with closing(sqlite3.connect(foreign)) as other:
        other.execute("CREATE TABLE songs (name TEXT)")
        other.commit()
    newer = back_up(played, moment=EVENING)
    with closing(sqlite3.connect(newer)) as other:
        other.execute("UPDATE alembic_version SET version_num = '9999'")
        other.commit()
    for source, words in (
        (bad, "damaged or is not a tendline file"),
        (foreign, "this is not a tendline file"),
        (newer, "made by a newer tendline"),
        (path, "cannot be restored from itself"),
    ):
        with pytest.raises(StoreError, match=words):
            restore(source, path, moment=EVENING)
    with pytest.raises(NotFoundError, match="there is no such backup"):
        restore(tmp_path / "none.db", path, moment=EVENING)
    assert len(played.games.events("g1")) == 2
    assert not list(path.parent.glob(".*"))


def test_a_restore_while_another_program_writes_is_refused(played, path, monkeypatch):
    made = back_up(played, moment=EVENING)
    monkeypatch.setattr("tendline.store.backup.BUSY_SECONDS", 0.1)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreError, match="in use by another program"):
            restore(made, path, moment=EVENING)
        other.execute("ROLLBACK")
    assert len(played.games.events("g1")) == 2


def test_a_program_that_has_the_file_open_sees_the_restored_games(played, path):
    made = back_up(played, moment=EVENING)
    played.games.add("g1", shot("later"))
    restore(made, path, moment=EVENING)
    assert [one.id for one in played.games.events("g1")] == ["start", "a"]
    played.games.add("g1", shot("after"))
    with open_store(path) as other:
        assert [one.id for one in other.games.events("g1")] == ["start", "a", "after"]


def test_a_backup_that_is_damaged_inside_is_refused(played, path, tmp_path):
    for number in range(200):
        played.games.add("g1", shot(f"s{number}"))
    made = back_up(played, moment=EVENING)
    data = bytearray(made.read_bytes())
    data[8192:12288] = b"\xff" * 4096
    made.write_bytes(data)
    with pytest.raises(StoreError, match="damaged"):
        restore(made, path, moment=EVENING)
    assert len(played.games.events("g1")) == 202


def test_an_older_backup_is_brought_up_to_date(played, path, tmp_path):
    old = Database(tmp_path / "old.db")
    upgrade(old, "0001")
    old.close()
    restore(tmp_path / "old.db", path, moment=EVENING)
    with open_store(path) as store:
        assert store.games.headers() == ()


def test_a_copy_into_a_folder_that_cannot_be_written_is_told(played, tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError, match="cannot be made"):
        back_up(played, moment=EVENING, target=tmp_path / "file" / "copy.db")


def test_a_backup_cut_short_leaves_nothing_behind(played, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("tendline.store.backup.os.fsync", full)
    with pytest.raises(StoreError, match=r"the copy could not be written; got .*No space left"):
        back_up(played, moment=EVENING)
    assert list((played.path.parent / "backups").iterdir()) == []


def test_no_backups_yet(path):
    assert backups_of(path) == ()
