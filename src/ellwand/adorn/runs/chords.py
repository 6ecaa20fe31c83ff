"""Lines across single parts, from edge to edge, and over the seams to the next."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ellwand.adorn.runs.making import NEVER, made
from ellwand.geometry.lines import Line, Point, arc, length, split
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Piece
from ellwand.model.run import Run, Stretch
from ellwand.model.surface import Surface

STEP = 0.01
"""Turn from point to point of an arc (radians): 400 cm of them are then 0.002 cm too short."""


@dataclass(frozen=True, slots=True)
class End:
    """Where a line meets an edge: how far along it (cm), walked with the cloth on the left hand as it is worn."""

    ref: EdgeRef
    along: float


@dataclass(frozen=True, slots=True)
class Chord:
    """A line across one part from edge to edge."""

    first: End
    last: End
    points: Line


def straight(surface: Surface, part: str, piece: Piece, y: float, *, backward: bool) -> Iterator[Chord]:
    offs = [[point[1] - y for point in edge.points] for edge in piece.edges]
    found = sorted(_crossings(surface, part, piece, offs), key=lambda each: each[1][0])
    for (one, a), (other, b) in zip(found[::2], found[1::2], strict=True):
        chord = Chord(one, other, (a, b))
        yield turned(chord) if backward else chord


def upright(surface: Surface, part: str, piece: Piece, x: float) -> Iterator[Chord]:
    """Both ways along the upright line at ``x``."""
    offs = [[point[0] - x for point in edge.points] for edge in piece.edges]
    found = sorted(_crossings(surface, part, piece, offs), key=lambda each: each[1][1])
    for (one, a), (other, b) in zip(found[::2], found[1::2], strict=True):
        chord = Chord(one, other, (a, b))
        yield from (chord, turned(chord))


def arcs(surface: Surface, part: str, piece: Piece, centre: Point, radius: float) -> Iterator[Chord]:
    """The circle about a point above a piece, counter-clockwise as it is worn."""
    offs = [[radius - math.dist(point, centre) for point in edge.points] for edge in piece.edges]
    found = []
    for end, _ in _crossings(surface, part, piece, offs):
        # where a straight step meets the circle is not where its distances cross in proportion
        end, at = _on_circle(surface, end, centre, radius)
        found.append((math.atan2(-(at[0] - centre[0]), at[1] - centre[1]) % (2 * math.pi), end))
    found.sort(key=lambda each: each[0])
    for (a, one), (b, other) in zip(found[::2], found[1::2], strict=True):
        chord = Chord(one, other, arc(centre, radius, a + math.pi / 2, b + math.pi / 2, STEP))
        yield turned(chord) if surface.mirrored[part] else chord


def turned(chord: Chord) -> Chord:
    return Chord(chord.last, chord.first, tuple(reversed(chord.points)))


def beyond(surface: Surface, end: End) -> End | None:
    """The same place on the edge that this one is sewn to."""
    if end.ref not in surface.across:
        return None
    other = surface.across[end.ref][0]
    whole, there = length(surface.edges[end.ref].points), length(surface.edges[other].points)
    return End(other, there * (1 - end.along / whole))


def point_on(surface: Surface, end: End) -> Point:
    edge, whole = surface.edges[end.ref], length(surface.edges[end.ref].points)
    along = whole - end.along if surface.mirrored[end.ref.part] else end.along
    if along <= 1e-9:
        return edge.points[0]
    if along >= whole - 1e-9:
        return edge.points[-1]
    return split(edge.points, [along])[0][-1]


def of_chords(surface: Surface, name: str, row: Sequence[Chord], *, closed: bool) -> Run:
    """Lines that go on into each other as one run."""
    stretches = [
        Stretch(part, "", chord.points, "both", surface.mirrored[part])
        for chord in row
        for part in [chord.first.ref.part]
    ]
    joints = [_turn(surface, one, other) for one, other in zip(row, [*row[1:], row[0]], strict=True)]
    return made(name, stretches, joints if closed else joints[:-1], closed=closed, along="line", sharp=NEVER)


def _turn(surface: Surface, one: Chord, other: Chord) -> float:
    """By how many degrees the way turns to the left as it is worn where it crosses the seam between two parts."""
    out = _against_edge(surface, one.last, one.points[-2], one.points[-1])
    into = _against_edge(surface, other.first, other.points[0], other.points[1]) + 180.0
    return (into - out + 180.0) % 360.0 - 180.0


def _against_edge(surface: Surface, end: End, a: Point, b: Point) -> float:
    """From the direction of the edge, cloth on the left hand, to the way from a to b: degrees to the left as worn."""
    points = surface.edges[end.ref].points
    mirrored = surface.mirrored[end.ref.part]
    along = length(points) - end.along if mirrored else end.along
    walked = 0.0
    for p, q in itertools.pairwise(points):
        walked += math.dist(p, q)
        if along <= walked + 1e-9:
            break
    if mirrored:
        p, q = q, p
    angle = math.atan2(b[1] - a[1], b[0] - a[0]) - math.atan2(q[1] - p[1], q[0] - p[0])
    return math.degrees(-angle if mirrored else angle)


# --- inside ---------------------------------------------------------------------------------------------


def _crossings(surface: Surface, part: str, piece: Piece, far: list[list[float]]) -> Iterator[tuple[End, Point]]:
    """Where edges pass from one side of a line to the other; ``far``: each point's signed distance, edge by edge."""
    mirrored = surface.mirrored[part]
    for edge, offs in zip(piece.edges, far, strict=True):
        walked, whole = 0.0, length(edge.points)
        for (a, b), (p, q) in zip(itertools.pairwise(edge.points), itertools.pairwise(offs), strict=True):
            step = math.dist(a, b)
            if (p <= 0) != (q <= 0):
                t = p / (p - q)
                along = walked + step * t
                at = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
                yield End(EdgeRef(part, edge.id), whole - along if mirrored else along), at
            walked += step


def _on_circle(surface: Surface, end: End, centre: Point, radius: float) -> tuple[End, Point]:
    """The crossing of an edge with a circle, exactly (the quadratic along the step that crosses it)."""
    edge, mirrored = surface.edges[end.ref], surface.mirrored[end.ref.part]
    whole = length(edge.points)
    near = whole - end.along if mirrored else end.along
    walked = 0.0
    for a, b in itertools.pairwise(edge.points):
        step = math.dist(a, b)
        if step and near <= walked + step + 1e-9:
            ux, uy = (b[0] - a[0]) / step, (b[1] - a[1]) / step
            ax, ay = a[0] - centre[0], a[1] - centre[1]
            middle, rest = ax * ux + ay * uy, ax * ax + ay * ay - radius * radius
            root = math.sqrt(max(0.0, middle * middle - rest))
            t = -middle + root if rest < 0 else -middle - root
            along = walked + t
            return End(end.ref, whole - along if mirrored else along), (a[0] + ux * t, a[1] + uy * t)
        walked += step
    raise ValueError("an edge without a crossing")
