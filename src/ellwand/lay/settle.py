"""Pushing pieces together, and apart where they overlap by a hair.

Each two neighbours are kept on their sides of the edge that parts them best; under that the whole lay is
pulled toward the cut end by a linear program (compaction and separation as in Li and Milenkovic, 'Compaction
and separation algorithms for non-convex polygons and their applications', European Journal of Operational
Research 84, 1995).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from ellwand.lay.hulls import Ring, convex_parts
from ellwand.lay.task import Spot, length_of

REACH: Final = 10.0
"""How far (cm) a piece may move in one round; pieces further apart than twice this need not be watched."""

ROUNDS: Final = 6

DAYLIGHT: Final = 1e-4
"""Left between slanting edges (cm): where those agree to the last digit, geometry libraries misjudge them."""

_Row = tuple[int, int, float, float, float]
"""Piece a, piece b, the normal pointing from a to b, and how far they may close (cm)."""


def settle(spots: Sequence[Spot], width: float) -> list[Spot] | None:
    """The same arrangement without overlaps and as short as it slides; None when it cannot be had."""
    settled: list[Spot] | None = None
    current = list(spots)
    for _ in range(ROUNDS):
        moved = _round(current, width)
        if moved is None:
            return settled
        gained = np.inf if settled is None else length_of(settled) - length_of(moved)
        settled = current = moved
        if gained < 1e-3:
            break
    return settled


def _round(spots: Sequence[Spot], width: float) -> list[Spot] | None:
    from scipy.optimize import linprog
    from scipy.sparse import coo_array

    n = len(spots)
    rows = [row for i in range(n) for j in range(i) for row in _apart(spots, i, j)]
    count = len(rows)
    # variables: each piece's x and y, then the length
    lines, columns, values, most = [], [], [], []
    for k, (a, b, nx, ny, gap) in enumerate(rows):
        lines += [k] * 4
        columns += [2 * a, 2 * a + 1, 2 * b, 2 * b + 1]
        values += [nx, ny, -nx, -ny]
        most.append(gap + nx * (spots[a].x - spots[b].x) + ny * (spots[a].y - spots[b].y))
    for k, spot in enumerate(spots):
        lines += [count + k] * 2
        columns += [2 * k + 1, 2 * n]
        values += [1.0, -1.0]
        most.append(-spot.pose.height)
    limits: list[tuple[float, float | None]] = []
    for s in spots:
        room = max(width - s.pose.width, 0.0)
        limits.append((min(max(s.x - REACH, 0.0), room), min(max(s.x + REACH, 0.0), room)))
        limits.append((max(s.y - REACH, 0.0), max(s.y + REACH, 0.0)))
    limits.append((0.0, None))
    # the length first; then every piece toward the cut end and the left edge
    cost = np.append(np.tile([1e-5 / n, 1e-4 / n], n), 1.0)
    matrix = coo_array((values, (lines, columns)), shape=(count + n, 2 * n + 1)).tocsr()
    answer = linprog(cost, A_ub=matrix, b_ub=np.array(most), bounds=limits, method="highs-ds")
    if not answer.success:
        return None
    places = answer.x[:-1].reshape(n, 2)
    return [replace(s, x=float(x), y=float(y)) for s, (x, y) in zip(spots, places, strict=True)]


def _apart(spots: Sequence[Spot], i: int, j: int) -> list[_Row]:
    """What keeps two pieces apart, one row for each two of their convex parts; none when far apart."""
    a, b = spots[i], spots[j]
    far_x = max(b.x - a.x - a.pose.width, a.x - b.x - b.pose.width)
    far_y = max(b.y - a.y - a.pose.height, a.y - b.y - b.pose.height)
    if max(far_x, far_y) > 2 * REACH:
        return []
    return [
        (i, j, *_parting(p + np.array([a.x, a.y]), q + np.array([b.x, b.y])))
        for p in convex_parts(a.pose.ring)
        for q in convex_parts(b.pose.ring)
    ]


def _parting(p: Ring, q: Ring) -> tuple[float, float, float]:
    """The normal from ``p`` to ``q`` along which they lie furthest apart, and how far they may close."""
    best = (0.0, 0.0, -np.inf)
    for ring, other, sense in ((p, q, 1.0), (q, p, -1.0)):
        edges = np.roll(ring, -1, axis=0) - ring
        normals = np.column_stack([edges[:, 1], -edges[:, 0]]) / np.hypot(edges[:, 0], edges[:, 1])[:, None]
        gaps = (normals @ other.T).min(axis=1) - (normals * ring).sum(axis=1)
        k = int(np.argmax(gaps))
        if gaps[k] > best[2]:
            best = (sense * float(normals[k, 0]), sense * float(normals[k, 1]), float(gaps[k]))
    nx, ny, gap = best
    return (nx, ny, gap - DAYLIGHT) if abs(nx * ny) > 1e-9 else best
