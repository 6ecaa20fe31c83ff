"""What a check found: numbers and a code; the words live elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

Outcome = Literal["sound", "look again", "will not work"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One check of one subject. ``code`` picks the wording; ``values`` fill it in."""

    code: str
    subject: str
    outcome: Outcome
    measured: float | None = None
    needed: float | None = None
    unit: str = "cm"
    values: Mapping[str, float | str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Girth:
    """Garment against body at one level (cm); ``height`` is above the floor, ease = garment − body."""

    at: str
    height: float
    garment: float
    body: float
    ease: float


@dataclass(frozen=True, slots=True)
class Caution:
    """A usual caution that the choices call for; worded elsewhere."""

    code: str
    values: Mapping[str, float | str] = field(default_factory=dict)
