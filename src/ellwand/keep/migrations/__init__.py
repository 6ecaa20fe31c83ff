"""How older stores become new ones (Alembic)."""
