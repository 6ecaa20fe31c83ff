"""Our own engine: instant, and the same every time.

Each piece in turn is lowered onto those that lie already, at the place where the lay grows least and the
least cloth is buried beneath it.  Gores fall point down between gores that stand, sleeves head to tail, half
gores along each other's slope, panels side by side.  Many orders are tried and the shortest lay is kept.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.lay.hulls import fewer_corners, hull
from ellwand.lay.shapes import HAIR
from ellwand.lay.task import Pose, Shape, Spot

Array = NDArray[np.float64]

BURYING: Final = (0.3, 1.0)
"""What buried cloth counts, against the lay's growth."""

MOST_TRIALS: Final = 30
WORK: Final = 300
"""At most so many changed orders, fewer where there are many shapes."""

SLACK: Final = 0.1
"""How far (cm) an arc may be taken outside itself to save corners."""

PROBE: Final = 1e-3
"""Step (cm) from which a slope is read off."""


@dataclass(frozen=True, slots=True)
class _Profile:
    """A pose as the lowering sees it: lower and upper edge of its hull, each from left to right."""

    pose: Pose
    low: Array
    high: Array
    under: float
    """Area (cm²) between the lower edge and the pose's base line."""

    @property
    def width(self) -> float:
        return self.pose.width

    @property
    def is_box(self) -> bool:
        return len(self.low) == 2 and self.low[0, 1] == self.low[1, 1]


