"""Erasing for good: every version, every reference, and the bytes in the file."""

from __future__ import annotations

from sqlalchemy import Connection, delete, insert, select, update

from ellwand.keep.content import mentioned, renamed
from ellwand.keep.reading import nothing_there
from ellwand.keep.schema import erased, things, versions
from ellwand.keep.store import Store
from ellwand.keep.things import Thing, proper
from ellwand.keep.trouble import CannotKeep
from ellwand.keep.upgrading import copies_of
from ellwand.language import _


def erase(store: Store, kind: type[Thing], id: str) -> None:
    """Erase it with all its versions; garments and rosters that name it stay, and name it no longer in any version.

    A file is then written anew without it, and the copies from before upgrades are removed.  Raises Missing, and
    CannotKeep where it is gone but its bytes could not be overwritten yet; that is then done at the next opening.
    """
    with store.writing() as connection:
        gone = connection.execute(delete(things).where(things.c.id == proper(id), things.c.kind == kind.word))
        if not gone.rowcount:
            raise nothing_there()
        connection.execute(insert(erased).values(id=id, swept=False))
        _forget(connection, id)
    sweep(store)


def sweep(store: Store) -> None:
    """Overwrite the bytes of what was erased, where that is still to do.

    Raises CannotKeep where another program holds on to them, or there is no room to write the file anew.
    """
    waiting = select(erased.c.id).where(erased.c.swept.is_(False))
    with store.reading() as connection:
        ids = connection.execute(waiting).scalars().all()
    if not ids:
        return
    try:
        for copy in copies_of(store.file) if store.file else ():
            copy.unlink(missing_ok=True)
        is_swept = _rewrite(store)
    except (CannotKeep, OSError):
        is_swept = False
    if not is_swept:
        raise CannotKeep(
            store.place,
            _("it is erased, but its traces could not be overwritten yet"),
            _("close other programs that use this, make room, and start Ellwand again"),
        )
    with store.writing() as connection:
        connection.execute(update(erased).where(erased.c.id.in_(ids)).values(swept=True))


def _forget(connection: Connection, id: str) -> None:
    """Take the id out of every version that names it."""
    chosen = select(versions).where(versions.c.content.contains(f'"{id}"'))
    for row in connection.execute(chosen).all():
        if id in mentioned(row.content):
            here = update(versions).where(versions.c.thing == row.thing, versions.c.version == row.version)
            connection.execute(here.values(content=renamed(row.content, {id: None})))


def _rewrite(store: Store) -> bool:
    """Write the tables anew without what was deleted; whether that came to its end."""
    with store.outside() as connection:
        if store.file is None:
            connection.exec_driver_sql(f"VACUUM FULL {things.name}, {versions.name}")
            return True
        connection.exec_driver_sql("VACUUM")
        # the log still holds older pages until it is emptied, which readers can hinder
        return bool(connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)").scalar_one() == 0)
