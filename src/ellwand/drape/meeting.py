"""Cloth against itself: a point stays on the side of a triangle from which it came near.

Pairs of a point and a triangle without it are found within a reach (a tree of the triangles' middles).  On
which side the point lies is kept from step to step, also when it glides on to the next triangle; nearer than the gap on
that side, or beyond the triangle, it is pushed back with ½ k (gap − distance)² per area.  Within a step the triangle's
direction and the point's place on it are held.  In the matrix each pair stands for its own points alone: the diagonal
that bounds the square, (Σ wᵢ aᵢ)² ≤ Σ|wᵢ| · Σ|wᵢ| aᵢ².
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.drape.compiled import compiled
from ellwand.model.mesh import Counts, Reals

REACH: Final = 1.5
"""Pairs are watched from this distance (cm), on a finer mesh from ``NEARER`` sides of a triangle."""
NEARER: Final = 0.45
GAP: Final = 0.25
"""Layers of cloth lie so far apart (cm)."""
FIRM: Final = 30.0
"""How stiff they are against each other (gf/cm³): our own figure."""


@dataclass(frozen=True, slots=True)
class Pairs:
    """``of``: the points; ``at``: the triangles; ``share``: where on the triangle; ``up``: its direction, towards the
    side on which the point belongs."""

    of: Counts
    at: Counts
    share: Reals
    up: Reals
    side: Reals


NONE: Final = Pairs(np.zeros(0, np.int64), np.zeros(0, np.int64), np.zeros((0, 3)), np.zeros((0, 3)), np.zeros(0))


def reach_of(own: Reals) -> float:
    """From where pairs are watched (cm), by the area of each point."""
    return min(REACH, NEARER * float(np.sqrt(np.median(own))))


def pairs_of(points: Reals, corners: Counts, meets: NDArray[np.bool_], reach: float, before: Pairs) -> Pairs:
    """All pairs within ``reach`` (cm); sides as ``before`` where they were watched already.

    ``meets``: of each point, whether it does.
    """
    from scipy.spatial import cKDTree

    mine, theirs = np.flatnonzero(meets), np.flatnonzero(meets[corners].all(1))
    middle = points[corners[theirs]].mean(1)
    wide = np.linalg.norm(points[corners[theirs]] - middle[:, None], axis=2)
    size = min(float(np.max(wide)), 1.6 * float(np.mean(wide)))
    found = cKDTree(points[mine]).sparse_distance_matrix(
        cKDTree(middle), math.hypot(size, reach), output_type="coo_matrix"
    )
    of, at = mine[found.row], theirs[found.col]
    order = np.lexsort((at, of))
    of, at = of[order], at[order]
    share, up, side = np.empty((len(of), 3)), np.empty((len(of), 3)), np.empty(len(of))
    start = np.searchsorted(before.of, np.arange(len(points) + 1))
    _judge(points, corners, reach, of, at, start, before.at, before.side, share, up, side)
    kept = side != 0
    return Pairs(of[kept], at[kept], share[kept], up[kept], side[kept])


@compiled
def _judge(
    points: Reals,
    corners: Counts,
    reach: float,
    of: Counts,
    at: Counts,
    start: Counts,
    was_at: Counts,
    was_side: Reals,
    share: Reals,
    up: Reals,
    side: Reals,
) -> None:
    """Which pairs face each other (side 0: they do not), and on which side each point belongs."""
    for n in range(of.shape[0]):
        v, t = of[n], at[n]
        a, b, c = corners[t, 0], corners[t, 1], corners[t, 2]
        side[n] = 0.0
        if v in (a, b, c):
            continue
        p, q, r, x = points[a], points[b], points[c], points[v]
        ux, uy, uz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
        vx, vy, vz = r[0] - p[0], r[1] - p[1], r[2] - p[2]
        nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        long = math.sqrt(nx * nx + ny * ny + nz * nz)
        if long < 1e-12:
            continue
        nx, ny, nz = nx / long, ny / long, nz / long
        wx, wy, wz = x[0] - p[0], x[1] - p[1], x[2] - p[2]
        d = wx * nx + wy * ny + wz * nz
        if abs(d) > reach:
            continue
        fx, fy, fz = wx - d * nx, wy - d * ny, wz - d * nz
        uu, uv, vv = ux * ux + uy * uy + uz * uz, ux * vx + uy * vy + uz * vz, vx * vx + vy * vy + vz * vz
        fu, fv = fx * ux + fy * uy + fz * uz, fx * vx + fy * vy + fz * vz
        whole = uu * vv - uv * uv
        s1, s2 = (vv * fu - uv * fv) / whole, (uu * fv - uv * fu) / whole
        s0 = 1.0 - s1 - s2
        if s0 < -0.02 or s1 < -0.02 or s2 < -0.02:
            continue
        known = 0.0
        for k in range(start[v], start[v + 1]):
            o = was_at[k]
            if o == t:
                known = was_side[k]
                break
            if known == 0.0:
                for i in range(3):
                    w = corners[o, i]
                    if w in (a, b, c):
                        known = was_side[k]
                        break
        if known == 0.0:
            known = 1.0 if d >= 0 else -1.0
        side[n] = known
        share[n, 0], share[n, 1], share[n, 2] = s0, s1, s2
        up[n, 0], up[n, 1], up[n, 2] = known * nx, known * ny, known * nz


@compiled
def meeting_terms(
    points: Reals,
    corners: Counts,
    own: Reals,
    of: Counts,
    at: Counts,
    share: Reals,
    up: Reals,
    diagonal: Counts,
    wanted: bool,
    gradient: Reals,
    blocks: Reals,
) -> float:
    """Energy (gf cm); with ``wanted`` also its gradient and what stands for it on the diagonal."""
    total = 0.0
    who = np.empty(4, np.int64)
    weight = np.empty(4)
    for n in range(of.shape[0]):
        d = 0.0
        who[3], weight[3] = of[n], 1.0
        for i in range(3):
            who[i], weight[i] = corners[at[n], i], -share[n, i]
        for i in range(4):
            for k in range(3):
                d += weight[i] * points[who[i], k] * up[n, k]
        if d >= GAP:
            continue
        over = d - GAP
        stiff = FIRM * own[of[n]]
        total += 0.5 * stiff * over * over
        if not wanted:
            continue
        bound = 1.0 + abs(share[n, 0]) + abs(share[n, 1]) + abs(share[n, 2])
        for i in range(4):
            for k in range(3):
                gradient[who[i], k] += stiff * over * weight[i] * up[n, k]
                for m in range(3):
                    blocks[diagonal[who[i]], k, m] += stiff * bound * abs(weight[i]) * up[n, k] * up[n, m]
    return total
