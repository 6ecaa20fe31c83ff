"""Finding what is kept."""

from __future__ import annotations

from typing import Any, TypeVar, cast

from sqlalchemy import Connection, Row, Select, and_, select

from ellwand.keep.content import thing_of
from ellwand.keep.schema import things, versions
from ellwand.keep.store import Store
from ellwand.keep.things import Thing, proper
from ellwand.keep.trouble import Missing
from ellwand.language import _

T = TypeVar("T", bound=Thing)


def get(store: Store, kind: type[T], id: str) -> T:
    """The newest version of it, in the waste basket or not.

    Raises Missing.
    """
    with store.reading() as connection:
        return newest(connection, kind, id)


def every(store: Store, kind: type[T]) -> tuple[T, ...]:
    """All of a kind that are not in the waste basket, by name."""
    with store.reading() as connection:
        rows = connection.execute(_newest_of(kind).where(things.c.thrown.is_(None))).all()
    return tuple(sorted((_value(kind, row) for row in rows), key=lambda each: (each.name.casefold(), each.id)))


def basket(store: Store, kind: type[T]) -> tuple[T, ...]:
    """All of a kind that are in the waste basket, the last thrown away first."""
    with store.reading() as connection:
        thrown = _newest_of(kind).where(things.c.thrown.is_not(None)).order_by(things.c.thrown.desc(), things.c.id)
        return tuple(_value(kind, row) for row in connection.execute(thrown))


def history(store: Store, kind: type[T], id: str) -> tuple[T, ...]:
    """Every version of it, the newest first.

    Raises Missing.
    """
    with store.reading() as connection:
        chosen = select(versions).join(things).where(things.c.id == proper(id), things.c.kind == kind.word)
        rows = connection.execute(chosen.order_by(versions.c.version.desc())).all()
    if not rows:
        raise nothing_there()
    return tuple(_value(kind, row) for row in rows)


def newest(connection: Connection, kind: type[T], id: str) -> T:
    """The newest version of it, inside a transaction.

    Raises Missing.
    """
    row = connection.execute(_newest_of(kind).where(things.c.id == proper(id))).one_or_none()
    if row is None:
        raise nothing_there()
    return _value(kind, row)


def nothing_there() -> Missing:
    """What to say where an id leads nowhere."""
    return Missing("", _("what was asked for is not kept here, or was erased"), _("choose another"))


def _newest_of(kind: type[Thing]) -> Select[Any]:
    joined = and_(versions.c.thing == things.c.id, versions.c.version == things.c.version)
    return select(versions).join(things, joined).where(things.c.kind == kind.word)


def _value(kind: type[T], row: Row[Any]) -> T:
    return cast(T, thing_of(kind.word, row.thing, row.version, row.changed, row.content))
