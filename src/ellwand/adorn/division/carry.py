"""The lines of the panels carried on over the seams, across gores and side panels, until they come to a panel again."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping

from shapely import Point as Place
from shapely import Polygon

from ellwand.adorn.division.draw import zeros
from ellwand.adorn.division.lines import ALONG, HAIR, NEAREST, ONE_POINT, Lines, Spot, enter
from ellwand.geometry.lines import Line, Point
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Level


def carry_on(lines: Lines, spots: Iterable[Spot], bridges: Mapping[str, Level]) -> None:
    """Lead every line that leaves through a seam on across the parts in ``bridges``, level with where it enters."""
    waiting = list(spots)
    done: set[Spot] = set()
    while waiting:
        spot = waiting.pop()
        if spot in done:
            continue
        done.add(spot)
        beside = [spot, *_same_corner(lines, spot)]
        done |= set(beside)
        for one in beside:
            if one.ref not in lines.sewn:
                continue
            ref, same_way = lines.sewn[one.ref]
            entered = Spot(ref, one.share if same_way else 1 - one.share)
            if ref.part in bridges and entered not in done:
                done.add(entered)
                waiting += _across(lines, entered, bridges[ref.part])


def _same_corner(lines: Lines, spot: Spot) -> list[Spot]:
    """The end of the other edge that meets in this corner of the part."""
    if spot.share not in (0.0, 1.0):
        return []
    at = lines.place(spot)
    return [
        Spot(ref, end)
        for edge in lines.pieces[spot.ref.part].edges
        for ref in (EdgeRef(spot.ref.part, edge.id),)
        for end in (0.0, 1.0)
        if ref != spot.ref and math.dist(lines.place(Spot(ref, end)), at) < ONE_POINT
    ]


def _across(lines: Lines, start: Spot, level: Level) -> list[Spot]:
    """From where a line enters a gore or side panel to where it leaves; nothing where it only touches it."""
    part, piece = start.ref.part, lines.pieces[start.ref.part]
    at = lines.place(start)
    if any(math.dist(at, end) < ONE_POINT for edge in piece.edges if edge.kind == "hem" for end in edge.points):
        return []
    shape = Polygon(piece.sewn, piece.sewn_holes)
    out = []
    for edge in piece.edges:
        if edge.kind == "hem":
            continue
        for along in _level_with(edge.points, level, at):
            end = lines.spot(EdgeRef(part, edge.id), along)
            there = lines.place(end)
            if math.dist(at, there) < NEAREST:
                continue
            middle = Place((at[0] + there[0]) / 2, (at[1] + there[1]) / 2)
            if shape.contains(middle) and shape.boundary.distance(middle) >= ALONG:
                enter(lines, part, (start, (), lines.put(end)))
                out.append(end)
    return out


def _level_with(edge: Line, level: Level, point: Point) -> Iterator[float]:
    """How far along an edge (cm) it hangs as high as a point."""
    height, walked = _height(level, point), 0.0
    for a, b in itertools.pairwise(edge):
        step = math.dist(a, b)
        for share in _shares_at(level, a, b, height):
            yield walked + step * share
        walked += step


def _height(level: Level, point: Point) -> float:
    """Height on the piece: its distance from the level's point, turned round, or its y."""
    return -math.dist(level.centre, point) if level.centre else point[1] * level.up


def _shares_at(level: Level, a: Point, b: Point, height: float) -> Iterator[float]:
    if level.centre is None:
        one, other = a[1] * level.up - height, b[1] * level.up - height
        yield from zeros(one, other)
        return
    # |a + s (b − a) − centre|² = height²
    fx, fy, ux, uy = a[0] - level.centre[0], a[1] - level.centre[1], b[0] - a[0], b[1] - a[1]
    p, q, r = ux * ux + uy * uy, fx * ux + fy * uy, fx * fx + fy * fy - height * height
    root = q * q - p * r
    if p > 0 and root >= 0:
        for s in sorted({(-q - math.sqrt(root)) / p, (-q + math.sqrt(root)) / p}):
            if -HAIR <= s <= 1 + HAIR:
                yield min(1.0, max(0.0, s))
