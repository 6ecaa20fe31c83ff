"""Where lines cross each other."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Sequence

from ellwand.geometry.lines import Line, Point, length


def walks_of(
    lines: Sequence[Line], end_at: Callable[[Point], int], cross_at: Callable[[Point], int]
) -> list[list[int]]:
    """The lines from node to node, parted where they cross each other."""
    ends = [(end_at(line[0]), end_at(line[-1])) for line in lines]
    on: list[list[tuple[float, int]]] = [
        [
            (0.0, first),
            *((length(line[: i + 1]), cross_at(line[i])) for i in range(1, len(line) - 1)),
            (length(line), last),
        ]
        for line, (first, last) in zip(lines, ends, strict=True)
    ]
    for (i, one), (j, other) in itertools.combinations(enumerate(lines), 2):
        for at, there, point in _crossings(one, other):
            crossing = cross_at(point)
            on[i].append((at, crossing))
            on[j].append((there, crossing))
    return [[n for n, _ in itertools.groupby(n for _, n in sorted(along))] for along in on]


def _crossings(one: Line, other: Line) -> Iterable[tuple[float, float, Point]]:
    """(how far along the one, how far along the other, where) they cross."""
    walked = 0.0
    for a, b in itertools.pairwise(one):
        along = 0.0
        for c, d in itertools.pairwise(other):
            met = _meet(a, b, c, d)
            if met is not None:
                s, t = met
                point = (a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s)
                yield walked + math.dist(a, b) * s, along + math.dist(c, d) * t, point
            along += math.dist(c, d)
        walked += math.dist(a, b)


def _meet(a: Point, b: Point, c: Point, d: Point) -> tuple[float, float] | None:
    """The shares of two steps at which they cross."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-9 * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    s = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross
    t = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross
    hair = 1e-9
    return (s, t) if -hair <= s <= 1 + hair and -hair <= t <= 1 + hair else None
