"""A length that no lay of these pieces can undercut.

At any distance along the cloth the chords of the pieces lie side by side, so their widths add up to no more
than the usable width.  A dual feasible function f keeps that true: fractions of the width that add up to 1 at
most still do so after f, so the sum over all pieces of the integral of f(chord / width) along the cloth is a
bound (Fekete and Schepers, 'New classes of fast lower bounds for bin packing problems', Mathematical
Programming 91, 2001).  With f(t) = t that is area over width; their f counts chords wider than 1 − ε as the
whole width, those narrower than ε as nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ellwand.geometry.lines import Line, Point, area, bounds, turn
from ellwand.lay.shapes import HAIR, may_lie_crosswise, usable_width
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece

Chords = NDArray[np.float64]
"""Rows of (step along the cloth, chord at its start, chord at its end), chords as fractions of the width."""


def lower_bound(pieces: Sequence[Piece], cloth: Cloth) -> tuple[float, str]:
    """The bound in cm, and what sets it; every piece must fit the width in some allowed turn."""
    width = usable_width(cloth)
    ways = [(piece.count, _ways(piece, cloth, width)) for piece in pieces]
    longest = max((min(float(way[:, 0].sum()) for way in each) for _, each in ways), default=0.0)

    def total(epsilon: float) -> float:
        return sum(count * min(_integral(way, epsilon) for way in each) for count, each in ways)

    chords = {round(float(c), 9) for _, each in ways for way in each for c in way[:, 1:].flat}
    edges = {min(c, 1 - c) for c in chords} | {0.5}
    wide = max((total(e) for e in _thinned(edges) if e > 0), default=0.0)
    bounds_by_name = {
        "area": total(0.0),
        "longest piece": longest,
        "pieces too wide to lie side by side": wide,
    }
    name = max(bounds_by_name, key=lambda key: round(bounds_by_name[key], 6))
    return bounds_by_name[name], name


def _thinned(edges: set[float], most: int = 24) -> list[float]:
    """At most ``most`` of the values, just above and below which the function changes."""
    ordered = sorted(edges)
    step = max(1, len(ordered) // most)
    return [e + d for e in {*ordered[::step], 0.5} for d in (-HAIR, HAIR) if 0 < e + d <= 0.5]


def _ways(piece: Piece, cloth: Cloth, width: float) -> list[Chords]:
    turns = (0.0, 90.0) if may_lie_crosswise(piece, cloth) else (0.0,)
    rings = [piece.cut, *piece.cut_holes]
    ways = []
    for degrees in turns:
        turned = [turn(ring, degrees) for ring in rings]
        left, _, right, _ = bounds(turned[0])
        if right - left <= width + HAIR:
            ways.append(_chords(turned, width))
    return ways


def _chords(rings: Sequence[Line], width: float) -> Chords:
    """How wide the piece is between each two heights of its corners (holes count as nothing)."""
    tails: list[Point] = []
    heads: list[Point] = []
    for index, ring in enumerate(rings):
        ordered = ring if (area(ring) > 0) == (index == 0) else ring[::-1]
        tails.extend(ordered)
        heads.extend((*ordered[1:], ordered[0]))
    a, b = np.array(tails), np.array(heads)
    leaning = np.abs(b[:, 1] - a[:, 1]) > 0
    a, b = a[leaning], b[leaning]
    heights = np.unique(a[:, 1])
    low, high = heights[:-1, None], heights[1:, None]
    crosses = (np.minimum(a[:, 1], b[:, 1]) <= low) & (np.maximum(a[:, 1], b[:, 1]) >= high)
    # the outline runs counter-clockwise: edges going up bound the piece on its right
    sense = np.sign(b[:, 1] - a[:, 1]) * crosses
    slope = (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1])
    start = (sense * (a[:, 0] + slope * (low - a[:, 1]))).sum(axis=1)
    end = (sense * (a[:, 0] + slope * (high - a[:, 1]))).sum(axis=1)
    chords = np.column_stack([np.diff(heights), np.maximum(start, 0) / width, np.maximum(end, 0) / width])
    return np.asarray(chords, dtype=np.float64)


def _integral(chords: Chords, epsilon: float) -> float:
    """The integral along the cloth of f(chord): 0 below ε, 1 above 1 − ε, the chord itself between."""
    step, start, end = chords.T
    low, high = np.minimum(start, end), np.maximum(start, end)
    span = high - low
    level = span < 1e-12
    safe = np.where(level, 1.0, span)
    first = np.where(level, low > 1 - epsilon, (high - np.clip(1 - epsilon, low, high)) / safe)
    a, b = np.clip(epsilon, low, high), np.clip(1 - epsilon, low, high)
    between = np.where(level, np.where((low >= epsilon) & (low <= 1 - epsilon), low, 0.0), (b * b - a * a) / (2 * safe))
    return float((step * (first + between)).sum())
