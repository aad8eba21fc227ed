"""The connection to the club's file: how it is opened, and what a transaction is.

SQLite in WAL mode. ``synchronous=FULL``: a commit returns only once the write-ahead log is on
disk, so "saved" means saved whatever happens to the process or the power. Writers begin with
``BEGIN IMMEDIATE`` (else read-then-write loses updates silently); readers with plain ``BEGIN``.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import QueuePool

from tendline.base import StoreError
from tendline.store.failures import read_only, told_clearly

APPLICATION_ID = 0x74656E64
"""'tend' in ASCII: marks the file as ours (SQLite's application_id)."""
BUSY_SECONDS = 5.0


def _writable(path: Path) -> bool:
    """Return whether this process, with the rights it acts with, may write there."""
    as_acting = os.access in os.supports_effective_ids
    return os.access(path, os.W_OK, effective_ids=as_acting)


class Database:
    """One open file."""

    def __init__(self, path: Path, *, busy_seconds: float = BUSY_SECONDS) -> None:
        self.path = path
        self.busy_seconds = busy_seconds
        self.is_read_only = path.exists() and not (_writable(path) and _writable(path.parent))
        self.engine = self._engine()

    def _connect(self) -> sqlite3.Connection:
        if self.is_read_only:
            waiting = Path(f"{self.path}-wal").exists()
            address = f"{self.path.resolve().as_uri()}?mode=ro"
            if not waiting:
                address += "&immutable=1"
            return sqlite3.connect(
                address, uri=True, timeout=self.busy_seconds, check_same_thread=False
            )
        return sqlite3.connect(self.path, timeout=self.busy_seconds, check_same_thread=False)

    def _engine(self) -> Engine:
        engine = create_engine("sqlite://", creator=self._connect, poolclass=QueuePool)

        @event.listens_for(engine, "connect")
        def prepare(connection: sqlite3.Connection, _record: object) -> None:
            connection.isolation_level = None
            connection.execute("PRAGMA foreign_keys=ON")
            connection.execute("PRAGMA synchronous=FULL")
            connection.execute("PRAGMA secure_delete=ON")
            if not self.is_read_only:
                connection.execute("PRAGMA journal_mode=WAL")

        @event.listens_for(engine, "begin")
        def begin(connection: Connection) -> None:
            reads = connection.get_execution_options().get("only_reads", False)
            connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")

        return engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection for reading: one consistent view, no lock taken."""
        with (
            told_clearly(self.path),
            self.engine.connect().execution_options(only_reads=True) as connection,
            connection.begin(),
        ):
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection for writing: all or nothing, on disk when the block ends."""
        if self.is_read_only:
            raise read_only(self.path)
        with told_clearly(self.path), self.engine.begin() as connection:
            yield connection

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()

    def tidy(self) -> None:
        """Rewrite the file without what was deleted, so that it cannot be read back from it."""
        with told_clearly(self.path), closing(self._connect()) as connection:
            connection.isolation_level = None
            connection.execute("VACUUM")
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")

    def check(self) -> None:
        """Raise ``StoreError`` unless the file is sound and ours (or new)."""
        with self.reading() as connection:
            found = connection.exec_driver_sql("PRAGMA quick_check(1)").scalar_one()
            mark = connection.exec_driver_sql("PRAGMA application_id").scalar_one()
            tables = connection.exec_driver_sql("SELECT count(*) FROM sqlite_master").scalar_one()
        if found != "ok":
            raise StoreError(
                "the club's file is damaged", came=str(found), item=str(self.path),
                hint="Nothing was changed. Restore the last backup (tendline restore).",
            )  # fmt: skip
        if tables and mark != APPLICATION_ID:
            raise StoreError(
                "this is a database of another program", item=str(self.path),
                allowed="a file made by tendline",
                hint="Name another file or set TENDLINE_DATA to another folder.",
            )  # fmt: skip
