"""A piece with other edges than it had: everything about it set anew."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from ellwand.geometry.lines import Line, bounds, chain, shift
from ellwand.model.piece import Edge, Piece


def outlined(piece: Piece, rings: Sequence[Sequence[Edge]], outside: Callable[[Sequence[Edge]], Line]) -> Piece:
    """The piece with that outline (the first ring) and those holes, set so that its cut outline starts at (0, 0).

    ``outside``: the cut outline about a ring of edges.  What is chalked on the piece moves along.
    """
    low_x, low_y, _, _ = bounds(outside(rings[0]))
    outer, *inner = [[replace(edge, points=shift(edge.points, -low_x, -low_y)) for edge in ring] for ring in rings]
    return replace(
        piece,
        sewn=sewn_ring(outer),
        sewn_holes=tuple(sewn_ring(hole) for hole in inner),
        cut=outside(outer),
        cut_holes=tuple(outside(hole) for hole in inner),
        edges=tuple(edge for ring in (outer, *inner) for edge in ring),
        levels=tuple(
            replace(
                level,
                base_y=level.base_y - low_y,
                centre=level.centre and (level.centre[0] - low_x, level.centre[1] - low_y),
            )
            for level in piece.levels
        ),
        guides=tuple(replace(guide, points=shift(guide.points, -low_x, -low_y)) for guide in piece.guides),
        marks=tuple(replace(mark, at=(mark.at[0] - low_x, mark.at[1] - low_y)) for mark in piece.marks),
    )


def sewn_ring(edges: Sequence[Edge]) -> Line:
    """Edges that follow each other round, as one ring, not closed."""
    return chain([edge.points for edge in edges])[:-1]
