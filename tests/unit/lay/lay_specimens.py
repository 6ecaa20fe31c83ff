"""Pieces to lay, made by hand: rectangles, gores as sectors, sleeves, half gores, a slit panel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ellwand.geometry.flare import flare
from ellwand.geometry.lines import Line
from ellwand.lay import INSTANT, Budget, lay_out
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Part
from ellwand.model.lay import Lay
from ellwand.model.piece import Edge, Piece


def piece(id: str, cut: Line, count: int = 1, *, small: bool = False, holes: tuple[Line, ...] = ()) -> Piece:
    return Piece(
        id=id,
        name=id,
        cloth="main",
        count=count,
        place="body",
        sewn=cut,
        sewn_holes=holes,
        cut=cut,
        cut_holes=holes,
        edges=(),
        small=small,
    )


def rectangle(width: float, height: float) -> Line:
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def gore(base: float, side: float) -> Line:
    sector = flare(0.0, side, base)
    return (*sector.hem(), sector.point)


def half_gore(base: float, height: float) -> Line:
    return ((0.0, 0.0), (base, 0.0), (0.0, height))


def sleeve(top: float, cuff: float, length: float) -> Line:
    return ((-top / 2, 0.0), (top / 2, 0.0), (cuff / 2, length), (-cuff / 2, length))


def slit_panel(width: float, height: float, slit: float) -> Line:
    """A panel with a slit 0.2 cm wide from the middle of its lower edge."""
    middle = width / 2
    return (
        (0.0, 0.0),
        (middle - 0.1, 0.0),
        (middle - 0.1, slit),
        (middle + 0.1, slit),
        (middle + 0.1, 0.0),
        (width, 0.0),
        (width, height),
        (0.0, height),
    )


NECK: Line = ((25.0, 120.0), (32.0, 128.0), (40.0, 120.0), (32.0, 108.0))


def tunic() -> tuple[list[Piece], list[Part]]:
    """A tunic in one length with a neck hole, tapered sleeves, four gores and two gussets."""
    pieces = [
        piece("body", rectangle(65, 240), holes=(NECK,)),
        piece("sleeve", sleeve(50, 25, 55), 2),
        piece("gore", gore(45, 75), 4),
        piece("gusset", rectangle(12, 12), 2, small=True),
    ]
    parts = [
        Part("body", "body"),
        Part("sleeve-left", "sleeve"),
        Part("sleeve-right", "sleeve", mirrored=True),
        *(Part(f"gore-{place}", "gore") for place in ("front", "back", "left", "right")),
        Part("gusset-left", "gusset"),
        Part("gusset-right", "gusset", mirrored=True),
    ]
    return pieces, parts


def cloth(width: float = 150.0, **changes: object) -> Cloth:
    """A washed cloth without selvedges unless told otherwise."""
    return Cloth("main", width, **{"selvedge": 0.0, "washed": True, **changes})  # type: ignore[arg-type]


def one_lay(pieces: Sequence[Piece], parts: Sequence[Part], on: Cloth, budget: Budget = INSTANT) -> Lay:
    """The only lay of pieces on cloth that lies flat, without left-overs."""
    (lay,) = lay_out(pieces, parts, on, budget)
    return lay


def with_seams(plain: Piece) -> Piece:
    """The piece with each side of its outline as a seam: e0, e1 and so on."""
    ends = zip(plain.cut, (*plain.cut[1:], plain.cut[0]), strict=True)
    return replace(plain, edges=tuple(Edge(f"e{n}", "side seam", line, 0.0) for n, line in enumerate(ends)))
