"""The numbers a maker chalks a piece by, read off its cut outline (cm)."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, unary_union
from shapely import Point as Spot

from ellwand.depict.outline import Slit, corners, slits, trace
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.model.piece import Edge, Piece


@dataclass(frozen=True, slots=True)
class Extent:
    """Outer sizes. ``side``: a slanted side from corner to corner, for pieces with an arc below, else 0."""

    bottom: tuple[Point, Point]
    top: tuple[Point, Point]
    height: float
    side: float

    @property
    def bottom_width(self) -> float:
        """Straight across between the lower corners."""
        return self.bottom[1][0] - self.bottom[0][0]

    @property
    def top_width(self) -> float:
        """Straight across the top."""
        return self.top[1][0] - self.top[0][0]


@dataclass(frozen=True, slots=True)
class Mark:
    """A notch on the cut edge: where one seam ends and the next begins.

    ``distance`` along the cut edge from the hem (or cuff) corner, or across the top from its left corner.
    """

    at: Point
    inner: Point
    distance: float
    on_top: bool


@dataclass(frozen=True, slots=True)
class NeckHole:
    """The cut neck: ``width`` across, ``front`` and ``back`` from the shoulder fold (or the cut top edge).

    ``slit``: from the cut neck edge to its tip, 0 when there is none; ``aside``: its distance from the middle;
    ``behind``: it runs down the back of a body cut in one length.
    """

    width: float
    front: float
    back: float
    slit: float
    half: bool
    aside: float = 0.0
    behind: bool = False


def extent(piece: Piece) -> Extent:
    """Width above and below, height, and the length of a slanted side; of an applied piece, all that it takes up."""
    if piece.kind == "applied" or piece.place == "gusset":
        return _all_of(piece)
    stretches = trace(piece.cut)
    found = corners(stretches)
    x0, y0, x1, y1 = bounds(piece.cut)
    mid = (x0 + x1) / 2
    if not any(c[0] > mid for c in found) or not any(c[0] <= mid for c in found):
        # round on one side, as the outer strip of a cloak
        return Extent(((x0, y0), (x1, y0)), ((x0, y1), (x1, y1)), y1 - y0, 0.0)
    left = min((c for c in found if c[0] <= mid), key=lambda c: (round(c[1], 3), c[0]))
    right = min((c for c in found if c[0] > mid), key=lambda c: (round(c[1], 3), -c[0]))
    if abs(left[1] - right[1]) > 0.3 * (y1 - y0) and any(edge.kind == "division seam" for edge in piece.edges):
        # a lozenge or a point: no side lies level below
        return _all_of(piece)
    high = [c for c in found if c[1] > y1 - 0.05]
    if not high or (piece.place == "sleeve" and len(high) < 2 and len(found) > 3):
        # under a shaped head, or a rounded hem: the highest corner on either side
        high = [max((c for c in found if (c[0] > mid) == right_), key=lambda c: c[1]) for right_ in (False, True)]
    top = (min(high), max(high))
    if piece.place == "sleeve" and (cuff := _cuff_corners(piece, found)):
        left, right = cuff
    arched = any(s.curved and min(p[1] for p in s.points) < y0 + 0.05 for s in stretches)
    arched = arched and (piece.place != "body" or any(level.centre for level in piece.levels))
    arched = arched and not any(edge.kind == "piecing seam" for edge in piece.edges)
    arched = arched and (piece.place != "other" or any(edge.kind == "gore seam" for edge in piece.edges))
    return Extent((left, right), top, y1 - y0, math.dist(right, top[1]) if arched else 0.0)


def _cuff_corners(piece: Piece, found: Sequence[Point]) -> tuple[Point, Point] | None:
    """The cut corners at both ends of a sleeve's cuff, which may lie aslant below its top; None for an arc."""
    edge = next((edge for edge in piece.edges if edge.kind == "cuff"), None)
    if edge is None or len(edge.points) > 4:
        return None
    ends = [(x, y - edge.allowance) for x, y in (edge.points[0], edge.points[-1])]
    left, right = (min(found, key=lambda c: math.dist(c, end)) for end in ends)
    return left, right


