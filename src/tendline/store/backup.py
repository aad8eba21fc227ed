"""Copies of the club's file, made while it is in use, and the way back.

A backup is one complete SQLite file, checked before it gets its name. Restoring first keeps what is
there: a sound file is backed up, a damaged one is set aside.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from tendline.base import NotFoundError, StoreError
from tendline.store.database import APPLICATION_ID, BUSY_SECONDS
from tendline.store.failures import busy, told_clearly
from tendline.store.folder import BACKUPS, ready_folder
from tendline.store.migrate import KNOWN
from tendline.store.store import Store, open_store

WAIT_SECONDS = 0.1


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup found: where, from when (its file's time), how large [bytes]."""

    path: Path
    made_at: datetime
    size: int


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore did: the file now in use, and where the earlier one was kept."""

    path: Path
    kept: Path | None


def backup_folder(path: Path) -> Path:
    """Return where the backups of a file lie: beside it."""
    return path.parent / BACKUPS


def back_up(store: Store, *, moment: datetime, target: Path | None = None) -> Path:
    """Copy the club's file as it stands at this moment and return where.

    ``target``: a file name, or None for a name made of the moment in the ``backups`` folder. A
    file of that name is never overwritten. Raises ``StoreError``; a half-made copy is removed.
    """
    chosen = target or _free_name(
        backup_folder(store.path) / f"{store.path.stem}-{moment:%Y-%m-%d-%H%M%S}.db"
    )
    if chosen.exists():
        raise StoreError(
            "a file of that name is there already", item=str(chosen), hint="Choose another name."
        )
    ready_folder(chosen.parent)
    _copy(store.path, chosen)
    return chosen


def backups_of(path: Path) -> tuple[Backup, ...]:
    """Return the backups of a file, newest first."""
    folder = backup_folder(path)
    if not folder.is_dir():
        return ()
    found = [
        Backup(one, datetime.fromtimestamp(one.stat().st_mtime).astimezone(), one.stat().st_size)
        for one in folder.glob(f"{path.stem}-*.db")
    ]
    return tuple(sorted(found, key=lambda one: (one.made_at, one.path.name), reverse=True))


def restore(source: Path, path: Path, *, moment: datetime) -> Restored:
    """Put a backup in the place of the club's file and return what was done.

    The backup is checked first; what was there is kept (as a backup if it is sound, else set
    aside under ``damaged``). Raises ``NotFoundError`` for a missing file and ``StoreError`` for
    one that is no sound backup; nothing is changed then.
    """
    if not source.is_file():
        names = [one.path.name for one in backups_of(path)[:5]]
        raise NotFoundError("there is no such backup", came=str(source), allowed=", ".join(names))
    if source.resolve() == path.resolve():
        raise StoreError("a file cannot be restored from itself", item=str(source))
    check_backup(source)
    ready_folder(path.parent)
    kept, sound = _keep(path, moment) if path.exists() else (None, False)
    if sound:
        _pour(source, path)
    else:
        for tail in ("-wal", "-shm"):
            with suppress(FileNotFoundError):
                Path(f"{path}{tail}").unlink()
        _copy(source, path)
    open_store(path).close()
    return Restored(path, kept)


def check_backup(source: Path) -> None:
    """Raise ``StoreError`` unless a file is a whole tendline file that this program can read."""
    with told_clearly(source), closing(_read_only(source)) as connection:
        found = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
        mark = connection.execute("PRAGMA application_id").fetchone()[0]
        if found != "ok":
            raise StoreError("the backup is damaged", came=str(found), item=str(source))
        if mark != APPLICATION_ID:
            raise StoreError(
                "this is not a tendline file", item=str(source), allowed="a backup of tendline"
            )
        version = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    if version is None or version[0] not in KNOWN:
        raise StoreError(
            "the backup was made by a newer tendline", came=str(version and version[0]),
            allowed=f"up to version {KNOWN[-1]}", hint="Install the newer tendline.",
            item=str(source),
        )  # fmt: skip


def _keep(path: Path, moment: datetime) -> tuple[Path, bool]:
    """Keep the file that is there; return where, and whether it is sound.

    A sound one is backed up, a damaged one is set aside.
    """
    stamp = f"{moment:%Y-%m-%d-%H%M%S}"
    try:
        with open_store(path) as store:
            name = backup_folder(path) / f"{path.stem}-{stamp}-before-restore.db"
            return back_up(store, moment=moment, target=_free_name(name)), True
    except StoreError as error:
        if "damaged" not in error.asked:
            raise
    aside = _free_name(path.with_name(f"{path.stem}-damaged-{stamp}.db"))
    os.replace(path, aside)
    return aside, False


def _pour(source: Path, path: Path) -> None:
    """Replace the content of a sound file in one transaction, also for programs that have it open.

    A kill in the middle leaves the earlier content. Raises ``StoreError`` if another program
    keeps writing.
    """
    waited = 0

    def waiting(status: int, _remaining: int, _total: int) -> None:
        nonlocal waited
        waited += status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
        if waited * WAIT_SECONDS > BUSY_SECONDS:
            raise busy(path)

    with (
        told_clearly(path),
        closing(_read_only(source)) as there,
        closing(sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)) as here,
    ):
        here.execute("PRAGMA synchronous=FULL")
        there.backup(here, progress=waiting, sleep=WAIT_SECONDS)


def _copy(source: Path, target: Path) -> None:
    """Copy a database whole, check the copy, and give it its name only then."""
    part = target.with_name(f".{target.name}.part")
    try:
        with (
            told_clearly(target),
            closing(_read_only(source)) as there,
            closing(sqlite3.connect(part)) as here,
        ):
            there.backup(here)
            here.execute("PRAGMA journal_mode=DELETE")
            if here.execute("PRAGMA integrity_check(1)").fetchone()[0] != "ok":
                raise StoreError("the copy came out damaged", item=str(target))
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        os.replace(part, target)
        _flush_folder(target.parent)
    except OSError as error:
        if isinstance(error, StoreError):
            raise
        raise StoreError(
            "the copy could not be written", came=str(error), item=str(target)
        ) from error
    finally:
        for tail in ("", "-journal", "-wal", "-shm"):
            with suppress(OSError):
                Path(f"{part}{tail}").unlink()


def _read_only(path: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True, timeout=5.0)


def _free_name(path: Path) -> Path:
    number = 2
    chosen = path
    while chosen.exists():
        chosen = path.with_name(f"{path.stem}-{number}{path.suffix}")
        number += 1
    return chosen


def _flush_folder(folder: Path) -> None:
    """Make a new name in a folder durable, where the system lets a folder be flushed."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
