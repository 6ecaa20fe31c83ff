"""A draft as it is looked up while its order of work is made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ellwand.model.draft import Draft, EdgeRef, Seam, whole_part
from ellwand.model.piece import Edge, Piece


@dataclass(frozen=True, slots=True)
class Bench:
    """``pieces`` by the part's id; ``sewn``: each edge's seam."""

    draft: Draft
    pieces: Mapping[str, Piece]
    edges: Mapping[EdgeRef, Edge]
    sewn: Mapping[EdgeRef, Seam]
    whole_side_panels: bool

    @property
    def is_tunic(self) -> bool:
        """Whether it is cut as a tunic is, with a body."""
        return self.draft.choices.other is None

    @property
    def in_the_round(self) -> bool:
        """Whether its sleeves are closed before they are set in."""
        choices = self.draft.choices
        return self.is_tunic and choices.sleeve.shape != "none" and choices.sewing.sleeves == "in the round"

    @property
    def hangs_first(self) -> bool:
        """Whether slanting edges settle before the hem is levelled."""
        return self.is_tunic and any(piece.levels and piece.levels[0].centre for piece in self.draft.pieces)


def bench_of(draft: Draft) -> Bench:
    """Look the draft's parts up once."""
    by_id = {piece.id: piece for piece in draft.pieces}
    pieces = {part.id: by_id[part.piece] for part in draft.parts}
    edges = {EdgeRef(part, edge.id): edge for part, piece in pieces.items() for edge in piece.edges}
    sewn = {ref: seam for seam in draft.seams for ref in (seam.a, seam.b)}
    whole = any(whole_part(part) in ("side-panel-left", "side-panel-right") for part in pieces)
    return Bench(draft, pieces, edges, sewn, whole)
