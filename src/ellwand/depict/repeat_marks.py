"""Motifs on the drawing of a piece, where all parts that are cut as it bear them alike."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ellwand.depict.tinctures import polygons_of, ring_of
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.piece import Piece
from ellwand.model.repeat import Placement, Repeat, motif_rings

NEAR = 0.3
"""Motifs nearer than this (cm) lie alike."""


def motif_strokes(draft: Draft, piece: Piece) -> list[Stroke]:
    """The motifs that lie on a piece, cut off at its sewn edges; none where its parts differ."""
    from shapely import Polygon

    parts = [part.id for part in draft.parts if part.piece == piece.id]
    if not parts or not draft.adornment.repeats:
        return []
    on = [list(_on(draft.adornment.repeats, part)) for part in parts]
    if any(not _alike(on[0], other) for other in on[1:]):
        return []
    sewn = Polygon(piece.sewn, piece.sewn_holes).buffer(0)
    out = []
    for repeat, placement in on[0]:
        for ring, holes in motif_rings(repeat, placement):
            for part in polygons_of(Polygon(ring, holes).buffer(0).intersection(sewn)):
                line, inner = ring_of(part)
                out.append(Stroke("motif", line, True, inner))
    return out


def _on(repeats: Sequence[Repeat], part: str) -> Iterator[tuple[Repeat, Placement]]:
    return ((repeat, each) for repeat in repeats for each in repeat.placements if each.part == part)


def _alike(one: Sequence[tuple[Repeat, Placement]], other: Sequence[tuple[Repeat, Placement]]) -> bool:
    """Whether two parts bear the same motifs in the same places."""
    near = all(any(math.dist(a.point, b.point) < NEAR for _, b in other) for _, a in one)
    return len(one) == len(other) and near
