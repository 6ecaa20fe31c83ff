"""The fronts' factors against SciPy's general solver."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.sparse import bsr_array
from scipy.sparse.linalg import spsolve

from ellwand.drape.dissecting import dissected
from ellwand.drape.equilibrium import terms_of
from ellwand.drape.factoring import Factors, NotPositive
from hanging import draft_of, lifted, mesh_of, piece, rectangle, task


@pytest.mark.parametrize("spacing", [6.0, 2.0])
def test_they_solve_as_another_solver_does(spacing: float) -> None:
    mesh = mesh_of(draft_of(piece("a", rectangle(60.0, 40.0))), spacing)
    set_up, points = task(mesh), lifted(mesh)
    _, gradient, blocks = terms_of(set_up, points, points, np.zeros(mesh.count))
    pattern = set_up.pattern
    blocks[pattern.diagonal] += 0.3 * np.eye(3)
    found = Factors(dissected(pattern.indptr, pattern.indices, points), blocks).solve(gradient)
    matrix = bsr_array((blocks, pattern.indices, pattern.indptr)).tocsc()
    expected = spsolve(matrix, gradient.ravel()).reshape(-1, 3)
    assert np.abs(found - expected).max() < 1e-9 * np.abs(expected).max()


def test_every_point_is_eliminated_once() -> None:
    mesh = mesh_of(draft_of(piece("a", rectangle(60.0, 40.0))), 2.0)
    pattern = task(mesh).pattern
    fronts = dissected(pattern.indptr, pattern.indices, lifted(mesh))
    eliminated = np.concatenate([front.rows[: front.own] for front in fronts])
    assert sorted(eliminated.tolist()) == list(range(mesh.count))


def test_what_is_not_positive_definite_is_refused() -> None:
    mesh = mesh_of(draft_of(piece("a", rectangle(10.0, 10.0))), 5.0)
    pattern = task(mesh).pattern
    blocks = np.zeros((len(pattern.indices), 3, 3))
    with pytest.raises(NotPositive):
        Factors(dissected(pattern.indptr, pattern.indices, lifted(mesh)), blocks)
