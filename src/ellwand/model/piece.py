"""A piece of cloth: its sewn outline, its cut outline and its named edges.

Coordinates are centimetres, y along the grain, drawn with the outside face up.  The outline runs
counter-clockwise, holes clockwise; edges cover them once, end to end, in order.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from ellwand.geometry.lines import Line, Point, area

EdgeKind = Literal[
    "shoulder",
    "armhole",
    "side seam",
    "panel seam",
    "gusset",
    "gore seam",
    "centre seam",
    "underarm seam",
    "sleeve seam",
    "gusset seam",
    "piecing seam",
    "division seam",
    "neck",
    "neck slit",
    "hem",
    "split",
    "cuff",
    "opening",
    "shoulder opening",
    "facing",
    "face",
    "edge",
    "waist",
    "leg",
    "crown seam",
    "neck seam",
    "tail seam",
    "strip seam",
    "band seam",
    "inside leg seam",
]

Place = Literal["body", "sleeve", "gusset", "other"]
"""``other``: of a garment that is not cut as a tunic is."""
PieceKind = Literal["shell", "applied"]
"""A shell piece is sewn to its neighbours; an applied one (facing, strip, collar) is sewn on."""

MarkKind = Literal["eyelet", "button", "toggle", "tie", "hook", "pin"]


@dataclass(frozen=True, slots=True)
class Edge:
    """One named edge, walked in the outline's own order; ``allowance`` in cm lies outside it.

    ``turned``: folded back on itself, so that the allowance is the mirror image of what lies inside.
    """

    id: str
    kind: EdgeKind
    points: Line
    allowance: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Level:
    """How a body piece hangs: levels are straight lines above ``base_y``, or arcs about ``centre``.

    A straight piece: the level h cm above the hem is y = base_y + h·up (``up`` is 1, or −1 for the back half of
    a body cut in one).  A flared piece: the circle about ``centre`` of radius ``radius`` − h.
    """

    base_y: float = 0.0
    up: int = 1
    centre: Point | None = None
    radius: float = 0.0


@dataclass(frozen=True, slots=True)
class Guide:
    """A line or mark to chalk inside a piece: a fold, a centre, a level."""

    name: str
    points: Line


@dataclass(frozen=True, slots=True)
class Mark:
    """One fastening's place on a piece; ``distance`` (cm) along the edge from where its opening begins.

    ``part``: the part that it is for, where a piece is cut several times and not alike; else ''.
    """

    kind: MarkKind
    at: Point
    edge: str
    distance: float
    part: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """One shape to cut ``count`` times.  ``cut`` is ``sewn`` with each edge's allowance outside it."""

    id: str
    name: str
    cloth: str
    count: int
    place: Place
    sewn: Line
    sewn_holes: tuple[Line, ...]
    cut: Line
    cut_holes: tuple[Line, ...]
    edges: tuple[Edge, ...]
    levels: tuple[Level, ...] = ()
    guides: tuple[Guide, ...] = ()
    small: bool = False
    kind: PieceKind = "shell"
    marks: tuple[Mark, ...] = ()
    tincture: str = ""
    bundle: str = ""
    """``small``: plain and small enough to be turned crosswise where the maker allows it; ``tincture``: the heraldic
    name of its colour, where the garment's field is divided; ``bundle``: the number of its garment, where pieces of
    several are cut from one length."""


def edge_of(piece: Piece, edge_id: str) -> Edge:
    """The edge of that name; KeyError when the piece has none."""
    for edge in piece.edges:
        if edge.id == edge_id:
            return edge
    raise KeyError(f"{piece.id} has no edge {edge_id}")


def cloth_in(pieces: Sequence[Piece]) -> float:
    """The area (cm²) of all that is cut out, each piece as often as it is cut, without its holes."""
    return math.fsum(
        piece.count * (abs(area(piece.cut)) - sum(abs(area(hole)) for hole in piece.cut_holes)) for piece in pieces
    )
