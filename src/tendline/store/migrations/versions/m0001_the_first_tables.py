"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

DOCUMENT = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
MOMENT = sa.DateTime(timezone=True)
MARK = 0x74656E64
"""'tend': marks the file as ours in the same transaction that makes its first tables."""
KEEP = (
    "CREATE TRIGGER events_keep_on_update BEFORE UPDATE ON events "
    "WHEN NOT EXISTS (SELECT 1 FROM erasing) "
    "BEGIN SELECT RAISE(ABORT, 'game events are never changed'); END",
    "CREATE TRIGGER events_keep_on_delete BEFORE DELETE ON events "
    "WHEN NOT EXISTS (SELECT 1 FROM erasing) "
    "BEGIN SELECT RAISE(ABORT, 'game events are never deleted'); END",
)


def upgrade() -> None:
    """Make every table, its indexes, and the triggers that keep events as they are."""
    op.create_table(
        "club",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_club_one_club")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_club")),
    )
    op.create_table(
        "teams",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_teams")),
    )
    op.create_table(
        "people",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.Column("changed_at", MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people")),
    )
    op.create_table(
        "games",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("team", sa.Text(), nullable=False),
        sa.Column("opponent", sa.Text(), nullable=False),
        sa.Column("level", sa.String(20), nullable=False),
        sa.Column("started_at", MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_games")),
    )
    op.create_index(op.f("ix_games_day"), "games", ["day"])
    op.create_table(
        "events",
        sa.Column("number", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("game", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("goaltender", sa.String(64), server_default="", nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.Column("saved_at", MOMENT, nullable=False),
        sa.ForeignKeyConstraint(["game"], ["games.id"], name=op.f("fk_events_game")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_events")),
        sa.UniqueConstraint("game", "id", name=op.f("uq_events_game_id")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_events_goaltender"), "events", ["goaltender"])
    op.create_table(
        "notes",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("about", sa.String(64), nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_notes")),
    )
    op.create_index(op.f("ix_notes_about"), "notes", ["about"])
    op.create_table(
        "practices",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("team", sa.Text(), nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.Column("saved_at", MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_practices")),
    )
    op.create_index(op.f("ix_practices_day"), "practices", ["day"])
    op.create_table(
        "settings",
        sa.Column("whose", sa.String(64), nullable=False),
        sa.Column("key", sa.String(120), nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.PrimaryKeyConstraint("whose", "key", name=op.f("pk_settings")),
    )
    op.create_table(
        "refusals",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("goaltender", sa.String(64), nullable=False),
        sa.Column("theme", sa.String(80), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_refusals")),
    )
    op.create_index(op.f("ix_refusals_goaltender"), "refusals", ["goaltender"])
    op.create_table(
        "mappings",
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("document", DOCUMENT, nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_mappings")),
    )
    op.create_table(
        "drills",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("script", sa.Text(), nullable=False),
        sa.Column("saved_at", MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_drills")),
    )
    op.create_table(
        "erasing",
        sa.Column("person", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("person", name=op.f("pk_erasing")),
    )
    if op.get_bind().dialect.name == "sqlite":
        op.execute(f"PRAGMA application_id={MARK}")
        for line in KEEP:
            op.execute(line)


def downgrade() -> None:
    """Files only move forward."""
    raise NotImplementedError("files only move forward; restore a backup instead")
