"""The sparse matrix of an equilibrium: one pattern of 3 × 3 blocks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from ellwand.model.mesh import Counts, Mesh, Reals


@dataclass(frozen=True, slots=True)
class Pattern:
    """Where blocks stand.  ``slot``: of each triangle's nine pairs of corners; ``diagonal``: of each point's own block.

    ``bend``: the bending matrix's value for each block; ``indptr``, ``indices``: rows of blocks, as in a CSR matrix.
    """

    slot: Counts
    diagonal: Counts
    bend: Reals
    indptr: Counts
    indices: Counts


def pattern_of(mesh: Mesh, bend: Any) -> Pattern:
    """The pattern that stretching and bending share."""
    from scipy.sparse import coo_array

    n = mesh.count
    i = np.concatenate([mesh.corners[:, [a]] for a in range(3) for _ in range(3)], 1).ravel()
    j = np.concatenate([mesh.corners[:, [b]] for _ in range(3) for b in range(3)], 1).ravel()
    i, j = np.concatenate([i, np.arange(n)]), np.concatenate([j, np.arange(n)])
    held = coo_array((np.ones(len(i)), (i, j)), (n, n)).tocsr()
    coo = bend.tocoo()
    both = coo_array(
        (
            np.ones(held.nnz + coo.nnz),
            (np.concatenate([held.tocoo().row, coo.row]), np.concatenate([held.tocoo().col, coo.col])),
        ),
        (n, n),
    ).tocsr()
    both.sort_indices()
    indptr, indices = both.indptr.astype(np.int64), both.indices.astype(np.int64)
    rows = np.repeat(np.arange(n), np.diff(indptr))
    key = rows * n + indices

    def at(p: Counts, q: Counts) -> Counts:
        return np.searchsorted(key, p.astype(np.int64) * n + q)

    slot = np.stack([np.stack([at(mesh.corners[:, a], mesh.corners[:, b]) for b in range(3)], 1) for a in range(3)], 1)
    values = np.zeros(len(indices))
    values[at(coo.row, coo.col)] = coo.data
    return Pattern(slot, at(np.arange(n), np.arange(n)), values, indptr, indices)
