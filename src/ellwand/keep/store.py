"""The open store: an engine, and transactions whose troubles come as one sentence."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Self

from sqlalchemy import URL, Connection, Engine, create_engine, event

from ellwand.keep.telling import told_plainly

PATIENCE: Final = 10
"""Seconds to wait for another process that is writing."""
ALWAYS: Final = ("foreign_keys = ON", "synchronous = FULL", "secure_delete = ON")
"""On every SQLite connection: what is answered is on the disk, and what is deleted is overwritten."""


@dataclass(frozen=True, slots=True)
class Store:
    """An open store; threads may share it.  ``place`` names it to people, without its password."""

    engine: Engine
    place: str
    file: Path | None

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that only looks."""
        with told_plainly(self.place), self.engine.begin() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that waits for other writers, and is kept at its end: whole or not at all."""
        with told_plainly(self.place), self.engine.connect().execution_options(writes=True) as connection:
            if self.file is None:
                connection.exec_driver_sql(f"SET LOCAL lock_timeout = {PATIENCE * 1000:.0f}")
            yield connection
            connection.commit()

    @contextmanager
    def outside(self) -> Iterator[Connection]:
        """A connection without a transaction, for what cannot stand in one."""
        free = {"writes": None} if self.file else {"isolation_level": "AUTOCOMMIT"}
        with told_plainly(self.place), self.engine.connect().execution_options(**free) as connection:
            yield connection

    def close(self) -> None:
        """Let go of the file or the server."""
        self.engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *ignored: object) -> None:
        self.close()


def connected(url: URL) -> Engine:
    """The engine for a file or a server; nothing is opened yet."""
    if url.get_backend_name() != "sqlite":
        # no measurement may stand in an error's text
        return create_engine(url, pool_pre_ping=True, hide_parameters=True)
    engine = create_engine(url, hide_parameters=True, connect_args={"timeout": PATIENCE, "isolation_level": None})

    @event.listens_for(engine, "connect")
    def prepare(connection: sqlite3.Connection, _record: object) -> None:
        for pragma in ALWAYS:
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        # the driver would begin at the first write only: too late to wait for others
        writes = connection.get_execution_options().get("writes", False)
        if writes is not None:
            connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine
