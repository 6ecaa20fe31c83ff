"""The tables, as the newest migration leaves them."""

from __future__ import annotations

from typing import Final

from sqlalchemy import Boolean, Column, ForeignKey, Integer, MetaData, Table, Text

NEWEST: Final = "0001"
"""The newest migration; a test holds it against the folder."""

schema: Final = MetaData()
things: Final = Table(
    "kept_things",
    schema,
    Column("id", Text, primary_key=True),
    Column("kind", Text, nullable=False),
    Column("version", Integer, nullable=False),  # the newest
    Column("thrown", Text),  # when it went into the waste basket
)
versions: Final = Table(
    "kept_versions",
    schema,
    Column("thing", Text, ForeignKey("kept_things.id", ondelete="CASCADE"), primary_key=True),
    Column("version", Integer, primary_key=True),
    Column("changed", Text, nullable=False),
    Column("content", Text, nullable=False),
    Column("stands_for", Integer),  # an undo: the version that it brought back
)
erased: Final = Table(
    "kept_erased",
    schema,
    Column("id", Text, primary_key=True),
    Column("swept", Boolean, nullable=False),  # whether its bytes are gone from the file too
)
REVISION: Final = "kept_revision"
"""The table that says which migration it stands at."""
