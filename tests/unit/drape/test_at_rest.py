"""Cloth at rest against what is known in closed form, or from another solver."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from scipy.optimize import brentq

from ellwand.drape.equilibrium import Settled, Task, settled, terms_of
from ellwand.drape.field import Field
from ellwand.drape.touching import pressing
from ellwand.model.mesh import Mesh, Reals
from hanging import draft_of, lifted, mesh_of, piece, rectangle, task


def strip(overhang: float, bends: float, spacing: float) -> tuple[float, Settled]:
    """The droop (degrees) of a strip 2.5 cm wide laid over a rod in its middle: each half is level there."""
    halves = piece("a", rectangle(2.5, overhang, -overhang)), piece("b", rectangle(2.5, overhang))
    mesh = mesh_of(draft_of(*halves, seams=(("a", "2", "b", "0"),)), spacing)
    flat = lifted(mesh)
    stiff = 0.02 * bends**3
    rod = np.flatnonzero(np.abs(flat[:, 1]) < 1e-9)
    hung = settled(
        replace(task(mesh, bends=(stiff,) * 3, shear=200.0), fixed=rod), flat, most=90, enough=1e-4, first=0.05
    )
    tip = hung.points[flat[:, 1] > overhang - 1e-6].mean(0)
    return math.degrees(math.atan2(-tip[2], tip[1])), hung


def heavy_elastica(ratio: float) -> float:
    """The droop (degrees) by SciPy's solver of boundary value problems (Bickley, Phil. Mag. 17, 1934)."""

    def change(s: Reals, y: Reals) -> Reals:
        return np.vstack([y[1], -(ratio**3) * (1 - s) * np.cos(y[0]), np.cos(y[0]), np.sin(y[0])])

    def ends(a: Reals, b: Reals) -> Reals:
        return np.array([a[0], b[1], a[2], a[3]])

    s = np.linspace(0, 1, 200)
    found = solve_bvp(change, ends, s, np.vstack([s, 1 - s, s, 0 * s]), tol=1e-8, max_nodes=20000)
    return math.degrees(math.atan2(found.y[3, -1], found.y[2, -1]))


@pytest.mark.parametrize("ratio", [1.2, 2.0, 2.71, 3.5])
def test_a_strip_droops_as_the_heavy_elastica(ratio: float) -> None:
    # the shortest needs the finest mesh: it has the fewest triangles along its length
    angle, hung = strip(ratio * 4.0, 4.0, 0.125 * ratio)
    assert angle == pytest.approx(heavy_elastica(ratio), rel=0.01)
    assert hung.residual < 1e-4


def test_the_droop_comes_nearer_with_a_finer_mesh() -> None:
    exact = heavy_elastica(2.0)
    off = [abs(strip(6.0, 3.0, spacing)[0] - exact) for spacing in (0.8, 0.5, 0.25)]
    assert off[0] > off[1] > off[2]


def test_a_hanging_sheet_gets_longer_by_half_its_weight() -> None:
    # by hand: the pull at height z is weight × what hangs below, so all of it gives w L² / 2k
    mesh = mesh_of(draft_of(piece("a", rectangle(20.0, 100.0))), 4.0)
    flat = lifted(mesh)
    upright = flat[:, [0, 2, 1]]
    top = np.flatnonzero(flat[:, 1] > 100.0 - 1e-9)
    hung = settled(replace(task(mesh, weight=0.03, shear=20.0), fixed=top), upright, most=60, enough=1e-5)
    drop = -float(np.mean(hung.points[flat[:, 1] < 1e-9, 2]))
    assert drop == pytest.approx(0.03 * 100.0**2 / (2 * 400.0), rel=0.01)


def test_a_slack_ribbon_hangs_in_a_catenary() -> None:
    long, apart = 60.0, 48.0
    mesh = mesh_of(draft_of(piece("a", rectangle(2.0, long))), 1.0)
    flat = lifted(mesh)
    middle = flat[:, 1] - long / 2
    start = np.column_stack([flat[:, 0], middle * apart / long, -15.0 * (1 - (2 * middle / long) ** 2)])
    ends = np.flatnonzero(np.abs(middle) > long / 2 - 1e-9)
    limp = task(mesh, taut=2e4, shear=2e3, bends=(1e-5, 1e-5, 1e-5))
    hung = settled(replace(limp, fixed=ends), start, most=120, enough=1e-4)
    # the sag of a chain: s = 2a sinh(d/2a), f = a (cosh(d/2a) − 1)
    a = brentq(lambda a: 2 * a * math.sinh(apart / (2 * a)) - long, 5.0, 500.0)
    sag = a * (math.cosh(apart / (2 * a)) - 1)
    assert -float(hung.points[:, 2].min()) == pytest.approx(sag, rel=1e-3)


