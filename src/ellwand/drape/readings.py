"""What is read from a garment at rest: its hem, folds, girths as worn, what hangs over a belt, where it
pulls."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from ellwand.model.mesh import Counts, Hem, Mesh, Readings, Reals

SECTORS: Final = 24
"""The hem is read in so many directions."""
RIPPLE: Final = 1.0
"""A fold stands out by at least this much (cm) between the valleys beside it: our own figure."""
ABOVE: Final = 4.0
"""Folds are counted so far above the hem (cm)."""
BEYOND: Final = 97.0
"""Of a part's cloth this share (in 100) is stretched no more than what is told: single triangles tell nothing."""


def read(
    mesh: Mesh, points: Reals, level: Reals, stretch: Reals, area: Reals, heights: dict[str, float], belt: float | None
) -> Readings:
    """``level``: how high each point is cut above the hem (cm, nan on sleeves); ``heights``: where girths are read (cm
    above the floor); ``belt``: how high it is belted (cm)."""
    trunk = np.isfinite(level[mesh.corners]).all(1)
    hem = _hem(mesh, points)
    pulls = _pulls(mesh, stretch, area)
    girths = {name: girth_at(points, mesh.corners[trunk], height) for name, height in heights.items()}
    over = 0.0 if belt is None else _over_belt(points, level, belt)
    return Readings(hem, _folds(points, mesh.corners[trunk], level), girths, over, *pulls)


def _hem(mesh: Mesh, points: Reals) -> Hem:
    """The lowest point of the hem in each direction from its middle, from the front over the wearer's left."""
    kinds = [pairs for kind, pairs in mesh.rims.items() if kind == "hem"]
    if not kinds:
        return Hem((), ())
    at = points[np.unique(np.concatenate(kinds))]
    middle = (at[:, :2].min(0) + at[:, :2].max(0)) / 2
    angle = np.arctan2(-(at[:, 0] - middle[0]), at[:, 1] - middle[1])
    sector = np.round(angle / (2 * math.pi / SECTORS)).astype(int) % SECTORS
    found = [n for n in range(SECTORS) if (sector == n).any()]
    return Hem(tuple(360.0 / SECTORS * n for n in found), tuple(float(np.min(at[sector == n, 2])) for n in found))


def _folds(points: Reals, corners: Counts, level: Reals) -> int:
    """How many folds the cloth falls in just above its hem: humps of its distance from the middle."""
    line = contour(points, corners, level, ABOVE)
    if len(line) < 8:
        return 0
    middle = (line.min(0) + line.max(0)) / 2
    off = line[:, :2] - middle[:2]
    angle, away = np.arctan2(off[:, 0], off[:, 1]), np.hypot(off[:, 0], off[:, 1])
    grid = np.linspace(-math.pi, math.pi, 181)[:-1]
    round_ = np.full(len(grid), np.nan)
    slot = ((angle + math.pi) / (2 * math.pi) * len(grid)).astype(int) % len(grid)
    for n in range(len(grid)):
        if (slot == n).any():
            round_[n] = away[slot == n].max()
    known = np.isfinite(round_)
    values = np.interp(grid, grid[known], round_[known], period=2 * math.pi)
    # what is left when the round of the whole is taken away
    wave = np.fft.rfft(values)
    wave[:3] = 0
    rest = np.fft.irfft(wave, len(grid))
    return _humps(rest)


def _humps(values: Reals) -> int:
    """Humps of a closed line that stand out by ``RIPPLE``."""
    start = int(np.argmin(values))
    turned = np.concatenate([values[start:], values[: start + 1]])
    count, low, high, rising = 0, turned[0], turned[0], True
    for value in turned[1:]:
        if rising:
            high = max(high, value)
            if high - low > RIPPLE and value < high - RIPPLE:
                count, low, rising = count + 1, value, False
        else:
            low = min(low, value)
            if value > low + RIPPLE:
                high, rising = value, True
    return count


def contour(points: Reals, corners: Counts, height: Reals, at: float) -> Reals:
    """Points where the surface's edges pass a height (of any function of the points)."""
    sides = np.concatenate([corners[:, [0, 1]], corners[:, [1, 2]], corners[:, [2, 0]]])
    sides = np.unique(np.sort(sides, axis=1), axis=0)
    a, b = height[sides[:, 0]] - at, height[sides[:, 1]] - at
    across = a * b < 0
    share = (a[across] / (a[across] - b[across]))[:, None]
    return np.asarray(points[sides[across, 0]] * (1 - share) + points[sides[across, 1]] * share)


def girth_at(points: Reals, corners: Counts, height: float) -> float:
    """What a tape reads round the worn garment at a height above the floor (cm): the hull of its cut there."""
    from scipy.spatial import ConvexHull

    cut = contour(points, corners, points[:, 2], height)[:, :2]
    return float(ConvexHull(cut).area) if len(cut) > 3 else 0.0


def _over_belt(points: Reals, level: Reals, belt: float) -> float:
    """How far (cm) cloth that is cut above the belt's level hangs below it."""
    known = np.isfinite(level)
    at_belt = known & (np.abs(points[:, 2] - belt) < 1.5)
    if not at_belt.any():
        return 0.0
    line = float(np.median(level[at_belt]))
    above = known & (level > line + 2.0) & (level < line + 40.0)
    return max(0.0, belt - float(np.min(points[above, 2]))) if above.any() else 0.0


def _pulls(mesh: Mesh, stretch: Reals, area: Reals) -> tuple[str, float]:
    """The part that is stretched most, and by how much along a thread, as a share."""
    most, where = 0.0, ""
    along = stretch[:, :2].max(1)
    for n, name in enumerate(mesh.parts):
        mine = mesh.part == n
        pulled = weighted(along[mine], area[mine], BEYOND)
        if pulled > most:
            most, where = pulled, name
    return where, most


def weighted(values: Reals, weights: Reals, share: float) -> float:
    """What ``share`` in 100 of the weight lies at or below."""
    order: Sequence[int] = np.argsort(values).tolist()
    total = np.cumsum(weights[order])
    return float(values[order[int(np.searchsorted(total, share / 100 * total[-1]))]])
