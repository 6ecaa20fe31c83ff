"""Leaders from edge to edge of pieces that lie apart: straight where nothing lies between, else round the pieces."""

from __future__ import annotations

import heapq
import math
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final

from ellwand.depict.step_view.groups import outward
from ellwand.depict.step_view.joins import Join, other_hand
from ellwand.depict.step_view.motion import Laid, Motion
from ellwand.depict.step_view.signs import at_share
from ellwand.geometry.lines import Line, Point, length

if TYPE_CHECKING:
    from shapely import Geometry, STRtree

NEARLY: Final = 1.3
"""A leader is nearly straight when it is at most so many times as long as its ends are apart."""
LEAVES: Final = 0.3
"""A straight leader leaves its edge at a slant that is no flatter than this (sine)."""
CROSSING: Final = 90.0
"""A leader goes this much farther (cm) rather than cross another."""
MOST_CORNERS: Final = 140
"""Among more corners no way is looked for: a leader then goes straight, over the pieces."""
COARSE: Final = 0.5
"""A leader finds its way round pieces that are drawn coarser by so much of its distance from them."""


def leaders(joins: Sequence[Join], laid: Mapping[str, Laid], clear: float) -> list[tuple[Join, Line]]:
    """A leader for every join (cm), from the middle of its one edge to the middle of the other.

    Of joins that the wearer's other hand repeats only the shorter is drawn, unless what they set in lies in the middle
    and both are short.  ``clear``: how far from the pieces a leader goes that has to go round them.
    """
    ground = _Ground(laid, clear)
    straight = {i: line for i, join in enumerate(joins) if (line := ground.straight(join))}
    ground.keep_off(list(straight.values()))
    by_key: dict[frozenset[tuple[str, str]], list[int]] = {}
    for i, join in enumerate(joins):
        by_key.setdefault(_key(join), []).append(i)
    lines = dict(straight)

    def drawn(names: Sequence[int]) -> list[tuple[Join, Line]]:
        for i in names:
            if i not in lines:
                lines[i] = ground.round_pieces(joins[i])
        return [(joins[i], lines[i]) for i in names]

    kept: list[tuple[Join, Line]] = []
    for key, here in by_key.items():
        there = by_key.get(frozenset((other_hand(part), other_hand(edge)) for part, edge in key), [])
        if there == here or len(there) != len(here):
            kept += drawn(here)
            continue
        bare, other_bare = (all(i in straight for i in names) for names in (here, there))
        if bare != other_bare and not _of_neither(joins[here[0]]):
            kept += drawn(here) if bare else []
            continue
        mine, others = drawn(here), drawn(there)
        both = all(_in_the_middle(each) for each in (*mine, *others))
        if both or (round(_cost(mine), 3), here) <= (round(_cost(others), 3), there):
            kept += mine
    return kept


def _of_neither(join: Join) -> bool:
    """Whether the smaller part is of neither hand."""
    return other_hand(join.b) == join.b and join.a != join.b


def _in_the_middle(drawn: tuple[Join, Line]) -> bool:
    """Whether a leader goes nearly straight to what is of neither hand."""
    join, line = drawn
    return _of_neither(join) and length(line) < NEARLY * math.dist(line[0], line[-1])


def _cost(drawn: Sequence[tuple[Join, Line]]) -> float:
    """How long they are; one with corners counts for more."""
    return math.fsum(length(line) * len(line) for _, line in drawn)


def _key(join: Join) -> frozenset[tuple[str, str]]:
    """The parts and edges of a join without the numbers of gores side by side, which run the other way on the right."""
    ends = ((join.a, min(join.a_edges)), (join.b, min(join.b_edges)))
    return frozenset((_plain(part), _plain(edge)) for part, edge in ends)


def _plain(name: str) -> str:
    return re.sub(r"-\d+(?=-|$)", "", name)