def cylinder(radius: float) -> Field:
    """An upright cylinder as a grid of distances."""
    at = np.arange(-40, 41) * 0.5
    x, y, _ = np.meshgrid(at, at, np.arange(-8, 9) * 0.5, indexing="ij")
    away = np.ascontiguousarray(np.hypot(x, y) - radius)
    return Field(np.array([-20.0, -20.0, -4.0, -1e3]), 0.5, away, away)


def tube(radius: float) -> tuple[Mesh, Reals]:
    """A tube 4 cm high of that radius, and its points about the upright."""
    round_ = 2 * math.pi * radius
    mesh = mesh_of(draft_of(piece("a", rectangle(round_, 4.0, -2.0)), seams=(("a", "1", "a", "3"),)), 0.8)
    out = np.zeros((mesh.count, 3))
    angle = mesh.flat[:, :, 0].ravel() / radius
    out[mesh.corners.ravel()] = np.column_stack(
        [radius * np.cos(angle), radius * np.sin(angle), mesh.flat[:, :, 1].ravel()]
    )
    return mesh, out


def test_a_tight_tube_presses_as_laplace_says() -> None:
    mesh, points = tube(10.0)
    set_up = replace(task(mesh, weight=1e-6, bends=(1e-6,) * 3, field=cylinder(10.4)), gap=0.1)
    hung = settled(set_up, points * np.array([1.05, 1.05, 1.0]), most=60, enough=10.0)
    inside = np.abs(hung.points[:, 2]) < 1.0
    out = np.empty(mesh.count)
    field = set_up.field
    assert field is not None
    pressing(
        hung.points, set_up.own, field.low, field.cell, field.away, field.trunk, set_up.gap, 60.0, set_up.belt, out
    )
    radius = float(np.mean(np.hypot(hung.points[inside, 0], hung.points[inside, 1])))
    stretch = radius / 10.0
    # the pull along the weft for this energy, per flat width: k · ½(λ² − 1) · λ; Laplace: pressure = pull / radius,
    # here per flat area, which is λ times less than the worn one
    pull = 400.0 * 0.5 * (stretch**2 - 1) * stretch
    assert float(out[inside].sum() / set_up.own[inside].sum()) == pytest.approx(pull * stretch / radius, rel=0.02)


def rumpled(seed: int) -> tuple[Task, Reals, Reals, Reals]:
    """A small crumpled sheet that touches a cylinder, in an arbitrary place."""
    rng = np.random.default_rng(seed)
    mesh = mesh_of(draft_of(piece("a", rectangle(8.0, 6.0, -3.0))), 2.0)
    flat = lifted(mesh)
    points = np.column_stack([np.full(mesh.count, 10.2), flat[:, 0] - 4.0, flat[:, 1] * 0.9])
    points = points + rng.normal(0, 0.15, points.shape)
    set_up = task(mesh, bends=(0.2, 0.4, 0.25), field=cylinder(10.0))
    return set_up, points, points + rng.normal(0, 0.1, points.shape), rng.uniform(0, 2, mesh.count)


@pytest.mark.parametrize("seed", [1, 2])
def test_forces_are_the_slope_of_the_energy_and_the_matrix_theirs(seed: int) -> None:
    # by central differences, in an arbitrary direction; trilinear distances have no second derivative, so the form is
    # left out of the second check
    set_up, points, anchor, held = rumpled(seed)
    way = np.random.default_rng(seed + 10).normal(size=points.shape)
    step = 1e-6

    def forces(task: Task, share: float) -> tuple[float, Reals]:
        energy, gradient, _ = terms_of(task, points + share * way, anchor, held)
        return energy, gradient

    _, gradient = forces(set_up, 0.0)
    rise = (forces(set_up, step)[0] - forces(set_up, -step)[0]) / (2 * step)
    assert float((gradient * way).sum()) == pytest.approx(rise, rel=1e-5)

    free = replace(set_up, field=None)
    change = (forces(free, step)[1] - forces(free, -step)[1]) / (2 * step)
    _, _, blocks = terms_of(free, points, anchor, held, exact=True)
    rows = np.repeat(np.arange(len(points)), np.diff(free.pattern.indptr))
    product = np.zeros_like(points)
    np.add.at(product, rows, np.einsum("nij,nj->ni", blocks, way[free.pattern.indices]))
    assert np.abs(product - change).max() < 1e-5 * np.abs(change).max()


def test_the_matrix_that_is_solved_is_semidefinite() -> None:
    set_up, points, anchor, held = rumpled(3)
    _, _, blocks = terms_of(set_up, points, anchor, held)
    n = len(points)
    whole = np.zeros((n, 3, n, 3))
    rows = np.repeat(np.arange(n), np.diff(set_up.pattern.indptr))
    whole[rows, :, set_up.pattern.indices, :] = blocks
    least = np.linalg.eigvalsh(whole.reshape(3 * n, 3 * n))[0]
    assert least > -1e-9 * np.abs(blocks).max()


def test_the_energy_falls_with_every_step() -> None:
    _, hung = strip(8.0, 3.0, 0.8)
    assert len(hung.energies) > 5
    assert all(after < before for before, after in hung.energies)
