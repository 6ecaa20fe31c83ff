"""A whole number of motifs along a line: how many, how large, how far apart.

From a repeat's length r and a line's length C, n = round(C / r) motifs go round it, each with C / n of it; size and gap
are then brought within their limits, as near their middles as they can be.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.model.repeat import Row

Range = tuple[float, float]
"""(least, most) in cm."""
HAIR: Final = 1e-7
TURNS: Final = 30.0
"""Motifs follow a bend of fewer degrees than this without a break: our own figure."""
SQUARE: Final = (60.0, 120.0)
"""A square corner motif stands where a line turns by so many degrees: our own figure."""
STEPS: Final = 40
MOST: Final = 600
"""More motifs than this along one line nobody prints (our own figure)."""


@dataclass(frozen=True, slots=True)
class Limits:
    """``high``: how far the motif reaches across the line for each cm along it; ``upright``: it stands on a line down,
    so that its height lies along it."""

    size: Range
    gap: Range
    high: float
    inset: float
    corners: bool
    upright: bool = False

    @property
    def joins(self) -> bool:
        """Whether no gap is wanted: motifs touch, and what is left over lies at the ends of a row."""
        return self.gap[1] <= HAIR

    @property
    def middle(self) -> tuple[float, float]:
        """The size and the gap that are wished for."""
        return math.fsum(self.size) / 2, math.fsum(self.gap) / 2


@dataclass(frozen=True, slots=True)
class Way:
    """One line to be filled (cm): ``corners`` (how far along, by how many degrees toward the cloth), ``axes`` where
    motifs are mirrored, ``seams`` to be kept clear; ``on_start``: a motif's middle lies where a closed line begins."""

    length: float
    closed: bool
    corners: tuple[tuple[float, float], ...] = ()
    axes: tuple[float, ...] = ()
    seams: tuple[float, ...] = ()
    on_start: bool = True


@dataclass(frozen=True, slots=True)
class Fill:
    """One size and every line's rows; ``cost``: how far from what is wished for."""

    size: float
    rows: tuple[tuple[Row, ...], ...]
    cost: float


@dataclass(frozen=True, slots=True)
class _Break:
    """Where a row ends: so much of the line is taken on either side, and so many gaps lie before the next motif."""

    at: float
    margin: float
    gaps: float


def fills(ways: Sequence[Way], limits: Limits) -> Iterator[Fill]:
    """Every way to fill all the lines with motifs of one size, the nearest to the wish first."""
    found = []
    for size in _sizes(ways, limits):
        each = [_rows_of(way, size, limits) for way in ways]
        kept = [rows for rows in each if rows is not None]
        if len(kept) == len(ways):
            wish = limits.middle[0]
            off = 2 * abs(size - wish) / wish + math.fsum(cost for cost, _ in kept) / len(kept)
            found.append(Fill(size, tuple(rows for _, rows in kept), off))
    found.sort(key=lambda fill: (round(fill.cost, 9), fill.size))
    yield from found


def has_corner(turn: float, limits: Limits) -> bool:
    """Whether a corner motif stands where the line turns so."""
    return limits.corners and SQUARE[0] <= abs(turn) <= SQUARE[1]


def _sizes(ways: Sequence[Way], limits: Limits) -> list[float]:
    """The sizes worth trying: the wish, the limits, and those at which a row is filled with a gap at its limits."""
    least, most = limits.size
    gaps = {limits.gap[0], limits.gap[1], limits.middle[1]}
    out = {least, most, limits.middle[0]}
    if len(ways) > 1 or any(way.corners for way in ways):
        # what a corner takes of its rows depends on the size itself
        out |= {least + (most - least) * i / STEPS for i in range(STEPS)}
    for way in ways:
        lengths = [(way.length, 1.0)]
        for size in (least, most):
            for breaks in _both_breaks(way, size, limits):
                lengths += [(end - begin, gaps_at) for begin, end, gaps_at in _bays(way, breaks)]
        for (long, ends), gap in itertools.product(set(lengths), gaps):
            low, high = _counts(long, ends, (least, most), (gap, gap))
            out |= {(long - (n - 1 + ends) * gap) / n for n in range(max(1, low), min(high, MOST) + 1)}
        out |= _clear_sizes(way, limits)
    return sorted({round(size, 9) for size in out if least - HAIR <= size <= most + HAIR})


