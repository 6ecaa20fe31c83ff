"""A straight line across a piece, and every edge of the garment that comes apart along with it."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, Point, length, split
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.names import named
from ellwand.model.piece import Edge, Piece

NEAREST: Final = 0.5
"""A piecing seam ends no nearer to a corner than this (cm), or in the corner itself."""
NEAREST_HOLE: Final = 2.0
"""It passes a neck hole no nearer than this (cm): two allowances and a hem would lie on each other."""
HAIR: Final = 1e-6
"""Nearer to the line than this (cm) is on it."""
_ONE: Final = 0.02
"""Two marks on an edge nearer than this (cm) are one: seam edges may differ by a tenth of a millimetre."""

Marks = Mapping[tuple[str, str], Sequence[float]]
"""(piece, edge) -> the lengths along it (cm) at which it comes apart, rising."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A straight line across a piece: x = ``at`` or y = ``at`` in the piece's own coordinates (cm).

    What lies on the ``off`` side becomes a piece of its own, ``called`` so after the piece's name.
    """

    axis: Literal["x", "y"]
    at: float
    off: Literal["low", "high"]
    called: str

    def beyond(self, point: Point) -> float:
        """How far (cm) a point lies on the side that comes off; below 0 on the side that stays."""
        reach = point[0 if self.axis == "x" else 1] - self.at
        return reach if self.off == "high" else -reach


def _refused(problem: str) -> CannotDraft:
    return CannotDraft("garment.body.pieced", problem, _("piece it elsewhere"))


def crossings(piece: Piece, cut: Cut) -> dict[str, list[float]]:
    """Where the line crosses the edges of the outline: lengths along each (cm).

    Raises CannotDraft where no piecing seam can run.
    """
    for hole in piece.sewn_holes:
        reach = [cut.beyond(point) for point in hole]
        if min(reach) < NEAREST_HOLE and max(reach) > -NEAREST_HOLE:
            raise _refused(_("a piecing seam of the {name} would run through the neck", name=named(piece.name)))
    ring = [edge for edge in piece.edges if lies_on(edge, piece.sewn)]
    out = {edge.id: on_line(edge.points, cut) for edge in ring}
    if any(out[edge.id] for edge in ring if edge.kind in ("neck", "neck slit")):
        raise _refused(_("a piecing seam of the {name} would run through the neck", name=named(piece.name)))
    signs = [side for edge in ring for line in split(edge.points, out[edge.id]) for side in [side_of(line, cut)]]
    if 0 in signs:
        raise _refused(_("a piecing seam of the {name} would run along an edge", name=named(piece.name)))
    turns = sum(1 for a, b in zip(signs, [*signs[1:], *signs[:1]], strict=True) if a != b)
    if turns == 0:
        raise _refused(_("a piecing seam would miss the {name}", name=named(piece.name)))
    if turns > 2:
        raise _refused(_("a piecing seam of the {name} would run through a slit or a hollow", name=named(piece.name)))
    return {edge: at for edge, at in out.items() if at}


def lies_on(edge: Edge, ring: Line) -> bool:
    """Whether an edge is part of a ring."""
    return edge.points[0] in ring and edge.points[1] in (*ring, ring[0])


def on_line(line: Line, cut: Cut) -> list[float]:
    """The lengths along a line (cm) at which it crosses the cut, its ends left out."""
    out, walked, before, zero = [], 0.0, 0.0, 0.0
    last = line[0]
    for point in line:
        step, reach, came = math.dist(last, point), cut.beyond(point), cut.beyond(last)
        if abs(reach) <= HAIR:
            zero = walked + step
        else:
            if before * reach < 0:
                out.append(zero if abs(came) <= HAIR else walked + step * came / (came - reach))
            before = reach
        walked, last = walked + step, point
    return out


def side_of(line: Line, cut: Cut) -> int:
    """1 on the side that comes off, −1 on the side that stays, 0 along the cut."""
    reach = max((cut.beyond(point) for point in line), key=abs)
    return 0 if abs(reach) <= HAIR else int(math.copysign(1, reach))


def spread(draft: Draft, first: Mapping[tuple[str, str], Sequence[float]]) -> Marks:
    """The marks carried over to every edge that a marked one is sewn to, until none is new.

    Raises CannotDraft where a seam would end beside a corner.
    """
    of_part = {part.id: part for part in draft.parts}
    cm = {(piece.id, edge.id): length(edge.points) for piece in draft.pieces for edge in piece.edges}
    sewn_to: dict[tuple[str, str], list[tuple[tuple[str, str], bool]]] = defaultdict(list)
    for seam in draft.seams:
        (pa, a), (pb, b) = ((of_part[ref.part], ref.edge) for ref in (seam.a, seam.b))
        same_way = pa.mirrored != pb.mirrored
        sewn_to[pa.piece, a].append(((pb.piece, b), same_way))
        sewn_to[pb.piece, b].append(((pa.piece, a), same_way))
    marks: dict[tuple[str, str], list[float]] = defaultdict(list)
    new = [(key, at) for key, along in first.items() for at in along]
    while new:
        key, at = new.pop()
        if any(abs(at - known) < _ONE for known in marks[key]):
            continue
        if any(abs(at - known) < NEAREST for known in (0.0, cm[key], *marks[key])):
            raise _refused(_("a piecing seam would end right beside a corner"))
        marks[key].append(at)
        for other, same_way in sewn_to[key]:
            share = at / cm[key]
            new.append((other, cm[other] * (share if same_way else 1 - share)))
    return {key: sorted(along) for key, along in marks.items()}
