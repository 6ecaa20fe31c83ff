"""Heraldry as a vocabulary: tinctures, the ways a field is divided, and what is set on it.

Names are those of the manuals (Fox-Davies, A Complete Guide to Heraldry; Cussans, The Handbook of Heraldry).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, get_args

from ellwand.geometry.lines import Line
from ellwand.model.motif import Motif, Region

Metal = Literal["or", "argent"]
Colour = Literal["gules", "azure", "sable", "vert", "purpure", "tenné", "sanguine"]
Tincture = Literal["or", "argent", "gules", "azure", "sable", "vert", "purpure", "tenné", "sanguine"]
TINCTURES: Final[tuple[Tincture, ...]] = get_args(Tincture)


def spelt(tincture: str) -> str:
    """A tincture's name as names of parts and files have it, without an accent."""
    return tincture.replace("é", "e")


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

DivisionLevel = Literal["waist", "hip"]
USUAL_COUNT: Final[Mapping[Partition, int]] = {
    "gyronny": 8,
    "paly": 6,
    "barry": 6,
    "bendy": 6,
    "chequy": 6,
    "lozengy": 6,
}
"""Where no number is said: of gyrons and stripes as the manuals have it, of columns our own figure."""
LEVELLED: Final[tuple[Partition, ...]] = ("per fess", "quarterly", "per chevron")
"""What has a level line or a point that may lie higher or lower."""
IN_FOUR: Final[tuple[Partition, ...]] = ("quarterly", "per saltire")
"""What may be of four tinctures."""

Ordinary = Literal["chief", "pale", "fess", "bend", "bend sinister", "chevron", "cross", "saltire", "pile", "bordure"]
FieldPoint = Literal[
    "dexter chief",
    "middle chief",
    "sinister chief",
    "honour point",
    "fess point",
    "nombril point",
    "dexter base",
    "middle base",
    "sinister base",
]
"""The points of the field; dexter is the wearer's right."""
Face = Literal["front", "back"]
On = Literal["front", "back", "both"]
METALS: Final = ("or", "argent")
PLAIN_CHARGES: Final = (
    "roundel",
    "annulet",
    "lozenge",
    "billet",
    "mullet",
    "crescent",
    "cross couped",
    "escutcheon",
    "heart",
)
"""What can be cut from cloth and turned under all round."""


@dataclass(frozen=True, slots=True)
class Field:
    """The front or back of the sewn garment as a field, as it is seen (cm): x from the centre line to the viewer's
    right, y upward from the hem; half as wide as ``half``, from ``bottom`` up to the shoulder line at ``top``."""

    half: float
    bottom: float
    top: float


@dataclass(frozen=True, slots=True)
class Division:
    """How the field is divided; ``count``: of stripes, columns or gyrons, 0 for the usual number.

    ``tinctures``: the first lies in the dexter chief, or else in chief; two, or four of a field quarterly or per
    saltire.  ``at``: where the level line of a fess or a quarterly field lies, or the point of a chevron: a level of
    the body, cm above the hem, or None as is usual.
    """

    by: Partition
    tinctures: tuple[Tincture, ...]
    count: int = 0
    at: DivisionLevel | float | None = None


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
class ChargeChoice:
    """A charge as it was chosen: an ``ordinary``, or ``number`` of a ``motif``, set about ``place``.

    ``width``: of an ordinary, as a share of its field; ``size``: a motif's height as a share of the field's; None for
    the usual ones.  ``drawn``: the maker's own motif, read from the file called ``motif``; None: one of ours.
    """

    tincture: Tincture
    ordinary: Ordinary | None = None
    motif: str | None = None
    on: On = "front"
    width: float | None = None
    size: float | None = None
    place: FieldPoint = "fess point"
    number: int = 1
    drawn: Motif | None = None


@dataclass(frozen=True, slots=True)
class Charge:
    """A charge as it is sewn on to one face of the garment.

    ``regions``: its shapes in the field's coordinates (cm), as that face is seen; ``parts``: what each of them is cut
    as; ``upon``: the tinctures that it lies on, the most first, none on a field of the cloth's own colour; ``caught``:
    whether its ends are caught in the seams at its sides; ``on_charge``: the name of the charge that it lies on.
    """

    name: str
    tincture: Tincture
    chosen: ChargeChoice
    face: Face
    regions: tuple[Region, ...]
    parts: tuple[str, ...]
    upon: tuple[Tincture, ...]
    caught: bool = False
    on_charge: str = ""
