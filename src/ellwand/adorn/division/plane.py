"""A piece of cloth parted by any number of lines: the faces between them, as rings of named stretches.

The cloth's own rings and the lines are one net of straight steps between nodes.  A face is walked with its cloth on
the left hand, at every node turning as far to the left as it goes (any text on planar maps).
"""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from shapely import Point as Place
from shapely import Polygon, contains_xy, is_valid

from ellwand.adorn.division.crossings import walks_of
from ellwand.geometry.lines import Line, Point, area, length

ONE_NODE: Final = 1e-6
"""Points of the cloth's edge nearer to each other than this (cm) are one."""
ONE_CROSSING: Final = 0.5
"""Lines that cross nearer to each other than this (cm) cross in one point: our own figure."""
BESIDE: Final = 3 * ONE_CROSSING
"""Nearer to a corner of the cloth's edge than this (cm) a crossing is not moved: our own figure."""

Key = tuple[str, int]
"""An edge, and which stretch of it from where it begins."""
_Step = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Bit:
    """A stretch of a face's ring: of the edge ``key``, or along a line with the face ``beyond`` on its other side."""

    key: Key | None
    points: Line
    beyond: int = -1


@dataclass(frozen=True, slots=True)
class Face:
    """What lies between lines: its ring counter-clockwise, its holes clockwise, end to end.

    ``heart``: a point of it; where a share too small was joined to it, one that was its own before.
    """

    ring: tuple[Bit, ...]
    holes: tuple[tuple[Bit, ...], ...]
    heart: Point


def faces_of(
    rings: Sequence[Sequence[tuple[Key, Line]]],
    lines: Sequence[Line],
    too_small: Callable[[Polygon], bool],
    without: Iterable[Line] = (),
) -> tuple[Face, ...]:
    """The faces that lines make of a cloth with these rings; each line runs from edge to edge within it.

    A face that is ``too_small`` stays with the neighbour along its longest line.  ``without``: stretches of line
    between two faces that part nothing.

    Raises ValueError where a line leaves the cloth, or a face would touch itself.
    """
    net = _Net(rings, lines)
    for step in without:
        net.drop(step)
    found = net.faces()
    shapes = [polygon(face) for face in found]
    hearts = [_heart(shape) for shape in shapes]
    while needless := _needless(found, shapes, too_small):
        for step in needless:
            net.drop(step)
        found = net.faces()
        shapes = [polygon(face) for face in found]
    if not all(is_valid(shapes)):
        raise ValueError("a face touches itself")
    own = [_own(shape, hearts) for shape in shapes]
    return tuple(Face(face.ring, face.holes, heart) for face, heart in zip(found, own, strict=True))


def undivided(ring: tuple[Bit, ...], holes: Sequence[tuple[Bit, ...]]) -> Face:
    """A cloth that no line crosses."""
    whole = Face(ring, tuple(holes), ring[0].points[0])
    return Face(ring, whole.holes, _heart(polygon(whole))[1])


def polygon(face: Face) -> Polygon:
    """The face as a shape."""
    return Polygon(_outline(face.ring), [_outline(hole) for hole in face.holes])


def _outline(ring: Sequence[Bit]) -> list[Point]:
    return [point for bit in ring for point in bit.points[:-1]]


def _heart(shape: Polygon) -> tuple[float, Point]:
    within = shape.representative_point()
    return shape.area, (within.x, within.y)


def _own(shape: Polygon, hearts: Sequence[tuple[float, Point]]) -> Point:
    """The heart of the largest face that became part of it."""
    if len(hearts) == 1:
        return hearts[0][1]
    within = contains_xy(shape, [x for _, (x, _) in hearts], [y for _, (_, y) in hearts])
    return max((each for each, inside in zip(hearts, within, strict=True) if inside), default=_heart(shape))[1]


