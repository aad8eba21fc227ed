"""Bringing a file to today's tables: ordered migrations, each in its own transaction."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection, inspect, text

from tendline.base import StoreError
from tendline.store.database import Database

HEAD = "0002"
"""The newest migration; a test compares it with the migrations folder."""
KNOWN = ("0001", "0002")
FOLDER = Path(__file__).with_name("migrations")


def version_of(connection: Connection) -> str | None:
    """Return the migration a file stands at, or None for a new file."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return None if found is None else str(found)


def bring_up_to_date(database: Database) -> None:
    """Run the migrations a file lacks; does nothing (and imports nothing) when it is current.

    Raises ``StoreError`` if the file was made by a newer tendline.
    """
    with database.reading() as connection:
        version = version_of(connection)
    if version == HEAD:
        return
    if version is not None and version not in KNOWN:
        raise StoreError(
            "the club's file was made by a newer tendline",
            came=f"version {version}",
            allowed=f"up to version {HEAD}",
            hint="Install the newer tendline, or name another file. Nothing was changed.",
            item=str(database.path),
        )
    if database.is_read_only:
        raise StoreError(
            "the club's file must be brought up to date but may only be read",
            came=f"version {version or 'none'}",
            allowed=f"version {HEAD}",
            hint="Make the file and its folder writable and open it once.",
            item=str(database.path),
        )
    upgrade(database)


def upgrade(database: Database, target: str = "head", folder: Path = FOLDER) -> None:
    """Run migrations up to ``target``; a failing one leaves the file as the one before left it."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(folder).replace("%", "%%"))
    config.attributes["database"] = database
    command.upgrade(config, target)
