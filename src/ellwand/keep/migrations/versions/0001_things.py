"""Things, their versions, and the ids of what was erased."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "kept_things",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("thrown", sa.Text),
    )
    op.create_table(
        "kept_versions",
        sa.Column("thing", sa.Text, sa.ForeignKey("kept_things.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("version", sa.Integer, primary_key=True),
        sa.Column("changed", sa.Text, nullable=False),
        sa.Column("content", sa.Text, nullable=False),
        sa.Column("stands_for", sa.Integer),
    )
    op.create_table(
        "kept_erased",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("swept", sa.Boolean, nullable=False),
    )
    if op.get_bind().dialect.name == "postgresql":
        # no measurement may stand in the server's statistics
        op.execute("ALTER TABLE kept_versions ALTER COLUMN content SET STATISTICS 0")
