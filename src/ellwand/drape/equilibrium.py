"""Where the cloth comes to rest: Newton's method, damped as by a time step that grows, with a line search.

Each step solves (H + M/h²) dx = −g with the semidefinite Hessian H, the mass M and a time h that grows while all goes
well (pseudo-transient continuation: Kelley and Keyes, SIAM J. Numer. Anal. 35, 1998).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from ellwand.drape.bending import areas, bending_matrix
from ellwand.drape.dissecting import dissected
from ellwand.drape.factoring import Factors
from ellwand.drape.field import Field
from ellwand.drape.meeting import NONE, Pairs, meeting_terms, pairs_of, reach_of
from ellwand.drape.pattern import Pattern, pattern_of
from ellwand.drape.stretching import stretching_energy, stretching_terms
from ellwand.drape.touching import CREEP, pressing, touching_terms
from ellwand.model.mesh import Counts, Mesh, Reals

GRAVITY: Final = 981.0
"""cm/s²"""
CAP: Final = 2.0
"""No point goes further in one step (cm)."""
CAREFUL: Final = 0.45
"""Nor, where cloth meets cloth, further than this share of the reach in which pairs are watched."""
FIRM: Final = 60.0
"""How stiff the layer between cloth and form is (gf/cm³): our own figure; cloth lies into it by well under 1 mm."""
RUB: Final = 0.3
"""Friction of cloth on cloth or skin: our own figure, in the middle of what is common."""
NO_BELT: Final = 1e3
UP: Final = 2


@dataclass(frozen=True, slots=True)
class Task:
    """What hangs: its mesh and all that acts on it (cm, gf).

    ``weight``: of each point; ``own``: each point's share of the area; ``belt``: how far off the form each may be;
    ``grip``: the force (gf) by which a belt holds each; ``fixed``: points that stay; ``field`` None: no form;
    ``meets``: of each point, whether it does not go through other such cloth.
    """

    corners: Counts
    shape: Reals
    area: Reals
    stiff: Reals
    bend: Any
    pattern: Pattern
    weight: Reals
    own: Reals
    belt: Reals
    grip: Reals
    fixed: Counts
    field: Field | None = None
    gap: float = 0.3
    rub: float = RUB
    meets: NDArray[np.bool_] | None = None


@dataclass(frozen=True, slots=True)
class Settled:
    """``residual``: the sum of all forces left over, over the weight; ``energies``: before and after each step."""

    points: Reals
    residual: float
    energy: float
    energies: tuple[tuple[float, float], ...]
    anchor: Reals
    pairs: Pairs = NONE


def task_of(mesh: Mesh, stiff: Reals, bends: Reals, grams: Reals, field: Field | None = None) -> Task:
    """``stiff``: weft, warp, shear (gf/cm), ``bends``: weft, warp, bias (gf cm), ``grams``: gf/cm², all by triangle."""
    area = areas(mesh)
    u, v = mesh.flat[:, 1] - mesh.flat[:, 0], mesh.flat[:, 2] - mesh.flat[:, 0]
    shape = np.linalg.inv(np.stack([u, v], 2))
    bend = bending_matrix(mesh, bends)
    own = np.bincount(mesh.corners.ravel(), np.repeat(area / 3, 3), mesh.count)
    weight = np.bincount(mesh.corners.ravel(), np.repeat(area * grams / 3, 3), mesh.count)
    pattern = pattern_of(mesh, bend)
    return Task(
        mesh.corners,
        np.ascontiguousarray(shape),
        area,
        np.ascontiguousarray(stiff),
        bend,
        pattern,
        weight,
        own,
        np.full(mesh.count, NO_BELT),
        np.zeros(mesh.count),
        np.zeros(0, np.int64),
        field,
    )


def energy_of(task: Task, points: Reals, anchor: Reals, held: Reals, pairs: Pairs = NONE) -> float:
    """All of it (gf cm)."""
    total = stretching_energy(points, task.corners, task.shape, task.area, task.stiff)
    total += 0.5 * float((points * (task.bend @ points)).sum()) + float(task.weight @ points[:, UP])
    if task.field is not None:
        nothing, none = np.zeros((0, 3)), np.zeros((0, 3, 3))
        total += _touch(task, points, anchor, held, False, nothing, none)
    if len(pairs.of):
        total += _meet(task, points, pairs, False, np.zeros((0, 3)), np.zeros((0, 3, 3)))
    return total


def terms_of(
    task: Task, points: Reals, anchor: Reals, held: Reals, pairs: Pairs = NONE, *, exact: bool = False
) -> tuple[float, Reals, Reals]:
    """Energy, gradient and the Hessian's blocks."""
    gradient = np.asarray(task.bend @ points)
    energy = 0.5 * float((points * gradient).sum()) + float(task.weight @ points[:, UP])
    gradient[:, UP] += task.weight
    blocks = np.zeros((len(task.pattern.indices), 3, 3))
    for k in range(3):
        blocks[:, k, k] = task.pattern.bend
    energy += stretching_terms(
        points, task.corners, task.shape, task.area, task.stiff, task.pattern.slot, exact, gradient, blocks
    )
    if task.field is not None:
        energy += _touch(task, points, anchor, held, True, gradient, blocks)
    if len(pairs.of):
        energy += _meet(task, points, pairs, True, gradient, blocks)
    return energy, gradient, blocks


