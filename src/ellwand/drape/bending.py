"""The cloth's resistance to bending: a constant matrix.

On every triangle a quadratic is fitted to the places of its own and its neighbours' corners, unfolded into its plane,
also across seams.  Its second derivatives along weft and warp, vectors in space, give the energy per area

    W = ½ (B_weft |x_uu|² + B_warp |x_vv|² + T |x_uv|²),   T = 4 B_bias − B_weft − B_warp,

which for a sheet that is bent and not stretched is that of its curvatures; a strip cut at 45° then bends with B_bias.
For what cannot be stretched κ_uu κ_vv = κ_uv², so a term with that product says nothing new.  The energy is quadratic
in the points, so its matrix is made once.  B = weight per area × (bending length)³ (Peirce, J. Text. Inst. 21, 1930).
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np

from ellwand.model.mesh import Counts, Mesh, Reals

SINGULAR: Final = 1e-3
"""Neighbours that lie nearer to one conic than this fix no quadratic: then their neighbours are asked too."""


def bending_matrix(mesh: Mesh, along: Reals) -> Any:
    """The matrix K of ½ Σ xᵀKx over the three coordinates; ``along``: B of weft, warp and bias (gf cm) by triangle."""
    from scipy.sparse import coo_array

    beside = _beside(mesh)
    area = areas(mesh)
    rows: list[Counts] = []
    columns: list[Counts] = []
    values: list[Reals] = []
    twist = np.maximum(4.0 * along[:, 2] - along[:, 0] - along[:, 1], 0.05 * (along[:, 0] + along[:, 1]))
    stiff = np.stack([along[:, 0], along[:, 1], twist], 1)
    inner = np.all(beside >= 0, axis=1)
    which = np.flatnonzero(inner)
    numbers = np.concatenate([mesh.corners[which], np.zeros((len(which), 3), np.int64)], 1)
    places = np.concatenate([mesh.flat[which], np.zeros((len(which), 3, 2))], 1)
    for side in range(3):
        apex, place = _unfolded(mesh, which, mesh.flat[which], side, beside[which, side])
        numbers[:, 3 + side], places[:, 3 + side] = apex, place
    scale = np.sqrt(area[which])
    local = (places - places.mean(1, keepdims=True)) / scale[:, None, None]
    terms = _terms(local)
    firm = np.abs(np.linalg.det(terms)) > SINGULAR
    inverse = np.linalg.inv(terms[firm])
    # second derivatives: rows 3, 4, 5 of the inverse are the coefficients of u²/2, v²/2, uv
    second = inverse[:, 3:] / scale[firm, None, None] ** 2
    weight = (area[which[firm], None] * stiff[which[firm]])[:, :, None]
    local_matrix = np.einsum("tki,tkj->tij", second, second * weight)
    n = numbers[firm]
    rows.append(np.repeat(n, 6, axis=1).ravel())
    columns.append(np.tile(n, (1, 6)).ravel())
    values.append(local_matrix.ravel())
    for t in np.concatenate([np.flatnonzero(~inner), which[~firm]]).tolist():
        n, second_one = _wider(mesh, beside, t)
        if len(n) == 0:
            continue
        matrix = (second_one.T * (area[t] * stiff[t])) @ second_one
        rows.append(np.repeat(n, len(n)))
        columns.append(np.tile(n, len(n)))
        values.append(matrix.ravel())
    shape = (mesh.count, mesh.count)
    out = coo_array((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape).tocsr()
    out.sum_duplicates()
    return out


def areas(mesh: Mesh) -> Reals:
    """Of each flat triangle (cm²)."""
    u, v = mesh.flat[:, 1] - mesh.flat[:, 0], mesh.flat[:, 2] - mesh.flat[:, 0]
    return np.asarray((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 2)


def _terms(places: Reals) -> Reals:
    u, v = places[..., 0], places[..., 1]
    return np.stack([np.ones_like(u), u, v, u * u / 2, v * v / 2, u * v], axis=-1)


def _beside(mesh: Mesh) -> Counts:
    """Of each triangle the neighbours across its sides 01, 12 and 20; −1 at a rim."""
    sides = np.stack([mesh.corners, np.roll(mesh.corners, -1, axis=1)], 2).reshape(-1, 2)
    low, high = sides.min(1), sides.max(1)
    key = low * mesh.count + high
    order = np.argsort(key, kind="stable")
    out = np.full(len(key), -1, np.int64)
    sorted_key = key[order]
    twin = np.flatnonzero(sorted_key[1:] == sorted_key[:-1])
    first, second = order[twin], order[twin + 1]
    out[first], out[second] = second // 3, first // 3
    return out.reshape(-1, 3)


def _unfolded(mesh: Mesh, of: Counts, flat: Reals, side: int, beside: Counts) -> tuple[Counts, Reals]:
    """The corner of each neighbour that lies across, and where it lies unfolded into the flat triangle's plane."""
    a, b = mesh.corners[of, side], mesh.corners[of, (side + 1) % 3]
    theirs = mesh.corners[beside]
    across = np.argmax((theirs != a[:, None]) & (theirs != b[:, None]), axis=1)
    at_a, at_b = np.argmax(theirs == a[:, None], axis=1), np.argmax(theirs == b[:, None], axis=1)
    row = np.arange(len(of))
    p, q, r = mesh.flat[beside][row, at_a], mesh.flat[beside][row, at_b], mesh.flat[beside][row, across]
    along = q - p
    squared = (along**2).sum(1)
    off = r - p
    share = (off * along).sum(1) / squared
    # how far off the side, on the side away from this triangle; both are walked with their cloth on the left
    beyond = np.abs(off[:, 0] * along[:, 1] - off[:, 1] * along[:, 0]) / np.sqrt(squared)
    own_p, own_q = flat[:, side], flat[:, (side + 1) % 3]
    own = own_q - own_p
    unit = own / np.linalg.norm(own, axis=1, keepdims=True)
    outward = np.stack([unit[:, 1], -unit[:, 0]], 1)
    return theirs[row, across], own_p + share[:, None] * own + beyond[:, None] * outward


