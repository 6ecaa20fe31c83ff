"""Polylines: runs of points in centimetres."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Line = tuple[Point, ...]

SAME = 1e-7
"""Two points nearer than this (cm) are one point."""


def length(line: Sequence[Point]) -> float:
    """The length of a polyline in cm."""
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(line))


def area(ring: Sequence[Point]) -> float:
    """Signed area (cm²) of a ring that is not closed by a repeated point; counter-clockwise is positive."""
    return 0.5 * math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], *ring[:1]], strict=True))


def shift(line: Iterable[Point], dx: float, dy: float) -> Line:
    """The line moved by (dx, dy)."""
    return tuple((x + dx, y + dy) for x, y in line)


def mirror(line: Iterable[Point]) -> Line:
    """The line mirrored left to right (x becomes −x), its points in the same order."""
    return tuple((-x if x else 0.0, y) for x, y in line)


def turn(line: Iterable[Point], degrees: float) -> Line:
    """The line turned counter-clockwise about the origin; quarter turns are exact."""
    quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    c, s = quarter.get(degrees % 360.0) or (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    return tuple((x * c - y * s, x * s + y * c) for x, y in line)


def backwards(line: Sequence[Point]) -> Line:
    """The line walked from its other end."""
    return tuple(reversed(line))


def chain(lines: Iterable[Sequence[Point]]) -> Line:
    """Lines laid end to end as one; each must start where the one before ends."""
    out: list[Point] = []
    for line in lines:
        if out and math.dist(out[-1], line[0]) > 1e-6:
            raise ValueError(f"lines do not meet: {out[-1]} and {line[0]}")
        out.extend(line[1:] if out else line)
    return tuple(out)


def split(line: Sequence[Point], at: Sequence[float]) -> list[Line]:
    """The line cut at the given lengths along it (cm, rising), so n cuts give n + 1 lines."""
    pieces: list[Line] = []
    current: list[Point] = [line[0]]
    walked = 0.0
    cuts = list(at)
    for a, b in itertools.pairwise(line):
        step = math.dist(a, b)
        while cuts and cuts[0] < walked + step - SAME:
            t = max(0.0, (cuts.pop(0) - walked) / step)
            cut = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
            current.append(cut)
            pieces.append(tuple(current))
            current = [cut]
        current.append(b)
        walked += step
        if cuts and abs(cuts[0] - walked) <= SAME:
            cuts.pop(0)
            pieces.append(tuple(current))
            current = [b]
    pieces.append(tuple(current))
    return pieces


def arc(centre: Point, radius: float, start: float, end: float, step: float = 0.035) -> Line:
    """Points on a circular arc from angle ``start`` to ``end`` (radians), no further apart than ``step``."""
    count = max(2, math.ceil(abs(end - start) / step))
    return tuple(
        (centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a))
        for a in (start + (end - start) * i / count for i in range(count + 1))
    )


def bounds(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """(least x, least y, greatest x, greatest y)."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
