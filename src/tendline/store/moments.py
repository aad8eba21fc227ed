"""Moments in time in the database: aware UTC in, aware UTC out, naive times refused."""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import DateTime
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator

from tendline.base import InputError


class Moment(TypeDecorator[datetime]):
    """A moment; SQLite would silently return it without its time zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Return the moment in UTC; raises ``InputError`` for a time without a zone."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise InputError(
                "a stored moment needs its time zone", came=str(value), allowed="an aware time"
            )
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Return the stored moment as aware UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def this_moment() -> datetime:
    """Return now, as aware UTC."""
    return datetime.now(UTC)
