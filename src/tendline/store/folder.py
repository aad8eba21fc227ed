"""Where the club's file lives."""

from __future__ import annotations

import os
from pathlib import Path

from platformdirs import user_data_path

from tendline.base import StoreError

DATA_VARIABLE = "TENDLINE_DATA"
CLUB_FILE = "club.db"
DEMO_FILE = "demo.db"
BACKUPS = "backups"


def data_folder() -> Path:
    """Return the folder of the club's data: ``TENDLINE_DATA`` if set, else the user's own."""
    chosen = os.environ.get(DATA_VARIABLE)
    return Path(chosen).expanduser() if chosen else Path(user_data_path("tendline"))


def club_path() -> Path:
    """Return where the coach's own data lie."""
    return data_folder() / CLUB_FILE


def demo_path() -> Path:
    """Return where the demo club lies, never mixed with the coach's own data."""
    return data_folder() / DEMO_FILE


def ready_folder(folder: Path) -> None:
    """Make a folder if it is missing, readable by its owner only; raises ``StoreError``."""
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise StoreError(
            "the data folder cannot be made",
            came=str(error),
            hint="Make it by hand or set TENDLINE_DATA to another folder.",
            item=str(folder),
        ) from error
