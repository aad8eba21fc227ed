"""How migrations run: in this process, on the open file, each in its own transaction."""

from __future__ import annotations

from alembic import context

from tendline.store.database import Database
from tendline.store.failures import told_clearly
from tendline.store.tables import metadata


def run() -> None:
    """Run the pending migrations."""
    database: Database = context.config.attributes["database"]
    with told_clearly(database.path), database.engine.connect() as connection:
        context.configure(
            connection=connection,
            target_metadata=metadata,
            render_as_batch=True,
            transaction_per_migration=True,
            transactional_ddl=True,
        )
        with context.begin_transaction():
            context.run_migrations()


run()
