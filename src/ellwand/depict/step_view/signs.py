"""Small signs on paper (cm): arrows, dots, bars, breaks, hatching."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from ellwand.geometry.lines import Line, Point, arc, length, split
from ellwand.model.drawing import Stroke

if TYPE_CHECKING:
    from shapely import Geometry, Polygon

HEAD: Final = 0.17
"""Length of an arrowhead."""
HATCH: Final = 0.2
"""Between the lines that show the wrong side."""


def arrow(line: Sequence[Point], both: bool = False) -> list[Stroke]:
    """A line with a filled head at its end, or at both."""
    out = [Stroke("way", tuple(line)), head(line[-2], line[-1])]
    return [*out, head(line[1], line[0])] if both else out


def head(before: Point, tip: Point, size: float = HEAD) -> Stroke:
    """A filled arrowhead."""
    angle = math.atan2(tip[1] - before[1], tip[0] - before[0])
    back = [(tip[0] - size * math.cos(angle + turn), tip[1] - size * math.sin(angle + turn)) for turn in (0.38, -0.38)]
    return Stroke("way", (tip, *back), True)


def dot(at: Point, size: float = 0.07) -> Stroke:
    """A filled dot."""
    return Stroke("way", arc(at, size, 0.0, 2 * math.pi, 0.5)[:-1], True)


def cross_bar(at: Point, along: float, half: float = 0.16) -> list[Stroke]:
    """A bar of stitches: a short thick line across ``along`` (radians) with small feet."""
    c, s = math.cos(along + math.pi / 2), math.sin(along + math.pi / 2)
    a, b = (at[0] - c * half, at[1] - s * half), (at[0] + c * half, at[1] + s * half)
    foot = 0.06
    feet = [
        Stroke("stitch", ((p[0] - s * -foot, p[1] - c * foot), (p[0] + s * -foot, p[1] + c * foot))) for p in (a, b)
    ]
    return [Stroke("sew here", (a, b)), *feet]


def back_stitches(at: Point, half: float = 0.11) -> list[Stroke]:
    """A few stitches one on the other: a small thick cross."""
    x, y = at
    return [Stroke("sew here", ((x - half, y - k * half), (x + half, y + k * half))) for k in (1, -1)]


def square(at: Point, half: float = 0.17) -> Stroke:
    """A small square: a patch."""
    x, y = at
    return Stroke(
        "stitch", ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)), True
    )


def hatch(shape: Polygon, spare: Geometry) -> list[Stroke]:
    """Slanting lines over a shape, save where ``spare`` is: the wrong side of the cloth."""
    from shapely import MultiLineString

    x0, y0, x1, y1 = shape.bounds
    rise = y1 - y0
    count = math.ceil((x1 - x0 + rise) / (HATCH * math.sqrt(2)))
    rays = [
        ((x0 - rise + i * HATCH * math.sqrt(2), y0), (x0 + i * HATCH * math.sqrt(2), y1)) for i in range(1, count + 1)
    ]
    seen = MultiLineString(rays).intersection(shape.buffer(-0.05)).difference(spare)
    return [Stroke("wrong side", line) for line in lines_of(seen) if length(line) > 0.08]


def lines_of(shape: Geometry) -> list[Line]:
    """Every run of points in a shape of lines."""
    from shapely import LineString, get_parts

    return [
        tuple((float(x), float(y)) for x, y in part.coords)
        for part in get_parts(shape)
        if isinstance(part, LineString) and not part.is_empty
    ]


def wave(start: Point, end: Point) -> Stroke:
    """A wavy line: here the piece runs on."""
    long = math.dist(start, end)
    count = max(2, round(long / 0.5))
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    points = []
    for i in range(count * 8 + 1):
        t = long * i / (count * 8)
        swing = 0.06 * math.sin(2 * math.pi * i / 8)
        points.append((start[0] + ux * t - uy * swing, start[1] + uy * t + ux * swing))
    return Stroke("link", tuple(points))


def between(line: Sequence[Point], start: float, end: float) -> Line:
    """The stretch of a line from one share of its length to another."""
    long = length(line)
    if start <= 0 and end >= 1:
        return tuple(line)
    if start <= 0:
        return split(line, [long * end])[0]
    if end >= 1:
        return split(line, [long * start])[1]
    return split(line, [long * start, long * end])[1]


def at_share(line: Sequence[Point], share: float) -> tuple[Point, float]:
    """The point at a share of a line's length, and its direction there (radians)."""
    left = length(line) * share
    for a, b in itertools.pairwise(line):
        step = math.dist(a, b)
        if left <= step or b == line[-1]:
            t = left / step if step else 0.0
            return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t), math.atan2(b[1] - a[1], b[0] - a[0])
        left -= step
    return line[-1], 0.0
