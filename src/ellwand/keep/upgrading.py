"""Bringing an older store up to date, after a copy of it is laid beside."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Final

from sqlalchemy import Connection, inspect, text

from ellwand.keep.schema import NEWEST, REVISION
from ellwand.keep.store import Store
from ellwand.keep.trouble import CannotKeep
from ellwand.language import _

if TYPE_CHECKING:
    from alembic.config import Config

MIGRATIONS: Final = Path(__file__).parent / "migrations"
TURN: Final = 0x656C6C77
"""The lock under which a PostgreSQL database is brought up to date."""


def is_new(store: Store) -> bool:
    """Whether it stands where this program leaves it.

    Raises CannotKeep where it is another program's.
    """
    with store.reading() as connection:
        return _revision(connection, store) == NEWEST


def bring_up(store: Store) -> None:
    """Run the migrations that it lacks; a file that holds something is copied first.

    Raises CannotKeep where it is newer than this program.
    """
    from alembic import command

    with store.writing() as connection:
        if not store.file:
            connection.execute(text("SELECT pg_advisory_xact_lock(:turn)"), {"turn": TURN})
        found = _revision(connection, store)  # another process may have been here first
        if found == NEWEST:
            return
        config = _config(connection)
        if found is not None:
            _known(found, config, store)
            if store.file:
                _lay_beside(store.file, found)
        command.upgrade(config, NEWEST)


def copies_of(file: Path) -> Iterator[Path]:
    """The copies that were laid beside a file before upgrades."""
    return file.parent.glob(f"{file.name}.before-*")


def _revision(connection: Connection, store: Store) -> str | None:
    """Where it stands; None where nothing is in it."""
    tables = inspect(connection).get_table_names()
    if REVISION in tables:
        return connection.execute(text(f"SELECT version_num FROM {REVISION}")).scalar()
    if tables and store.file:
        raise CannotKeep(store.place, _("this file is another program's"), _("name another file"))
    return None


def _config(connection: Connection) -> Config:
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def _known(found: str, config: Config, store: Store) -> None:
    from alembic.script import ScriptDirectory

    if found not in {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}:
        raise CannotKeep(store.place, _("a newer Ellwand has written this"), _("use that one, or name another file"))


def _lay_beside(file: Path, found: str) -> None:
    """A whole copy of the file as it is, for its owner's eyes only."""
    tried = 0
    while True:
        copy = file.with_name(f"{file.name}.before-{found}" + (f"-{tried}" if tried else ""))
        try:
            os.close(os.open(copy, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
            break
        except FileExistsError:
            tried += 1
    with closing(sqlite3.connect(file)) as source, closing(sqlite3.connect(copy)) as target:
        source.backup(target)
