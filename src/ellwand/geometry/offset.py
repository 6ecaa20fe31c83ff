"""From a sewn outline to a cut outline: every edge moved outward by its own allowance.

A ring is walked with its cloth on the left hand (outer rings counter-clockwise, holes clockwise), so the
allowance lies on the right hand.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely import Polygon, get_parts, is_valid, make_valid, polygons

from ellwand.geometry.lines import Line, Point, area

WRITTEN, COARSE = 6, 5
"""Decimals (cm) at which a cut outline must still be simple, and those it gets where it is not."""
HAIR = 0.02
"""Where a loop's rest is finer than this (cm), it is smoothed away."""


@dataclass(frozen=True, slots=True)
class Margin:
    """One edge of a ring: its points, its allowance (cm), and whether it is a hem turned back on a straight line.

    Beside a turned hem the cut corner is the mirror image of the side above the fold, so that the turned
    allowance lies as wide as the cloth it is sewn to.
    """

    points: Line
    allowance: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class _Side:
    """One straight side of a ring with its unit direction."""

    start: Point
    end: Point
    dx: float
    dy: float
    allowance: float
    turned: bool


def cut_ring(margins: Sequence[Margin]) -> Line:
    """The ring that lies ``allowance`` outside each edge, with mitred corners and blunted sharp points.

    Where a curve is tighter than its allowance the offset line crosses itself; the loop is cut away.
    """
    sides = [side for margin in margins for side in _sides(margin)]
    points: list[Point] = []
    for before, after in zip(sides[-1:] + sides[:-1], sides, strict=True):
        points.extend(_corner(before, after))
    ring = _clean(points)
    if not is_valid(polygons(ring)):
        ring = _without_loops(ring)
    return ring if _is_sound(ring) else _without_loops(tuple(map(_coarse, ring)))


def _coarse(point: Point) -> Point:
    return round(point[0], COARSE), round(point[1], COARSE)


def _is_sound(ring: Line) -> bool:
    """Whether the ring is simple, and stays so when it is written down with fewer decimals."""
    return bool(is_valid(polygons(ring)) and is_valid(polygons(np.round(ring, WRITTEN))))


def _without_loops(ring: Line) -> Line:
    """The greatest simple polygon of a ring that crosses itself, walked the same way round."""
    parts = get_parts(get_parts(make_valid(Polygon(ring), method="structure")))
    greatest = max(parts, key=lambda part: part.area)
    kept: list[Point] = [(x, y) for x, y in greatest.exterior.coords[:-1]]
    out = _clean(kept if (area(kept) > 0) == (area(ring) > 0) else kept[::-1])
    return out if is_valid(polygons(out)) else _clean(out, HAIR)


def _sides(margin: Margin) -> list[_Side]:
    out = []
    for a, b in zip(margin.points, margin.points[1:], strict=False):
        step = math.dist(a, b)
        if step > 1e-9:
            out.append(_Side(a, b, (b[0] - a[0]) / step, (b[1] - a[1]) / step, margin.allowance, margin.turned))
    return out


def _corner(before: _Side, after: _Side) -> list[Point]:
    at = after.start
    if before.allowance == after.allowance == 0:
        return [at]
    cross = before.dx * after.dy - before.dy * after.dx
    dot = before.dx * after.dx + before.dy * after.dy
    if abs(cross) < 1e-4 and dot > 0:
        first, second = _beside(before, at), _beside(after, at)
        return [first] if before.allowance == after.allowance else [first, second]
    if after.turned and not before.turned:
        return _turned_corner(before, after, at)
    if before.turned and not after.turned:
        return _turned_corner(after, before, at)[::-1]
    meet = _meet(before, after, at, cross)
    reach = max(before.allowance, after.allowance)
    if cross > 0 and dot < 0 and math.dist(meet, at) > 2.5 * reach:
        return _blunt(before, after, at, reach)
    return [meet]


def _beside(side: _Side, at: Point) -> Point:
    return (at[0] + side.dy * side.allowance, at[1] - side.dx * side.allowance)


def _meet(one: _Side, other: _Side, at: Point, cross: float) -> Point:
    """Where the two shifted lines meet: n1·q = a1 and n2·q = a2 with n the right-hand normals."""
    a, b = one.allowance, other.allowance
    x = (-other.dx * a + one.dx * b) / cross
    y = (-other.dy * a + one.dy * b) / cross
    return (at[0] + x, at[1] + y)


def _turned_corner(side: _Side, hem: _Side, at: Point) -> list[Point]:
    """The side's cut line down to the fold, then its mirror image in the fold down to the hem's cut line."""
    cross = side.dx * hem.dy - side.dy * hem.dx
    fold = _Side(hem.start, hem.end, hem.dx, hem.dy, 0.0, True)
    on_fold = _meet(side, fold, at, cross)
    away = (hem.dy, -hem.dx)
    slope = (side.dx * hem.dx + side.dy * hem.dy) / (side.dx * away[0] + side.dy * away[1])
    drift = -slope * hem.allowance
    return [
        on_fold,
        (
            on_fold[0] + away[0] * hem.allowance + hem.dx * drift,
            on_fold[1] + away[1] * hem.allowance + hem.dy * drift,
        ),
    ]


def _blunt(before: _Side, after: _Side, at: Point, reach: float) -> list[Point]:
    """A sharp point cut square across, ``reach`` beyond the sewn point."""
    bx, by = before.dx - after.dx, before.dy - after.dy
    size = math.hypot(bx, by)
    bx, by = bx / size, by / size
    out = []
    for side in (before, after):
        start = _beside(side, at)
        run = (reach - ((start[0] - at[0]) * bx + (start[1] - at[1]) * by)) / (side.dx * bx + side.dy * by)
        out.append((start[0] + side.dx * run, start[1] + side.dy * run))
    return out


def _clean(points: Sequence[Point], near: float = 1e-6) -> Line:
    """Without repeated points (nearer than ``near``, cm) and points on a straight line between their neighbours."""
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(kept[-1], point) > near:
            kept.append(point)
    if len(kept) > 1 and math.dist(kept[0], kept[-1]) <= near:
        kept.pop()
    out = []
    for before, at, after in zip(kept[-1:] + kept[:-1], kept, kept[1:] + kept[:1], strict=True):
        ux, uy, vx, vy = at[0] - before[0], at[1] - before[1], after[0] - at[0], after[1] - at[1]
        if abs(ux * vy - uy * vx) > 1e-9 * (abs(ux) + abs(uy)) * (abs(vx) + abs(vy)) or ux * vx + uy * vy < 0:
            out.append(at)
    return tuple(out)
