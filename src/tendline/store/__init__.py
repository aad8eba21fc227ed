"""The club's file: tables, migrations, backups; types in, types out."""

from tendline.store.folder import club_path, data_folder, demo_path
from tendline.store.store import Store, open_store
from tendline.store.types import Club, GameHeader, Note, OwnDrill, Practice, Refusal, Team

__all__ = [
    "Club", "GameHeader", "Note", "OwnDrill", "Practice", "Refusal", "Store", "Team", "club_path",
    "data_folder", "demo_path", "open_store",
]  # fmt: skip
