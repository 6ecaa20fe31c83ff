"""Bounds from what lies side by side.

At any distance along the cloth the chords of the pieces lie side by side, so their widths add up to no more
than the usable width.  A dual feasible function f keeps that true: fractions of the width that add up to 1 at
most still do so after f, so the sum over all pieces of the integral of f(chord / width) along the cloth is a
bound (Fekete and Schepers, 'New classes of fast lower bounds for bin packing problems', Mathematical
Programming 91, 2001).  With f(t) = t that is area over width.  Theirs are used here, u of k and f of ε, and that of
Carlier, Clautiaux and Moukrim ('New reduction procedures and lower bounds for the two-dimensional bin packing
problem with fixed orientation', Computers & Operations Research 34, 2007), which rounds to multiples of ε.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.geometry.lines import Line, Point, area
from ellwand.lay.bounds.kinds import Kind, Way
from ellwand.lay.shapes import HAIR

Chords = NDArray[np.float64]
"""Rows of (step along the cloth, chord at its start, chord at its end), from the least y up (cm)."""

EACH: Final = 40
"""How many values of a function's parameter are tried."""


def by_name(kinds: Sequence[Kind], width: float) -> dict[str, float]:
    """Every bound from what lies side by side, in cm, by what a maker would call it."""
    ways = [(kind.count, _unlike(as_fractions(chords_of(way), width) for way in kind.ways)) for kind in kinds]
    each = [fractions for _, fits in ways for fractions in fits]
    chords = {round(float(c), 9) for fractions in each for c in fractions[:, 1:].flat}

    def total(measure: Callable[[Chords], float]) -> float:
        return sum(count * min(measure(fractions) for fractions in fits) for count, fits in ways)

    def steps(jumps: NDArray[np.float64]) -> float:
        return total(lambda fractions: _wider_than(fractions, jumps + HAIR)) / len(jumps)

    least = thinned({min(c, 1 - c) for c in chords} | {0.5})
    units = thinned({c / k for c in chords for k in (1, 2, 3)})
    few = [np.arange(1, k + 1) / (k + 1) for k in range(1, 8)] + [_multiples(unit) for unit in units if unit > 0.04]
    return {
        "area": total(lambda fractions: integral(fractions, 0.0)),
        "longest piece": max((min(float(f[:, 0].sum()) for f in fits) for _, fits in ways), default=0.0),
        "pieces too wide to lie side by side": max(
            (total(lambda fractions, e=e: integral(fractions, e)) for e in least),  # type: ignore[misc]
            default=0.0,
        ),
        "how many pieces lie side by side": max((steps(jumps) for jumps in few), default=0.0),
    }


def chords_of(way: Way) -> Chords:
    """How wide the piece is between each two heights of its corners (holes count as nothing)."""
    tails: list[Point] = []
    heads: list[Point] = []
    for index, ring in enumerate((way.outline, *way.holes)):
        ordered: Line = ring if (area(ring) > 0) == (index == 0) else ring[::-1]
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
    chords = np.column_stack([np.diff(heights), np.maximum(start, 0), np.maximum(end, 0)])
    return np.asarray(chords, dtype=np.float64)


def as_fractions(chords: Chords, width: float) -> Chords:
    return np.asarray(chords / np.array([1.0, width, width]), dtype=np.float64)


def _unlike(ways: Iterable[Chords]) -> list[Chords]:
    """Those that differ by more than being turned about."""
    known = {tuple(sorted((round(s, 7), *sorted((round(a, 7), round(b, 7)))) for s, a, b in way)): way for way in ways}
    return list(known.values())


def thinned(values: set[float]) -> list[float]:
    """At most EACH of the values, just above and below which a function changes."""
    ordered = sorted(values)
    step = max(1, len(ordered) // EACH)
    return [e + d for e in {*ordered[::step], *ordered[-2:], 0.5} for d in (-2 * HAIR, 2 * HAIR) if 0 < e + d <= 0.5]


def _multiples(unit: float) -> NDArray[np.float64]:
    """Where a chord rounded to multiples of ``unit`` grows by one: below half the width, and above it seen from 1."""
    count = int(1 / unit)
    below = unit * np.arange(1, count + 1)
    below = below[below < 0.5]
    return np.concatenate([below, np.full(count - 2 * len(below), 0.5), 1 - below])


def _wider_than(fractions: Chords, jumps: NDArray[np.float64]) -> float:
    """How long the piece is wider than each of the jumps, in all."""
    step, start, end = (column[:, None] for column in fractions.T)
    low, high = np.minimum(start, end), np.maximum(start, end)
    share = np.where(high - low > 1e-12, (high - jumps) / np.maximum(high - low, 1e-12), high > jumps)
    return float((step * np.clip(share, 0.0, 1.0)).sum())


def integral(fractions: Chords, epsilon: float) -> float:
    """The integral along the cloth of f(chord): 0 below ε, 1 above 1 − ε, the chord itself between."""
    step, start, end = fractions.T
    low, high = np.minimum(start, end), np.maximum(start, end)
    span = high - low
    level = span < 1e-12
    safe = np.where(level, 1.0, span)
    first = np.where(level, low > 1 - epsilon, (high - np.clip(1 - epsilon, low, high)) / safe)
    a, b = np.clip(epsilon, low, high), np.clip(1 - epsilon, low, high)
    between = np.where(level, np.where((low >= epsilon) & (low <= 1 - epsilon), low, 0.0), (b * b - a * a) / (2 * safe))
    return float((step * (first + between)).sum())
