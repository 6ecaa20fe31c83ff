"""Where the edges of bands lie on the pieces, to be chalked before anything is sewn."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from shapely import LineString, Polygon, get_parts

from ellwand.adorn.runs.making import edge_stretch
from ellwand.geometry.lines import Line, Point
from ellwand.model.band import Band
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.piece import Guide, Piece
from ellwand.model.run import Stretch, hand_in
from ellwand.model.surface import Surface, surface_of

LEAST: float = 0.5
"""A shorter bit of line is not worth chalking (cm)."""


def chalked(draft: Draft, bands: Sequence[Band], names: Mapping[int, str]) -> tuple[Piece, ...]:
    """The draft's pieces with a line for each edge of a band that lies inside them; ``names`` by the band's number."""
    surface = surface_of(draft)
    piece_of = {part.id: part.piece for part in draft.parts}
    lines: dict[str, dict[Guide, None]] = defaultdict(dict)
    for band in bands:
        for part, line in _lines(surface, band):
            rounded = tuple((round(x, 4), round(y, 4)) for x, y in line)
            lines[piece_of[part]][Guide(names[band.number], rounded)] = None
    return tuple(replace(piece, guides=(*piece.guides, *lines.get(piece.id, ()))) for piece in draft.pieces)


def _lines(surface: Surface, band: Band) -> Iterator[tuple[str, Line]]:
    stretches = band.run.stretches
    for i, stretch in enumerate(stretches):
        # at a seam the line goes on, and is cut off there
        ends = band.run.closed or i > 0, band.run.closed or i + 1 < len(stretches)
        if band.run.along == "edge":
            yield from _beside(surface, stretch, band.width, ends)
        elif band.run.along == "line":
            for side in (-1, 1):
                yield from _beside(surface, stretch, side * band.width / 2, ends)
        else:
            across = surface.across[EdgeRef(stretch.part, stretch.edge)][0]
            other = edge_stretch(surface, across)
            yield from _beside(surface, stretch, band.width / 2, ends)
            yield from _beside(surface, other, band.width / 2, (ends[1], ends[0]))


def _beside(surface: Surface, stretch: Stretch, inward: float, ends: tuple[bool, bool]) -> Iterator[tuple[str, Line]]:
    piece = surface.pieces[stretch.part]
    points = [*stretch.points]
    if ends[0]:
        points.insert(0, _beyond(points[1], points[0], abs(inward)))
    if ends[1]:
        points.append(_beyond(points[-2], points[-1], abs(inward)))
    beside = LineString(points).offset_curve(inward * hand_in(stretch), join_style="mitre")
    inside = beside.intersection(Polygon(piece.sewn, piece.sewn_holes))
    for part in get_parts(inside):
        if part.geom_type == "LineString" and part.length >= LEAST:
            yield stretch.part, tuple((float(x), float(y)) for x, y in part.coords)


def _beyond(a: Point, b: Point, far: float) -> Point:
    step = math.dist(a, b) or 1.0
    return b[0] + (b[0] - a[0]) / step * far, b[1] + (b[1] - a[1]) / step * far
