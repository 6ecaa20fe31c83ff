"""Pushing pieces together, and apart where they overlap by a hair.

Each two neighbours are kept on their sides of the edge that parts them best; under that the whole lay is
pulled toward the cut end by a linear program (compaction and separation as in Li and Milenkovic, 'Compaction
and separation algorithms for non-convex polygons and their applications', European Journal of Operational
Research 84, 1995).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.lay.hulls import convex_parts
from ellwand.lay.task import Ground, Spot, length_of

Array = NDArray[np.float64]

REACH: Final = 0.08
"""How far a piece may move in one round, over the width; pieces further apart than twice this are not watched."""

ROUNDS: Final = 6

DAYLIGHT: Final = 1e-4
"""Left between slanting edges (cm): where those agree to the last digit, geometry libraries misjudge them."""

TOUCH: Final = 1e-6
"""How far (cm) convex parts may lie in one another by rounding."""

MOST: Final = float("inf")


@dataclass(frozen=True, slots=True)
class _Parts:
    """Convex parts of all pieces, then the blocked outlines; corners repeat to fill the rows."""

    owner: NDArray[np.int64]
    corners: Array
    """Where the pieces' least corners are at (0, 0)."""

    normals: Array
    offsets: Array


@dataclass(frozen=True, slots=True)
class _Apart:
    """For each two convex parts that are watched: their pieces, the normal from a to b, how far they may close."""

    a: NDArray[np.int64]
    b: NDArray[np.int64]
    normal: Array
    gap: Array


def settle(spots: Sequence[Spot], ground: Ground) -> list[Spot] | None:
    """The same arrangement without overlaps and as short as it slides; None when it cannot be had.

    Pieces on the fold stay on it, and pieces that have met the cloth's pattern stay where they are.
    """
    parts = _parts(spots, ground)
    settled: list[Spot] | None = None
    current = list(spots)
    for _ in range(ROUNDS):
        moved = _round(current, ground, parts)
        if moved is None:
            return settled
        gained = np.inf if settled is None else length_of(settled) - length_of(moved)
        settled = current = moved
        if gained < 1e-3:
            break
    return settled


def sound(spots: Sequence[Spot], ground: Ground) -> bool:
    """Whether the spots overlap nothing and keep to the ground, but for rounding."""
    for s in spots:
        left, right = _limits(s, ground)
        if not (left - TOUCH <= s.x <= right + TOUCH and s.y >= -TOUCH):
            return False
        if ground.length is not None and s.y + s.pose.height > ground.length + TOUCH:
            return False
    apart = _watched(spots, _parts(spots, ground), 0.0)
    return bool((apart.gap >= -TOUCH).all())


def _round(spots: Sequence[Spot], ground: Ground, parts: _Parts) -> list[Spot] | None:
    from ortools.linear_solver import pywraplp

    n, reach = len(spots), REACH * ground.width
    apart = _watched(spots, parts, reach)
    program = pywraplp.Solver.CreateSolver("GLOP")
    xs, ys = [], []
    for s in spots:
        left, right = _limits(s, ground)
        stays = s.pose.mark is not None and ground.repeat != (0.0, 0.0)
        far = 0.0 if stays else reach
        xs.append(program.NumVar(_within(s.x - far, left, right), _within(s.x + far, left, right), ""))
        ys.append(program.NumVar(max(s.y - far, 0.0), max(s.y + far, 0.0), ""))
    length = program.NumVar(0.0, MOST if ground.length is None else ground.length, "")
    at = [(s.x, s.y) for s in spots] + [(0.0, 0.0)]
    slanting = np.abs(apart.normal[:, 0] * apart.normal[:, 1]) > 1e-9
    gaps = np.where(slanting, apart.gap - DAYLIGHT, apart.gap)
    for a, b, (nx, ny), gap in zip(
        apart.a.tolist(), apart.b.tolist(), apart.normal.tolist(), gaps.tolist(), strict=True
    ):
        moved = gap + nx * (at[a][0] - at[b][0]) + ny * (at[a][1] - at[b][1])
        row = program.Constraint(-MOST, moved)
        row.SetCoefficient(xs[a], nx)
        row.SetCoefficient(ys[a], ny)
        if b < n:
            row.SetCoefficient(xs[b], -nx)
            row.SetCoefficient(ys[b], -ny)
    for s, y in zip(spots, ys, strict=True):
        row = program.Constraint(-MOST, -s.pose.height)
        row.SetCoefficient(y, 1.0)
        row.SetCoefficient(length, -1.0)
    # the length first; then every piece toward the cut end and the left edge
    cost = program.Objective()
    cost.SetCoefficient(length, 1.0)
    for x, y in zip(xs, ys, strict=True):
        cost.SetCoefficient(x, 1e-5 / n)
        cost.SetCoefficient(y, 1e-4 / n)
    cost.SetMinimization()
    if program.Solve() != pywraplp.Solver.OPTIMAL:
        return None
    return [replace(s, x=x.solution_value(), y=y.solution_value()) for s, x, y in zip(spots, xs, ys, strict=True)]


