"""The form against the cloth: pressed together as by a thin, stiff layer, with friction after Coulomb.

Between places of the grid the distance is trilinear, its direction the gradient of that.  What is nearer than the
layer's thickness d0 is pushed out with the energy ½ k (d0 − d)² per area.  Friction is that of the pressing force at
the last step (lagged): μN ψ(slip), ψ quadratic up to ``CREEP`` and straight beyond.
"""

from __future__ import annotations

import math
from typing import Final

from ellwand.drape.compiled import compiled
from ellwand.model.mesh import Counts, Reals

CREEP: Final = 0.05
"""So far (cm) cloth gives before it slips: our own figure."""


@compiled
def distance_at(
    x: float, y: float, z: float, low: Reals, cell: float, away: Reals
) -> tuple[float, float, float, float]:
    """Distance (cm) and its gradient; 99 beyond the grid.  ``low``: the grid's least x, y, z; the floor's height."""
    if z < low[3] + cell:
        return z - low[3], 0.0, 0.0, 1.0
    u, v, w = (x - low[0]) / cell, (y - low[1]) / cell, (z - low[2]) / cell
    i, j, k = math.floor(u), math.floor(v), math.floor(w)
    if i < 0 or j < 0 or k < 0 or i >= away.shape[0] - 1 or j >= away.shape[1] - 1 or k >= away.shape[2] - 1:
        return 99.0, 0.0, 0.0, 0.0
    u, v, w = u - i, v - j, w - k
    c000, c100, c010, c110 = away[i, j, k], away[i + 1, j, k], away[i, j + 1, k], away[i + 1, j + 1, k]
    c001, c101 = away[i, j, k + 1], away[i + 1, j, k + 1]
    c011, c111 = away[i, j + 1, k + 1], away[i + 1, j + 1, k + 1]
    a00, a10 = c000 + u * (c100 - c000), c010 + u * (c110 - c010)
    a01, a11 = c001 + u * (c101 - c001), c011 + u * (c111 - c011)
    b0, b1 = a00 + v * (a10 - a00), a01 + v * (a11 - a01)
    gx = (1 - w) * ((1 - v) * (c100 - c000) + v * (c110 - c010)) + w * ((1 - v) * (c101 - c001) + v * (c111 - c011))
    gy = (1 - w) * (a10 - a00) + w * (a11 - a01)
    return b0 + w * (b1 - b0), gx / cell, gy / cell, (b1 - b0) / cell


@compiled
def touching_terms(
    points: Reals,
    own: Reals,
    low: Reals,
    cell: float,
    away: Reals,
    trunk: Reals,
    gap: float,
    firm: float,
    belt: Reals,
    anchor: Reals,
    held: Reals,
    slot: Counts,
    wanted: bool,
    gradient: Reals,
    blocks: Reals,
) -> float:
    """Energy (gf cm) of contact, belt and friction; with ``wanted`` also its gradient and Hessian blocks.

    ``trunk``: distances from the trunk alone, which is what a belt goes round; ``own``: each point's share of the area
    (cm²); ``gap``: the layer's thickness d0 (cm); ``firm``: k (gf/cm³); ``belt``: how far off the form each point may
    be (cm); ``anchor``: where friction holds it, ``held``: μN (gf).
    """
    total = 0.0
    for n in range(points.shape[0]):
        d, gx, gy, gz = distance_at(points[n, 0], points[n, 1], points[n, 2], low, cell, away)
        girded = belt[n] < 90.0
        if d >= gap and not girded and held[n] <= 0.0:
            continue
        over = 0.0
        if d < gap:
            over = d - gap
        elif girded:
            d, gx, gy, gz = distance_at(points[n, 0], points[n, 1], points[n, 2], low, cell, trunk)
            over = max(0.0, d - belt[n]) if d < 90.0 else 0.0
        g = (gx, gy, gz)
        k = firm * own[n]
        total += 0.5 * k * over * over
        at = slot[n]
        if wanted and over != 0.0:
            for a in range(3):
                gradient[n, a] += k * over * g[a]
                for b in range(3):
                    blocks[at, a, b] += k * g[a] * g[b]
        if held[n] > 0.0:
            # along the surface, as it lies at the anchor
            _, gx, gy, gz = distance_at(anchor[n, 0], anchor[n, 1], anchor[n, 2], low, cell, away)
            long = math.sqrt(gx * gx + gy * gy + gz * gz) + 1e-12
            g = (gx, gy, gz)
            s0, s1, s2 = points[n, 0] - anchor[n, 0], points[n, 1] - anchor[n, 1], points[n, 2] - anchor[n, 2]
            up = (s0 * gx + s1 * gy + s2 * gz) / long
            s = (s0 - up * gx / long, s1 - up * gy / long, s2 - up * gz / long)
            slip = math.sqrt(s[0] * s[0] + s[1] * s[1] + s[2] * s[2])
            total += held[n] * (0.5 * slip * slip / CREEP if slip < CREEP else slip - 0.5 * CREEP)
            if wanted:
                f = held[n] / max(slip, CREEP)
                for a in range(3):
                    gradient[n, a] += f * s[a]
                    for b in range(3):
                        blocks[at, a, b] += f * ((1.0 if a == b else 0.0) - g[a] * g[b] / (long * long))
    return total


@compiled
def pressing(
    points: Reals,
    own: Reals,
    low: Reals,
    cell: float,
    away: Reals,
    trunk: Reals,
    gap: float,
    firm: float,
    belt: Reals,
    out: Reals,
) -> None:
    """How hard (gf) form and belt press on each point."""
    for n in range(points.shape[0]):
        d, _, _, _ = distance_at(points[n, 0], points[n, 1], points[n, 2], low, cell, away)
        out[n] = 0.0
        if d < gap:
            out[n] = firm * own[n] * (gap - d)
        elif belt[n] < 90.0:
            d, _, _, _ = distance_at(points[n, 0], points[n, 1], points[n, 2], low, cell, trunk)
            if d > belt[n] and d < 90.0:
                out[n] = firm * own[n] * (d - belt[n])


@compiled
def distances(points: Reals, low: Reals, cell: float, away: Reals, out: Reals) -> None:
    """How far each point is off the form (cm)."""
    for n in range(points.shape[0]):
        out[n] = distance_at(points[n, 0], points[n, 1], points[n, 2], low, cell, away)[0]
