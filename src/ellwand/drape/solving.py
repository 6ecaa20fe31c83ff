"""The sparse matrix of an equilibrium: one pattern of 3 × 3 blocks, factored again and again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from ellwand.model.mesh import Counts, Mesh, Reals


@dataclass(frozen=True, slots=True)
class Pattern:
    """Where blocks stand.  ``slot``: of each triangle's nine pairs of corners; ``diagonal``: of each point's own block.

    ``bend``: the bending matrix's value for each block; ``indptr``, ``indices``: rows of blocks, as in a CSR matrix;
    ``scalar``: from the blocks' numbers to those of the scalar matrix, whose rows are ``row`` and ``column``.
    """

    slot: Counts
    diagonal: Counts
    bend: Reals
    indptr: Counts
    indices: Counts
    scalar: Counts
    row: Counts
    column: Counts


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
    # the scalar matrix: each block row is three rows of three times as many
    many = np.diff(indptr)
    row = np.zeros(3 * n + 1, np.int64)
    row[1:] = np.cumsum(np.repeat(3 * many, 3))
    first = np.repeat(row[:-1].reshape(n, 3), many, axis=0)
    within = np.arange(len(indices)) - np.repeat(indptr[:-1], many)
    place = first[:, :, None] + 3 * within[:, None, None] + np.arange(3)[None, None, :]
    scalar = np.empty(9 * len(indices), np.int64)
    scalar[place.ravel()] = np.arange(9 * len(indices))
    column = np.empty(9 * len(indices), np.int64)
    column[place.ravel()] = np.broadcast_to(3 * indices[:, None, None] + np.arange(3), place.shape).ravel()
    return Pattern(slot, at(np.arange(n), np.arange(n)), values, indptr, indices, scalar, row, column)


def factored(pattern: Pattern, blocks: Reals) -> Callable[[Reals], Reals]:
    """A function that solves for a right-hand side; the matrix is symmetric and positive definite."""
    from scipy.sparse import csc_array
    from scipy.sparse.linalg import splu

    count = len(pattern.row) - 1
    matrix = csc_array((blocks.ravel()[pattern.scalar], pattern.column, pattern.row), (count, count))
    done = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    return lambda right: np.asarray(done.solve(right))
