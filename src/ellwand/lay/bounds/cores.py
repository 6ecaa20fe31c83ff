"""Simple shapes within a piece: what keeps clear of the piece keeps clear of them, never the other way about."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
from shapely import box
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from ellwand.geometry.lines import Line, Point, area
from ellwand.lay.bounds.sections import Chords
from ellwand.lay.hulls import hull

FAR: Final = 1e4
"""Further (cm) than any cloth is long."""

LEAST: Final = 0.06
"""A further convex part must be this much of the whole to be worth its while."""

CORNERS: Final = 8
"""The most corners that a convex part keeps."""


def cores(outline: Line, holes: Sequence[Line], most: int = 3) -> tuple[Line, ...]:
    """At most ``most`` convex outlines within a piece, of few corners, counter-clockwise."""
    whole = rest = Polygon(outline, holes)
    parts: list[Line] = []
    for _ in range(most):
        part = _largest_convex(rest)
        if part is None or part.area < LEAST * whole.area:
            break
        parts.append(_fewer_corners(hull([(float(x), float(y)) for x, y in part.exterior.coords])))
        left = _largest(rest.difference(part.buffer(1e-7)))
        if left is None:
            break
        rest = left
    return tuple(parts)


def steps(chords: Chords, most: int = 4) -> list[tuple[float, float, float]]:
    """At most ``most`` (start, end, chord) under the chords: the piece is nowhere narrower; starts from 0."""
    tops = np.cumsum(chords[:, 0])
    rows = [(float(top - step), float(top), float(v), float(w)) for top, (step, v, w) in zip(tops, chords, strict=True)]
    cuts = np.unique(np.concatenate([np.linspace(0.0, float(tops[-1]), 25), tops if len(tops) <= 40 else []]))
    found = []
    for low, high in itertools.pairwise(float(cut) for cut in cuts):
        if high - low > 1e-9:
            through = [row for row in rows if row[1] > low + 1e-9 and row[0] < high - 1e-9]
            found.append(
                (low, high, min(min(_at(row, max(low, row[0])), _at(row, min(high, row[1]))) for row in through))
            )
    return _merged(found, most)


def _at(row: tuple[float, float, float, float], y: float) -> float:
    low, high, start, end = row
    return start + (end - start) * (y - low) / (high - low)


def _merged(found: list[tuple[float, float, float]], most: int) -> list[tuple[float, float, float]]:
    """Neighbours joined, those first that lose the least area."""

    def lost(k: int) -> float:
        (a, b, v), (_, d, w) = found[k], found[k + 1]
        return (v - min(v, w)) * (b - a) + (w - min(v, w)) * (d - b)

    while len(found) > 1:
        k = min(range(len(found) - 1), key=lost)
        if len(found) <= most and lost(k) > 1e-6:
            break
        found[k : k + 2] = [(found[k][0], found[k + 1][1], min(found[k][2], found[k + 1][2]))]
    return found


def _largest_convex(polygon: Polygon) -> Polygon | None:
    """A large convex outline within: cut along holes and along the sides of hollow corners until none is left."""
    part: Polygon | None = polygon
    for _ in range(80):
        if part is None or part.is_empty:
            return None
        halves = list(_halves(part))
        if not halves:
            return part
        kept = [_largest(part.intersection(half)) for half in halves]
        part = max((k for k in kept if k is not None), key=lambda k: k.area, default=None)
    return None


def _halves(polygon: Polygon) -> Iterator[Polygon]:
    """Half-planes of which any rids the polygon of its first hole, or of its deepest hollow corner."""
    if polygon.interiors:
        left, low, right, high = polygon.interiors[0].bounds
        yield box(-FAR, -FAR, left, FAR)
        yield box(right, -FAR, FAR, FAR)
        yield box(-FAR, -FAR, FAR, low)
        yield box(-FAR, high, FAR, FAR)
        return
    ring = [(float(x), float(y)) for x, y in polygon.exterior.coords[:-1]]
    ring = ring if polygon.exterior.is_ccw else ring[::-1]
    n = len(ring)
    deepest, at = max((-_sine(ring[k - 1], ring[k], ring[(k + 1) % n]), k) for k in range(n))
    if deepest > 1e-7:
        yield _left_of(ring[at - 1], ring[at])
        yield _left_of(ring[at], ring[(at + 1) % n])


def _left_of(a: Point, b: Point) -> Polygon:
    along = np.array([b[0] - a[0], b[1] - a[1]])
    along = along / np.hypot(*along) * FAR
    left = np.array([-along[1], along[0]])
    start, end = np.array(a) - along, np.array(b) + along
    return Polygon([start, end, end + left, start + left])


def _sine(a: Point, b: Point, c: Point) -> float:
    first, second = (b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])
    size = float(np.hypot(*first) * np.hypot(*second))
    return (first[0] * second[1] - first[1] * second[0]) / size if size else 0.0


def _largest(shape: BaseGeometry) -> Polygon | None:
    parts = [part for part in getattr(shape, "geoms", [shape]) if isinstance(part, Polygon) and part.area > 1e-6]
    return max(parts, key=lambda part: part.area, default=None)


def _fewer_corners(ring: Line) -> Line:
    """Corners left out, those first that cut off the least; more than a thousandth of the area only beyond CORNERS."""
    points, whole = list(ring), area(ring)
    while len(points) > 3:
        n = len(points)
        loss, at = min((area((points[k - 1], points[k], points[(k + 1) % n])), k) for k in range(n))
        if loss > (1e-9 if n <= 4 else 1e-3 * whole) and n <= CORNERS:
            break
        del points[at]
    return tuple(points)