def _clear_sizes(way: Way, limits: Limits) -> set[float]:
    """The largest sizes at which an even ring stays clear of the seams."""
    if not way.seams or not way.closed or way.corners:
        return set()
    least, most = limits.size
    low, high = _counts(way.length, 1.0, limits.size, limits.gap)
    out = set()
    for n in range(max(1, low), min(high, MOST) + 1):
        for phase in (0.0, 0.5):
            room = 2 * _nearest(way.length / n, phase, way.seams)
            out.add(min(most, max(least, room)))
    return out


def _nearest(pitch: float, phase: float, seams: Sequence[float]) -> float:
    """From a seam to the middle of the nearest motif of an even ring (cm)."""
    return min(abs((at / pitch - phase + 0.5) % 1.0 - 0.5) * pitch for at in seams)


def _counts(long: float, ends: float, size: Range, gap: Range) -> tuple[int, int]:
    """The fewest and the most motifs that a row so long can hold; n·size + (n − 1 + ends)·gap = long."""
    fewest = math.ceil((long + (1 - ends) * gap[1]) / (size[1] + gap[1]) - 1e-6)
    most = math.floor((long + (1 - ends) * gap[0]) / (size[0] + gap[0]) + 1e-6)
    return fewest, most


def _rows_of(way: Way, size: float, limits: Limits) -> tuple[float, tuple[Row, ...]] | None:
    """The rows of one line with motifs of that size, and their cost; None where it cannot be filled."""
    if way.closed and not way.axes and not _breaks(way, size, limits, seams=False):
        even = _ring(way, size, limits)
        if even is not None or not way.seams:
            return even
    found = []
    for breaks in _both_breaks(way, size, limits):
        rows = _broken(way, breaks, size, limits)
        if rows is not None and _clear(way, rows[1], size):
            found.append(rows)
    return min(found, key=lambda each: each[0]) if found else None


def _ring(way: Way, size: float, limits: Limits) -> tuple[float, tuple[Row, ...]] | None:
    low, high = _counts(way.length, 1.0, (size, size), limits.gap)
    wish, best = limits.middle[1], None
    for n in range(max(1, low), min(high, MOST) + 1):
        pitch = way.length / n
        for phase in (0.0, 0.5) if way.seams else (0.0 if way.on_start else 0.5,):
            if way.seams and _nearest(pitch, phase, way.seams) < size / 2 - HAIR:
                continue
            cost = abs(pitch - size - wish) / limits.middle[0]
            if best is None or cost < best[0] - HAIR:
                first = phase * pitch
                row = Row(first - pitch / 2, first - pitch / 2 + way.length, first, pitch, n, pitch - size)
                best = (cost, (row,))
    return best


def _both_breaks(way: Way, size: float, limits: Limits) -> list[list[_Break]]:
    """Where rows end: at corners and axes, and then at seams too where they are to be kept clear."""
    plain = _breaks(way, size, limits, seams=False)
    return [plain, _breaks(way, size, limits, seams=True)] if way.seams else [plain]


