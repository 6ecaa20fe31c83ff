"""Bands along the edges, seams and rings of a garment: as chosen, and in numbers (cm)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from ellwand.model.run import Run

BandPlace = Literal[
    "neck",
    "neck slit",
    "cuffs",
    "hem",
    "splits",
    "centre-front",
    "centre-back",
    "side seams",
    "shoulder seams",
    "armholes",
    "gore seams",
    "skirt ring",
    "arm ring",
    "upper arm ring",
    "face",
    "edges",
    "waist",
]
BandMake = Literal["cloth", "bought", "tablet woven", "inkle woven", "braid", "cord"]
BandCut = Literal["auto", "straight", "bias", "shaped"]
BandCorners = Literal["mitred", "butted"]
JoinPlace = Literal["underarm seam", "side", "shoulder seam", "back", "seam", "between seams"]
YARN: Final[tuple[BandMake, ...]] = ("tablet woven", "inkle woven", "braid", "cord")
"""What is made of yarn."""


@dataclass(frozen=True, slots=True)
class BandChoice:
    """A band as it is asked for (cm).

    ``height``: of a ring; ``turned``: turned under along each side of a cloth band, None as is usual.  ``wraps``: how
    often its yarn goes round a ruler in 1 cm; ``grams``: what 100 m of it weigh.  ``ends``: threads of the warp, or
    strands of the braid or cord, None as many as its width takes; ``take_up`` and ``loom_waste``: None as is usual.
    """

    at: BandPlace
    height: float | None = None
    width: float = 4.0
    make: BandMake = "cloth"
    cut: BandCut = "auto"
    corners: BandCorners = "mitred"
    turned: float | None = None
    colour: str | None = None
    ends: int | None = None
    wraps: float = 12.0
    grams: float = 25.0
    take_up: float | None = None
    loom_waste: float | None = None


@dataclass(frozen=True, slots=True)
class Join:
    """Where two ends of a band meet: how far along its run (cm), and what hides it."""

    at: float
    place: JoinPlace


@dataclass(frozen=True, slots=True)
class Corner:
    """Where a band turns by ``turn`` degrees: toward the cloth where that is positive.

    ``fold``: the angle (degrees) between the band's edge and the line it is folded or butted along; ``extra``: how much
    longer (cm) than the run it has to be for it, below 0 shorter.
    """

    at: float
    turn: float
    fold: float
    extra: float


@dataclass(frozen=True, slots=True)
class Band:
    """One band as it goes on: along ``run``, ``width`` wide, inside an edge or centred on a seam or line.

    ``number``: which of the bands chosen it belongs to, from 1; ``cut``: how a cloth band is cut, '' for others.
    ``length``: of all its strips as they lie (cm), corners with it; ``longer`` and ``shorter``: of its two sides.
    ``eased``: how much of the longer side is eased in where it bends, mitres aside.
    ``bent``: how much shorter one side of it is than the other where the run bends most, as a share.
    ``parts``: the applied parts that it is cut as.  ``on_flat``: easier sewn on before the side seams are closed.
    ``joins``: of a closed one the first is where it begins and ends.  ``strips``: the finished lengths it is cut in.
    """

    number: int
    at: BandPlace
    run: Run
    width: float
    make: BandMake
    cut: Literal["", "straight", "bias", "shaped"]
    corner_style: BandCorners
    colour: str | None
    length: float
    longer: float
    shorter: float
    eased: float
    bent: float
    corners: tuple[Corner, ...]
    joins: tuple[Join, ...]
    strips: tuple[float, ...]
    parts: tuple[str, ...]
    turned: float
    on_flat: bool


@dataclass(frozen=True, slots=True)
class Yarn:
    """What the bands of one ``number`` are woven, braided or twisted from.

    ``length``: of band (cm), all of that number in one; ``ends``: threads of the warp, or strands, each ``warp`` cm
    long; ``metres`` and ``grams``: of yarn in all, ``weft`` metres of them weft.
    """

    number: int
    make: BandMake
    length: float
    ends: int
    warp: float
    take_up: float
    loom_waste: float
    weft: float
    metres: float
    grams: float