def rows(shapes: Sequence[Shape], width: float) -> list[Spot]:
    """A lay of all shapes on cloth of this usable width (cm); each shape fits it in all of its poses.

    A few sensible orders first, then small changes to the best so far, drawn from a fixed seed.
    """
    profiles = {id(s.poses): [_profile(pose) for pose in s.poses] for s in shapes}
    best, least, order = list[Spot](), math.inf, list(shapes)

    def attempt(trial: list[Shape], burying: float) -> None:
        nonlocal best, least, order
        spots, length = _lower_all(trial, profiles, width, burying, least)
        if length < least - HAIR:
            best, least, order = spots, length, trial

    for first in _orders(shapes):
        for burying in BURYING:
            attempt(first, burying)
    draw = random.Random(0)
    trials = min(MOST_TRIALS, WORK // len(shapes)) if len(shapes) > 1 else 0
    for _ in range(trials):
        trial = order.copy()
        for _ in range(draw.choice((1, 1, 2, 3))):
            trial.insert(draw.randrange(len(trial)), trial.pop(draw.randrange(len(trial))))
        attempt(trial, draw.choice(BURYING))
    return best


def _orders(shapes: Sequence[Shape]) -> list[list[Shape]]:
    """Longest first, widest first, largest first; copies of one piece together."""

    def sizes(shape: Shape) -> tuple[float, float, float]:
        pose = shape.poses[0]
        return -pose.height, -pose.width, -pose.width * pose.height

    return [sorted(shapes, key=lambda s, k=k: (sizes(s)[k], sizes(s), s.piece)) for k in range(3)]  # type: ignore[misc]


def _lower_all(
    order: Sequence[Shape],
    profiles: dict[int, list[_Profile]],
    width: float,
    burying: float,
    least: float,
) -> tuple[list[Spot], float]:
    """Lay the shapes in this order; given up as soon as the lay is no shorter than ``least``."""
    sky = np.array([[0.0, 0.0], [width, 0.0]])
    spots: list[Spot] = []
    top = 0.0
    for shape in order:
        found: tuple[float, float, float] | None = None
        chosen: tuple[_Profile, float, float] | None = None
        for profile in profiles[id(shape.poses)]:
            xs = _candidates(sky, profile, width)
            ys = _drop(sky, profile, xs)
            tops = np.maximum(top, ys + profile.pose.height)
            buried = _buried(sky, profile, xs, ys)
            scores = tops + burying * buried / width
            pick = int(np.lexsort((xs.round(3), ys.round(3), scores.round(3)))[0])
            key = (round(float(scores[pick]), 3), round(float(ys[pick]), 3), round(float(xs[pick]), 3))
            if found is None or key < found:
                found, chosen = key, (profile, float(xs[pick]), float(ys[pick]))
        assert chosen is not None
        profile, x, y = chosen
        spots.append(Spot(shape, profile.pose, x, y))
        top = max(top, y + profile.pose.height)
        if top >= least:
            break
        sky = _raised(sky, profile, x, y)
    return spots, top


def _profile(pose: Pose) -> _Profile:
    ring = np.array(fewer_corners(hull(pose.ring), SLACK))
    ring[:, 0] = np.clip(ring[:, 0], 0.0, pose.width)
    left, right = 0.0, pose.width
    start = min((tuple(p) for p in ring if p[0] <= left + HAIR), key=lambda p: p[1])
    first = next(i for i, p in enumerate(ring) if tuple(p) == start)
    ring = np.roll(ring, -first, axis=0)
    ends = [i for i, p in enumerate(ring) if p[0] >= right - HAIR]
    low = ring[: ends[0] + 1]
    high = np.vstack([ring[ends[-1] :], ring[:1]])[::-1]
    # where the left side is upright the upper edge starts at its other end
    if len(high) > 1 and high[1][0] <= left + HAIR:
        high = high[1:]
    return _Profile(pose, low, high, float(np.trapezoid(low[:, 1], low[:, 0])))


def _at(line: Array, x: Array) -> Array:
    return np.interp(x, line[:, 0], line[:, 1])


def _candidates(sky: Array, profile: _Profile, width: float) -> Array:
    """Left edges worth trying: corners over corners, the walls, and the bottoms of the dips between."""
    most = max(width - profile.width, 0.0)
    over = (sky[:, :1] - profile.low[:, 0]).ravel()
    over = np.append(over[(over > 0) & (over < most)], (0.0, most))
    xs = np.unique(over.round(9))
    wide = np.diff(xs) > 4 * PROBE
    if profile.is_box or not wide.any():
        return xs
    a, b = xs[:-1][wide], xs[1:][wide]
    probes = np.concatenate([a + PROBE, a + 2 * PROBE, b - 2 * PROBE, b - PROBE])
    ya, ya2, yb2, yb = _drop(sky, profile, probes).reshape(4, -1)
    falling, rising = (ya2 - ya) / PROBE, (yb - yb2) / PROBE
    bends = rising - falling > HAIR
    a, b, ya, yb, falling, rising = (v[bends] for v in (a, b, ya, yb, falling, rising))
    gap = b - a - 2 * PROBE
    bottom = a + PROBE + (yb - ya - rising * gap) / (falling - rising)
    return np.concatenate([xs, np.clip(bottom, 0.0, most)])


def _drop(sky: Array, profile: _Profile, xs: Array) -> Array:
    """How low the piece can lie with its left edge at each x."""
    inside = sky[:, 0] - xs[:, None]
    covered = (inside > HAIR) & (inside < profile.width - HAIR)
    hits = np.where(covered, sky[:, 1] - _at(profile.low, inside), 0.0).max(axis=1)
    corners = np.concatenate([profile.low[:-1, 0] + HAIR, profile.low[1:, 0] - HAIR])
    lands = (_at(sky, xs[:, None] + corners) - _at(profile.low, corners)).max(axis=1)
    return np.asarray(np.maximum(np.maximum(hits, lands), 0.0))


def _buried(sky: Array, profile: _Profile, xs: Array, ys: Array) -> Array:
    """Area (cm²) between the piece and what it lies on, at each place."""
    x, y = sky[:, 0], sky[:, 1]
    steps = x[1:] - x[:-1]
    up_to = np.concatenate([[0.0], np.cumsum(steps * (y[1:] + y[:-1]) / 2)])
    slopes = (y[1:] - y[:-1]) / np.maximum(steps, HAIR)
    ends = np.concatenate([xs, xs + profile.width])
    at = (np.searchsorted(x, ends, side="right") - 1).clip(0, len(sky) - 2)
    run = ends - x[at]
    below = up_to[at] + run * (y[at] + slopes[at] * run / 2)
    return np.asarray(ys * profile.width + profile.under - below[len(xs) :] + below[: len(xs)])


def _raised(sky: Array, profile: _Profile, x: float, y: float) -> Array:
    """The skyline with the piece on it."""
    left, right = x, x + profile.width
    before = sky[sky[:, 0] < left - HAIR]
    after = sky[sky[:, 0] > right + HAIR]
    edge = _at(sky, np.array([left - HAIR, right + HAIR]))
    middle = profile.high + np.array([x, y])
    parts = [before]
    if len(before):
        parts.append(np.array([[left, edge[0]]]))
    parts.append(middle)
    if len(after):
        parts.append(np.array([[right, edge[1]]]))
    parts.append(after)
    raised = np.vstack(parts)
    if not len(after):
        raised[-1, 0] = max(raised[-1, 0], sky[-1, 0])
    return raised
