"""Migrations: from the first day, in order, each in its own transaction."""

import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy.exc import OperationalError

from tendline.base import StoreError
from tendline.store import open_store
from tendline.store.database import APPLICATION_ID, Database
from tendline.store.migrate import FOLDER, HEAD, KNOWN, upgrade, version_of
from tendline.store.tables import metadata
from tests.store.samples import set_up, shot

BREAKS = f"""
import sqlalchemy as sa
from alembic import op

revision = "9999"
down_revision = "{HEAD}"
branch_labels = None
depends_on = None


def upgrade():
    op.add_column("games", sa.Column("place", sa.Text()))
    op.execute("INSERT INTO nowhere VALUES (1)")
"""


def test_the_known_versions_are_those_of_the_folder():
    script = ScriptDirectory(str(FOLDER))
    found = [one.revision for one in reversed(list(script.walk_revisions()))]
    assert found == list(KNOWN)
    assert script.get_current_head() == HEAD


def test_the_migrated_tables_are_the_ones_the_program_uses(store):
    with store.database.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": False})
        assert compare_metadata(context, metadata) == []
        assert version_of(connection) == HEAD


def test_a_migration_that_fails_leaves_the_file_as_it_was(path, tmp_path):
    with open_store(path) as store:
        store.games.start(set_up(), game="g1")
        store.games.add("g1", shot("a"))
    folder = tmp_path / "migrations"
    shutil.copytree(FOLDER, folder)
    (folder / "versions" / "m9999_breaks.py").write_text(BREAKS)
    database = Database(path)
    with pytest.raises((StoreError, OperationalError)):
        upgrade(database, folder=folder)
    database.close()
    with open_store(path) as store:
        assert len(store.games.events("g1")) == 2
    with closing(sqlite3.connect(path)) as raw:
        columns = [row[1] for row in raw.execute("PRAGMA table_info(games)")]
        assert raw.execute("SELECT version_num FROM alembic_version").fetchone() == (HEAD,)
    assert "place" not in columns


def test_opening_a_current_file_does_not_load_the_migration_tool(path):
    open_store(path).close()
    code = (
        "import sys; from pathlib import Path; from tendline.store import open_store; "
        f"open_store(Path({str(path)!r})).close(); print('alembic' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_the_file_waits_for_the_disk(store):
    with store.database.reading() as connection:
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == 2  # FULL
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar_one() == 1


OPENER = """
import sys
from pathlib import Path
from tendline.store import open_store

open_store(Path(sys.argv[1])).close()
"""


def test_programs_that_open_a_new_file_at_once_do_not_trip_over_each_other(path):
    openers = [
        subprocess.Popen([sys.executable, "-c", OPENER, str(path)], stderr=subprocess.PIPE)
        for _ in range(3)
    ]
    for one in openers:
        _, told = one.communicate(timeout=60)
        assert one.returncode == 0, told.decode()
    with open_store(path) as store:
        assert store.games.headers() == ()


def test_the_mark_in_the_first_tables_is_ours(store):
    with store.database.reading() as connection:
        mark = connection.exec_driver_sql("PRAGMA application_id").scalar_one()
    assert mark == APPLICATION_ID
