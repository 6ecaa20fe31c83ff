"""Applied pieces: what is cut from the cloth and sewn on to the shell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ellwand.geometry.lines import Line, Point, bounds, chain, shift, turn
from ellwand.geometry.offset import Margin, cut_ring
from ellwand.model.draft import Part
from ellwand.model.piece import Edge, EdgeKind, Guide, Piece, Place


@dataclass(frozen=True, slots=True)
class Side:
    """One edge to be, walked with the cloth on the left hand; its allowance (cm) lies outside."""

    id: str
    kind: EdgeKind
    points: Line
    allowance: float


@dataclass(frozen=True, slots=True)
class Applied:
    """A piece with the parts it is cut for."""

    piece: Piece
    parts: tuple[Part, ...]


def applied(
    name: str,
    cloth: str,
    place: Place,
    parts: Sequence[tuple[str, bool]],
    ring: Sequence[Side],
    holes: Sequence[Sequence[Side]] = (),
    guides: Sequence[Guide] = (),
    small: bool = True,
) -> Applied:
    """The piece, set so that its cut outline starts at (0, 0); ``parts``: their names, and whether each is mirrored."""
    low_x, low_y, _, _ = bounds(_cut(ring))

    def moved(sides: Sequence[Side]) -> list[Side]:
        return [Side(s.id, s.kind, shift(s.points, -low_x, -low_y), s.allowance) for s in sides]

    outer, inner = moved(ring), [moved(hole) for hole in holes]
    id_ = name.replace(" ", "-")
    piece = Piece(
        id=id_,
        name=name,
        cloth=cloth,
        count=len(parts),
        place=place,
        sewn=_ring(outer),
        sewn_holes=tuple(_ring(hole) for hole in inner),
        cut=_cut(outer),
        cut_holes=tuple(_cut(hole) for hole in inner),
        edges=tuple(Edge(s.id, s.kind, s.points, s.allowance) for s in (*outer, *(s for hole in inner for s in hole))),
        guides=tuple(Guide(guide.name, shift(guide.points, -low_x, -low_y)) for guide in guides),
        small=small,
        kind="applied",
    )
    return Applied(piece, tuple(Part(part, id_, mirrored) for part, mirrored in parts))


def strip(
    name: str,
    cloth: str,
    place: Place,
    parts: Sequence[str],
    size: tuple[float, float],
    allowances: tuple[float, float],
    *,
    bias: bool = False,
    middle: str = "",
) -> Applied:
    """A straight strip along the grain, or on the ``bias``; ``size``: sewn length and width (cm).

    ``allowances``: at its ends and along its sides; ``middle``: the name of a line down its middle.
    """
    long, wide = size
    at_ends, at_sides = allowances
    corners: tuple[Point, ...] = ((0.0, 0.0), (wide, 0.0), (wide, long), (0.0, long), (0.0, 0.0))
    corners = turn(corners, -45.0) if bias else corners
    names = (("end-1", at_ends), ("side-1", at_sides), ("end-2", at_ends), ("side-2", at_sides))
    ring = [
        Side(id_, "facing", (a, b), allowance)
        for (id_, allowance), a, b in zip(names, corners, corners[1:], strict=False)
    ]
    line: Line = ((wide / 2, 0.0), (wide / 2, long))
    guides = [Guide(middle, turn(line, -45.0) if bias else line)] if middle else []
    return applied(name, cloth, place, [(part, False) for part in parts], ring, guides=guides)


def _ring(sides: Sequence[Side]) -> Line:
    return chain([side.points for side in sides])[:-1]


def _cut(sides: Sequence[Side]) -> Line:
    return cut_ring([Margin(side.points, side.allowance) for side in sides])
