"""The dividing lines on every part of a garment, and every seam that comes apart with them.

A line that leaves a panel through a seam goes on from the same point of the seam: straight across a gore or a side
panel to the point that hangs level with it, and so on until it comes to the next panel.  It ends in what is no part of
the field: sleeves and gussets.
"""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from ellwand.geometry.lines import Line, Point, length
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.piece import Edge, Piece

NEAREST: Final = 0.5
"""A line ends no nearer to a corner than this (cm), or in the corner itself: common practice, no source."""
ALONG: Final = 0.3
"""Nearer to an edge than this (cm) a line runs along it, and parts nothing: our own figure."""
HAIR: Final = 1e-9
ONE_POINT: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a part's edge, as a share of the seam that the edge is sewn in, or of the edge."""

    ref: EdgeRef
    share: float


@dataclass(slots=True)
class Lines:
    """What is gathered of a garment: the lines on each part from spot to spot, and where each seam comes apart."""

    draft: Draft
    pieces: Mapping[str, Piece]
    lines: dict[str, list[tuple[Spot, Line, Spot]]] = field(default_factory=lambda: defaultdict(list))
    marks: dict[EdgeRef, list[float]] = field(default_factory=lambda: defaultdict(list))
    sewn: dict[EdgeRef, tuple[EdgeRef, bool]] = field(default_factory=dict)
    edges: dict[EdgeRef, Edge] = field(default_factory=dict)

    def key(self, ref: EdgeRef) -> tuple[EdgeRef, bool]:
        """The edge that keeps the marks of a seam, and whether this one runs the same way."""
        other, same_way = self.sewn.get(ref, (ref, True))
        return (ref, True) if (ref.part, ref.edge) <= (other.part, other.edge) else (other, same_way)

    def place(self, spot: Spot) -> Point:
        """Where a spot lies on its part's drawing."""
        edge = self.edges[spot.ref]
        if spot.share in (0.0, 1.0):
            return edge.points[0] if spot.share == 0.0 else edge.points[-1]
        return at_on(edge.points, spot.share * length(edge.points))

    def shares(self, ref: EdgeRef) -> list[float]:
        """Where an edge comes apart, in shares of its own length, rising."""
        key, same_way = self.key(ref)
        return sorted(share if same_way else 1 - share for share in self.marks.get(key, ()))

    def spot(self, ref: EdgeRef, along: float, near: float = NEAREST) -> Spot:
        """The place so far along an edge (cm); what is ``near`` a corner or a mark is that."""
        cm = length(self.edges[ref].points)
        if along < near or along > cm - near:
            return Spot(ref, 0.0 if along < cm / 2 else 1.0)
        known = [each for each in self.shares(ref) if abs(each * cm - along) < near]
        return Spot(ref, known[0] if known else along / cm)

    def put(self, spot: Spot) -> Spot:
        """Mark the edge there, where it is neither a corner nor marked."""
        if spot.share not in (0.0, 1.0, *self.shares(spot.ref)):
            key, same_way = self.key(spot.ref)
            self.marks[key].append(spot.share if same_way else 1 - spot.share)
        return spot


def gathered(draft: Draft) -> Lines:
    """The garment before any line is drawn."""
    by_id = {piece.id: piece for piece in draft.pieces}
    out = Lines(draft, {part.id: by_id[part.piece] for part in draft.parts})
    mirrored = {part.id: part.mirrored for part in draft.parts}
    for part, piece in out.pieces.items():
        out.edges.update({EdgeRef(part, edge.id): edge for edge in piece.edges})
    for seam in draft.seams:
        same_way = mirrored[seam.a.part] != mirrored[seam.b.part]
        out.sewn[seam.a], out.sewn[seam.b] = (seam.b, same_way), (seam.a, same_way)
    return out


def enter(lines: Lines, part: str, line: tuple[Spot, Line, Spot]) -> None:
    """Note a line on a part, once."""
    a, b = lines.place(line[0]), lines.place(line[2])
    known = [{lines.place(start), lines.place(end)} for start, _, end in lines.lines[part]]
    if a != b and (line[1] or {a, b} not in known):
        lines.lines[part].append(line)


def stretches(lines: Lines, part: str) -> list[list[tuple[tuple[str, int], Line]]]:
    """A part's outline and holes as the stretches its edges come apart in; the outline first."""
    piece = lines.pieces[part]
    rings: list[list[tuple[tuple[str, int], Line]]] = []
    for edge in piece.edges:
        ring = rings[-1] if rings else []
        if not ring or math.dist(ring[-1][1][-1], ring[0][1][0]) < ONE_POINT:
            rings.append(ring := [])
        ring += [((edge.id, n), points) for n, points in enumerate(parted(edge.points, lines, EdgeRef(part, edge.id)))]
    return rings


def parted(points: Line, lines: Lines, ref: EdgeRef) -> list[Line]:
    """An edge's points in the stretches that it comes apart in."""
    out, rest, whole = [], points, length(points)
    for share in reversed(lines.shares(ref)):
        before, after = _cut_at(rest, share * whole)
        out.append(after)
        rest = before
    return [rest, *reversed(out)]


def _cut_at(line: Line, along: float) -> tuple[Line, Line]:
    """A line in two, a corner so near to the cut that no one could tell being left out."""
    at, walked = at_on(line, along), 0.0
    for n, (a, b) in enumerate(itertools.pairwise(line)):
        step = math.dist(a, b)
        if walked + step >= along:
            before, after = line[: n + 1], line[n + 1 :]
            if len(before) > 1 and math.dist(before[-1], at) < ONE_POINT:
                before = before[:-1]
            if len(after) > 1 and math.dist(after[0], at) < ONE_POINT:
                after = after[1:]
            return (*before, at), (at, *after)
        walked += step
    return line, line[-1:]


def at_on(line: Sequence[Point], along: float) -> Point:
    """The point so far along a line (cm)."""
    walked = 0.0
    for a, b in itertools.pairwise(line):
        step = math.dist(a, b)
        if walked + step >= along and step > 0:
            share = max(0.0, (along - walked) / step)
            return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
        walked += step
    return line[-1]


def chords(lines: Lines, part: str) -> list[Line]:
    """The lines on a part, from edge to edge."""
    return [(lines.place(a), *between, lines.place(b)) for a, between, b in lines.lines.get(part, [])]
