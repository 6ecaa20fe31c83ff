"""Where the stripes of a cloth meet its pieces.

Each piece has a mark, a point that lies on the middle of a stripe whichever way the piece is turned: the stripes look
alike to both sides of their middle, so parts of one piece look alike too.  From the first piece the pattern is
carried over the seams that run straight along the grain, to each piece that is not settled yet.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

from ellwand.geometry.lines import Line, Point, bounds
from ellwand.lay.sides import UPRIGHT, is_even
from ellwand.model.draft import Part, Seam
from ellwand.model.piece import Piece, edge_of


def marks_of(pieces: Sequence[Piece], parts: Sequence[Part], seams: Sequence[Seam]) -> Mapping[str, Point]:
    """Each piece's mark, in its own coordinates; pieces that come first are settled first."""
    by_id = {piece.id: piece for piece in pieces}
    of = {part.id: part for part in parts}
    marks: dict[str, Point] = {}
    for first in pieces:
        if first.id in marks:
            continue
        marks[first.id] = mark_of(first)
        waiting = [first.id]
        while waiting:
            known = waiting.pop(0)
            for seam in seams:
                for one, other in ((seam.a, seam.b), (seam.b, seam.a)):
                    a, b = of.get(one.part), of.get(other.part)
                    if a is None or b is None or a.piece != known or b.piece in marks or b.piece not in by_id:
                        continue
                    from_, to = edge_of(by_id[known], one.edge).points, edge_of(by_id[b.piece], other.edge).points
                    to = to[::-1] if a.mirrored == b.mirrored else to
                    if _is_upright(from_) and _is_upright(to):
                        marks[b.piece] = _carried(marks[known], by_id[known], from_, by_id[b.piece], to)
                        waiting.append(b.piece)
    return marks


def mark_of(piece: Piece) -> Point:
    """The point of the piece that lies on the middle of a stripe, before any seam is asked.

    Across: the middle of a piece that is the same left and right; else its longest straight seam along the grain (the
    centre seam of a half); else the middle of its sewn width.  Along: the level of the hem it hangs from; else the
    lower end of what is sewn.
    """
    left, low, right, _ = bounds(piece.sewn)
    along = next((level.base_y for level in piece.levels if level.centre is None), low)
    if is_even(piece.cut):
        return (bounds(piece.cut)[0] + bounds(piece.cut)[2]) / 2, along
    straight = [
        (math.dist(a, b), a[0])
        for edge in piece.edges
        if edge.kind.endswith("seam")
        for a, b in itertools.pairwise(edge.points)
        if abs(a[0] - b[0]) <= UPRIGHT
    ]
    return max(straight)[1] if straight else (left + right) / 2, along


def _is_upright(line: Line) -> bool:
    return max(x for x, _ in line) - min(x for x, _ in line) <= UPRIGHT


def _carried(mark: Point, piece: Piece, edge: Line, other: Piece, its_edge: Line) -> Point:
    """The mark of the other piece, so that the pattern runs on over the seam; both edges in the same sense."""
    (x, y), (its_x, its_y) = edge[0], its_edge[0]
    # how far behind the seam, and how far along it, the mark lies
    behind = (x - mark[0]) * _outward(piece, x)
    along = (mark[1] - y) * math.copysign(1.0, edge[-1][1] - y)
    return its_x + behind * _outward(other, its_x), its_y + along * math.copysign(1.0, its_edge[-1][1] - its_y)


def _outward(piece: Piece, x: float) -> float:
    """1 where the piece lies to the left of its edge at x, else −1."""
    left, _, right, _ = bounds(piece.sewn)
    return 1.0 if x > (left + right) / 2 else -1.0
