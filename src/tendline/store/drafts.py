"""Drill scripts that are still being written, saved with every change."""

from __future__ import annotations

from sqlalchemy import delete, insert, select, update

from tendline.base import NotFoundError, StoreError
from tendline.store.database import Database
from tendline.store.moments import this_moment
from tendline.store.tables import drafts
from tendline.store.types import Draft

MOST_DRAFTS = 200
"""Drafts kept; beyond it the oldest go. A limit on size."""


class NewerDraftError(StoreError):
    """A later change of the same draft is kept already: another window wrote it."""


class Drafts:
    """Drafts of drills by id."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, draft: Draft) -> None:
        """Save a draft; it is on disk when this returns.

        Raises :class:`NewerDraftError` when a later change of the same draft is kept already;
        nothing of it is overwritten.
        """
        values = {
            "drill": draft.drill, "script": draft.script, "counter": draft.counter,
            "saved_at": this_moment(),
        }  # fmt: skip
        with self._database.writing() as connection:
            row = connection.execute(
                select(drafts.c.counter, drafts.c.script).where(drafts.c.id == draft.id)
            ).first()
            if row is None:
                connection.execute(insert(drafts).values(id=draft.id, **values))
                old = (
                    select(drafts.c.id).order_by(drafts.c.saved_at.desc(), drafts.c.id)
                    .offset(MOST_DRAFTS)
                )  # fmt: skip
                connection.execute(delete(drafts).where(drafts.c.id.in_(old)))
                return
            if row.counter > draft.counter or (
                row.counter == draft.counter and row.script != draft.script
            ):
                raise NewerDraftError(
                    "another window has changed this drill meanwhile", item=draft.id,
                    came=f"change {draft.counter}", allowed=f"later than {row.counter}",
                    hint="Take what the other window wrote, or keep yours; nothing is lost.",
                )  # fmt: skip
            connection.execute(update(drafts).where(drafts.c.id == draft.id).values(**values))

    def get(self, draft: str) -> Draft:
        """Return a draft; raises ``NotFoundError``."""
        found = self.find(draft)
        if found is None:
            raise NotFoundError("nothing unfinished of that name", came=draft)
        return found

    def find(self, draft: str) -> Draft | None:
        """Return a draft, or None."""
        with self._database.reading() as connection:
            row = connection.execute(select(drafts).where(drafts.c.id == draft)).mappings().first()
            return None if row is None else Draft(**row)

    def list(self) -> tuple[Draft, ...]:
        """Return the drafts, newest first."""
        with self._database.reading() as connection:
            wanted = select(drafts).order_by(drafts.c.saved_at.desc(), drafts.c.id)
            return tuple(Draft(**row) for row in connection.execute(wanted).mappings())

    def delete(self, draft: str) -> None:
        """Delete a draft; nothing happens if there is none."""
        with self._database.writing() as connection:
            connection.execute(delete(drafts).where(drafts.c.id == draft))
