"""The shares of a divided part as pieces of their own, and the seams that sew them together again."""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from shapely import LineString, Polygon, get_parts
from shapely import Point as Place

from ellwand.adorn.division.plane import Bit, Face, polygon
from ellwand.adorn.division.slits import lip_of
from ellwand.geometry.lines import Line, area
from ellwand.geometry.offset import Margin, cut_ring
from ellwand.model.draft import Draft, EdgeRef, Part, Seam
from ellwand.model.heraldry import Tincture
from ellwand.model.outlined import outlined, sewn_ring
from ellwand.model.piece import Edge, Guide, Mark, Piece, edge_of

SHORTEST_GUIDE: Final = 1.0
"""What is left of a guide on a share is not drawn where it is shorter than this (cm): our own figure."""
HAIR: Final = 1e-9
ALIKE: Final = 4
"""Decimals of a centimetre to which shares must be alike to be cut as one piece."""


@dataclass(frozen=True, slots=True)
class Share:
    """One face of one part, with its tincture and the name of its own part; ``whole``: the part was not cut."""

    id: str
    part: Part
    face: Face
    tincture: Tincture
    whole: bool


@dataclass(frozen=True, slots=True)
class CutOut:
    """A share as a piece by itself, and where each of its edges comes from, in the same order."""

    piece: Piece
    sources: tuple[Bit, ...]


def cut_out(draft: Draft, share: Share, whole: Piece) -> CutOut:
    """The share as a piece, set so that its cut outline starts at (0, 0); its name is still the whole piece's."""
    rings = _rings(share, whole)
    bits = tuple(bit for ring in rings for bit in ring)
    if share.whole and len(bits) == len(whole.edges):
        marks = tuple(replace(mark, part="") for mark in whole.marks if mark.part in ("", share.part.id))
        return CutOut(replace(whole, count=1, tincture=share.tincture, marks=marks), bits)
    named = iter(_edges(draft, whole, bits))
    edges = [[next(named) for _ in ring] for ring in rings]
    shape = polygon(share.face)
    piece = replace(
        whole,
        count=1,
        tincture=share.tincture,
        guides=whole.guides if share.whole else tuple(_guides(whole, shape)),
        marks=tuple(_marks(whole, share, [edge for ring in edges for edge in ring], bits)),
    )
    return CutOut(outlined(piece, edges, _outside), bits)


def _rings(share: Share, whole: Piece) -> list[tuple[Bit, ...]]:
    """Its rings: of a whole part as they were, of others begun at one corner, so that alike shares are told alike."""
    order = {edge.id: n for n, edge in enumerate(whole.edges)}

    def place(bit: Bit) -> tuple[float, float]:
        if share.whole and bit.key is not None:
            return order[bit.key[0]], bit.key[1]
        x, y = bit.points[0]
        return round(y, ALIKE), round(x, ALIKE)

    out = []
    for ring in (share.face.ring, *share.face.holes):
        first = min(range(len(ring)), key=lambda i: place(ring[i]))
        out.append(ring[first:] + ring[:first])
    return out


def _edges(draft: Draft, whole: Piece, bits: Sequence[Bit]) -> Iterator[Edge]:
    """Each stretch as an edge; a lip of a slit gets a seam's allowance where the other lies on another share."""
    allowance = draft.choices.sewing.allowance
    by_id = {edge.id: edge for edge in whole.edges}
    here = {lip_of(bit.key[0]) for bit in bits if bit.key is not None}
    used: set[str] = set()
    for bit in bits:
        stem = "division" if bit.key is None else bit.key[0]
        name = stem if stem not in used else _unused(stem, used | set(by_id))
        used.add(name)
        if bit.key is None:
            yield Edge(name, "division seam", bit.points, allowance)
            continue
        edge = by_id[bit.key[0]]
        slit, side = lip_of(edge.id)
        lone = edge.allowance == 0 and bool(slit) and not any(slit == known and side != lip for known, lip in here)
        yield replace(edge, id=name, points=bit.points, allowance=allowance if lone else edge.allowance)


def _unused(stem: str, taken: Collection[str]) -> str:
    return next(each for n in itertools.count(2) if (each := f"{stem}-{n}") not in taken)


