"""Drafts: drill scripts that are still being written."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of drafts."""
    op.create_table(
        "drafts",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("drill", sa.String(64), server_default="", nullable=False),
        sa.Column("script", sa.Text(), nullable=False),
        sa.Column("counter", sa.Integer(), nullable=False),
        sa.Column("saved_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_drafts")),
    )


def downgrade() -> None:
    """Files only move forward."""
    raise NotImplementedError("files only move forward; restore a backup instead")
