"""Parts that make a tube, wrapped round: an angle that goes evenly round it, and its sections as they are cut.

The angle is Tutte's: the tube is laid flat between its lowest rim, a circle, and its highest.  Across it the sections
are rebuilt as long as they are cut: a least-squares fit of steps along cos and sin of that angle.
"""

from __future__ import annotations

import math
from typing import Any, Final

import numpy as np

from ellwand.model.mesh import Counts, Mesh, Reals

LEAST: Final = 3
"""A rim of fewer points is a small gap where corners meet, no opening."""
OPEN: Final = 6.0
"""Of a garment open from neck to hem, so much (cm) of the rim's height is its hem, or its neck."""


def wrapped(mesh: Mesh, mine: Any, height: Reals, sign: Reals, flat_above: float) -> tuple[Reals, Reals]:
    """Two level coordinates (cm) of what the triangles ``mine`` make: a tube whose axis is ``height``.

    The second is largest where ``sign`` is 1.  Above ``flat_above`` the front lies flat before the back.
    """
    corners, flat = mesh.corners[mine], mesh.flat[mine]
    slope, area = _slopes(flat)
    # towards the right along the level, as seen from outside with the height upward
    rise = np.einsum("tik,ti->tk", slope, height[corners])
    rise /= np.maximum(np.linalg.norm(rise, axis=1, keepdims=True), 1e-9)
    level = np.stack([rise[:, 1], -rise[:, 0]], 1)
    local = signed_angle(mesh, mine, height, sign)[corners]
    local = local - 2 * math.pi * np.round((local - local[:, :1]) / (2 * math.pi))
    middle = local.mean(1)
    cos, sin = np.cos(middle), np.sin(middle)
    side = sign[corners].mean(1)
    above = np.clip((height[corners].mean(1) - flat_above) / 8.0, 0.0, 1.0) * np.abs(side)
    cos = (1 - above) * cos + above * side
    sin = (1 - above) * sin
    across = _rebuilt(corners, slope, area, level * cos[:, None], mesh.count)
    ahead = _rebuilt(corners, slope, area, level * -sin[:, None], mesh.count)
    return across, ahead


def signed_angle(mesh: Mesh, mine: Any, height: Reals, sign: Reals) -> Reals:
    """The angle round a tube, to the right as seen from outside with the height upward; 0 where ``sign`` is 1."""
    corners = mesh.corners[mine]
    slope, area = _slopes(mesh.flat[mine])
    rise = np.einsum("tik,ti->tk", slope, height[corners])
    level = np.stack([rise[:, 1], -rise[:, 0]], 1)
    angle = _angle(corners, height, mesh.count)
    used = np.unique(corners)
    angle = angle - np.angle((sign[used] * np.exp(1j * angle[used])).sum())
    local = angle[corners]
    local = local - 2 * math.pi * np.round((local - local[:, :1]) / (2 * math.pi))
    turn = np.einsum("tik,ti,tk,t->", slope, local, level, area)
    return np.asarray(angle if turn > 0 else -angle)


def radii(mesh: Mesh, mine: Any, below: Reals) -> Reals:
    """The radius (cm) of a sleeve at every point; above where it is a whole tube, as there."""
    corners = mesh.corners[mine]
    _, area = _slopes(mesh.flat[mine])
    at = below[corners].mean(1)
    top = min(_loops(corners), key=lambda loop: float(below[loop].mean()))
    whole = float(np.max(below[top]))
    inside = np.argsort(at)
    inside = inside[at[inside] > whole]
    # how the area grows with the way down, smoothly: its slope is the girth
    fit = np.polynomial.Polynomial.fit(at[inside], np.cumsum(area[inside]), 3)
    known = np.where(np.isfinite(below), np.maximum(below, whole), whole)
    return np.asarray(np.maximum(fit.deriv()(known) / (2 * math.pi), 1.0))


def _slopes(flat: Reals) -> tuple[Reals, Reals]:
    """Of each triangle the gradients of its corners' hat functions, and its area."""
    a, b, c = flat[:, 0], flat[:, 1], flat[:, 2]
    twice = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    edges = np.stack([c - b, a - c, b - a], 1)
    return np.stack([-edges[..., 1], edges[..., 0]], -1) / twice[:, None, None], twice / 2