def _all_of(piece: Piece) -> Extent:
    x0, y0, x1, y1 = bounds(piece.cut)
    return Extent(((x0, y0), (x1, y0)), ((x0, y1), (x1, y1)), y1 - y0, 0.0)


def is_traced(piece: Piece) -> bool:
    """True for a shaped facing: it is not measured out, but chalked round the neck it is for."""
    return piece.kind == "applied" and any(edge.kind == "neck" for edge in piece.edges)


def chalked(piece: Piece) -> Line:
    """The ring whose corners are measured out on the cloth: the cut outline, or the rectangle a facing needs."""
    if not is_traced(piece):
        return piece.cut
    x0, y0, x1, y1 = bounds(piece.cut)
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def beyond_neck(piece: Piece) -> float:
    """How far (cm) a shaped facing's cut outer edge lies from the cut neck."""
    neck = [edge for edge in piece.edges if edge.kind == "neck"]
    inner = unary_union([LineString(edge.points) for edge in neck])
    outer = [edge for edge in piece.edges if edge.kind == "facing"]
    width = min(inner.distance(LineString(edge.points)) for edge in outer)
    return float(width) + outer[0].allowance + neck[0].allowance


def waists(piece: Piece) -> tuple[tuple[Point, Point], ...]:
    """Pairs of corners between top and bottom at which both sides change direction, as at an elbow."""
    found = corners(trace(piece.cut))
    _, y0, _, y1 = bounds(piece.cut)
    inner = [c for c in found if y0 + 0.12 * (y1 - y0) < c[1] < y1 - 0.12 * (y1 - y0)]
    pairs = []
    for left in inner:
        right = max((c for c in inner if abs(c[1] - left[1]) < 0.05), key=lambda c: c[0])
        if piece.place == "sleeve" and right == left:
            # half a sleeve bends on one side only
            left, right = _across(piece, left)
        if piece.place == "sleeve" and right[0] > left[0] + 1:
            pairs.append((left, right))
    return tuple(pairs)


def _across(piece: Piece, at: Point) -> tuple[Point, Point]:
    """From a corner straight across the piece to its other side."""
    ring = [*piece.cut, piece.cut[0]]
    crossings = [
        ax + (bx - ax) * (at[1] - ay) / (by - ay)
        for (ax, ay), (bx, by) in itertools.pairwise(ring)
        if (ay <= at[1]) != (by <= at[1])
    ]
    return (min(crossings), at[1]), (max(crossings), at[1])


def sleeve_stops(piece: Piece) -> tuple[Point, ...]:
    """Corners of a sleeve whose height must be told: the highest of a slanted cuff, and beside a shaped head."""
    found = corners(trace(piece.cut))
    cuff = [p for edge in piece.edges if edge.kind == "cuff" for p in edge.points]
    if piece.place != "sleeve" or len(found) < 4 or len(cuff) > 4:
        return ()
    out = []
    high = max(cuff, key=lambda p: p[1], default=None)
    if high is not None and high[1] - min(y for _, y in cuff) > 0.5:
        out.append(min(found, key=lambda c: math.dist(c, high)))
    right = extent(piece).top[1]
    if right[1] < max(y for _, y in piece.cut) - 0.5:
        out.append(right)
    return tuple(out)


def cut_slits(piece: Piece) -> tuple[Slit, ...]:
    """Every slit cut into the piece from its outer edge."""
    return slits(trace(piece.cut))


def fold_level(piece: Piece) -> float | None:
    """Height of the shoulder fold above the cut lower edge, or None."""
    return next((guide.points[0][1] for guide in piece.guides if guide.name == "shoulder fold"), None)