def _breaks(way: Way, size: float, limits: Limits, *, seams: bool) -> list[_Break]:
    """Where rows end, rising; none on an even ring."""
    deep = limits.inset + size * limits.high / 2
    out = []
    for at, turn in way.corners:
        lean = math.tan(math.radians(turn) / 2)
        if has_corner(turn, limits):
            out.append(_Break(at, deep * lean + size * limits.high / 2, 1.0))
        elif abs(turn) >= TURNS:
            out.append(_Break(at, max(0.0, (limits.inset + size * limits.high) * lean), 0.5))
    taken = [each.at for each in out]
    ends = () if way.closed else (0.0, way.length)
    for at in (*ends, *way.axes, *(way.seams if seams else ())):
        apart = [abs(at - other) for other in taken]
        if way.closed:
            apart = [min(each, way.length - each) for each in apart]
        if all(each > 0.01 for each in apart):
            out.append(_Break(at, 0.0, 0.5))
            taken.append(at)
    if way.closed and not out and not way.on_start:
        out.append(_Break(0.0, 0.0, 0.5))
    return sorted(out, key=lambda each: each.at)


def _bays(way: Way, breaks: Sequence[_Break]) -> list[tuple[float, float, float]]:
    """(begin, end, gaps at both ends together) from break to break; the last of a closed line runs over its start."""
    if not breaks:
        return []
    pairs = list(itertools.pairwise(breaks))
    if way.closed:
        first = breaks[0]
        pairs.append((breaks[-1], _Break(first.at + way.length, first.margin, first.gaps)))
    return [(one.at + one.margin, other.at - other.margin, one.gaps + other.gaps) for one, other in pairs]


def _broken(way: Way, breaks: Sequence[_Break], size: float, limits: Limits) -> tuple[float, tuple[Row, ...]] | None:
    """A row between any two breaks; what is too short for a motif counts as gap."""
    rows, costs = [], []
    for begin, end, ends in _bays(way, breaks):
        if end - begin < -HAIR:
            return None
        found = _row(begin, end, ends, size, limits)
        if found is None:
            return None
        costs.append(found[0])
        rows.append(found[1])
    if not any(row.count for row in rows) or not _gaps_hold(way, rows, limits):
        return None
    return math.fsum(costs) / len(costs), tuple(rows)


def _row(begin: float, end: float, ends: float, size: float, limits: Limits) -> tuple[float, Row] | None:
    long, wish = end - begin, limits.middle[1]
    if limits.joins:
        n = math.floor(long / size + 1e-6)
        left = max(0.0, long - n * size)
        return left / size, Row(begin, end, begin + left / 2 + size / 2, size, n, 0.0)
    low, high = _counts(long, ends, (size, size), limits.gap)
    best = None
    for n in range(max(1, low), min(high, MOST) + 1):
        gap = (long - n * size) / (n - 1 + ends)
        cost = abs(gap - wish) / limits.middle[0]
        if best is None or cost < best[0] - HAIR:
            first = begin + gap * ends / 2 + size / 2
            best = (cost, Row(begin, end, first, size + gap, n, gap))
    if best is None and long <= limits.gap[1] + HAIR:
        return 0.5, Row(begin, end, begin + long / 2, 0.0, 0, 0.0)
    return best


def _gaps_hold(way: Way, rows: Sequence[Row], limits: Limits) -> bool:
    """Whether across every short row that stays empty the gap is no wider than allowed."""
    wide = 0.0
    around = [*rows, *rows] if way.closed else rows
    for row in around:
        if row.count:
            if wide and wide + row.gap / 2 > limits.gap[1] + HAIR:
                return False
            wide = row.gap / 2
        else:
            wide += row.end - row.begin
            if limits.joins:
                wide = 0.0
    return limits.joins or wide <= limits.gap[1] + HAIR


def _clear(way: Way, rows: Sequence[Row], size: float) -> bool:
    """Whether no motif lies across a seam that is to be kept clear."""
    for row in rows:
        for at in row_places(row):
            for seam in way.seams:
                apart = abs(at - seam)
                if way.closed:
                    apart = min(apart % way.length, -apart % way.length)
                if apart < size / 2 - HAIR:
                    return False
    return True


def row_places(row: Row) -> tuple[float, ...]:
    """Where the middles of a row's motifs lie (cm along the line, past its end on a row that runs over its start)."""
    return tuple(row.first + i * row.pitch for i in range(row.count))