def _limits(spot: Spot, ground: Ground) -> tuple[float, float]:
    """The least and the greatest x of a spot."""
    if spot.pose.on_fold:
        return 0.0, 0.0
    left, right = spot.pose.past
    return -left, max(ground.width + right - spot.pose.width, -left)


def _within(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def _parts(spots: Sequence[Spot], ground: Ground) -> _Parts:
    rings = [(k, part) for k, s in enumerate(spots) for part in convex_parts(s.pose.ring)]
    # a blocked outline belongs to a piece of its own that has no place in the program
    rings += [(len(spots), np.array(ring)) for ring in ground.blocked]
    most = max(len(ring) for _, ring in rings)
    corners = np.array([ring[np.minimum(np.arange(most), len(ring) - 1)] for _, ring in rings])
    edges = np.array([np.roll(ring, -1, axis=0)[np.arange(most) % len(ring)] for _, ring in rings])
    starts = np.array([ring[np.arange(most) % len(ring)] for _, ring in rings])
    edges -= starts
    normals = np.stack([edges[:, :, 1], -edges[:, :, 0]], axis=2) / np.linalg.norm(edges, axis=2)[:, :, None]
    return _Parts(np.array([k for k, _ in rings]), corners, normals, (normals * starts).sum(axis=2))


def _watched(spots: Sequence[Spot], parts: _Parts, reach: float) -> _Apart:
    """What keeps pieces apart, one row for each two of their convex parts that could come together."""
    at = np.array([(s.x, s.y) for s in spots] + [(0.0, 0.0)])[parts.owner]
    low, high = parts.corners.min(axis=1) + at, parts.corners.max(axis=1) + at
    first, second = np.triu_indices(len(at), 1)
    far = np.maximum(low[second] - high[first], low[first] - high[second]).max(axis=1)
    near = (far <= 2 * reach) & (parts.owner[first] != parts.owner[second])
    p, q = first[near], second[near]
    shift = at[q] - at[p]
    normal, gap = _parting(parts, p, q, shift)
    other, backward = _parting(parts, q, p, -shift)
    turned = backward > gap
    normal[turned] = -other[turned]
    return _Apart(parts.owner[p], parts.owner[q], normal, np.where(turned, backward, gap))


def _parting(parts: _Parts, p: NDArray[np.int64], q: NDArray[np.int64], shift: Array) -> tuple[Array, Array]:
    """The edge of each ``p`` beyond which ``q`` lies furthest: its normal, and how far."""
    normals = parts.normals[p]
    reach = np.einsum("lke,lve->lkv", normals, parts.corners[q]).min(axis=2)
    gaps = reach + np.einsum("lke,le->lk", normals, shift) - parts.offsets[p]
    best = gaps.argmax(axis=1)
    row = np.arange(len(p))
    return normals[row, best], gaps[row, best]
