"""Opening a store: where it is, who may read it, and whether it must be brought up to date."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import Final

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError, NoSuchModuleError

from ellwand.errors import BadInput
from ellwand.keep.erasing import sweep
from ellwand.keep.store import Store, connected
from ellwand.keep.telling import TORN
from ellwand.keep.trouble import CannotKeep
from ellwand.keep.upgrading import bring_up, is_new
from ellwand.language import _

FILE: Final = "kept.sqlite"
MAGIC: Final = b"SQLite format 3\x00"
"""How a file of SQLite begins."""


def default_place() -> Path:
    """The file that is used where no other is named: in the user's folder for programs' data."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local"
    elif sys.platform == "darwin":
        base = Path.home() / "Library" / "Application Support"
    else:
        base = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(base) / "ellwand" / FILE


def open_store(url: str | None = None) -> Store:
    """The store at a URL ('postgresql://host/name') or in a file, made or brought up to date where it must be.

    Without one, the file at ``default_place``.  Raises BadInput where the URL is none, and CannotKeep where the store
    cannot be opened, is damaged, or is newer than this program.
    """
    address = _address(url)
    file = Path(address.database or "") if address.get_backend_name() == "sqlite" else None
    place = str(file) if file else address.render_as_string(hide_password=True)
    if file:
        _make(file)
    try:
        store = Store(connected(address), place, file)
    except (NoSuchModuleError, ModuleNotFoundError):
        why = _("the driver for this database is not installed")
        raise BadInput(place, why, _("install it: {command}", command="pip install 'ellwand[postgresql]'")) from None
    try:
        if file:
            with store.outside() as connection:  # readers and a writer then do not wait for each other
                connection.exec_driver_sql("PRAGMA journal_mode = WAL")
        if not is_new(store):
            bring_up(store)
        with suppress(CannotKeep):  # what could not be swept now is swept at the next opening
            sweep(store)
    except BaseException:
        store.close()
        raise
    return store


def _address(url: str | None) -> URL:
    """The URL; a file's name is one too."""
    if url is None or "://" not in url:
        return URL.create("sqlite", database=str(Path(url) if url else default_place()))
    try:
        address = make_url(url)
    except (ArgumentError, ValueError):
        why = _("this is no address of a database")
        raise BadInput("keep", why, _("give a file, or as {example}", example="postgresql://host/name")) from None
    if address.get_backend_name() == "sqlite" and address.database in (None, "", ":memory:"):
        raise BadInput("keep", _("nothing would be kept there"), _("name a file"))
    if address.drivername in ("postgresql", "postgres"):
        return address.set(drivername="postgresql+psycopg")
    return address


def _make(file: Path) -> None:
    """The file, where there is none, for this user's eyes only."""
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(file, os.O_CREAT | os.O_RDWR, 0o600))
        with file.open("rb") as opened:
            start = opened.read(len(MAGIC))
    except OSError:
        why = _("no file can be written there")
        raise CannotKeep(str(file), why, _("name another place, or allow writing there")) from None
    if start not in (b"", MAGIC):  # SQLite itself would write over a few bytes
        raise CannotKeep(str(file), *map(_, TORN))
