"""What our motifs are drawn with: discs, petals, strokes and leaves, in the motif's own units."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from typing import Any, Final

from shapely import LineString, Polygon, affinity, box, get_parts, set_precision, union_all
from shapely.geometry.polygon import orient

from ellwand.geometry.lines import Line, Point

Shape = Any
"""A shapely polygon or several."""
FINE: Final = 24
"""Straight bits to a quarter of a circle: on a roundel of 12 cm, chords stay within 0.1 mm of the circle."""
TURN: Final = 2 * math.pi
GRID: Final = 1e-5
CRUMB: Final = 3e-4
"""What is smaller than this share of the motif's square is left over from cutting, and dropped."""


def disc(at: Point, radius: float) -> Shape:
    """A filled circle."""
    steps = 4 * FINE
    return Polygon(
        [
            (at[0] + radius * math.cos(TURN * i / steps), at[1] + radius * math.sin(TURN * i / steps))
            for i in range(steps)
        ]
    )


def ring(at: Point, outer: float, inner: float) -> Shape:
    """A circle with a round hole."""
    return disc(at, outer).difference(disc(at, inner))


def bar(x0: float, y0: float, x1: float, y1: float) -> Shape:
    """An upright rectangle."""
    return box(x0, y0, x1, y1)


def stroke(path: Sequence[Point], width: float, *, ends: str = "round") -> Shape:
    """A line of even width; its ends ``round`` or ``flat``."""
    return LineString(path).buffer(width / 2, quad_segs=FINE // 2, cap_style=ends, join_style="round")


def tapered(path: Sequence[Point], start: float, end: float) -> Shape:
    """A line whose width goes evenly from ``start`` to ``end``, round at both ends."""
    left, right = [], []
    for i, (x, y) in enumerate(path):
        (ax, ay), (bx, by) = path[max(0, i - 1)], path[min(len(path) - 1, i + 1)]
        long = math.hypot(bx - ax, by - ay)
        half = (start + (end - start) * i / (len(path) - 1)) / 2
        nx, ny = -(by - ay) / long * half, (bx - ax) / long * half
        left.append((x + nx, y + ny))
        right.append((x - nx, y - ny))
    body = Polygon([*left, *reversed(right)]).buffer(0)
    return union_all([body, disc(path[0], start / 2), disc(path[-1], end / 2)])


def curve(at: Callable[[float], Point], start: float, end: float, steps: int = 48) -> list[Point]:
    """Points of a curve that is given by a formula."""
    return [at(start + (end - start) * i / steps) for i in range(steps + 1)]


def cubic(a: Point, b: Point, c: Point, d: Point, steps: int = 24) -> list[Point]:
    """Points of a Bézier curve of the third degree."""

    def at(t: float) -> Point:
        s = 1 - t
        w = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
        return (
            w[0] * a[0] + w[1] * b[0] + w[2] * c[0] + w[3] * d[0],
            w[0] * a[1] + w[1] * b[1] + w[2] * c[1] + w[3] * d[1],
        )

    return curve(at, 0.0, 1.0, steps)


def petal(root: Point, tip: Point, width: float, *, fullest: float = 0.5) -> Shape:
    """A pointed leaf from ``root`` to ``tip``, ``width`` wide; ``fullest``: how far along it is widest."""
    length = math.dist(root, tip)
    bow = width * 2 / 3
    out = []
    for side in (1, -1):
        half = cubic(
            (0.0, 0.0),
            (length * fullest * 0.6, side * bow),
            (length * (0.4 + fullest * 0.6), side * bow),
            (length, 0.0),
        )
        out.append(half if side > 0 else list(reversed(half)))
    flat = Polygon([*out[0], *out[1][1:-1]])
    turned = affinity.rotate(flat, math.atan2(tip[1] - root[1], tip[0] - root[0]), (0, 0), use_radians=True)
    return affinity.translate(turned, *root)


def turned(shape: Shape, degrees: float, about: Point) -> Shape:
    """Turned counter-clockwise."""
    return affinity.rotate(shape, degrees, about)


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """Moved."""
    return affinity.translate(shape, dx, dy)


def flipped(shape: Shape, x: float) -> Shape:
    """Mirrored left to right about the line at ``x``."""
    return affinity.scale(shape, -1.0, 1.0, origin=(x, 0))


def around(shape: Shape, count: int, about: Point) -> Shape:
    """So many copies round a point."""
    return union_all([turned(shape, 360 * i / count, about) for i in range(count)])


def rings_of(shapes: Iterable[Shape]) -> tuple[tuple[Line, tuple[Line, ...]], ...]:
    """All of it as (ring, holes), what overlaps made one, from left to right and from below."""
    # on a fine grid, so that no two points all but coincide once the motif is scaled
    whole = set_precision(union_all(list(shapes)), GRID)
    parts = [orient(part) for part in get_parts(whole) if part.area > CRUMB]
    parts.sort(key=lambda part: (round(part.bounds[0], 6), round(part.bounds[1], 6)))
    return tuple((_line(part.exterior), tuple(_line(hole) for hole in part.interiors)) for part in parts)


def _line(closed: Any) -> Line:
    return tuple((float(x), float(y)) for x, y in closed.coords[:-1])