def _meet(task: Task, points: Reals, pairs: Pairs, wanted: bool, gradient: Reals, blocks: Reals) -> float:
    return float(
        meeting_terms(
            points,
            task.corners,
            task.own,
            pairs.of,
            pairs.at,
            pairs.share,
            pairs.up,
            task.pattern.diagonal,
            wanted,
            gradient,
            blocks,
        )
    )


def _touch(
    task: Task, points: Reals, anchor: Reals, held: Reals, wanted: bool, gradient: Reals, blocks: Reals
) -> float:
    field = task.field
    assert field is not None
    return float(
        touching_terms(
            points,
            task.own,
            field.low,
            field.cell,
            field.away,
            field.trunk,
            task.gap,
            FIRM,
            task.belt,
            anchor,
            held,
            task.pattern.diagonal,
            wanted,
            gradient,
            blocks,
        )
    )


def settled(
    task: Task,
    start: Reals,
    *,
    most: int = 60,
    enough: float = 0.05,
    first: float = 0.02,
    anchor: Reals | None = None,
    pairs: Pairs = NONE,
    told: Callable[[int, float, float], None] = lambda step, energy, residual: None,
    stop: Callable[[], bool] = lambda: False,
) -> Settled:
    """The cloth at rest, or as far as ``most`` steps lead; ``enough``: the residual at which it rests."""
    points = start.copy()
    anchor = points.copy() if anchor is None else anchor.copy()
    whole = float(task.weight.sum())
    time = first
    energies: list[tuple[float, float]] = []
    residual = np.inf
    energy = np.inf
    held = _held(task, points)
    reach = reach_of(task.own)
    cap = CAP if task.meets is None else CAREFUL * reach
    fronts = dissected(task.pattern.indptr, task.pattern.indices, points)
    for step in range(most):
        if task.meets is not None:
            pairs = pairs_of(points, task.corners, task.meets, reach, pairs)
        energy, gradient, blocks = terms_of(task, points, anchor, held, pairs)
        gradient[task.fixed] = 0.0
        residual = float(np.linalg.norm(gradient, axis=1).sum()) / whole
        told(step, energy, residual)
        if residual < enough or stop():
            break
        damped = task.weight / GRAVITY / time**2
        stiffened = np.zeros(len(points))
        stiffened[task.fixed] = 1e9
        for k in range(3):
            blocks[task.pattern.diagonal, k, k] += damped + stiffened
        way = -Factors(fronts, blocks).solve(gradient)
        longest = float(np.max(np.linalg.norm(way, axis=1)))
        share = min(1.0, cap / longest)
        slope = float((way * gradient).sum())
        for _ in range(12):
            tried = points + share * way
            reached = energy_of(task, tried, anchor, held, pairs)
            if reached <= energy + 1e-4 * share * slope:
                break
            share *= 0.5
        else:
            time *= 0.25
            if longest < 1e-6:
                break
            continue
        energies.append((energy, reached))
        points = tried
        time = time * (2.0 if share >= 0.99 else 1.2 if share > 0.2 else 0.6)
        time = min(time, 30.0)
        held = _held(task, points)
        anchor = _dragged(points, anchor, held)
    return Settled(points, residual, energy, tuple(energies), anchor, pairs)


def _held(task: Task, points: Reals) -> Reals:
    """The greatest friction (gf) at each point."""
    if task.field is None:
        return np.zeros(len(points))
    out = np.zeros(len(points))
    field = task.field
    pressing(points, task.own, field.low, field.cell, field.away, field.trunk, task.gap, FIRM, task.belt, out)
    return task.rub * out + task.grip


def _dragged(points: Reals, anchor: Reals, held: Reals) -> Reals:
    """What slips takes its anchor along; what does not touch has it where it is."""
    off = points - anchor
    slip = np.linalg.norm(off, axis=1)
    keep = np.where(held > 0, np.minimum(1.0, CREEP / np.maximum(slip, 1e-12)), 0.0)
    return np.asarray(points - off * keep[:, None])
