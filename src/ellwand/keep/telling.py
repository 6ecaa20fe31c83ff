"""What a database says went wrong, as one sentence with a mend."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from sqlalchemy.exc import DBAPIError

from ellwand.keep.trouble import CannotKeep
from ellwand.language import N_, _

FULL: Final = (N_("there is no room left; nothing of this was kept"), N_("make room and save again"))
BUSY: Final = (N_("another program is writing to it and does not end"), N_("close that program and save again"))
LOCKED: Final = (N_("it may only be read"), N_("allow writing to it and to its folder"))
TORN: Final = (
    N_("it is damaged, or no file of Ellwand's"),
    N_("move it away and restore a backup"),
)
AWAY: Final = (N_("it cannot be opened or reached"), N_("look whether the folder or the server is there"))

BY_CODE: Final = {
    sqlite3.SQLITE_FULL: FULL,
    sqlite3.SQLITE_IOERR: FULL,
    sqlite3.SQLITE_BUSY: BUSY,
    sqlite3.SQLITE_LOCKED: BUSY,
    sqlite3.SQLITE_READONLY: LOCKED,
    sqlite3.SQLITE_PERM: LOCKED,
    sqlite3.SQLITE_CORRUPT: TORN,
    sqlite3.SQLITE_NOTADB: TORN,
    sqlite3.SQLITE_CANTOPEN: AWAY,
}
"""SQLite's result codes; a file that may not grow says 'input/output error'."""
BY_STATE: Final = {"53": FULL, "55P03": BUSY, "40": BUSY, "25006": LOCKED, "42501": LOCKED, "08": AWAY, "57P": AWAY}
"""PostgreSQL's SQLSTATE, or how it begins."""


@contextmanager
def told_plainly(place: str) -> Iterator[None]:
    """Within it, a database's trouble comes as CannotKeep; what only a fault of ours explains stays as it is."""
    try:
        yield
    except (DBAPIError, sqlite3.Error) as error:
        cause = _cause(error.orig if isinstance(error, DBAPIError) else error)
        if cause is None:
            raise
        raise CannotKeep(place, _(cause[0]), _(cause[1])) from None


def _cause(error: BaseException | None) -> tuple[str, str] | None:
    if isinstance(error, sqlite3.Error):
        return BY_CODE.get(getattr(error, "sqlite_errorcode", 0) & 0xFF)
    state = getattr(error, "sqlstate", None)
    if state is None:  # the server never answered
        return AWAY if type(error).__name__ == "OperationalError" else None
    return next((cause for start, cause in BY_STATE.items() if state.startswith(start)), None)
