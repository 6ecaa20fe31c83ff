"""The search for a tear plan, compiled: which blocks, in which order, torn how.

Blocks are taken in order. Each goes into the left-over rectangle that it fits best, which is then torn twice, along
or across first as the block's bits say; where none fits, a new length is torn off the cloth. Changes of the order,
the bits, the blocks' ways and the blocks themselves (two sets exchanged for two others, or one, of the same pieces)
are tried by annealing (Kirkpatrick, Gelatt and Vecchi, 1983). Whole millimetres throughout; no clock.
"""

# numba compiles these functions: they are typed by their first call
# mypy: disable-error-code="no-untyped-def, no-untyped-call, untyped-decorator"

from __future__ import annotations

from typing import Final

import numpy as np
from numba import njit

ALONG_FIRST, TIGHTEST_SIDE = 1, 2
"""Bits of a block: torn free along the cloth first; put where the tighter side fits best, not the area."""
LEFT: Final = 0.05
"""What the largest left-over rectangle counts against the length."""
HOT, COLD = 0.03, 0.0003
"""First and last temperature, parts of the length."""


@njit(cache=True, nogil=True)
def _next(state):  # xorshift (Marsaglia, 2003)
    x = state[0]
    x ^= x << np.uint64(13)
    x ^= x >> np.uint64(7)
    x ^= x << np.uint64(17)
    state[0] = x
    return x


@njit(cache=True, nogil=True)
def _below(state, n):
    return np.int64((_next(state) >> np.uint64(11)) % np.uint64(n))


@njit(cache=True, nogil=True)
def _share(state):
    return (_next(state) >> np.uint64(11)) / 9007199254740992.0


@njit(cache=True, nogil=True)
def decode(ways, bits, count, wide, high, width, stages, cells, used):
    """Tear the blocks out in order; (length, area of the largest left-over rectangle).

    ``cells``: rows of x, y, width, height, stage, whether it came from a tear along, block within or −1, and the
    numbers of the left-over cells at its right and above, or −1.  ``used``: 0 in the first column: cells in use.
    """
    top = 0
    n = 0
    for i in range(count):
        w, h = wide[ways[i]], high[ways[i]]
        found, least, first = -1, 0, 0
        for c in range(n):
            if cells[c, 6] >= 0 or cells[c, 2] < w or cells[c, 3] < h:
                continue
            spare_w, spare_h = cells[c, 2] - w, cells[c, 3] - h
            stage, along = cells[c, 4], cells[c, 5]
            # the stage of the last tear that frees the block
            if_along = stage + (0 if spare_w == 0 or along else 1)
            if spare_h > 0:
                if_along += 1 if spare_w > 0 or along else 0
            if_across = stage + (0 if spare_h == 0 or not along else 1)
            if spare_w > 0:
                if_across += 1 if spare_h > 0 or not along else 0
            order = bits[i] & 1
            if order == 1 and if_along > stages:
                order = 0
            elif order == 0 and if_across > stages:
                order = 1
            if (if_along if order == 1 else if_across) > stages:
                continue
            score = min(spare_w, spare_h) if bits[i] & 2 else cells[c, 2] * cells[c, 3]
            if found < 0 or score < least:
                found, least, first = c, score, order
        if found < 0:
            found, first = n, 1
            cells[n, 0], cells[n, 1], cells[n, 2], cells[n, 3] = 0, top, width, h
            cells[n, 4], cells[n, 5] = 1, 0
            top += h
            n += 1
        c = found
        x, y, cw, ch = cells[c, 0], cells[c, 1], cells[c, 2], cells[c, 3]
        stage, along = cells[c, 4], cells[c, 5]
        cells[c, 6], cells[c, 7], cells[c, 8] = i, -1, -1
        used[c] = first
        if cw > w:
            right_stage = stage + (0 if along else 1)
            if first == 0 and ch > h:
                right_stage = stage + (1 if along else 0) + 1
            cells[n, 0], cells[n, 1], cells[n, 2], cells[n, 3] = x + w, y, cw - w, (ch if first == 1 else h)
            cells[n, 4], cells[n, 5], cells[n, 6] = right_stage, 1, -1
            cells[c, 7] = n
            n += 1
        if ch > h:
            above_stage = stage + (1 if along else 0)
            if first == 1 and cw > w:
                above_stage = stage + (0 if along else 1) + 1
            cells[n, 0], cells[n, 1], cells[n, 2], cells[n, 3] = x, y + h, (w if first == 1 else cw), ch - h
            cells[n, 4], cells[n, 5], cells[n, 6] = above_stage, 0, -1
            cells[c, 8] = n
            n += 1
    used[-1] = n
    left = 0
    for c in range(n):
        if cells[c, 6] < 0:
            left = max(left, cells[c, 2] * cells[c, 3])
    return top, left


