"""Everything that is kept in one file: JSON Lines, a head, one line for each thing, and the sum of all before it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby
from types import NoneType
from typing import Any, Final

from pydantic import TypeAdapter
from sqlalchemy import select

from ellwand.errors import BadInput
from ellwand.keep.content import content_of
from ellwand.keep.schema import things, versions
from ellwand.keep.store import Store
from ellwand.keep.things import IDS, KINDS, Thing
from ellwand.language import _

FORMAT: Final = 1
"""Raised when an older Ellwand could no longer read it."""


@dataclass(frozen=True, slots=True)
class Line:
    """One version in a backup: its number is its place."""

    changed: str
    content: str
    stands_for: int | None


@dataclass(frozen=True, slots=True)
class Kept:
    """One thing in a backup."""

    id: str
    word: str
    thrown: str | None
    lines: tuple[Line, ...]


def backup(store: Store) -> bytes:
    """Everything that is kept, with every version, as a file to lay elsewhere; `restore` reads it.

    It holds the measurements of everyone who is kept.
    """
    head = {"ellwand": "kept", "format": FORMAT, "made": datetime.now(UTC).isoformat(timespec="seconds")}
    body = "".join(f"{json.dumps(each, ensure_ascii=False)}\n" for each in (head, *_kept(store))).encode()
    return body + f"{json.dumps({'sha256': hashlib.sha256(body).hexdigest()})}\n".encode()


def read_backup(data: bytes) -> list[Kept]:
    """What a backup holds, those first that others name.

    Raises BadInput where it is none, is damaged, or newer than this program.
    """
    body, _newline, last = data.removesuffix(b"\n").rpartition(b"\n")
    head, tail = _object(body.partition(b"\n")[0]), _object(last)
    if head.get("ellwand") != "kept":
        raise BadInput(_("backup"), _("this is no backup of Ellwand"), _("choose the .jsonl file that it wrote"))
    if head.get("format") != FORMAT:
        raise BadInput(_("backup"), _("a newer Ellwand has written this"), _("restore it with that one"))
    if tail.get("sha256") != hashlib.sha256(body + b"\n").hexdigest():
        raise BadInput(_("backup"), _("it is damaged or not whole"), _("take another copy of it"))
    found = [_thing(number, line) for number, line in enumerate(body.split(b"\n")[1:], start=2)]
    order = list(KINDS)
    return sorted(found, key=lambda each: order.index(each.word))


def _kept(store: Store) -> Iterator[dict[str, Any]]:
    """The lines of the things, those of a thing together."""
    columns = (things.c.id, things.c.kind, things.c.thrown, versions.c.changed, versions.c.stands_for)
    joined = select(*columns, versions.c.content).join(versions, versions.c.thing == things.c.id)
    with store.reading() as connection:
        rows = connection.execute(joined.order_by(things.c.id, versions.c.version)).all()
    for (id, kind, thrown), of_one in groupby(rows, key=lambda row: (row.id, row.kind, row.thrown)):
        lines = [
            {"changed": row.changed, "stands_for": row.stands_for, "content": json.loads(row.content)} for row in of_one
        ]
        yield {"kind": kind, "id": id, "thrown": thrown, "versions": lines}


def _object(line: bytes) -> dict[str, Any]:
    """The JSON object in a line; an empty one where there is none."""
    try:
        found = json.loads(line)
    except (ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}


def _thing(number: int, line: bytes) -> Kept:
    """The thing in a line, looked through as if it were saved anew."""
    held = _object(line)
    try:
        kind, id, thrown = KINDS[held["kind"]], held["id"], held["thrown"]
        lines = tuple(_version(kind, each) for each in held["versions"])
        if thrown is not None:
            datetime.fromisoformat(thrown)
        undone = all(each.stands_for is None or 1 <= each.stands_for <= at for at, each in enumerate(lines))
        is_whole = IDS.fullmatch(id) and id[0] == kind.word[0] and lines and undone
    except (KeyError, TypeError, ValueError):
        is_whole = False
    if not is_whole:
        why = _("line {number} holds nothing that can be kept", number=number)
        raise BadInput(_("backup"), why, _("take another copy of it"))
    return Kept(id, kind.word, thrown, lines)


def _version(kind: type[Thing], held: dict[str, Any]) -> Line:
    """Raises ValueError (BadInput among it), TypeError or KeyError where it is none."""
    thing = TypeAdapter(kind).validate_python(held["content"])
    content, stands_for = content_of(thing), held["stands_for"]
    if json.loads(content) != held["content"] or type(stands_for) not in (int, NoneType):
        raise ValueError
    return Line(datetime.fromisoformat(held["changed"]).isoformat(timespec="microseconds"), content, stands_for)