def _needless(faces: Sequence[Face], shapes: Sequence[Polygon], too_small: Callable[[Polygon], bool]) -> list[Line]:
    """Lines with one face on both sides; where there are none, one about each face that is too small.

    The smallest go first, each to the neighbour along its longest line that it touches nowhere else, so that no face
    comes to touch itself in a point.
    """
    inside = [
        bit.points
        for n, face in enumerate(faces)
        for ring in (face.ring, *face.holes)
        for bit in ring
        if bit.beyond == n
    ]
    if inside:
        return inside
    small = [n for n, face in enumerate(faces) if any(bit.key is None for bit in face.ring) and too_small(shapes[n])]
    out: list[Line] = []
    joined: set[int] = set()
    for n in sorted(small, key=lambda n: shapes[n].area):
        ways = sorted((bit for bit in faces[n].ring if bit.key is None), key=lambda bit: -length(bit.points))
        apart = [bit for bit in ways if _only_there(faces[n], faces[bit.beyond], bit)]
        best = (apart or ways)[0]
        if not {n, best.beyond} & joined:
            out.append(best.points)
            joined |= {n, best.beyond}
    return out


def between_alike(faces: Sequence[Face], colours: Sequence[str]) -> list[Line]:
    """Lines between faces of one colour, each face in one of them at most; none where the two touch elsewhere too."""
    out: list[Line] = []
    joined: set[int] = set()
    for n, face in enumerate(faces):
        for bit in _bits_of(face):
            other = bit.beyond
            alike = bit.key is None and colours[n] == colours[other] and not {n, other} & joined
            if alike and _only_there(face, faces[other], bit):
                out.append(bit.points)
                joined |= {n, other}
    return out


def _only_there(face: Face, other: Face, bit: Bit) -> bool:
    """Whether two faces touch along that stretch of line and nowhere else."""
    corners = [{point for each in _bits_of(one) for point in each.points} for one in (face, other)]
    return corners[0] & corners[1] <= set(bit.points)


def _bits_of(face: Face) -> list[Bit]:
    return [bit for ring in (face.ring, *face.holes) for bit in ring]


