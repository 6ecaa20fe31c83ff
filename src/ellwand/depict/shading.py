"""The painter's inner loop, compiled."""

from __future__ import annotations

import math
from typing import Final

from numba import njit

from ellwand.model.mesh import Counts, Reals

KEY: Final = (-0.45, 0.70, 0.55)
FILL: Final = (0.75, 0.45, 0.15)
"""Where the two lights stand (x, y, z; about 1 long)."""


@njit(cache=True, nogil=True)
def fill(at: Reals, corners: Counts, colour: Reals, normal: Reals, picture: Reals, depth: Reals) -> None:
    """Paint triangles (x right, y down in pixels; the nearest, of greatest z, is seen), both faces lit."""
    high, wide = depth.shape
    for t in range(corners.shape[0]):
        a, b, c = corners[t, 0], corners[t, 1], corners[t, 2]
        ax, ay, bx, by, cx, cy = at[a, 0], at[a, 1], at[b, 0], at[b, 1], at[c, 0], at[c, 1]
        twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if abs(twice) < 1e-9:
            continue
        x0, x1 = max(0, math.ceil(min(ax, bx, cx) - 0.5)), min(wide - 1, math.floor(max(ax, bx, cx) - 0.5))
        y0, y1 = max(0, math.ceil(min(ay, by, cy) - 0.5)), min(high - 1, math.floor(max(ay, by, cy) - 0.5))
        for j in range(y0, y1 + 1):
            y = j + 0.5
            for i in range(x0, x1 + 1):
                x = i + 0.5
                u = ((bx - x) * (cy - y) - (by - y) * (cx - x)) / twice
                v = ((cx - x) * (ay - y) - (cy - y) * (ax - x)) / twice
                w = 1.0 - u - v
                if u < -1e-9 or v < -1e-9 or w < -1e-9:
                    continue
                z = u * at[a, 2] + v * at[b, 2] + w * at[c, 2]
                if z <= depth[j, i]:
                    continue
                depth[j, i] = z
                nx = u * normal[a, 0] + v * normal[b, 0] + w * normal[c, 0]
                ny = u * normal[a, 1] + v * normal[b, 1] + w * normal[c, 1]
                nz = u * normal[a, 2] + v * normal[b, 2] + w * normal[c, 2]
                long = math.sqrt(nx * nx + ny * ny + nz * nz) + 1e-12
                face = 1.0 if ny >= 0 else -1.0
                nx, ny, nz = face * nx / long, face * ny / long, face * nz / long
                key = max(0.0, -nx * KEY[0] + ny * KEY[1] + nz * KEY[2])
                side = max(0.0, -nx * FILL[0] + ny * FILL[1] + nz * FILL[2])
                light = 0.30 + 0.12 * nz + 0.55 * key + 0.18 * side
                for k in range(3):
                    tint = u * colour[a, k] + v * colour[b, k] + w * colour[c, k]
                    picture[j, i, k] = min(1.0, tint * light * (1.0 if face > 0 else 0.72))
