"""From kinds of pieces to the lengths of cloth they are torn from: the library of blocks, and the compiled search."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.lay.tear.blocks import GRID, Entry, Packed, library
from ellwand.lay.tear.kinds import Kind, radix

Numbers = NDArray[np.int64]

STAGES: Final = 5
"""Across into lengths, along into strips, across, along, and one trim."""
RUNS: Final = 4
"""Searches from the same start, each with its own seed."""
STEPS: Final = 50_000
"""Trials in each of them at effort 1."""
SETS: Final = (300, 100)
"""Sets of pieces tried as blocks: at least, and more for each unit of effort."""
SAME: Final = 1e-3
"""Millimetres; a size that passes a whole one by less is that."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A rectangle of cloth, in cm from the lower left usable corner.

    With ``packed`` its lower left corner is that block; it is torn free along the cloth first, or across first,
    and leaves a cell at its ``right`` and one ``above`` it where it does not fill this one.
    """

    x: float
    y: float
    width: float
    height: float
    packed: Packed | None = None
    along_first: bool = True
    right: Cell | None = None
    above: Cell | None = None


def lengths(kinds: Sequence[Kind], width: float, effort: int) -> tuple[Cell, ...]:
    """The lengths to tear across the cloth, from the cut end on; every piece lies in one of them."""
    from ellwand.lay.tear.kernel import anneal, decode

    entries = library(kinds, width, SETS[0] + SETS[1] * effort)
    ways = [way for entry in entries for way in entry.ways]
    across = math.floor(width / GRID + SAME)
    wide = np.array([min(_whole(way.width), across) for way in ways])
    high = np.array([_whole(way.height) for way in ways])
    first = np.array([0, *accumulate(len(entry.ways) for entry in entries)])
    union, at, pairs = _unions(kinds, entries)
    alone = np.array([k for k, kind in enumerate(kinds) for _ in kind.shapes])
    best, shortest = None, math.inf
    for seed in range(1, RUNS + 1):
        _, chosen, bits, count, length = anneal(
            alone.copy(),
            first[alone],
            np.zeros_like(alone),
            len(alone),
            wide,
            high,
            first,
            union,
            at,
            pairs,
            across,
            STAGES,
            STEPS * effort,
            seed,
        )
        if length < shortest:
            best, shortest = (chosen, bits, count), length
    assert best is not None
    chosen, bits, count = best
    cells = np.zeros((3 * count + 3, 9), dtype=np.int64)
    order = np.zeros(3 * count + 4, dtype=np.int64)
    decode(chosen, bits, count, wide, high, across, STAGES, cells, order)
    held = [ways[i] for i in chosen[:count]]
    linked = {int(c) for c in cells[: order[-1], 7:9].ravel() if c >= 0} - {0}
    tops = [c for c in range(order[-1]) if c not in linked]
    return tuple(_cell(c, cells, order, held) for c in tops)


def _whole(size: float) -> int:
    return math.ceil(size / GRID - SAME)


def _cell(number: int, cells: Numbers, order: Numbers, held: Sequence[Packed]) -> Cell:
    x, y, width, height = (float(v) * GRID for v in cells[number, :4])
    block, right, above = (int(v) for v in cells[number, 6:9])
    if block < 0:
        return Cell(x, y, width, height)
    return Cell(
        x,
        y,
        width,
        height,
        held[block],
        bool(order[number]),
        _cell(right, cells, order, held) if right >= 0 else None,
        _cell(above, cells, order, held) if above >= 0 else None,
    )


def _unions(kinds: Sequence[Kind], entries: Sequence[Entry]) -> tuple[Numbers, Numbers, Numbers]:
    """Which two sets, or one, make up the same pieces: numbered unions, and the pairs of each."""
    counts = np.array([entry.counts for entry in entries])
    keys = counts @ np.array(radix(kinds))
    most = np.array([len(kind.shapes) for kind in kinds])
    n = len(entries)
    a, b = np.triu_indices(n)
    there = (counts[a] + counts[b] <= most).all(axis=1)
    a, b = a[there], b[there]
    one, two = np.concatenate([a, np.arange(n)]), np.concatenate([b, np.full(n, -1)])
    _, number = np.unique(np.concatenate([keys[a] + keys[b], keys]), return_inverse=True)
    union = np.full((n, n + 1), -1, dtype=np.int64)
    union[a, b] = union[b, a] = number[: len(a)]
    union[np.arange(n), n] = number[len(a) :]
    order = np.argsort(number, kind="stable")
    at = np.concatenate([[0], np.cumsum(np.bincount(number))])
    return union, at, np.column_stack([one[order], two[order]])
