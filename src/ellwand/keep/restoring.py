"""Taking a backup in: what is missing is added, and nothing that is kept is overwritten."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from itertools import groupby

from sqlalchemy import Connection, insert, select, update

from ellwand.keep.backing import Kept, Line, read_backup
from ellwand.keep.content import mentioned, renamed
from ellwand.keep.schema import erased, things, versions
from ellwand.keep.store import Store
from ellwand.keep.things import IDS, KINDS, new_id


@dataclass(frozen=True, slots=True)
class Restored:
    """How many things were new here, got further versions, were here already, or stay erased."""

    added: int = 0
    extended: int = 0
    skipped: int = 0
    erased: int = 0


def restore(store: Store, data: bytes) -> Restored:
    """Take in a backup, all of it or, where something goes wrong, nothing.

    What is here with the same or more versions is skipped, by its id or by its whole content; what has fewer gets the
    further ones; what went another way since is added beside, as a thing of its own.  What was erased here stays so.
    Raises BadInput where the backup is none, is damaged or newer.
    """
    found = read_backup(data)
    with store.writing() as connection:
        if store.file is None:
            connection.exec_driver_sql(f"LOCK TABLE {things.name} IN SHARE ROW EXCLUSIVE MODE")
        return Restored(**Counter(_take_in(connection, found)))


def _take_in(connection: Connection, found: Sequence[Kept]) -> Iterator[str]:
    """Take in one thing after the other, those first that others name; what became of each."""
    gone = set(connection.execute(select(erased.c.id)).scalars())
    here = _here(connection)
    twins = {(id[0], contents): id for id, contents in here.items()}
    named = {name for each in found for line in each.lines for name in mentioned(line.content) if IDS.fullmatch(name)}
    names: dict[str, str | None] = dict.fromkeys(named & gone | named - here.keys() - {each.id for each in found})
    for each in found:
        lines = [replace(line, content=renamed(line.content, names)) for line in each.lines]
        contents = tuple(line.content for line in lines)
        own = here.get(each.id)
        if each.id in gone:
            names[each.id] = None
            yield "erased"
        elif own and _go_on(own, each.lines, lines):
            for number in range(len(own), len(lines)):
                _add(connection, each.id, number + 1, lines[number])
            yield "extended" if len(own) < len(lines) else "skipped"
        elif (each.id[0], contents) in twins:
            names[each.id] = twins[each.id[0], contents]
            yield "skipped"
        else:
            names[each.id] = id = new_id(KINDS[each.word]) if own else each.id
            connection.execute(insert(things).values(id=id, kind=each.word, version=0, thrown=each.thrown))
            for number, line in enumerate(lines, start=1):
                _add(connection, id, number, line)
            here[id] = contents
            yield "added"


def _here(connection: Connection) -> dict[str, tuple[str, ...]]:
    """The contents of every version that is kept, by id."""
    rows = connection.execute(select(versions).order_by(versions.c.thing, versions.c.version))
    return {id: tuple(row.content for row in of_one) for id, of_one in groupby(rows, key=lambda row: str(row.thing))}


def _go_on(own: Sequence[str], before: Sequence[Line], after: Sequence[Line]) -> bool:
    """Whether one of the two histories is the other's beginning; ids in it may have been changed here."""
    return all(kept in (one.content, other.content) for kept, one, other in zip(own, before, after, strict=False))


def _add(connection: Connection, id: str, number: int, line: Line) -> None:
    connection.execute(insert(versions).values(thing=id, version=number, **asdict(line)))
    connection.execute(update(things).where(things.c.id == id).values(version=number))
