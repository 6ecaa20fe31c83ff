"""The directions in which two things part: the edges of their no-fit polygons."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from ellwand.geometry.lines import Line, Point, area
from ellwand.lay.bounds.cores import cores
from ellwand.lay.bounds.kinds import Way
from ellwand.lay.hulls import hull


@lru_cache(maxsize=1024)
def no_fit(first: Way, second: Way) -> tuple[tuple[tuple[Point, float], ...], ...]:
    """For each two convex parts: (outward normal, least distance) of the edges of their no-fit polygon.

    The parts are apart when the second's place less the first's lies beyond one of the edges.
    """
    # what is larger than a hole cannot lie in it
    a, b = _cores(first, second.solid), _cores(second, first.solid)
    return tuple(_edges(p, q) for p in a for q in b)


def _edges(p: Line, q: Line) -> tuple[tuple[Point, float], ...]:
    ring = hull([(px - qx, py - qy) for px, py in p for qx, qy in q])
    found = []
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        size = math.hypot(x1 - x0, y1 - y0)
        if size > 1e-7:
            normal = ((y1 - y0) / size, (x0 - x1) / size)
            found.append((normal, max(normal[0] * x + normal[1] * y for x, y in ring)))
    return tuple(_each_side_once(found))


def _each_side_once(found: Sequence[tuple[Point, float]]) -> Iterator[tuple[Point, float]]:
    known: set[tuple[float, float]] = set()
    for normal, least in found:
        key = (round(normal[0], 7), round(normal[1], 7))
        if key not in known:
            known.add(key)
            yield normal, least


def _cores(way: Way, other: float) -> tuple[Line, ...]:
    """The convex parts; holes that are smaller than the other thing count as cloth."""
    return _parts(way.outline, tuple(hole for hole in way.holes if abs(area(hole)) >= other))


@lru_cache(maxsize=1024)
def _parts(outline: Line, holes: tuple[Line, ...]) -> tuple[Line, ...]:
    return cores(outline, holes)
