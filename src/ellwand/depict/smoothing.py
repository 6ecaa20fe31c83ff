"""Curves led by points."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.geometry.lines import Line, Point

STEPS: Final = 5
"""Chords for the stretch between two points."""


def smooth(points: Sequence[Point]) -> Line:
    """A smooth curve from the first point to the last, led by those between: the uniform cubic B-spline.

    It bends without corners and stays inside what the points span (C. de Boor, 'A Practical Guide to Splines', 1978).
    """
    ends = [_beyond(points[1], points[0]), *points, _beyond(points[-2], points[-1])]
    out = [points[0]]
    for a, b, c, d in zip(ends, ends[1:], ends[2:], ends[3:], strict=False):
        for i in range(1, STEPS + 1):
            t = i / STEPS
            weights = ((1 - t) ** 3, 3 * t**3 - 6 * t**2 + 4, -3 * t**3 + 3 * t**2 + 3 * t + 1, t**3)
            x, y = (sum(w * p[k] for w, p in zip(weights, (a, b, c, d), strict=True)) / 6 for k in (0, 1))
            out.append((x, y))
    return (*out[:-1], points[-1])


def _beyond(a: Point, b: Point) -> Point:
    """The point as far beyond ``b`` as ``a`` is before it; with it the curve ends at ``b``."""
    return 2 * b[0] - a[0], 2 * b[1] - a[1]
