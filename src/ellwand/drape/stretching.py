"""The cloth as a membrane: a triangle resists stretching along its weft and its warp, and shearing between them.

With the columns f and g of the deformation gradient along weft and warp (flat axes of each triangle), per area

    W = ½ k_weft e² + ½ k_warp h² + ½ k_shear s²,   e = ½(f·f − 1),  h = ½(g·g − 1),  s = f·g

(Green strains; St. Venant and Kirchhoff's energy without cross contraction).  Where e or h is below 0 the stiffness is
``SOFT`` times as large: threads buckle within a triangle.  The Hessian is made positive semidefinite term by term:
the part with e, h or the negative half of the pair ±s is left out.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from ellwand.drape.compiled import compiled
from ellwand.model.mesh import Counts, Reals

SOFT: Final = 0.05
"""What is left of a thread's stiffness when it is pushed together: our own figure."""


@compiled
def stretching_energy(points: Reals, corners: Counts, shape: Reals, area: Reals, stiff: Reals) -> float:
    """Energy (gf cm).  ``shape``: the inverse of a flat triangle's two sides; ``stiff``: weft, warp, shear (gf/cm)."""
    total = 0.0
    for t in range(corners.shape[0]):
        a, b, c = corners[t, 0], corners[t, 1], corners[t, 2]
        ff = gg = fg = 0.0
        for k in range(3):
            u, v = points[b, k] - points[a, k], points[c, k] - points[a, k]
            f = u * shape[t, 0, 0] + v * shape[t, 1, 0]
            g = u * shape[t, 0, 1] + v * shape[t, 1, 1]
            ff += f * f
            gg += g * g
            fg += f * g
        e, h = 0.5 * (ff - 1.0), 0.5 * (gg - 1.0)
        p = stiff[t, 0] * (SOFT if e < 0 else 1.0)
        q = stiff[t, 1] * (SOFT if h < 0 else 1.0)
        total += area[t] * 0.5 * (p * e * e + q * h * h + stiff[t, 2] * fg * fg)
    return total


@compiled
def stretching_terms(
    points: Reals,
    corners: Counts,
    shape: Reals,
    area: Reals,
    stiff: Reals,
    slot: Counts,
    exact: bool,
    gradient: Reals,
    blocks: Reals,
) -> float:
    """The energy; its gradient is added to ``gradient``, its Hessian to the 3 × 3 ``blocks`` that ``slot`` names.

    ``exact``: the Hessian as it is, not made semidefinite.
    """
    total = 0.0
    f, g = np.zeros(3), np.zeros(3)
    for t in range(corners.shape[0]):
        a, b, c = corners[t, 0], corners[t, 1], corners[t, 2]
        ff = gg = fg = 0.0
        for k in range(3):
            u, v = points[b, k] - points[a, k], points[c, k] - points[a, k]
            f[k] = u * shape[t, 0, 0] + v * shape[t, 1, 0]
            g[k] = u * shape[t, 0, 1] + v * shape[t, 1, 1]
            ff += f[k] * f[k]
            gg += g[k] * g[k]
            fg += f[k] * g[k]
        e, h = 0.5 * (ff - 1.0), 0.5 * (gg - 1.0)
        p = area[t] * stiff[t, 0] * (SOFT if e < 0 else 1.0)
        q = area[t] * stiff[t, 1] * (SOFT if h < 0 else 1.0)
        r = area[t] * stiff[t, 2]
        total += 0.5 * (p * e * e + q * h * h + r * fg * fg)
        # the share of each corner in f and g
        wf = (-shape[t, 0, 0] - shape[t, 1, 0], shape[t, 0, 0], shape[t, 1, 0])
        wg = (-shape[t, 0, 1] - shape[t, 1, 1], shape[t, 0, 1], shape[t, 1, 1])
        keep_e = p * e if exact or e > 0 else 0.0
        keep_h = q * h if exact or h > 0 else 0.0
        # s (f gᵀ-pairs): eigenvalues ±s on (x ± y)/√2; only the half of the sign of s is kept
        keep_s = 0.0 if exact else 0.5 * r * math.fabs(fg)
        cross = r * fg if exact else 0.5 * r * fg
        for i in range(3):
            vi = corners[t, i]
            for k in range(3):
                gradient[vi, k] += p * e * wf[i] * f[k] + q * h * wg[i] * g[k] + r * fg * (wf[i] * g[k] + wg[i] * f[k])
            for j in range(3):
                at = slot[t, i, j]
                even = keep_e * wf[i] * wf[j] + keep_h * wg[i] * wg[j]
                even += keep_s * (wf[i] * wf[j] + wg[i] * wg[j]) + cross * (wf[i] * wg[j] + wg[i] * wf[j])
                for k in range(3):
                    ski = wf[i] * g[k] + wg[i] * f[k]
                    for m in range(3):
                        blocks[at, k, m] += (
                            p * wf[i] * wf[j] * f[k] * f[m]
                            + q * wg[i] * wg[j] * g[k] * g[m]
                            + r * ski * (wf[j] * g[m] + wg[j] * f[m])
                        )
                    blocks[at, k, k] += even
    return total
