"""Tongues of a stencil's card: long loose parts that are held at one end, and where to tie them.

The edge of the solid card is set with points, which are joined to their neighbours (Delaunay's triangulation): the
joins that keep to the card give the way through it from point to point, those that leave it are places for a bridge.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry.base import BaseGeometry

SPACED: Final = 0.3
"""Between the points (cm)."""
ACROSS: Final = 40
"""And no more than so many across a large motif."""
LOOSE: Final = 4.0
"""Card so far from what lies outside the motif, along the card, may curl up (cm): our own figure."""
ROUND: Final = 12.0
"""And is tied where the other side of a window is farther than this along the card (cm): our own figure."""
CROSSED: Final = 2.0
"""Wider windows are not crossed for it (cm): our own figure."""

CROSSES: Final = 0.05
"""A line that lies less than this in a window (cm) keeps to the card."""
FROM: Final = 150
"""Of so many places, the loosest, it is measured how far round the other side is."""
TRIED: Final = 24
"""So many places are looked at closely."""

Numbers = npt.NDArray[np.float64]


def places(core: BaseGeometry, windows: BaseGeometry, width: float) -> list[BaseGeometry]:
    """Lines across windows that would tie the loosest tongue of a card, none where nothing is loose.

    ``core``: the solid card, half a bridge's ``width`` from its windows (cm).
    """
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import dijkstra
    from scipy.spatial import Delaunay

    x0, y0, x1, y1 = windows.bounds
    apart = max(SPACED, max(x1 - x0, y1 - y0) / ACROSS)
    edge = shapely.segmentize(core, apart)
    spots, number = np.unique(np.round(shapely.get_coordinates(edge), 9), axis=0, return_inverse=True)
    if len(spots) < 4:
        return []
    _, ring = shapely.get_coordinates(shapely.get_rings(edge), return_index=True)
    on = ring[1:] == ring[:-1]
    corners = Delaunay(spots).simplices
    joins = np.vstack([corners[:, [0, 1]], corners[:, [1, 2]], corners[:, [0, 2]]])
    joins = np.vstack([joins, np.column_stack([number[:-1][on], number[1:][on]])])
    pairs = np.unique(np.sort(joins, axis=1), axis=0)
    lines = shapely.linestrings(spots[pairs])
    long = shapely.length(lines)
    shapely.prepare(windows)
    leaves = shapely.intersects(lines, windows)
    leaves[leaves] = shapely.length(shapely.intersection(lines[leaves], windows)) > CROSSES
    inside = pairs[~leaves]
    ways = coo_array((long[~leaves], (inside[:, 0], inside[:, 1])), shape=(len(spots), len(spots))).tocsr()
    firm = np.flatnonzero(shapely.disjoint(shapely.points(spots), windows.convex_hull))
    away = dijkstra(ways, directed=False, indices=firm, min_only=True)
    short = leaves & (long - width < CROSSED) & (away[pairs].max(axis=1) > LOOSE)
    if not short.any():
        return []
    tried, lines = pairs[short], lines[short]
    loosest = np.argsort(-away[tried].max(axis=1), kind="stable")[:FROM]
    tried, lines = tried[loosest], lines[loosest]
    rows, row = np.unique(tried[:, 0], return_inverse=True)
    through: Numbers = dijkstra(ways, directed=False, indices=rows)
    around = np.nan_to_num(through[row, tried[:, 1]], posinf=0.0)
    if around.max() <= ROUND:
        return []
    best = lines[around > max(ROUND, 0.85 * float(around.max()))]
    straight = [_straightened(line, core.boundary, apart) for line in best[:: max(1, len(best) // TRIED)]]
    found = [(line, line.intersection(windows)) for line in straight]
    return [line for line, inner in found if inner.geom_type == "LineString" and inner.length > CROSSES]


def _straightened(line: BaseGeometry, edge: BaseGeometry, apart: float) -> BaseGeometry:
    """The shortest line from where one begins to the edge about where it ends."""
    start, end = shapely.points(line.coords[0]), shapely.points(line.coords[-1])
    about = edge.intersection(end.buffer(min(2 * apart, 0.8 * line.length)))
    return line if about.is_empty else shapely.shortest_line(start, about)
