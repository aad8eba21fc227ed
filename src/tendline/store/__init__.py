"""The club's file: tables, migrations, backups; types in, types out."""

from tendline.store.backup import Backup, Restored, back_up, backups_of, check_backup, restore
from tendline.store.drafts import NewerDraftError
from tendline.store.folder import club_path, data_folder, demo_path
from tendline.store.privacy import Erased, erase_person, export_person
from tendline.store.store import Store, open_store
from tendline.store.types import Club, Draft, GameHeader, Note, OwnDrill, Practice, Refusal, Team

__all__ = [
    "Backup", "Club", "Draft", "Erased", "GameHeader", "NewerDraftError", "Note", "OwnDrill",
    "Practice", "Refusal", "Restored", "Store", "Team", "back_up", "backups_of", "check_backup",
    "club_path", "data_folder", "demo_path", "erase_person", "export_person", "open_store",
    "restore",
]  # fmt: skip
