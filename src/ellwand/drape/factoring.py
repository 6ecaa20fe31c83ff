"""Cholesky's factors of a symmetric matrix of 3 × 3 blocks, front by front."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ellwand.drape.compiled import compiled
from ellwand.drape.dissecting import Front
from ellwand.model.mesh import Counts, Reals


@compiled
def _scatter(front: Reals, blocks: Reals, slot: Counts, low: Counts, side: Counts) -> None:
    for n in range(slot.shape[0]):
        for j in range(3):
            for i in range(3):
                front[3 * low[n] + i, 3 * side[n] + j] = blocks[slot[n], j, i]


@compiled
def _add(front: Reals, rest: Reals, place: Counts) -> None:
    """Adds the lower triangle of what another front left."""
    for b in range(place.shape[0]):
        for j in range(3):
            column = 3 * place[b] + j
            for a in range(b, place.shape[0]):
                row = 3 * place[a]
                front[row, column] += rest[3 * a, 3 * b + j]
                front[row + 1, column] += rest[3 * a + 1, 3 * b + j]
                front[row + 2, column] += rest[3 * a + 2, 3 * b + j]


class NotPositive(ArithmeticError):
    """The matrix is not positive definite."""


class Factors:
    """The factors of one matrix, to solve with."""

    def __init__(self, fronts: Sequence[Front], blocks: Reals) -> None:
        from scipy.linalg.blas import dsyrk, dtrsm
        from scipy.linalg.lapack import dpotrf

        self._fronts = fronts
        self._upper: list[tuple[Reals, Reals]] = []
        rests: list[Reals | None] = [None] * len(fronts)
        for n, front in enumerate(fronts):
            size, own = 3 * len(front.rows), 3 * front.own
            whole = np.zeros((size, size), order="F")
            _scatter(whole, blocks, front.slot, front.low, front.side)
            for under, place in front.under:
                rest = rests[under]
                if rest is not None and len(place):
                    _add(whole, rest, place)
                rests[under] = None
            pivot, wrong = dpotrf(whole[:own, :own], lower=1, clean=1)
            if wrong:
                raise NotPositive(n)
            below = np.asfortranarray(whole[own:, :own])
            if size > own:
                # below · pivot⁻ᵀ
                below = dtrsm(1.0, pivot, below, side=1, lower=1, trans_a=1)
                left = np.asfortranarray(whole[own:, own:])
                rests[n] = dsyrk(-1.0, below, beta=1.0, c=left, lower=1, overwrite_c=1)
            self._upper.append((pivot, below))

    def solve(self, right: Reals) -> Reals:
        """For a right-hand side of three numbers for each point."""
        from scipy.linalg.blas import dgemv, dtrsv

        out = right.reshape(-1, 3).copy()
        for front, (pivot, below) in zip(self._fronts, self._upper, strict=True):
            own, rest = front.rows[: front.own], front.rows[front.own :]
            y = dtrsv(pivot, out[own].ravel(), lower=1)
            out[own] = y.reshape(-1, 3)
            if len(rest):
                out[rest] -= dgemv(1.0, below, y).reshape(-1, 3)
        for front, (pivot, below) in zip(reversed(self._fronts), reversed(self._upper), strict=True):
            own, rest = front.rows[: front.own], front.rows[front.own :]
            x = out[own].ravel()
            if len(rest):
                x = x - dgemv(1.0, below, out[rest].ravel(), trans=1)
            out[own] = dtrsv(pivot, x, lower=1, trans=1).reshape(-1, 3)
        return out
