"""What has to be laid, as the bounds see it: alike things once, with the ways each may lie."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, area, bounds, mirror, shift, turn
from ellwand.lay.shapes import HAIR, SLIT, allowed_turns, copies, usable_width
from ellwand.lay.task import Task
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Part
from ellwand.model.piece import Piece


@dataclass(frozen=True, slots=True)
class Way:
    """One way that a thing may lie, its least corner at (0, 0): outline and holes (cm).

    ``on_fold``: its left side lies on the ground's left edge.
    """

    outline: Line
    holes: tuple[Line, ...] = ()
    on_fold: bool = False

    @property
    def width(self) -> float:
        return bounds(self.outline)[2]

    @property
    def height(self) -> float:
        return bounds(self.outline)[3]

    @property
    def solid(self) -> float:
        """Its area (cm²) less its holes."""
        return abs(area(self.outline)) - sum(abs(area(hole)) for hole in self.holes)


@dataclass(frozen=True, slots=True)
class Kind:
    """``count`` things that are cut alike, and the ways in which each fits the width."""

    name: str
    count: int
    ways: tuple[Way, ...]

    @property
    def solid(self) -> float:
        """The area of each (cm²)."""
        return max(way.solid for way in self.ways)


def kinds_of(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth) -> tuple[tuple[Kind, ...], float]:
    """The true outlines, slits closed, and the width they may lie on: with the selvedges where edges may lie there.

    Copies beyond the parts are not mirrored.
    """
    width = usable_width(cloth) + (2 * cloth.selvedge if cloth.selvedge_edges else 0.0)
    found: list[tuple[str, tuple[Way, ...]]] = []
    for piece in pieces:
        rings = [_closed(piece.cut), *piece.cut_holes]
        for part in copies(piece, parts):
            flips = (False, True) if cloth.reversible else (part.mirrored,)
            ways = (_way(rings, flip, degrees) for flip in flips for degrees in allowed_turns(piece, cloth))
            found.append((piece.name, _each_once(ways, width)))
    return _grouped(found), width


def kinds_in(task: Task) -> tuple[tuple[Kind, ...], float]:
    """A task's shapes, and its ground's width widened by the most that any pose may pass it on either side."""
    poses = [pose for shape in task.shapes for pose in shape.poses]
    past = [max((pose.past[side] for pose in poses), default=0.0) for side in (0, 1)]
    width = task.ground.width + sum(past)
    found = [
        (shape.piece, _each_once((Way(pose.ring, (), pose.on_fold) for pose in shape.poses), width))
        for shape in task.shapes
    ]
    return _grouped(found), width


def key_of(way: Way) -> tuple[object, ...]:
    """The same for two ways that cover the same cloth."""
    return way.on_fold, *(frozenset((round(x, 4), round(y, 4)) for x, y in ring) for ring in (way.outline, *way.holes))


def alike(first: tuple[Sequence[Kind], float], second: tuple[Sequence[Kind], float]) -> bool:
    """Whether kinds and width are the same but for holes that nothing fits in."""
    return abs(first[1] - second[1]) < HAIR and _counted(first[0]) == _counted(second[0])


def _counted(kinds: Sequence[Kind]) -> Counter[frozenset[tuple[object, ...]]]:
    least = min((kind.solid for kind in kinds), default=0.0)
    counts: Counter[frozenset[tuple[object, ...]]] = Counter()
    for kind in kinds:
        ways = [replace(way, holes=tuple(h for h in way.holes if abs(area(h)) >= least)) for way in kind.ways]
        counts[frozenset(key_of(way) for way in ways)] += kind.count
    return counts


def _way(rings: Sequence[Line], flip: bool, degrees: float) -> Way:
    turned = [turn(mirror(ring)[::-1] if flip else ring, degrees) for ring in rings]
    left, low, _, _ = bounds(turned[0])
    outline, *holes = (shift(ring, -left, -low) for ring in turned)
    return Way(outline, tuple(holes))


def _each_once(ways: Iterable[Way], width: float) -> tuple[Way, ...]:
    known = {key_of(way): way for way in ways if way.width <= width + HAIR}
    return tuple(known.values())


def _grouped(found: Sequence[tuple[str, tuple[Way, ...]]]) -> tuple[Kind, ...]:
    """Alike things together, the largest first."""
    groups: dict[frozenset[tuple[object, ...]], tuple[str, tuple[Way, ...], int]] = {}
    for name, ways in found:
        key = frozenset(key_of(way) for way in ways)
        known = groups.get(key, (name, ways, 0))
        groups[key] = (known[0], known[1], known[2] + 1)
    kinds = [Kind(name, count, ways) for name, ways, count in groups.values() if ways]
    return tuple(sorted(kinds, key=lambda kind: -kind.solid))


def _closed(ring: Line) -> Line:
    """The outline with its slits closed, else as it is, counter-clockwise."""
    polygon = Polygon(ring)
    closed = polygon.buffer(SLIT / 2, join_style="mitre").buffer(-SLIT / 2, join_style="mitre")
    if not isinstance(closed, Polygon) or closed.area <= polygon.area + HAIR:
        return ring if area(ring) > 0 else ring[::-1]
    points = tuple((float(x), float(y)) for x, y in closed.exterior.coords[:-1])
    return points if closed.exterior.is_ccw else points[::-1]
