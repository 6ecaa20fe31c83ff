"""A cloth on the table, or to be bought (cm)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ellwand.units import Unit

Crosswise = Literal["never", "small pieces", "any"]
Folding = Literal["flat", "lengthwise", "crosswise", "either"]


@dataclass(frozen=True, slots=True)
class Fault:
    """A hole or stain: a rectangle from (x, y), x from the left selvedge, y from the cut end."""

    x: float
    y: float
    width: float
    length: float


@dataclass(frozen=True, slots=True)
class Remnant:
    """A left-over rectangle of the same cloth."""

    width: float
    length: float


@dataclass(frozen=True, slots=True)
class Cloth:
    """``length`` is None when as much as needed can be had. ``shrink_*`` are fractions lost in washing."""

    name: str
    width: float
    length: float | None = None
    selvedge: float = 1.0
    nap: bool = False
    reversible: bool = True
    crosswise: Crosswise = "small pieces"
    fold: Folding = "either"
    shrink_warp: float = 0.04
    shrink_weft: float = 0.02
    washed: bool = False
    grams: float | None = None
    thickness_mm: float = 0.6
    price: float | None = None
    faults: tuple[Fault, ...] = ()
    remnants: tuple[Remnant, ...] = ()
    unit: Unit = "cm"


def width_on_table(cloth: Cloth) -> float:
    """Width (cm) when the cloth is cut: after washing."""
    return cloth.width if cloth.washed else cloth.width * (1 - cloth.shrink_weft)


def length_on_table(cloth: Cloth) -> float | None:
    """Length at hand (cm) when the cloth is cut, or None when it is still to be bought."""
    if cloth.length is None:
        return None
    return cloth.length if cloth.washed else cloth.length * (1 - cloth.shrink_warp)
