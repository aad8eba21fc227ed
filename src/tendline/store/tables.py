"""The tables. Only this package sees them; callers get types.

Everything that may grow fields later is a JSON document beside the few columns that are searched.
``events`` is append-only: triggers refuse changes except while a person is being erased.
"""

from __future__ import annotations

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Column,
    Date,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)
from sqlalchemy.dialects.postgresql import JSONB

from tendline.store.moments import Moment

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}
metadata = MetaData(naming_convention=NAMING)
Document = JSON().with_variant(JSONB(), "postgresql")

club = Table(
    "club",
    metadata,
    Column("id", Integer, primary_key=True, autoincrement=False),
    Column("document", Document, nullable=False),
    CheckConstraint("id = 1", name="one_club"),
)
teams = Table(
    "teams",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("document", Document, nullable=False),
)
people = Table(
    "people",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("document", Document, nullable=False),
    Column("changed_at", Moment, nullable=False),
)
games = Table(
    "games",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("day", Date, nullable=False),
    Column("team", Text, nullable=False),
    Column("opponent", Text, nullable=False),
    Column("level", String(20), nullable=False),
    Column("started_at", Moment, nullable=False),
    Index(None, "day"),
)
events = Table(
    "events",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=True),
    Column("game", String(64), ForeignKey("games.id"), nullable=False),
    Column("id", String(64), nullable=False),
    Column("kind", String(20), nullable=False),
    Column("goaltender", String(64), nullable=False, server_default=""),
    Column("document", Document, nullable=False),
    Column("saved_at", Moment, nullable=False),
    UniqueConstraint("game", "id"),
    Index(None, "goaltender"),
    sqlite_autoincrement=True,
)
notes = Table(
    "notes",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("day", Date, nullable=False),
    Column("about", String(64), nullable=False),
    Column("document", Document, nullable=False),
    Index(None, "about"),
)
practices = Table(
    "practices",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("day", Date, nullable=False),
    Column("team", Text, nullable=False),
    Column("document", Document, nullable=False),
    Column("saved_at", Moment, nullable=False),
    Index(None, "day"),
)
settings = Table(
    "settings",
    metadata,
    Column("whose", String(64), primary_key=True),
    Column("key", String(120), primary_key=True),
    Column("value", Float, nullable=False),
)
refusals = Table(
    "refusals",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("day", Date, nullable=False),
    Column("goaltender", String(64), nullable=False),
    Column("theme", String(80), nullable=False),
    Column("reason", Text, nullable=False),
    Index(None, "goaltender"),
)
mappings = Table(
    "mappings",
    metadata,
    Column("name", String(120), primary_key=True),
    Column("document", Document, nullable=False),
)
drills = Table(
    "drills",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("name", Text, nullable=False),
    Column("script", Text, nullable=False),
    Column("saved_at", Moment, nullable=False),
)
drafts = Table(
    "drafts",
    metadata,
    Column("id", String(64), primary_key=True),
    Column("drill", String(64), nullable=False, server_default=""),
    Column("script", Text, nullable=False),
    Column("counter", Integer, nullable=False),
    Column("saved_at", Moment, nullable=False),
)
erasing = Table(
    "erasing",
    metadata,
    Column("person", String(64), primary_key=True),
)
"""Holds a row only inside the transaction that erases a person; unlocks ``events`` meanwhile."""
