"""A cloth on the table, or to be bought (cm)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from ellwand.geometry.lines import Line
from ellwand.model.piece import Piece
from ellwand.units import Unit

Crosswise = Literal["never", "small pieces", "any"]
Folding = Literal["flat", "lengthwise", "crosswise", "either"]
Washing = Literal["before", "after"]
Cutting = Literal["free", "torn"]


CUTS: Final = ("body", "gores", "sleeves", "gussets", "facings", "collar", "bands")
"""What a cloth of its own may be for; ``body`` is every panel that is none of the others."""


LEAST_FAULT: Final = 0.1
"""A fault is at least this wide and long (cm): a hole has edges."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A hole or stain: a rectangle from (x, y), x from the left selvedge, y from the cut end."""

    x: float
    y: float
    width: float
    length: float

    @property
    def spoils(self) -> tuple[float, float, float, float]:
        """The least and greatest x and y of what no piece may lie on, as (left, low, right, high)."""
        right, high = self.x + max(self.width, LEAST_FAULT), self.y + max(self.length, LEAST_FAULT)
        return self.x, self.y, right, high


@dataclass(frozen=True, slots=True)
class Remnant:
    """A left-over piece of the same cloth, without selvedges: a rectangle, or what ``outline`` holds of it.

    The outline runs counter-clockwise within the rectangle, y along the warp.
    """

    width: float
    length: float
    outline: Line = ()


@dataclass(frozen=True, slots=True)
class Repeat:
    """A stripe or check: its repeat ``across`` and ``along`` the cloth, 0 where it has none.

    The middle of a stripe lies ``x`` from the left selvedge and ``y`` from the cut end.  It looks alike to both sides
    of its middle; a pattern that does not has a nap.
    """

    across: float = 0.0
    along: float = 0.0
    x: float = 0.0
    y: float = 0.0


@dataclass(frozen=True, slots=True)
class Cloth:
    """``length`` is None when as much as needed can be had. ``shrink_*`` are fractions lost in washing.

    ``wash``: whether an unwashed cloth is washed before it is cut, or only when it is sewn.  To be bought over what is
    laid: ``straighten`` at each end, and ``spare``, below 1 a part of what is laid, else cm.  ``price`` is for a metre,
    or a yard where ``unit`` is in; ``sold_by`` is the least step in length the seller cuts to (None: as shops do).

    ``gap``: left between any two pieces.  ``selvedge_edges``: straight seam edges may lie in the selvedge.  ``table``:
    the length of the table that it is cut on, None where that does not matter.  ``cuts``: what is cut from this cloth,
    as the sheet names it; the main cloth takes all the rest.  ``cut``: freely, or torn from edge to edge.
    ``tears``: whether it tears straight along its threads; None where that is not known.  ``tincture``: the heraldic
    name of its colour, '' where none is said; what is of that tincture is cut from it.  ``bends_*``: bending lengths;
    ``gives_*``: per cent that a strip 5 cm wide gets longer with 500 g hung on it; None where they were not measured.
    """

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
    wash: Washing = "before"
    straighten: float = 2.0
    spare: float = 0.0
    sold_by: float | None = None
    faults: tuple[Fault, ...] = ()
    remnants: tuple[Remnant, ...] = ()
    gap: float = 0.0
    selvedge_edges: bool = False
    repeat: Repeat | None = None
    table: float | None = None
    cuts: tuple[str, ...] = ()
    cut: Cutting = "free"
    tears: bool | None = None
    unit: Unit = "cm"
    tincture: str = ""
    bends_warp: float | None = None
    bends_weft: float | None = None
    bends_bias: float | None = None
    gives_warp: float | None = None
    gives_weft: float | None = None


def width_on_table(cloth: Cloth) -> float:
    """Width (cm) when the cloth is cut: after washing, if it is washed before."""
    return cloth.width if cloth.washed or cloth.wash == "after" else cloth.width * (1 - cloth.shrink_weft)


def length_on_table(cloth: Cloth) -> float | None:
    """Length at hand (cm) when the cloth is cut, or None when it is still to be bought."""
    if cloth.length is None:
        return None
    return cloth.length if cloth.washed or cloth.wash == "after" else cloth.length * (1 - cloth.shrink_warp)


def cloth_for(piece: Piece, cloths: Sequence[Cloth]) -> Cloth:
    """The cloth that a piece is cut from: one of its tincture, or the one that asks for its kind, or the first.

    Of several cloths of its tincture the one that asks for its kind, or else one that asks for none.
    """
    kind = cut_kind(piece)
    alike = [cloth for cloth in cloths if piece.tincture and cloth.tincture == piece.tincture]
    fit = [cloth for cloth in alike if kind in cloth.cuts] or [cloth for cloth in alike if not cloth.cuts]
    return next((cloth for cloth in (*fit, *cloths) if cloth in fit or kind in cloth.cuts), cloths[0])


def cut_kind(piece: Piece) -> str:
    """Which of ``CUTS`` a piece is, by its name."""
    names = set(piece.id.split("-"))
    if "collar" in names:
        return "collar"
    if piece.kind == "applied":
        return "bands" if "band" in names else "facings"
    if "gore" in names:
        return "gores"
    if "gusset" in names:
        return "gussets"
    if piece.place == "sleeve":
        return "sleeves"
    return "bands" if names & {"band", "strip"} and piece.place == "other" else "body"


def remnant_on_table(remnant: Remnant, cloth: Cloth) -> Remnant:
    """A left-over when it is cut: it shrinks as its cloth does."""
    if cloth.washed or cloth.wash == "after":
        return remnant
    weft, warp = 1 - cloth.shrink_weft, 1 - cloth.shrink_warp
    outline = tuple((x * weft, y * warp) for x, y in remnant.outline)
    return Remnant(remnant.width * weft, remnant.length * warp, outline)
