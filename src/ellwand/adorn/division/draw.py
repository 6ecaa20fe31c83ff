"""A line drawn on one piece: the stretches of it that run between the piece's edges."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from typing import Final

from shapely import LineString, Polygon, box
from shapely import Point as Place

from ellwand.adorn.division.lines import ALONG, HAIR, NEAREST, ONE_POINT, Lines, Spot, at_on, enter
from ellwand.adorn.division.slits import CLEAR, ends_of_slits
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Piece

ASLANT: Final = 0.1
"""The sine of the least angle at which a line crosses a slit rather than runs along it: our own figure."""


def draw(lines: Lines, part: str, drawn: Iterable[Line]) -> list[Spot]:
    """Enter lines on a part as far as they run within it; the spots where they end."""
    piece, out = lines.pieces[part], []
    shape = Polygon(piece.sewn, piece.sewn_holes)
    for line in drawn:
        for start, between, end in _within(lines, part, piece, shape, _past_slits(piece, line)):
            enter(lines, part, (start, between, end))
            out += [start, end]
    return out


def _past_slits(piece: Piece, line: Line) -> Line:
    """A line that would run through the end of a neck slit, led past beyond it."""
    for one, _ in ends_of_slits(piece):
        if one.kind == "neck slit":
            line = _past(line, one.points[-1], one.points[0], piece)
    return line


def _past(line: Line, tip: Point, mouth: Point, piece: Piece) -> Line:
    """The line so far from the tip that it lies clear of it, on the side that the slit does not come from."""
    low_x, low_y, high_x, high_y = bounds(piece.sewn)
    drawn = LineString(line).intersection(box(low_x, low_y, high_x, high_y))
    at = Place(tip)
    if not isinstance(drawn, LineString) or drawn.is_empty or drawn.distance(at) >= CLEAR:
        return line
    inside: Line = tuple((float(x), float(y)) for x, y in drawn.coords)
    along = float(drawn.project(at))
    (ax, ay), (bx, by) = at_on(inside, along - CLEAR), at_on(inside, along + CLEAR)
    size, slit = math.dist((ax, ay), (bx, by)), math.dist(tip, mouth)
    nx, ny = (by - ay) / size, (ax - bx) / size
    beyond = (nx * (tip[0] - mouth[0]) + ny * (tip[1] - mouth[1])) / slit
    if abs(beyond) < ASLANT:
        return line
    reach = math.copysign(CLEAR, beyond)
    walked = [float(drawn.project(Place(point))) for point in inside]
    before = [point for point, on in zip(inside, walked, strict=True) if on < along - CLEAR]
    after = [point for point, on in zip(inside, walked, strict=True) if on > along + CLEAR]
    return (*before, (tip[0] + nx * reach, tip[1] + ny * reach), *after)


def _within(lines: Lines, part: str, piece: Piece, shape: Polygon, line: Line) -> list[tuple[Spot, Line, Spot]]:
    """The stretches of a line between the edges of a piece; one that passes close by a corner goes through it.

    Where a stretch so drawn would leave the cloth, beside a curve, it runs as it is.
    """
    out: list[tuple[Spot, Line, Spot]] = []
    for passing, near in ((True, NEAREST), (False, NEAREST), (False, ONE_POINT)):
        out = list(_stretches(lines, part, piece, shape, line, passing, near))
        drawn = [LineString([lines.place(start), *between, lines.place(end)]) for start, between, end in out]
        if all(each.difference(shape).length < ONE_POINT for each in drawn):
            break
    return [(lines.put(start), between, lines.put(end)) for start, between, end in out]


def _stretches(
    lines: Lines, part: str, piece: Piece, shape: Polygon, line: Line, passing: bool, near: float
) -> Iterator[tuple[Spot, Line, Spot]]:
    met: list[tuple[float, str, float]] = []
    for edge in piece.edges:
        met += [(t, edge.id, along) for t, along in _crossings(line, edge.points)]
        if passing and (passed := _passed(line, edge.points[0], shape)) is not None:
            met.append((passed, edge.id, 0.0))
    met.sort()
    bends = list(itertools.accumulate((math.dist(a, b) for a, b in itertools.pairwise(line)), initial=0.0))
    border = shape.boundary
    for (t, begins, along), (u, ends, beyond) in itertools.pairwise(met):
        if u - t < NEAREST:
            continue
        on_it = [Place(at_on(line, t + (u - t) * share)) for share in (0.25, 0.5, 0.75)]
        if not any(shape.contains(place) and border.distance(place) >= ALONG for place in on_it):
            continue
        between = tuple(point for point, at in zip(line[1:-1], bends[1:-1], strict=True) if t + near < at < u - near)
        start, end = (lines.spot(EdgeRef(part, edge), at, near) for edge, at in ((begins, along), (ends, beyond)))
        yield start, between, end


def _passed(line: Line, corner: Point, shape: Polygon) -> float | None:
    """How far along a line it passes a corner so close by that it may as well go through it."""
    walked, (x, y) = 0.0, corner
    for a, b in itertools.pairwise(line):
        ux, uy = b[0] - a[0], b[1] - a[1]
        size = math.hypot(ux, uy)
        off, foot = ((x - a[0]) * uy - (y - a[1]) * ux) / size, ((x - a[0]) * ux + (y - a[1]) * uy) / size
        if HAIR < abs(off) < NEAREST and 0 <= foot <= size:
            return walked + foot if shape.contains(Place(at_on(line, walked + foot))) else None
        walked += size
    return None


def _crossings(line: Line, edge: Line) -> Iterator[tuple[float, float]]:
    """(how far along the line, how far along the edge) they meet, corners and ends included."""
    walked = 0.0
    for a, b in itertools.pairwise(line):
        ux, uy = b[0] - a[0], b[1] - a[1]
        size = math.hypot(ux, uy)
        # each end's distance from the line, and its foot on it
        off = [((x - a[0]) * uy - (y - a[1]) * ux) / size for x, y in edge]
        foot = [((x - a[0]) * ux + (y - a[1]) * uy) / size for x, y in edge]
        along = 0.0
        for n, (c, d) in enumerate(itertools.pairwise(edge)):
            step = math.dist(c, d)
            for share in zeros(off[n], off[n + 1]):
                t = foot[n] + (foot[n + 1] - foot[n]) * share
                if -1e-7 <= t <= size + 1e-7:
                    yield walked + t, along + step * share
            along += step
        walked += size


def zeros(one: float, other: float) -> tuple[float, ...]:
    """The shares of a step at which its distance from a line is nothing."""
    ends = tuple(float(n) for n, value in enumerate((one, other)) if abs(value) < 1e-7)
    return ends or ((one / (one - other),) if one * other < 0 else ())
