"""Saving, and taking back what was saved: nothing is overwritten, every save is one more version."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any, TypeVar

from sqlalchemy import Connection, Row, insert, select, update

from ellwand.errors import BadInput
from ellwand.keep.content import content_of, mentioned
from ellwand.keep.reading import newest, nothing_there
from ellwand.keep.schema import things, versions
from ellwand.keep.store import Store
from ellwand.keep.things import IDS, Thing, new_id, proper
from ellwand.keep.trouble import Missing, Stale
from ellwand.language import _

T = TypeVar("T", bound=Thing)


def save(store: Store, thing: T, based_on: int | None = None) -> T:
    """The thing as it is kept now: new where it has no id, else as its next version, out of the waste basket.

    ``based_on`` is the version that was changed (the thing's own where left out).  What says the same as the newest
    version makes no new one.  Raises Stale where a newer one says something else, Missing where the thing or one that
    it names is not kept, and BadInput where it cannot be kept as it is.
    """
    kind, content = type(thing), content_of(thing)
    with store.writing() as connection:
        if not thing.id:
            _all_there(connection, content)
            id = new_id(kind)
            connection.execute(insert(things).values(id=id, kind=kind.word, version=0))
            _add(connection, id, 1, content)
            return newest(connection, kind, id)
        row = _held(connection, kind, thing.id)
        if content != _content(connection, row):
            if row.version != (thing.version if based_on is None else based_on):
                raise Stale(newest(connection, kind, thing.id))
            _all_there(connection, content)
            _add(connection, thing.id, row.version + 1, content)
        elif row.thrown:
            _throw(connection, thing.id, None)
        return newest(connection, kind, thing.id)


def take_back(store: Store, kind: type[T], id: str, version: int) -> T:
    """An older version again, as the newest one; those between stay in the history.

    Raises Missing.
    """
    with store.writing() as connection:
        row = _held(connection, kind, id)
        if not 0 < version <= row.version:
            raise nothing_there()
        content = _content(connection, row, version)
        if content != _content(connection, row):
            _add(connection, id, row.version + 1, content)
        return newest(connection, kind, id)


def undo(store: Store, kind: type[T], id: str) -> T:
    """One step back, as a new version; again, one step further.

    Raises Missing, and BadInput where there is no step left.
    """
    with store.writing() as connection:
        row = _held(connection, kind, id)
        back = _stands_for(connection, id, row.version) - 1
        if not back:
            name = newest(connection, kind, id).name
            raise BadInput(name, _("there is nothing to undo"), _("choose a version from its history"))
        back = _stands_for(connection, id, back)
        _add(connection, id, row.version + 1, _content(connection, row, back), back)
        return newest(connection, kind, id)


def throw_away(store: Store, kind: type[Thing], id: str) -> None:
    """Into the waste basket.

    Raises Missing.
    """
    with store.writing() as connection:
        if not _held(connection, kind, id).thrown:
            _throw(connection, id, _now())


def take_out(store: Store, kind: type[T], id: str) -> T:
    """Out of the waste basket again.

    Raises Missing.
    """
    with store.writing() as connection:
        _held(connection, kind, id)
        _throw(connection, id, None)
        return newest(connection, kind, id)


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="microseconds")


def _held(connection: Connection, kind: type[Thing], id: str) -> Row[Any]:
    """Its row, which no one else changes until the transaction ends."""
    chosen = select(things).where(things.c.id == proper(id), things.c.kind == kind.word).with_for_update()
    row = connection.execute(chosen).one_or_none()
    if row is None:
        raise nothing_there()
    return row


def _content(connection: Connection, row: Row[Any], version: int | None = None) -> str:
    chosen = select(versions.c.content).where(versions.c.thing == row.id)
    number = row.version if version is None else version
    return str(connection.execute(chosen.where(versions.c.version == number)).scalar_one())


def _stands_for(connection: Connection, id: str, version: int) -> int:
    """The version whose content this one brought back by undoing, or itself."""
    chosen = select(versions.c.stands_for).where(versions.c.thing == id, versions.c.version == version)
    return connection.execute(chosen).scalar() or version


def _all_there(connection: Connection, content: str) -> None:
    """Raises Missing where it names something that is not kept; the demo's people always are."""
    named = {each for each in mentioned(content) if IDS.fullmatch(each)}
    # held, so that none is erased before this is kept
    chosen = select(things.c.id).where(things.c.id.in_(named)).with_for_update(read=True)
    if named and len(connection.execute(chosen).all()) < len(named):
        raise Missing(
            "", _("the person or garment that this names is not kept here, or was erased"), _("choose another")
        )


def _add(connection: Connection, id: str, version: int, content: str, stands_for: int | None = None) -> None:
    values = {"thing": id, "version": version, "changed": _now(), "content": content, "stands_for": stands_for}
    connection.execute(insert(versions).values(values))
    connection.execute(update(things).where(things.c.id == id).values(version=version, thrown=None))


def _throw(connection: Connection, id: str, when: str | None) -> None:
    connection.execute(update(things).where(things.c.id == id).values(thrown=when))