def marks(piece: Piece) -> tuple[Mark, ...]:
    """A notch wherever two edges of the outer ring meet in a straight line."""
    outer = _outer_edges(piece)
    fold = fold_level(piece)
    x0, _, x1, _ = bounds(piece.cut)
    mid = (x0 + x1) / 2
    ring = LineString([*piece.cut, piece.cut[0]])
    found = corners(trace(piece.cut))
    out = []
    for before, after in zip(outer, [*outer[1:], outer[0]], strict=True):
        at = after.points[0]
        if not _in_line(before, after) or before.kind in ("neck", "hem") or 0.0 in (before.allowance, after.allowance):
            continue
        near = ring.interpolate(ring.project(Spot(at)))
        point = (float(near.x), float(near.y))
        (ax, ay), (bx, by) = before.points[-2:]
        on_top = abs(by - ay) < max(0.01, 0.05 * abs(bx - ax))
        if on_top:
            out.append(Mark(point, at, point[0] - extent(piece).top[0][0], True))
            continue
        upper = fold is not None and at[1] > fold + 0.01
        same_side = [c for c in found if (c[0] > mid) == (point[0] > mid)]
        end = max(same_side, key=lambda c: c[1]) if upper else min(same_side, key=lambda c: c[1])
        if piece.place == "sleeve":
            end = min(extent(piece).bottom, key=lambda c: _along(piece.cut, c, point))
        out.append(Mark(point, at, _along(piece.cut, end, point), False))
    return tuple(out)


def _outer_edges(piece: Piece) -> list[Edge]:
    ring = set(piece.sewn)
    return [edge for edge in piece.edges if edge.points[0] in ring and edge.points[-1] in ring]


def _in_line(before: Edge, after: Edge) -> bool:
    (ax, ay), (bx, by), (cx, cy) = before.points[-2], after.points[0], after.points[1]
    one, two = math.atan2(by - ay, bx - ax), math.atan2(cy - by, cx - bx)
    # a shaped head is drawn in straight bits and turns a little at its crown
    slack = 5.0 if before.kind == after.kind == "armhole" else 1.0
    return abs(math.degrees((two - one + math.pi) % (2 * math.pi) - math.pi)) < slack


def _along(ring: Line, corner: Point, point: Point) -> float:
    """The shorter way along the ring from a corner to a point on it (cm)."""
    line = LineString([*ring, ring[0]])
    a, b = line.project(Spot(corner)), line.project(Spot(point))
    way = abs(a - b)
    return float(min(way, line.length - way))


def neck_hole(piece: Piece) -> NeckHole | None:
    """The neck as cut, or None for a piece without neck."""
    edges = [edge for edge in piece.edges if edge.kind == "neck"]
    if not edges:
        return None
    fold = fold_level(piece)
    if piece.cut_holes:
        ring = piece.cut_holes[0]
        found = slits(trace(ring))
        x0, y0, x1, y1 = bounds(p for p in ring if all(p != slit.tip for slit in found))
        level = y1 if fold is None else fold
        down_back = any(slit.tip[1] > slit.mouth[1] for slit in found)
        return NeckHole(x1 - x0, level - y0, y1 - level, _deep(found), False, _aside(found, (x0 + x1) / 2), down_back)
    curve = LineString([p for edge in edges for p in edge.points])
    # a straight neck has points only at its corners, where the allowances meet further out
    reaches = (edges[0].allowance * longer + 0.01 for longer in (1.15, 1.5, 2.0, 3.0))
    nearer = ([p for p in piece.cut if curve.distance(Spot(p)) <= reach] for reach in reaches)
    found_at = [bounds(near) for near in nearer if near]
    # an edge's end alone tells no width
    x0, y0, x1, y1 = next((each for each in found_at if each[2] - each[0] > 0.5), found_at[-1])
    left, _, right, top = bounds(piece.cut)
    found = tuple(slit for slit in slits(trace(piece.cut)) if y0 - 0.01 <= slit.mouth[1] <= y1 + 0.01)
    at_left, at_right = x0 < left + 3, x1 > right - 3
    width, middle = x1 - x0, (x0 + x1) / 2
    if at_left:
        width, middle = x1 - left, left + _centre_allowance(piece)
    elif at_right:
        width, middle = right - x0, right - _centre_allowance(piece)
    level = top if fold is None else fold
    behind = 0.0 if fold is None else y1 - fold
    return NeckHole(width, level - y0, behind, _deep(found), at_left or at_right, _aside(found, middle))


def _deep(found: Sequence[Slit]) -> float:
    return max((math.dist(slit.mouth, slit.tip) for slit in found), default=0.0)


def _aside(found: Sequence[Slit], middle: float) -> float:
    return max((abs(slit.tip[0] - middle) for slit in found), default=0.0)


def _centre_allowance(piece: Piece) -> float:
    return next((edge.allowance for edge in piece.edges if edge.id.startswith("centre-")), 0.0)