def _guides(whole: Piece, shape: Polygon) -> Iterator[Guide]:
    for guide in whole.guides:
        for part in get_parts(LineString(guide.points).intersection(shape)):
            if isinstance(part, LineString) and part.length > SHORTEST_GUIDE:
                yield Guide(guide.name, tuple((float(x), float(y)) for x, y in part.coords))


def _marks(whole: Piece, share: Share, edges: Sequence[Edge], bits: Sequence[Bit]) -> Iterator[Mark]:
    """The marks beside the stretches of edge that this share has; a mark goes with its edge."""
    for mark in whole.marks:
        if mark.part not in ("", share.part.id):
            continue
        line = LineString(edge_of(whole, mark.edge).points)
        along = line.project(Place(mark.at))
        for edge, bit in zip(edges, bits, strict=True):
            if bit.key is None or bit.key[0] != mark.edge:
                continue
            start, end = (line.project(Place(point)) for point in (bit.points[0], bit.points[-1]))
            if start - HAIR <= along < end - HAIR or min(along, end) > line.length - HAIR:
                yield replace(mark, edge=edge.id, part="")


def _outside(edges: Sequence[Edge]) -> Line:
    """The cut outline; in a corner so narrow that its allowances cross each other it runs along the sewn one."""
    ring = cut_ring([Margin(edge.points, edge.allowance, edge.turned) for edge in edges])
    cut, sewn = Polygon(ring), Polygon(sewn_ring(edges))
    if area(sewn_ring(edges)) < 0 or cut.buffer(1e-6).covers(sewn):
        return ring
    both = cut.union(sewn)
    if not isinstance(both, Polygon):
        return ring
    return tuple((float(x), float(y)) for x, y in both.exterior.normalize().reverse().coords[:-1])


def signature(piece: Piece) -> object:
    """What makes shares of one piece one piece again: edges, tincture, and what is chalked on them.

    Where they hang is of no matter to shares that lie within the field on every side.
    """

    def near(points: Line) -> Line:
        return tuple((round(x, ALIKE) + 0.0, round(y, ALIKE) + 0.0) for x, y in points)

    within = all(edge.kind == "division seam" for edge in piece.edges)
    return (
        piece.id,
        piece.tincture,
        tuple(
            (edge.id, edge.kind, round(edge.allowance, ALIKE), edge.turned, near(edge.points)) for edge in piece.edges
        ),
        tuple((guide.name, near(guide.points)) for guide in piece.guides),
        tuple((mark.kind, mark.edge, near((mark.at,))) for mark in piece.marks),
        () if within else tuple((level.up, round(level.base_y, 2), round(level.radius, 2)) for level in piece.levels),
    )


def seams_of(
    draft: Draft, cut: Sequence[tuple[Share, CutOut]], joined: Sequence[tuple[EdgeRef, EdgeRef]]
) -> tuple[Seam, ...]:
    """Every seam in as many as its edges have become, then those along the lines (``joined``)."""
    found: dict[tuple[str, str], dict[int, tuple[EdgeRef, float]]] = {}
    for share, made in cut:
        for bit, edge in zip(made.sources, made.piece.edges, strict=True):
            if bit.key is not None:
                along = found.setdefault((share.part.id, bit.key[0]), {})
                along[bit.key[1]] = EdgeRef(share.id, edge.id), LineString(edge.points).length
    mirrored = {part.id: part.mirrored for part in draft.parts}

    def stretches(ref: EdgeRef) -> list[tuple[EdgeRef, float]]:
        return [each for _, each in sorted(found[ref.part, ref.edge].items())]

    out: list[Seam] = []
    for seam in draft.seams:
        a, b = stretches(seam.a), stretches(seam.b)
        if mirrored[seam.a.part] == mirrored[seam.b.part]:
            b.reverse()
        whole = math.fsum(cm for _, cm in a)
        for i, ((one, cm), (other, _)) in enumerate(zip(a, b, strict=True)):
            ease = seam.ease * cm / whole if len(a) > 1 else seam.ease
            out.append(replace(seam, id="" if i else seam.id, a=one, b=other, ease=ease))
    finish = draft.choices.sewing.finish
    out += [Seam("", a, b, "division seam", finish) for a, b in joined]
    number = itertools.count(len(draft.seams) + 1)
    return tuple(seam if seam.id else replace(seam, id=f"seam-{next(number)}") for seam in out)
