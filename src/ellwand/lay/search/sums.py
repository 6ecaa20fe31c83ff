"""Sums of outlines: where a piece may not lie beside another (Minkowski sums of convex parts)."""

from __future__ import annotations

import numpy as np

from ellwand.lay.search.compiled import Counts, Reals, compiled

SKIN = 1e-6
"""How deep (cm) two outlines may lie in each other by rounding."""


@compiled
def add_up(a: Reals, b: Reals, out: Reals) -> int:
    """Corners of the sum of the convex outlines ``a`` and ``-b`` (all counter-clockwise); how many."""
    n, m = len(a), len(b)
    first = second = 0
    for i in range(1, n):
        if a[i, 1] < a[first, 1] or (a[i, 1] == a[first, 1] and a[i, 0] < a[first, 0]):
            first = i
    for j in range(1, m):
        if b[j, 1] > b[second, 1] or (b[j, 1] == b[second, 1] and b[j, 0] > b[second, 0]):
            second = j
    i = j = count = 0
    while i < n or j < m:
        p, q = (first + i) % n, (second + j) % m
        out[count, 0], out[count, 1] = a[p, 0] - b[q, 0], a[p, 1] - b[q, 1]
        count += 1
        after, beyond = (p + 1) % n, (q + 1) % m
        ux, uy = a[after, 0] - a[p, 0], a[after, 1] - a[p, 1]
        vx, vy = b[q, 0] - b[beyond, 0], b[q, 1] - b[beyond, 1]
        turn = ux * vy - uy * vx
        level = 1e-9 * (abs(ux) + abs(uy)) * (abs(vx) + abs(vy))
        if j >= m or (i < n and turn >= -level):
            i += 1
            if j < m and turn <= level:
                j += 1
        else:
            j += 1
    return count


@compiled
def cut_by(edge: Reals, start: int, end: int, x: float, y: float, dx: float, dy: float) -> tuple[float, float]:
    """The part of the way from (x, y) by (dx, dy) inside a convex outline: start and end, none if that is no later."""
    lo, hi = 0.0, 1.0
    for k in range(start, end):
        rate = edge[k, 0] * dx + edge[k, 1] * dy
        room = edge[k, 2] - edge[k, 0] * x - edge[k, 1] * y
        if rate > 1e-9:
            hi = min(hi, room / rate)
        elif rate < -1e-9:
            lo = max(lo, room / rate)
        elif room <= 0:
            return 1.0, 0.0
    return lo, hi


@compiled
def pair_up(
    ring: Reals, corners: Counts, parts: Counts, coming: int
) -> tuple[Counts, Counts, Reals, Reals, Counts, Reals]:
    """The sums of all outlines with the first ``coming`` of them (the fields of ``Sums``).

    Outline k has the convex parts ``parts[k]`` to ``parts[k + 1]``, each the rows of ``ring`` between its ``corners``.
    """
    lying = len(parts) - 1
    count = total = most = 0
    for a in range(lying):
        for b in range(coming):
            for p in range(parts[a], parts[a + 1]):
                for q in range(parts[b], parts[b + 1]):
                    size = corners[p + 1] - corners[p] + corners[q + 1] - corners[q]
                    most = max(most, size)
                    total += size
                    count += 1
    room = np.empty((most, 2))
    outlines = np.zeros(lying * coming + 1, np.int64)
    edges = np.zeros(count + 1, np.int64)
    box = np.empty((count, 4))
    edge = np.empty((total, 3))
    side = np.empty((total, 4))
    done = at = 0
    for a in range(lying):
        for b in range(coming):
            for p in range(parts[a], parts[a + 1]):
                for q in range(parts[b], parts[b + 1]):
                    n = add_up(ring[corners[p] : corners[p + 1]], ring[corners[q] : corners[q + 1]], room)
                    for axis in range(2):
                        box[done, axis], box[done, 2 + axis] = np.min(room[:n, axis]), np.max(room[:n, axis])
                    for k in range(n):
                        x, y, to_x, to_y = room[k, 0], room[k, 1], room[(k + 1) % n, 0], room[(k + 1) % n, 1]
                        long = np.hypot(to_x - x, to_y - y)
                        if long < 1e-9:
                            continue
                        nx, ny = (to_y - y) / long, (x - to_x) / long
                        edge[at, 0], edge[at, 1], edge[at, 2] = nx, ny, nx * x + ny * y - SKIN
                        side[at, 0], side[at, 1], side[at, 2], side[at, 3] = x, y, to_x, to_y
                        at += 1
                    done += 1
                    edges[done] = at
            outlines[a * coming + b + 1] = done
    tracks, track = rims(outlines, edges, box, edge, side)
    return outlines, edges, box, edge[:at].copy(), tracks, track


@compiled
def rims(outlines: Counts, edges: Counts, box: Reals, edge: Reals, side: Reals) -> tuple[Counts, Reals]:
    """For each pair the parts of its outlines' sides that lie in no other of its outlines."""
    tracks = np.zeros(len(outlines), np.int64)
    track = np.empty((len(side) + 1, 4))
    most = 0
    for pair in range(len(outlines) - 1):
        most = max(most, outlines[pair + 1] - outlines[pair])
    hidden = np.empty((most, 2))
    done = 0
    for pair in range(len(outlines) - 1):
        for own in range(outlines[pair], outlines[pair + 1]):
            for k in range(edges[own], edges[own + 1]):
                x, y, dx, dy = side[k, 0], side[k, 1], side[k, 2] - side[k, 0], side[k, 3] - side[k, 1]
                covers = 0
                for other in range(outlines[pair], outlines[pair + 1]):
                    if other == own or max(x, x + dx) <= box[other, 0] or min(x, x + dx) >= box[other, 2]:
                        continue
                    if max(y, y + dy) <= box[other, 1] or min(y, y + dy) >= box[other, 3]:
                        continue
                    lo, hi = cut_by(edge, edges[other], edges[other + 1], x, y, dx, dy)
                    if lo < hi:
                        hidden[covers, 0], hidden[covers, 1] = lo, hi
                        covers += 1
                start = 0.0
                while start <= 1.0:
                    moved = True
                    while moved:
                        moved = False
                        for c in range(covers):
                            if hidden[c, 0] <= start < hidden[c, 1]:
                                start = hidden[c, 1]
                                moved = True
                    if start >= 1.0 and covers:
                        break
                    end = 1.0
                    for c in range(covers):
                        if hidden[c, 0] > start:
                            end = min(end, hidden[c, 0])
                    if done == len(track):
                        longer = np.empty((2 * done, 4))
                        longer[:done] = track
                        track = longer
                    track[done, 0], track[done, 1] = x + start * dx, y + start * dy
                    track[done, 2], track[done, 3] = x + end * dx, y + end * dy
                    done += 1
                    if end >= 1.0:
                        break
                    start = end
        tracks[pair + 1] = done
    return tracks, track[:done].copy()