class _Net:
    """Nodes, and steps between them: of the cloth's edges, with the cloth on their left, or of lines."""

    def __init__(self, rings: Sequence[Sequence[tuple[Key, Line]]], lines: Sequence[Line]) -> None:
        self.nodes: list[Point] = []
        self._near: dict[tuple[int, int], list[int]] = defaultdict(list)
        self.edges: dict[_Step, Key] = {}
        for ring in rings:
            for key, points in ring:
                ids = [self._node(point, ONE_NODE) for point in points]
                self.edges.update({step: key for step in itertools.pairwise(ids) if step[0] != step[1]})
        self._border = len(self.nodes)
        self.lines: set[_Step] = set()
        walks = walks_of(lines, lambda point: self._node(point, ONE_NODE), self._crossing)
        for a, b in (step for walk in walks for step in itertools.pairwise(walk)):
            if a != b and (a, b) not in self.edges and (b, a) not in self.edges:
                self.lines |= {(a, b), (b, a)}

    def _node(self, point: Point, near: float) -> int:
        """The node there, or a new one."""
        x, y = math.floor(point[0]), math.floor(point[1])
        around = [n for i in (-1, 0, 1) for j in (-1, 0, 1) for n in self._near.get((x + i, y + j), ())]
        best = min(around, key=lambda n: math.dist(self.nodes[n], point), default=None)
        if best is not None and math.dist(self.nodes[best], point) <= near:
            return best
        self.nodes.append(point)
        self._near[x, y].append(len(self.nodes) - 1)
        return len(self.nodes) - 1

    def _crossing(self, point: Point) -> int:
        """Where lines cross, as a node; beside the cloth's edge it stays where it is, lest a line leave the cloth."""
        beside = any(math.dist(self.nodes[n], point) < BESIDE for n in range(self._border))
        return self._node(point, ONE_NODE if beside else ONE_CROSSING)

    def drop(self, line: Line) -> None:
        """Take that stretch of line out."""
        ids = [self._node(point, ONE_NODE) for point in line]
        for a, b in itertools.pairwise(ids):
            self.lines -= {(a, b), (b, a)}

    def faces(self) -> list[Face]:
        """Every face of the cloth."""
        after = self._turns()
        loops = _loops([*self.edges, *self.lines], after)
        rings: list[list[_Step]] = []
        holes: list[list[_Step]] = []
        for loop in loops:
            whole = area([self.nodes[a] for a, _ in loop]) > 0
            (rings if whole else holes).append(loop)
        number = {step: n for n, loop in enumerate(rings) for step in loop}
        within: dict[int, list[list[_Step]]] = defaultdict(list)
        shapes = [Polygon([self.nodes[a] for a, _ in loop]) for loop in rings] if holes else []
        for hole in holes:
            at = Place(self.nodes[hole[0][0]])
            home = min((n for n, shape in enumerate(shapes) if shape.contains(at)), key=lambda n: shapes[n].area)
            number.update(dict.fromkeys(hole, home))
            within[home].append(hole)
        degree: dict[int, int] = defaultdict(int)
        for a, _ in (*self.edges, *self.lines):
            degree[a] += 1
        for _, b in self.edges:
            degree[b] += 1

        def told(loop: list[_Step]) -> tuple[Bit, ...]:
            return self._bits(loop, number, degree)

        return [
            Face(told(loop), tuple(told(hole) for hole in within[n]), self.nodes[loop[0][0]])
            for n, loop in enumerate(rings)
        ]

    def _turns(self) -> Mapping[_Step, _Step]:
        """After each step the next: as far to the left as it goes, so that the face on the left is walked round."""
        out: dict[int, list[int]] = defaultdict(list)
        for a, b in (*self.edges, *self.lines):
            out[a].append(b)
        after: dict[_Step, _Step] = {}
        for a, b in (*self.edges, *self.lines):
            back = self._angle(b, a)
            after[a, b] = (b, min(out[b], key=lambda c: (back - self._angle(b, c)) % (2 * math.pi) or 7.0))
        if len(set(after.values())) < len(after):
            raise ValueError("a line leaves the cloth")
        return after

    def _angle(self, a: int, b: int) -> float:
        (x0, y0), (x1, y1) = self.nodes[a], self.nodes[b]
        return math.atan2(y1 - y0, x1 - x0)

    def _bits(self, loop: list[_Step], number: Mapping[_Step, int], degree: Mapping[int, int]) -> tuple[Bit, ...]:
        """A loop as stretches: of one edge each, or of one line between two faces."""

        def owner(step: _Step) -> tuple[Key | None, int]:
            return self.edges.get(step), -1 if step in self.edges else number[step[1], step[0]]

        def breaks(before: _Step, step: _Step) -> bool:
            return owner(before) != owner(step) or (step not in self.edges and degree[step[0]] > 2)

        start = next((i for i in range(len(loop)) if breaks(loop[i - 1], loop[i])), 0)
        turned = loop[start:] + loop[:start]
        out: list[list[_Step]] = []
        for i, step in enumerate(turned):
            if i and not breaks(turned[i - 1], step):
                out[-1].append(step)
            else:
                out.append([step])
        return tuple(
            Bit(owner(run[0])[0], tuple(self.nodes[n] for n in (run[0][0], *(b for _, b in run))), owner(run[0])[1])
            for run in out
        )


def _loops(steps: Sequence[_Step], after: Mapping[_Step, _Step]) -> list[list[_Step]]:
    walked: set[_Step] = set()
    loops: list[list[_Step]] = []
    for first in steps:
        loop, step = [], first
        while step not in walked:
            walked.add(step)
            loop.append(step)
            step = after[step]
        if loop:
            loops.append(loop)
    return loops
