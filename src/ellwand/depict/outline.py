"""A ring as the maker chalks it: real corners, straight stretches, arcs and curves, slits."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import Line, Point, length

STRAIGHT: Final = 0.3
"""Below this turn (degrees) a vertex lies on a straight line."""
SHARP: Final = 15.0
"""From this turn (degrees) on a vertex is a corner even among the vertices of a curve."""
SLIT: Final = 0.35
"""The two sides of a slit's mouth lie nearer than this (cm)."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """The ring from one real corner to the next; two points when straight."""

    points: Line

    @property
    def curved(self) -> bool:
        """True for an arc or another curve."""
        return len(self.points) > 2


@dataclass(frozen=True, slots=True)
class Circle:
    """Centre and radius (cm)."""

    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Slit:
    """A cut into the cloth from ``mouth`` to ``tip``."""

    mouth: Point
    tip: Point


def trace(ring: Sequence[Point]) -> tuple[Stretch, ...]:
    """The ring as stretches between its real corners, in its own order; one closed stretch if it has none."""
    ring = [p for i, p in enumerate(ring) if abs(_turn(ring[i - 1], p, ring[(i + 1) % len(ring)])) > STRAIGHT]
    count = len(ring)
    at = _corners(ring)
    if not at:
        return (Stretch((*ring, ring[0])),)
    out = []
    for start, end in zip(at, [*at[1:], at[0] + count], strict=True):
        out.append(Stretch(tuple(ring[i % count] for i in range(start, end + 1))))
    return tuple(out)


def _corners(ring: Sequence[Point]) -> list[int]:
    turns = [_turn(ring[i - 1], ring[i], ring[(i + 1) % len(ring)]) for i in range(len(ring))]
    gentle = [STRAIGHT < abs(turn) < SHARP for turn in turns]
    out = []
    for i, turn in enumerate(turns):
        if gentle[i]:
            same = [k for k in (i - 1, (i + 1) % len(ring)) if gentle[k] and turns[k] * turn > 0]
            if same:
                continue
        out.append(i)
    return out


def _turn(before: Point, at: Point, after: Point) -> float:
    """Change of direction at a vertex in degrees, −180 … 180."""
    a = math.atan2(at[1] - before[1], at[0] - before[0])
    b = math.atan2(after[1] - at[1], after[0] - at[0])
    return math.degrees((b - a + math.pi) % (2 * math.pi) - math.pi)


def slits(stretches: Sequence[Stretch]) -> tuple[Slit, ...]:
    """Slits of a ring: two straight stretches that leave and come back to nearly the same place."""
    out = []
    for i, stretch in enumerate(stretches):
        back = stretches[(i + 1) % len(stretches)]
        if stretch.curved or back.curved or stretch is back:
            continue
        (a, tip), (_, b) = stretch.points, back.points
        if math.dist(a, b) < SLIT < 1 < math.dist(a, tip):
            out.append(Slit(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), tip))
    return tuple(out)


def corners(stretches: Sequence[Stretch]) -> tuple[Point, ...]:
    """The real corners without those of slits."""
    found = slits(stretches)

    def in_slit(point: Point) -> bool:
        return any(math.dist(point, slit.tip) < 1e-9 or math.dist(point, slit.mouth) < SLIT for slit in found)

    if len(stretches) == 1 and stretches[0].points[0] == stretches[0].points[-1]:
        return ()
    return tuple(s.points[0] for s in stretches if not in_slit(s.points[0]))


def circle(points: Line) -> Circle | None:
    """The circle an arc lies on, or None when the curve is no arc (off by more than 0.05 cm).

    Through first, middle and last point (plane geometry of the circumscribed circle).
    """
    (ax, ay), (bx, by), (cx, cy) = points[0], points[len(points) // 2], points[-1]
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(d) < 1e-9:
        return None
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    centre = (
        (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / d,
        (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / d,
    )
    radius = math.dist(centre, points[0])
    if any(abs(math.dist(centre, point) - radius) > 0.05 for point in points):
        return None
    return Circle(centre, radius)


def middle(points: Line) -> Point:
    """The point half way along a line."""
    half = length(points) / 2
    for a, b in itertools.pairwise(points):
        step = math.dist(a, b)
        if half <= step:
            t = half / step if step else 0.0
            return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
        half -= step
    return points[-1]
