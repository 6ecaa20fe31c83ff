"""Alembic's way in: it is handed an open transaction and works inside it."""

from alembic import context

from ellwand.keep.schema import REVISION, schema

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=schema, version_table=REVISION)
context.run_migrations()
