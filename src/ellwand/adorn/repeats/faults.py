"""Whether the motifs of a repeat lie well: on the cloth, off the seams where asked, and clear of each other."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from ellwand.adorn.repeats.places import bends
from ellwand.geometry.lines import Line, Point
from ellwand.language import N_
from ellwand.model.draft import Draft
from ellwand.model.motif import Motif, placed_line
from ellwand.model.repeat import Repeat

MOST_BENT: Final = 0.12
"""Motifs that join may lie over each other on the inner side of a bend, or gape on its outer side, by this share of
their width: our own figure."""
OVER_EDGE: Final = N_("a motif would run over the edge")
EACH_OTHER: Final = N_("motifs would run into each other on the inner side of a bend")
GAPE: Final = N_("motifs that should join would gape on the outer side of a bend")
OFF_PIECE: Final = N_("a motif's middle would lie beyond its piece")
OVER_SEAM: Final = N_("a motif would run over a seam")
MENDS: Final[Mapping[str, str]] = {
    OVER_EDGE: N_("choose a smaller size, or a larger inset"),
    EACH_OTHER: N_("choose a smaller size, or a wider gap"),
    OFF_PIECE: N_("choose a smaller size or a smaller inset"),
    GAPE: N_("choose a smaller size or inset, or give a gap"),
    OVER_SEAM: N_("choose a smaller size or a wider gap, or leave clear_of_seams out"),
}


@dataclass(frozen=True, slots=True)
class _Edges:
    """Lines of one part's piece (shapely)."""

    left_open: Any
    seams: Any


class OnCloth:
    """The parts' open edges and seams."""

    def __init__(self, draft: Draft) -> None:
        self.draft = draft
        self.pieces = {part.id: piece for part in draft.parts for piece in draft.pieces if piece.id == part.piece}
        self.sewn = {(ref.part, ref.edge) for seam in draft.seams for ref in (seam.a, seam.b)}
        self.known: dict[str, _Edges] = {}

    def edges(self, part: str) -> _Edges:
        from shapely import MultiLineString

        if part not in self.known:
            edges = self.pieces[part].edges
            self.known[part] = _Edges(
                *(
                    MultiLineString([edge.points for edge in edges if ((part, edge.id) in self.sewn) == sewn])
                    for sewn in (False, True)
                )
            )
        return self.known[part]

    def fault(self, repeat: Repeat) -> str:
        """What is wrong with how the motifs lie, or ''."""
        from shapely import Point as Spot
        from shapely import Polygon

        shapes = {False: _hull(repeat.motif), True: _hull(repeat.corner or repeat.motif)}
        hulls = []
        for each in repeat.placements:
            line, middle = shapes[each.corner]
            hull = Polygon(placed_line(line, middle, each.point, each.angle, each.mirrored)).buffer(-1e-3)
            edges = self.edges(each.part)
            if edges.left_open.intersects(hull):
                return OVER_EDGE
            if not each.again and not Polygon(self.pieces[each.part].sewn).intersects(Spot(each.point)):
                return OFF_PIECE
            if repeat.chosen.clear_of_seams and edges.seams.intersects(hull):
                return OVER_SEAM
            hulls.append((each, hull))
        if repeat.joins:
            over, gape = bends(repeat)
            if max(over, gape) > MOST_BENT * repeat.size:
                return EACH_OTHER if over > gape else GAPE
        else:
            around = [*hulls, hulls[0]] if repeat.run.closed and len(hulls) > 1 else hulls
            for (one, hull), (other, beside) in itertools.pairwise(around):
                # what is set into a part between two of them is not there on its piece
                between = any(one.at < seam < other.at for seam in repeat.run.seams)
                if one.part == other.part and one.at != other.at and not between and hull.intersects(beside):
                    return EACH_OTHER
        return ""


def _hull(motif: Motif) -> tuple[Line, Point]:
    """The motif's convex hull, and the middle of its square."""
    from shapely import multipoints

    hull = multipoints([point for region in motif.regions for point in region.ring]).convex_hull
    return tuple(hull.exterior.coords[:-1]), (motif.size[0] / 2, motif.size[1] / 2)
