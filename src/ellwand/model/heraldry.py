"""Heraldry as a vocabulary: tinctures, the ways a field is divided, and what is set on it.

Names are those of the manuals (Fox-Davies, A Complete Guide to Heraldry; Cussans, The Handbook of Heraldry).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ellwand.geometry.lines import Line

Metal = Literal["or", "argent"]
Colour = Literal["gules", "azure", "sable", "vert", "purpure", "tenné", "sanguine"]
Tincture = Literal["or", "argent", "gules", "azure", "sable", "vert", "purpure", "tenné", "sanguine"]
Partition = Literal[
    "per pale",
    "per fess",
    "quarterly",
    "per bend",
    "per bend sinister",
    "per chevron",
    "per saltire",
    "gyronny",
    "paly",
    "barry",
    "bendy",
    "chequy",
    "lozengy",
]


@dataclass(frozen=True, slots=True)
class Field:
    """The front or back of the sewn garment as a field, as it is seen (cm): x from the centre line to the viewer's
    right, y upward from the hem; half as wide as ``half``, from ``bottom`` up to the shoulder line at ``top``."""

    half: float
    bottom: float
    top: float


@dataclass(frozen=True, slots=True)
class Division:
    """How the field is divided; ``count``: of stripes, rows or gyrons, 0 where the division has none."""

    by: Partition
    tinctures: tuple[Tincture, ...]
    count: int = 0


@dataclass(frozen=True, slots=True)
class Patch:
    """One tincture's share of a field: a ring counter-clockwise, not closed."""

    tincture: Tincture
    ring: Line


@dataclass(frozen=True, slots=True)
class DividedField:
    """A division as it lies on this garment."""

    division: Division
    front: Field


@dataclass(frozen=True, slots=True)
class Charge:
    """A shape of one tincture that is sewn on to the field."""

    name: str
    tincture: Tincture
    ring: Line
