"""The parts sewn together as a surface: from every edge to the next one, and across every seam.

Every part is walked with its cloth on the left hand as it is worn: a mirrored part's edges therefore the other way
round than they are drawn.  The two edges of a seam then always run in opposite senses.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from ellwand.geometry.lines import Line, Point, backwards
from ellwand.model.draft import Draft, EdgeRef, Seam
from ellwand.model.piece import Edge, Piece, edge_of

CUT_APART: Final = ("piecing seam", "division seam")
"""Edges along which one piece was cut in several."""
MEET = 1e-4
"""Ends of edges nearer than this (cm) are one corner of their piece."""


@dataclass(frozen=True, slots=True)
class Surface:
    """``after``: each edge's next one round its part; ``across``: the edge it is sewn to, and by which seam.

    ``pieces``: by the part's id, each with the levels of that part, which are its own even where shares of a divided
    field are cut alike.  ``flat``: parts that were cut from one lie side by side on it: (one of them, and how far the
    part's coordinates are to be moved to be that one's).
    """

    pieces: Mapping[str, Piece]
    mirrored: Mapping[str, bool]
    edges: Mapping[EdgeRef, Edge]
    after: Mapping[EdgeRef, EdgeRef]
    before: Mapping[EdgeRef, EdgeRef]
    across: Mapping[EdgeRef, tuple[EdgeRef, Seam]]
    flat: Mapping[str, tuple[str, Point]]


def surface_of(draft: Draft) -> Surface:
    """Sew the shell's parts together."""
    by_id = {piece.id: piece for piece in draft.pieces}
    pieces = {part.id: by_id[part.piece] for part in draft.parts}
    mirrored = {part.id: part.mirrored for part in draft.parts}
    after: dict[EdgeRef, EdgeRef] = {}
    for part, piece in pieces.items():
        for ring in _rings(piece.edges):
            refs = [EdgeRef(part, edge.id) for edge in ring]
            if mirrored[part]:
                refs.reverse()
            after.update(zip(refs, (*refs[1:], refs[0]), strict=True))
    across: dict[EdgeRef, tuple[EdgeRef, Seam]] = {}
    for seam in draft.seams:
        across[seam.a], across[seam.b] = (seam.b, seam), (seam.a, seam)
    flat = _flat(draft, pieces)
    return Surface(
        MappingProxyType({part: _levelled(part, pieces, flat) for part in pieces}),
        MappingProxyType(mirrored),
        MappingProxyType({EdgeRef(part, edge.id): edge for part, piece in pieces.items() for edge in piece.edges}),
        MappingProxyType(after),
        MappingProxyType({then: first for first, then in after.items()}),
        MappingProxyType(across),
        MappingProxyType(flat),
    )


def _flat(draft: Draft, pieces: Mapping[str, Piece]) -> dict[str, tuple[str, Point]]:
    """From part to part over the seams along which one piece was cut in several: nothing is turned there."""
    beside: dict[str, list[tuple[str, Point]]] = {part: [] for part in pieces}
    for seam in draft.seams:
        a, b = (edge_of(pieces[ref.part], ref.edge) for ref in (seam.a, seam.b))
        if a.kind in CUT_APART:
            (ax, ay), (bx, by) = a.points[0], b.points[-1]
            beside[seam.a.part].append((seam.b.part, (ax - bx, ay - by)))
            beside[seam.b.part].append((seam.a.part, (bx - ax, by - ay)))
    out: dict[str, tuple[str, Point]] = {}
    for first in pieces:
        if first in out:
            continue
        out[first] = (first, (0.0, 0.0))
        todo = [first]
        while todo:
            part = todo.pop()
            x, y = out[part][1]
            for other, (dx, dy) in beside[part]:
                if other not in out:
                    out[other] = (first, (x + dx, y + dy))
                    todo.append(other)
    return out


def _levelled(part: str, pieces: Mapping[str, Piece], flat: Mapping[str, tuple[str, Point]]) -> Piece:
    """The part's piece, with its levels from a part beside it that has an edge of the whole."""
    piece = pieces[part]
    if not piece.levels or not _is_within(piece):
        return piece
    home, (x, y) = flat[part]
    beside = (other for other, (same, _) in flat.items() if same == home and not _is_within(pieces[other]))
    other = next(beside, part)
    ox, oy = flat[other][1]
    dx, dy = ox - x, oy - y
    levels = (
        replace(each, base_y=each.base_y + dy, centre=each.centre and (each.centre[0] + dx, each.centre[1] + dy))
        for each in pieces[other].levels
    )
    return replace(piece, levels=tuple(levels))


def _is_within(piece: Piece) -> bool:
    return all(edge.kind == "division seam" for edge in piece.edges)


def _rings(edges: tuple[Edge, ...]) -> Iterator[list[Edge]]:
    ring: list[Edge] = []
    for edge in edges:
        ring.append(edge)
        if math.dist(edge.points[-1], ring[0].points[0]) < MEET:
            yield ring
            ring = []


def walked(surface: Surface, ref: EdgeRef) -> Line:
    """An edge's points with the cloth on the left hand as it is worn, in its piece's coordinates."""
    points = surface.edges[ref].points
    return backwards(points) if surface.mirrored[ref.part] else points


def corner_after(surface: Surface, ref: EdgeRef) -> Iterator[tuple[EdgeRef, EdgeRef]]:
    """Round the corner in which an edge ends: each part's two edges there (one ends, one begins), through the seams.

    From ``ref``'s own part on until an edge that is left open, or once round.
    """
    ends = ref
    while True:
        begins = surface.after[ends]
        yield ends, begins
        if begins not in surface.across:
            return
        ends = surface.across[begins][0]
        if ends == ref:
            return


def next_open(surface: Surface, ref: EdgeRef) -> EdgeRef:
    """The open edge that goes on where this open edge ends."""
    *_, (_, begins) = corner_after(surface, ref)
    return begins


def turn_after(surface: Surface, ref: EdgeRef) -> float:
    """By how many degrees the rim turns toward the cloth where this open edge ends: 180 less the cloth's angle."""
    return 180.0 - math.fsum(cloth_angle(surface, ends, begins) for ends, begins in corner_after(surface, ref))


def cloth_angle(surface: Surface, ends: EdgeRef, begins: EdgeRef) -> float:
    """The cloth's angle (degrees) in a corner of one part."""
    last, first = walked(surface, ends), walked(surface, begins)
    sign = -1.0 if surface.mirrored[ends.part] else 1.0
    return 180.0 - sign * turning(last[-2], last[-1], first[1])


def turning(a: Point, b: Point, c: Point) -> float:
    """By how many degrees the way from a over b to c turns to the left."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
    return math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))


def rims(surface: Surface) -> list[list[EdgeRef]]:
    """Every opening of the shell: its open edges in the order they are walked, cloth on the left hand."""
    left = [ref for ref in surface.edges if ref not in surface.across]
    seen: set[EdgeRef] = set()
    out = []
    for start in left:
        rim: list[EdgeRef] = []
        at = start
        while at not in seen:
            seen.add(at)
            rim.append(at)
            at = next_open(surface, at)
        if rim:
            out.append(rim)
    return out
