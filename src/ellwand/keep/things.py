"""What is kept: people, cloths, garments and rosters, each a frozen value of one version."""

from __future__ import annotations

import re
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import ClassVar, Final

NEVER: Final = datetime.fromtimestamp(0, UTC)
"""When a thing that is not kept yet was changed."""
IDS: Final = re.compile(r"[pcgr][0-9a-f]{16}")
"""An id: the first letter of its kind and 64 random bits, which say nothing about anyone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One version of something kept; a new one has no id and version 0."""

    word: ClassVar[str]
    """The kind, as it is written in the store."""

    name: str
    id: str = ""
    version: int = 0
    changed: datetime = NEVER


@dataclass(frozen=True, slots=True, kw_only=True)
class Person(Thing):
    """Someone measured: the sheet's [wearer] table as it was given."""

    word = "person"
    table: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptCloth(Thing):
    """A length of cloth: the sheet's [cloth.main] table as it was given."""

    word = "cloth"
    table: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptGarment(Thing):
    """A garment's choices: sheet path ('garment.sleeve.shape') to text, and for whom.

    ``person`` is a kept person's id, the word of one of the demo's people, or None.
    """

    word = "garment"
    person: str | None = None
    fields: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Roster(Thing):
    """One garment for many: kept people by id, or raw [wearer] tables, in order."""

    word = "roster"
    members: tuple[str | Mapping[str, object], ...] = ()
    garment: str | None = None


KINDS: Final[Mapping[str, type[Thing]]] = {kind.word: kind for kind in (Person, KeptCloth, KeptGarment, Roster)}
"""The kinds by their words; none names one that stands after it."""


def new_id(kind: type[Thing]) -> str:
    """An id that nothing has."""
    return kind.word[0] + secrets.token_hex(8)


def proper(id: str) -> str:
    """The id; '' where it is none, which no database need be asked for."""
    return id if IDS.fullmatch(id) else ""
