"""How far every place is from the form's surface: a grid of signed distances with their directions."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from ellwand.drape.form import Form, Limb, Section, outline
from ellwand.model.mesh import Counts, Reals, Surface3

CELL: Final = 1.0
"""Between two places of the grid (cm)."""
HOLLOW: Final = 3.0
"""Where a limb meets the trunk the form is filled out, no higher than a quarter of this (cm): our own figure."""
AIR: Final = 9.0
"""The grid reaches so far beyond the form (cm)."""
STACK: Final = 1.0
"""The trunk is drawn in sections so far apart (cm)."""


@dataclass(frozen=True, slots=True)
class Field:
    """``away``: distance (cm) outward of the form at each place of a grid in steps of ``cell``, from
    ``low``: its least x, y and z; last the height of the floor.  ``trunk``: the same without arms and legs."""

    low: Reals
    cell: float
    away: Reals
    trunk: Reals


def stacked(form: Form, step: float = STACK) -> tuple[Section, ...]:
    """The trunk's sections close to each other, smooth between those that were measured."""
    from scipy.interpolate import PchipInterpolator

    known = form.trunk
    heights = np.array([each.height for each in known])
    values = np.array([[s.half, s.front, s.behind, s.middle, s.full] for s in known])
    count = max(2, math.ceil((heights[-1] - heights[0]) / step))
    at = np.unique(np.concatenate([np.linspace(heights[0], heights[-1], count + 1), heights]))
    between = PchipInterpolator(heights, values)(at)
    return tuple(Section(float(z), *map(float, row)) for z, row in zip(at, between, strict=True))


def field_of(form: Form, cell: float = CELL) -> Field:
    """The distances, exact at the surface and of the first order beside it."""
    limbs = (*form.arms, *form.legs)
    every = np.concatenate([limb.middle for limb in limbs])
    widest = max(max(each.half for each in form.trunk), float(np.abs(every[:, 0]).max()) + 4.0)
    deep = max(max(max(s.front + s.middle, s.behind - s.middle) for s in form.trunk), 22.0)
    low = np.array([-widest - AIR, -deep - AIR, -2.0 * cell])
    high = np.array([widest + AIR, deep + AIR, form.height + AIR])
    # a place of the grid lies in the middle, so that both sides are alike
    nx, ny, nz = (math.ceil((b - a) / cell / 2) * 2 + 1 for a, b in zip(low, high, strict=True))
    low[0] = -cell * (nx - 1) / 2
    axes = [low[n] + cell * np.arange(count) for n, count in enumerate((nx, ny, nz))]
    x, y, z = np.meshgrid(*axes, indexing="ij", sparse=True)
    trunk = _from_trunk(form, x, y, z, cell)
    away = trunk.copy()
    for limb in limbs:
        # further off than the grid's rim from a limb, it does not matter
        reach = float(np.max(limb.radius)) + AIR + HOLLOW
        near = tuple(
            slice(*np.searchsorted(axis, (float(np.min(at)) - reach, float(np.max(at)) + reach)).tolist())
            for axis, at in zip(axes, limb.middle.T, strict=True)
        )
        own = _from_limb(limb, x[near[0]], y[:, near[1]], z[:, :, near[2]])
        away[near] = np.minimum(away[near], _joined(trunk[near], own))
    return Field(np.append(low, 0.0), cell, np.ascontiguousarray(away), np.ascontiguousarray(trunk))


def _joined(one: Reals, other: Reals) -> Reals:
    """The smaller of two distances, rounded where both are alike, so that no point is torn between two ways out."""
    share = np.clip(0.5 + 0.5 * (other - one) / HOLLOW, 0.0, 1.0)
    return np.asarray(other + (one - other) * share - HOLLOW * share * (1 - share))


