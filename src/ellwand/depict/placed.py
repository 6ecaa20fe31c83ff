"""Pieces where they lie on the cloth."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ellwand.geometry.lines import Line, backwards
from ellwand.model.lay import Placement, lie
from ellwand.model.piece import Piece


def lie_ring(ring: Line, placement: Placement) -> Line:
    """A ring of the piece where it lies, walked so that it keeps its sense."""
    there = lie(ring, placement)
    return backwards(there) if placement.flip else there


def by_id(pieces: Sequence[Piece]) -> Mapping[str, Piece]:
    """Piece id -> piece."""
    return {piece.id: piece for piece in pieces}


def in_chalk_order(placements: Sequence[Placement], pieces: Sequence[Piece]) -> tuple[Placement, ...]:
    """From the cut end on, and there from the left selvedge."""
    known = by_id(pieces)

    def start(placement: Placement) -> tuple[float, float]:
        ring = lie(known[placement.piece].cut, placement)
        return round(min(y for _, y in ring), 1), round(min(x for x, _ in ring), 1)

    return tuple(sorted(placements, key=start))