def _wider(mesh: Mesh, beside: Counts, start: int) -> tuple[Counts, Reals]:
    """Of a triangle at a rim: so many neighbours' neighbours that they fix a quadratic; the nearest of its fits."""
    places: dict[int, Reals] = {int(n): at for n, at in zip(mesh.corners[start], mesh.flat[start], strict=True)}
    todo, seen = [(start, mesh.flat[start])], {start}
    size = np.sqrt(abs(float(areas_of(mesh.flat[start]))))
    for _ring in range(4):
        grown = []
        for t, flat in todo:
            for side in range(3):
                other = int(beside[t, side])
                if other < 0 or other in seen:
                    continue
                seen.add(other)
                apex, place = _unfolded(mesh, np.array([t]), flat[None], side, np.array([other]))
                places.setdefault(int(apex[0]), place[0])
                a, b = int(mesh.corners[t, side]), int(mesh.corners[t, (side + 1) % 3])
                own = {a: flat[side], b: flat[(side + 1) % 3], int(apex[0]): place[0]}
                grown.append((other, np.array([own[int(n)] for n in mesh.corners[other]])))
        todo = grown
        at = np.array(list(places.values()))
        middle = mesh.flat[start].mean(0)
        terms = _terms((at - middle) / size)
        near = np.exp(-0.25 * ((at - middle) ** 2).sum(1) / size**2)
        if len(at) >= 6 and np.linalg.svd(terms * near[:, None], compute_uv=False)[-1] > 0.05:
            fit = np.linalg.pinv(terms * near[:, None]) * near[None, :]
            return np.array(list(places)), fit[3:] / size**2
    return np.zeros(0, np.int64), np.zeros((3, 0))


def areas_of(flat: Reals) -> float:
    """Of one flat triangle (cm²)."""
    u, v = flat[1] - flat[0], flat[2] - flat[0]
    return float((u[0] * v[1] - u[1] * v[0]) / 2)