def _from_trunk(form: Form, x: Reals, y: Reals, z: Reals, cell: float) -> Reals:
    sections = stacked(form)
    heights = np.array([each.height for each in sections])
    at = np.clip(z, heights[0], heights[-1])
    half, front, behind, middle, full = (
        np.interp(at, heights, [getattr(each, name) for each in sections])
        for name in ("half", "front", "behind", "middle", "full")
    )
    off = y - middle
    deep = np.where(off > 0, front, behind)
    inside = ((np.abs(x) / half) ** full + (np.abs(off) / deep) ** full) ** (1 / full) - 1.0
    # level distance along the ray from the middle, then less where the surface slants
    ray = np.sqrt(x * x + off * off)
    level = inside / (inside + 1.0 + 1e-9) * ray
    level = np.where(ray < 1e-6, -np.minimum(half, deep), level)
    gradient = np.gradient(level, cell, edge_order=1)
    steep = np.sqrt(sum(each**2 for each in gradient))
    away = level / np.maximum(steep, 1.0)
    above, below = np.maximum(z - heights[-1], 0.0), np.maximum(heights[0] - z, 0.0)
    beyond = above + below
    return np.asarray(np.where(beyond > 0, np.sqrt(np.maximum(away, 0.0) ** 2 + beyond**2), away))


def _from_limb(limb: Limb, x: Reals, y: Reals, z: Reals) -> Reals:
    shape = np.broadcast_shapes(x.shape, y.shape, z.shape)
    best = np.full(shape, np.inf)
    for a, b, r, s in zip(limb.middle[:-1], limb.middle[1:], limb.radius[:-1], limb.radius[1:], strict=True):
        d = b - a
        t = np.clip(((x - a[0]) * d[0] + (y - a[1]) * d[1] + (z - a[2]) * d[2]) / (d @ d), 0.0, 1.0)
        off = np.sqrt((x - a[0] - t * d[0]) ** 2 + (y - a[1] - t * d[1]) ** 2 + (z - a[2] - t * d[2]) ** 2)
        best = np.minimum(best, off - (r + (s - r) * t))
    return best


def skin(form: Form, around: int = 48) -> tuple[Surface3, ...]:
    """The form's surfaces as triangles, to be looked at."""
    angle = np.linspace(0.0, 2 * math.pi, around + 1)[:-1]
    trunk = []
    for section in stacked(form, 2.0):
        x, y = outline(section, angle)
        trunk.append(np.column_stack([x, y, np.full(around, section.height)]))
    return (_lofted(trunk), *(_lofted(_rings(limb, angle)) for limb in (*form.arms, *form.legs)))


def _rings(limb: Limb, angle: Reals) -> list[Reals]:
    out = []
    # round ends
    middle, radius = limb.middle, limb.radius
    first, last = middle[0] - middle[1], middle[-1] - middle[-2]
    first, last = first / np.linalg.norm(first), last / np.linalg.norm(last)
    turns = (1.0, 0.9, 0.6)
    middle = np.vstack(
        [
            *(middle[0] + first * radius[0] * t for t in turns),
            middle,
            *(middle[-1] + last * radius[-1] * t for t in turns[::-1]),
        ]
    )
    ends = np.sqrt(np.maximum(1 - np.array(turns) ** 2, 1e-4))
    radius = np.concatenate([radius[0] * ends, radius, radius[-1] * ends[::-1]])
    for n, (at, r) in enumerate(zip(middle, radius, strict=True)):
        way = middle[min(n + 1, len(middle) - 1)] - middle[max(n - 1, 0)]
        way = way / np.linalg.norm(way)
        across = np.cross(way, np.array([0.0, 1.0, 0.0]) if abs(way[1]) < 0.9 else np.array([1.0, 0.0, 0.0]))
        across /= np.linalg.norm(across)
        other = np.cross(way, across)
        out.append(at + r * (np.outer(np.cos(angle), across) + np.outer(np.sin(angle), other)))
    return out


def _lofted(rings: list[Reals]) -> Surface3:
    many, count = len(rings[0]), len(rings)
    points = np.concatenate([*rings, rings[0].mean(0)[None], rings[-1].mean(0)[None]])
    i = np.arange(many)
    j = (i + 1) % many
    corners: list[Counts] = []
    for n in range(count - 1):
        a, b = n * many, (n + 1) * many
        corners += [np.stack([a + i, a + j, b + j], 1), np.stack([a + i, b + j, b + i], 1)]
    corners.append(np.stack([j, i, np.full(many, count * many)], 1))
    top = (count - 1) * many
    corners.append(np.stack([top + i, top + j, np.full(many, count * many + 1)], 1))
    triangles = np.concatenate(corners)
    # outward
    p = points[triangles]
    normal = np.cross(p[:, 1] - p[:, 0], p[:, 2] - p[:, 0])
    if (normal * (p.mean(1) - points.mean(0))).sum() < 0:
        triangles = triangles[:, ::-1]
    return Surface3(points, triangles)