class _Ground:
    """What leaders go between: the pieces, and the corners of a strip round each of them."""

    def __init__(self, laid: Mapping[str, Laid], clear: float) -> None:
        from shapely import STRtree

        self.laid, self.clear = laid, clear
        shapes = [each.shape() for each in laid.values()]
        self.others: STRtree = STRtree([])
        self.seen: dict[int, dict[int, float]] = {}
        self.pieces: STRtree = STRtree([shape.buffer(-1e-3) for shape in shapes])
        self.strips: STRtree = STRtree([_strip(shape, 0.9 * clear) for shape in shapes])
        self.corners: list[Point] = [
            at for shape in shapes for at in _corners(_strip(shape, clear)) if self._stands(at)
        ]

    def _stands(self, at: Point) -> bool:
        from shapely import Point as Spot

        return not len(self.strips.query(Spot(at), predicate="intersects"))

    def keep_off(self, lines: Sequence[Line]) -> None:
        """Leaders that others had better not cross."""
        from shapely import LineString, STRtree

        self.others = STRtree([LineString(line) for line in lines])

    def straight(self, join: Join) -> Line | None:
        """Straight from the middle of the one edge to the middle of the other; None where something is between."""
        (start, out), (end, back) = self._end(join.a, join.a_line), self._end(join.b, join.b_line)
        if math.dist(start, end) < 1e-6:
            return start, end
        if min(_slant(start, out, end), _slant(end, back, start)) < LEAVES:
            return None
        return (start, end) if self._free(self.pieces, [(start, end)])[0] else None

    def round_pieces(self, join: Join) -> Line:
        """Round the pieces that are between."""
        (start, out), (end, back) = self._end(join.a, join.a_line), self._end(join.b, join.b_line)
        return (start, *(self._way(out, back) or ()), end)

    def _end(self, part: str, line: Line) -> tuple[Point, Point]:
        """The middle of an edge, and the point where the strip along it ends; in a slit, outside its mouth."""
        laid = self.laid[part]
        there = laid.motion.of(line)
        middle, _ = at_share(there, 0.5)
        nx, ny = Motion(laid.motion.angle).of((outward(line, laid.own),))[0]
        out = (middle[0] + nx * self.clear, middle[1] + ny * self.clear)
        ways = [out, *(_beyond(end, inner, self.clear) for end, inner in (there[-1:-3:-1], there[:2]))]
        free = self._free(self.pieces, [(middle, way) for way in ways])
        return middle, next((way for way, seen in zip(ways, free, strict=True) if seen), out)

    def _free(self, among: STRtree, lines: Sequence[tuple[Point, Point]]) -> list[bool]:
        from shapely import linestrings

        blocked = set(among.query(linestrings(lines), predicate="intersects")[0].tolist())
        return [i not in blocked for i in range(len(lines))]

    def _way(self, start: Point, end: Point) -> list[Point]:
        """The shortest way between the strips (the A* algorithm over their corners); empty where there is none.

        Where two pieces lie near each other the ends of a leader stand within a strip: there the pieces decide.
        """
        count = len(self.corners)
        if count > MOST_CORNERS:
            return []
        spots = [*self.corners, start, end]
        from_start = self._steps(start, [*self.corners, end], self.pieces)
        to_end = self._steps(end, self.corners, self.pieces)
        best = {count: 0.0}
        before: dict[int, int] = {}
        done: set[int] = set()
        queue = [(0.0, count)]
        while queue:
            _, at = heapq.heappop(queue)
            if at in done:
                continue
            done.add(at)
            if at == count + 1:
                way = [at]
                while way[-1] in before:
                    way.append(before[way[-1]])
                return [spots[i] for i in reversed(way)]
            if at == count:
                steps = {count + 1 if i == count else i: far for i, far in from_start.items()}
            else:
                steps = dict(self._from(at))
                if at in to_end:
                    steps[count + 1] = to_end[at]
            for i, step in steps.items():
                far = best[at] + step
                if far < best.get(i, math.inf):
                    best[i], before[i] = far, at
                    heapq.heappush(queue, (far + math.dist(spots[i], end), i))
        return []

    def _from(self, corner: int) -> dict[int, float]:
        """How far it is from a corner to each that is seen from it."""
        if corner not in self.seen:
            self.seen[corner] = self._steps(self.corners[corner], self.corners, self.strips)
        return self.seen[corner]

    def _steps(self, at: Point, spots: Sequence[Point], among: STRtree) -> dict[int, float]:
        """How far it is to each spot that is seen; to cross another leader counts as a long way round."""
        from shapely import linestrings

        if not spots:
            return {}
        free = self._free(among, [(at, spot) for spot in spots])
        lines = linestrings([(at, spot) for spot in spots])
        crossed = Counter(self.others.query(lines, predicate="crosses")[0].tolist())
        return {
            i: math.dist(at, spot) + CROSSING * crossed.get(i, 0)
            for i, (spot, seen) in enumerate(zip(spots, free, strict=True))
            if seen and spot != at
        }


def _slant(start: Point, out: Point, end: Point) -> float:
    """The sine of the angle between an edge and the way to ``end``; below 0 where it goes through the cloth."""
    ux, uy, vx, vy = out[0] - start[0], out[1] - start[1], end[0] - start[0], end[1] - start[1]
    return (ux * vx + uy * vy) / (math.hypot(ux, uy) * math.hypot(vx, vy))


def _beyond(end: Point, inner: Point, far: float) -> Point:
    """A line's end moved on by ``far``."""
    long = math.dist(end, inner)
    return end[0] + (end[0] - inner[0]) * far / long, end[1] + (end[1] - inner[1]) * far / long


def _strip(shape: Geometry, clear: float) -> Geometry:
    return shape.simplify(COARSE * clear).buffer(clear, join_style="mitre", mitre_limit=2.0)


def _corners(shape: Geometry) -> list[Point]:
    """The corners of a shape that stand out: a shortest way turns only there."""
    from shapely import Polygon, get_parts
    from shapely.geometry.polygon import orient

    out: list[Point] = []
    for part in get_parts(shape):
        if not isinstance(part, Polygon):
            continue
        ring = [(float(x), float(y)) for x, y in orient(part).exterior.coords[:-1]]
        for i, (x, y) in enumerate(ring):
            (ax, ay), (bx, by) = ring[i - 1], ring[(i + 1) % len(ring)]
            if (x - ax) * (by - y) - (y - ay) * (bx - x) > 0:
                out.append((x, y))
    return out
