"""Kinds of pieces, and the sets of them that may make a block."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final

from ellwand.geometry.lines import Line, Point, area
from ellwand.lay.hulls import fewer_corners, hull
from ellwand.lay.task import Pose, Shape

Counts = tuple[int, ...]
"""How many of each kind."""

SLACK: Final = 0.1
"""How far (cm) an arc may be taken outside itself to save corners."""
FLAT: Final = 1e-3
"""An outline that fills its box but for this part of it is a rectangle."""
LARGEST: Final = 5
"""Pieces in a block of unlike pieces; of like ones there may be more."""
CORNERS: Final = 2
"""Small rectangles in the corners of a block of many pieces."""
SMALL: Final = 0.9
"""A rectangle is small when it is smaller than this part of the largest piece that is none."""
LARGEST_CUT: Final = 8
"""Pieces in a block of unlike pieces all of which are cut by scissors."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Shapes that are alike; ``outlines`` are convex and contain the poses'."""

    shapes: tuple[Shape, ...]
    outlines: tuple[Line, ...]
    area: float
    boxes: bool

    @property
    def poses(self) -> tuple[Pose, ...]:
        """The ways one of them may lie."""
        return self.shapes[0].poses


def kinds_of(shapes: Sequence[Shape]) -> tuple[Kind, ...]:
    """Like shapes together, whichever piece or face they are of: the same outlines, in the order given."""
    groups: dict[frozenset[frozenset[Point]], list[Shape]] = {}
    for shape in shapes:
        groups.setdefault(frozenset(outline_of(pose) for pose in shape.poses), []).append(shape)
    return tuple(_kind(group) for group in groups.values())


def outline_of(pose: Pose) -> frozenset[Point]:
    """What tells outlines apart: their corners to the hundredth of a millimetre."""
    return frozenset((round(x, 3), round(y, 3)) for x, y in pose.ring)


def _kind(shapes: list[Shape]) -> Kind:
    poses = shapes[0].poses
    cloth = abs(area(poses[0].ring))
    boxes = cloth > (1 - FLAT) * poses[0].width * poses[0].height
    return Kind(tuple(shapes), tuple(fewer_corners(hull(pose.ring), SLACK) for pose in poses), cloth, boxes)


def more(counts: Counts, kind: int, by: int = 1) -> Counts:
    """One more of a kind."""
    return tuple(n + by * (k == kind) for k, n in enumerate(counts))


def sets_of(kinds: Sequence[Kind]) -> Iterator[Counts]:
    """Sets of two and more with something to cut by scissors: those of one or two kinds first, then smaller first."""
    yield from _grown(kinds, lambda counts: _plain(counts, kinds))
    yield from _grown(kinds, lambda counts: _sensible(counts, kinds))


def _grown(kinds: Sequence[Kind], wanted: Callable[[Counts], bool]) -> Iterator[Counts]:
    most = [len(kind.shapes) for kind in kinds]
    none = (0,) * len(kinds)
    level = {more(none, k) for k in range(len(kinds))}
    while level:
        for counts in sorted(level, reverse=True):
            if sum(counts) > 1 and any(n and not kind.boxes for n, kind in zip(counts, kinds, strict=True)):
                yield counts
        grown = {more(counts, k) for counts in level for k in range(len(kinds)) if counts[k] < most[k]}
        level = {counts for counts in grown if wanted(counts)}


def _plain(counts: Counts, kinds: Sequence[Kind]) -> bool:
    """Gores of one kind, or of two, or gores and sleeves."""
    there = [kind for n, kind in zip(counts, kinds, strict=True) if n]
    many = sum(counts) <= LARGEST_CUT or len(there) == 1
    return many and len(there) <= 2 and not any(kind.boxes for kind in there)


def _sensible(counts: Counts, kinds: Sequence[Kind]) -> bool:
    """Few pieces; or gores and sleeves with a few small rectangles between them."""
    if sum(counts) <= LARGEST:
        return True
    there = [(n, kind) for n, kind in zip(counts, kinds, strict=True) if n]
    shaped = [(n, kind) for n, kind in there if not kind.boxes]
    cut = sum(n for n, _ in shaped)
    largest = max((kind.area for _, kind in shaped), default=0.0)
    small = all(kind.area < SMALL * largest for _, kind in there if kind.boxes)
    return small and sum(counts) - cut <= CORNERS and (cut <= LARGEST_CUT or len(shaped) == 1)


def radix(kinds: Sequence[Kind]) -> list[int]:
    """A weight for each kind so that sums of two counts are told apart by one number."""
    return reduce(lambda out, kind: [*out, out[-1] * (2 * len(kind.shapes) + 1)], kinds, [1])[:-1]
