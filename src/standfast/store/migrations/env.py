"""Runs the steps on the connection that is handed over, inside its transaction."""

from alembic import context

from standfast.store.tables import METADATA

context.configure(connection=context.config.attributes["connection"], target_metadata=METADATA)
with context.begin_transaction():
    context.run_migrations()