def _stiffness(corners: Counts, slope: Reals, area: Reals, count: int) -> Any:
    from scipy.sparse import coo_array

    local = np.einsum("tik,tjk,t->tij", slope, slope, area)
    i, j = np.repeat(corners, 3, axis=1).ravel(), np.tile(corners, (1, 3)).ravel()
    return coo_array((local.ravel(), (i, j)), (count, count)).tocsc()


def _rebuilt(corners: Counts, slope: Reals, area: Reals, wanted: Reals, count: int) -> Reals:
    """The function whose gradient is nearest to what is ``wanted`` on each triangle; its mean is 0."""
    from scipy.sparse import diags_array
    from scipy.sparse.linalg import splu

    right = np.zeros(count)
    np.add.at(right, corners, np.einsum("tik,tk,t->ti", slope, wanted, area))
    matrix = _stiffness(corners, slope, area, count)
    used = np.zeros(count)
    used[corners.ravel()] = 1.0
    small = 1e-8 * matrix.diagonal().max()
    out = splu((matrix + diags_array(small + (1.0 - used))).tocsc()).solve(right)
    out -= out[used > 0].mean()
    return np.asarray(out)


def _angle(corners: Counts, height: Reals, count: int) -> Reals:
    """An angle (radians) round the tube: its lowest rim is laid on a circle and all else within, each point in the
    middle of its neighbours (Tutte, Proc. London Math. Soc. 13, 1963); seen from the middle of the highest rim."""
    from scipy.sparse import coo_array, diags_array
    from scipy.sparse.linalg import splu

    every = _loops(corners)
    loops = [loop for loop in every if len(loop) >= LEAST] or every
    lowest = min(loops, key=lambda loop: float(height[loop].mean()))
    highest = max(loops, key=lambda loop: float(height[loop].mean()))
    if highest is lowest or float(np.max(height[lowest])) > float(np.max(height[highest])) - OPEN:
        # open from neck to hem: its hem alone goes round
        tall = height[lowest]
        start = int(np.argmax(tall))
        rolled = np.roll(lowest, -start)
        highest = rolled[height[rolled] > float(np.max(tall)) - OPEN]
        lowest = rolled[height[rolled] < float(np.min(tall)) + OPEN]
    i = corners[:, [0, 1, 2, 1, 2, 0]].ravel()
    j = corners[:, [1, 2, 0, 0, 1, 2]].ravel()
    beside = coo_array((np.ones(len(i)), (i, j)), (count, count)).tocsr()
    beside.data[:] = 1.0
    fixed = np.ones(count, bool)
    fixed[np.unique(corners)] = False
    fixed[lowest] = True
    many = np.asarray(beside.sum(axis=1)).ravel()
    free = np.where(fixed, 0.0, 1.0)
    matrix = diags_array(np.where(fixed, 1.0, many)) - diags_array(free) @ beside
    right = np.zeros((count, 2))
    turn = 2 * math.pi * np.arange(len(lowest)) / len(lowest)
    right[lowest] = np.column_stack([np.cos(turn), np.sin(turn)])
    place = splu(matrix.tocsc()).solve(right)
    place = place - place[highest].mean(0)
    return np.asarray(np.arctan2(place[:, 1], place[:, 0]))


def _loops(corners: Counts) -> list[Counts]:
    """The rims of these triangles, each as its points in order."""
    sides = np.concatenate([corners[:, [0, 1]], corners[:, [1, 2]], corners[:, [2, 0]]])
    key = np.sort(sides, axis=1)
    _, first, many = np.unique(key, axis=0, return_index=True, return_counts=True)
    open_sides = sides[first[many == 1]]
    after: dict[int, list[int]] = {}
    for a, b in open_sides.tolist():
        after.setdefault(a, []).append(b)
    out: list[Counts] = []
    while after:
        start = next(iter(after))
        loop, at = [start], after[start].pop()
        while at != start:
            loop.append(at)
            if not after.get(at):
                # rims that touch in a point: what is left of one is a line
                break
            at = after[at].pop()
        after = {a: b for a, b in after.items() if b}
        out.append(np.array(loop))
    return out
