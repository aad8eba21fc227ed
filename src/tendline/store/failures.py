"""What can go wrong with the file, each told as one clear ``StoreError``."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from tendline.base import StoreError

_BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
_BROKEN = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
BROKEN_HINT = (
    "Nothing was changed. Restore the last backup (tendline restore); the damaged file is kept."
)


@contextmanager
def told_clearly(path: Path) -> Iterator[None]:
    """Turn the database's errors into ``StoreError``; nothing half-written is left behind."""
    try:
        yield
    except DBAPIError as error:
        raise store_error(path, error.orig or error) from error
    except sqlite3.Error as error:
        raise store_error(path, error) from error


def store_error(path: Path, error: BaseException) -> StoreError:
    """Return the ``StoreError`` for a database error."""
    code = int(getattr(error, "sqlite_errorcode", 0) or 0) & 0xFF
    text = str(error)
    if code in _BUSY:
        return busy(path)
    if code == sqlite3.SQLITE_READONLY or "readonly" in text:
        return read_only(path)
    if code in _BROKEN:
        return StoreError(
            "the club's file is damaged or is not a tendline file",
            came=text,
            hint=BROKEN_HINT,
            item=str(path),
        )
    if code == sqlite3.SQLITE_FULL:
        return StoreError(
            "there is no room left on the disk",
            came=text,
            hint="Free some space and try again. What was saved before is safe.",
            item=str(path),
        )
    if code == sqlite3.SQLITE_CANTOPEN:
        return StoreError(
            "the club's file cannot be opened",
            came=text,
            hint="Check that the folder exists and may be written, or set TENDLINE_DATA to "
            "another folder.",
            item=str(path),
        )
    return StoreError("the club's file could not be used", came=text, item=str(path))


def busy(path: Path) -> StoreError:
    """Return the error for a file that another program keeps locked."""
    return StoreError(
        "the club's file is in use by another program and could not be written",
        came="locked for more than a few seconds",
        hint="Close the other program (a second tendline, a backup tool) and try again. "
        "Nothing was lost.",
        item=str(path),
    )


def read_only(path: Path) -> StoreError:
    """Return the error for a file that may only be read."""
    return StoreError(
        "the club's file may only be read, so nothing can be saved in it",
        hint="Make the file and its folder writable, or set TENDLINE_DATA to another folder. "
        "Nothing was lost.",
        item=str(path),
    )
