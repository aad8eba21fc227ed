"""The club's file as one object."""

from __future__ import annotations

from pathlib import Path
from types import TracebackType

from tendline.base import StoreError
from tendline.store.database import BUSY_SECONDS, Database
from tendline.store.documents import (
    Choices,
    Clubs,
    MappingDocuments,
    Notes,
    OwnDrills,
    People,
    Practices,
)
from tendline.store.drafts import Drafts
from tendline.store.folder import club_path, ready_folder
from tendline.store.games import Games
from tendline.store.migrate import bring_up_to_date


class Store:
    """Everything the club keeps. Make one with :func:`open_store`; close it when done."""

    def __init__(self, database: Database) -> None:
        self.database = database
        self.club = Clubs(database)
        self.people = People(database)
        self.games = Games(database)
        self.notes = Notes(database)
        self.practices = Practices(database)
        self.choices = Choices(database)
        self.mappings = MappingDocuments(database)
        self.drills = OwnDrills(database)
        self.drafts = Drafts(database)

    @property
    def path(self) -> Path:
        """Return where the file lies."""
        return self.database.path

    @property
    def is_read_only(self) -> bool:
        """Return whether the file may only be read."""
        return self.database.is_read_only

    def close(self) -> None:
        """Close the file."""
        self.database.close()

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


def open_store(
    path: Path | None = None, *, create: bool = True, busy_seconds: float = BUSY_SECONDS
) -> Store:
    """Open the club's file (made and brought up to date as needed) and return the store.

    ``path`` None: ``club.db`` in the data folder. ``busy_seconds``: how long to wait while another
    program writes. Raises ``StoreError`` for a file that is damaged, foreign, locked, newer than
    this program or missing (``create=False``).
    """
    chosen = path or club_path()
    if not chosen.exists():
        if not create:
            raise StoreError(
                "there is no such file", item=str(chosen), hint="Check the name of the file."
            )
        ready_folder(chosen.parent)
    database = Database(chosen, busy_seconds=busy_seconds)
    try:
        database.check()
        bring_up_to_date(database)
    except BaseException:
        database.close()
        raise
    return Store(database)