@njit(cache=True, nogil=True)
def anneal(sets, ways, bits, count, wide, high, first_way, union, pair_at, pairs, width, stages, steps, seed):
    """Improve a plan for so many steps; (sets, ways, bits, count, length) of the best.

    ``first_way[e] … first_way[e + 1]``: the ways of set e.  ``union[e, f]``: number of the union of two sets, or of
    one (f the last column), −1 where it is too many; ``pairs[pair_at[u] … pair_at[u + 1]]``: pairs of sets (the
    second −1 for one alone) with that union.
    """
    state = np.empty(1, dtype=np.uint64)
    state[0] = np.uint64(88172645463325252) ^ (np.uint64(seed) * np.uint64(2654435761))
    for _ in range(8):
        _next(state)
    room = len(sets)
    cells = np.zeros((3 * room + 3, 9), dtype=np.int64)
    used = np.zeros(3 * room + 4, dtype=np.int64)
    last = union.shape[1] - 1
    top, left = decode(ways, bits, count, wide, high, width, stages, cells, used)
    cost = top - LEFT * left / width
    best, best_top = cost, top
    keep_sets, keep_ways, keep_bits, keep_count = sets.copy(), ways.copy(), bits.copy(), count
    new_sets, new_ways, new_bits = sets.copy(), ways.copy(), bits.copy()
    heat = HOT * top
    cooling = (COLD / HOT) ** (1.0 / steps)
    for _ in range(steps):
        heat *= cooling
        new_sets[:], new_ways[:], new_bits[:] = sets, ways, bits
        new_count = count
        kind = _below(state, 10)
        i, j = _below(state, count), _below(state, count)
        if kind < 2:
            for row in (new_sets, new_ways, new_bits):
                row[i], row[j] = row[j], row[i]
        elif kind < 4:
            for row in (new_sets, new_ways, new_bits):
                moved = row[i]
                if i < j:
                    for k in range(i, j):
                        row[k] = row[k + 1]
                else:
                    for k in range(i, j, -1):
                        row[k] = row[k - 1]
                row[j] = moved
        elif kind < 5:
            new_bits[i] = _below(state, 4)
        elif kind < 7:
            e = new_sets[i]
            new_ways[i] = first_way[e] + _below(state, first_way[e + 1] - first_way[e])
            new_bits[i] = _below(state, 4)
        else:
            alone = i == j or (kind == 9 and _below(state, 2) == 0)
            u = union[new_sets[i], last if alone else new_sets[j]]
            if u < 0 or pair_at[u + 1] == pair_at[u]:
                continue
            a = pair_at[u] + _below(state, pair_at[u + 1] - pair_at[u])
            e, f = pairs[a, 0], pairs[a, 1]
            if f >= 0 and _below(state, 2) == 0:
                e, f = f, e
            new_sets[i] = e
            new_ways[i] = first_way[e] + _below(state, first_way[e + 1] - first_way[e])
            if f >= 0:
                if alone:
                    j = new_count
                    new_count += 1
                new_sets[j] = f
                new_ways[j] = first_way[f] + _below(state, first_way[f + 1] - first_way[f])
                new_bits[j] = _below(state, 4)
                if alone:
                    at = _below(state, new_count)
                    for row in (new_sets, new_ways, new_bits):
                        moved = row[j]
                        for k in range(j, at, -1):
                            row[k] = row[k - 1]
                        row[at] = moved
            elif not alone:
                for row in (new_sets, new_ways, new_bits):
                    for k in range(j, new_count - 1):
                        row[k] = row[k + 1]
                new_count -= 1
        top, left = decode(new_ways, new_bits, new_count, wide, high, width, stages, cells, used)
        new = top - LEFT * left / width
        if new <= cost or _share(state) < np.exp((cost - new) / heat):
            sets[:], ways[:], bits[:] = new_sets, new_ways, new_bits
            count, cost = new_count, new
            if new < best:
                best, best_top = new, top
                keep_sets[:], keep_ways[:], keep_bits[:] = sets, ways, bits
                keep_count = count
    return keep_sets, keep_ways, keep_bits, keep_count, best_top
