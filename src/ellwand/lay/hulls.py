"""Convex outlines: hulls, hulls with fewer corners, and the convex parts of an outline."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from shapely import constrained_delaunay_triangles
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, Point, area, bounds

Ring = NDArray[np.float64]

FLAT = 1e-6
"""An outline is convex when its hull is larger by no more than this (cm²)."""


def hull(points: Sequence[Point]) -> Line:
    """The convex hull, counter-clockwise from its least corner (Andrew's monotone chain, 1979)."""
    ordered = sorted(set(points))

    def chain(line: Sequence[Point]) -> list[Point]:
        out: list[Point] = []
        for p in line:
            while len(out) > 1 and _cross(out[-2], out[-1], p) <= 0:
                out.pop()
            out.append(p)
        return out[:-1]

    return tuple(chain(ordered) + chain(ordered[::-1]))


def is_convex(ring: Line) -> bool:
    """Whether the outline is its own hull."""
    return area(hull(ring)) - abs(area(ring)) <= FLAT


def fewer_corners(ring: Line, slack: float) -> Line:
    """A convex outline around ``ring`` with fewer corners, nowhere further out than about ``slack`` cm.

    Edges are dropped, nearest first, and their neighbours drawn out until they meet; straight edges that stay
    are not moved, and the bounding box is kept.
    """
    points = list(ring)
    box = bounds(ring)
    while len(points) > 4:
        found = [(_beyond(points, i, box), i) for i in range(len(points))]
        (gap, meeting), index = min(found)
        if gap > slack or meeting is None:
            break
        after = (index + 1) % len(points)
        points[index] = meeting
        del points[after]
    return tuple(points)


@lru_cache(maxsize=256)
def convex_parts(ring: Line) -> tuple[Ring, ...]:
    """Convex outlines that cover ``ring``: itself, or its triangles, joined where that stays convex."""
    if is_convex(ring):
        return (np.array(hull(ring)),)
    triangles = constrained_delaunay_triangles(Polygon(ring)).geoms
    parts = [hull([(float(x), float(y)) for x, y in t.exterior.coords]) for t in triangles]
    joined = True
    while joined:
        joined = False
        for i, j in combinations(range(len(parts)), 2):
            both = hull(parts[i] + parts[j])
            if len(set(parts[i]) & set(parts[j])) > 1 and area(both) - area(parts[i]) - area(parts[j]) <= FLAT:
                parts[i] = both
                del parts[j]
                joined = True
                break
    return tuple(np.array(part) for part in parts)


def _beyond(points: Sequence[Point], index: int, box: tuple[float, float, float, float]) -> tuple[float, Point | None]:
    """How far out the neighbours of edge ``index`` meet, and where; infinity when they do not, or outside."""
    a, b, c, d = (points[(index + k) % len(points)] for k in (-1, 0, 1, 2))
    first, second = (b[0] - a[0], b[1] - a[1]), (c[0] - d[0], c[1] - d[1])
    turn = first[0] * second[1] - first[1] * second[0]
    if turn >= -1e-12:
        return math.inf, None
    along = ((c[0] - b[0]) * second[1] - (c[1] - b[1]) * second[0]) / turn
    meeting = (b[0] + first[0] * along, b[1] + first[1] * along)
    left, low, right, high = box
    slip = 1e-9
    if not (left - slip <= meeting[0] <= right + slip and low - slip <= meeting[1] <= high + slip):
        return math.inf, None
    return abs(_cross(b, c, meeting)) / math.dist(b, c), meeting


def _cross(o: Point, a: Point, b: Point) -> float:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])
