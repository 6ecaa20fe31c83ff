"""A task as the compiled search reads it: flat tables of outlines, poses and limits."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon, box

from ellwand.geometry.lines import Line, area
from ellwand.lay.hulls import convex_parts, fewer_corners, hull, is_convex
from ellwand.lay.shapes import HAIR
from ellwand.lay.task import Pose, Shape, Spot, Task

if TYPE_CHECKING:
    from ellwand.lay.search.compiled import Counts, Ground, Lying, Poses, Reals, Sums

SLACK: Final = 0.05
"""How far (cm) a curve may be taken outside itself to save corners."""

MOST_EDGES: Final = 4_000_000
"""Where the sums would have more edges than this, the most hollow outlines are taken for their hulls."""

PULLS: Final = ((1e-3, 1.0), (-1e-3, 1.0), (0.3, 1.0), (-0.3, 1.0), (1.0, 1e-2), (-1.0, 1e-2))
"""What x and y count in each rule of placing: lowest then left or right; leaning that way; leftmost or rightmost."""

DRAG: Final = 0.05
"""What the mean height of the pieces' far ends counts, against the lay's length."""

MISSING: Final = 20.0
"""Where pieces may be left out: what leaving out all would count, against the ground's length."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Shapes that may change places with each other, and of each its own poses, those that differ."""

    shapes: tuple[Shape, ...]
    poses: tuple[tuple[Pose, ...], ...]


@dataclass(frozen=True, slots=True)
class Tables:
    """A task ready for the kernels; genes are rows of kind, pose and rule, one column for each shape."""

    kinds: tuple[Kind, ...]
    sums: Sums
    table: Poses
    ground: Ground
    runs: Reals

    def spots(self, genes: Counts, lying: Lying) -> tuple[Spot, ...]:
        """The lay as spots; shapes that were left out are not among them."""
        waiting = [iter(zip(kind.shapes, kind.poses, strict=True)) for kind in self.kinds]
        out = []
        for number, kind in enumerate(genes[0].tolist()):
            at = self.ground.faults + number
            if lying.y[at] >= 0:
                shape, poses = next(waiting[kind])
                pose = poses[int(lying.pose[at] - self.ground.starts[kind])]
                out.append(Spot(shape, pose, float(lying.x[at]), float(lying.y[at])))
        return tuple(out)


def tables_of(task: Task) -> Tables | None:
    """Thins the outlines and sums them up (the kernels are compiled if they are not yet); None if nothing can lie."""
    from ellwand.lay.search.compiled import Ground, Poses, Sums
    from ellwand.lay.search.sums import pair_up

    ground = task.ground
    kinds = tuple(_kinds(task))
    poses = [pose for kind in kinds for pose in kind.poses[0]]
    if not poses or any(not kind.poses[0] for kind in kinds):
        return None
    outlines = _within([thinned(p.ring) for p in poses] + [(np.array(hull(f)),) for f in ground.blocked], len(poses))
    rings = [part for parts in outlines for part in parts]
    sums = Sums(
        *pair_up(
            np.vstack(rings).astype(np.float64), _starts(len(r) for r in rings), _starts(map(len, outlines)), len(poses)
        )
    )
    whole = math.fsum(abs(area(kind.poses[0][0].ring)) * len(kind.shapes) for kind in kinds)
    reach = np.array([_reach(pose, ground.width) for pose in poses])
    marked = [(0.0, 0.0, 0.0) if pose.mark is None else (1.0, *pose.mark) for pose in poses]
    length = math.inf if ground.length is None else ground.length + HAIR
    table = Poses(
        np.array([(p.width, p.height) for p in poses]),
        reach,
        np.array(marked),
        np.array([abs(area(p.ring)) / whole for p in poses]),
    )
    fixed = Ground(
        len(ground.blocked),
        max((y for fault in ground.blocked for _, y in fault), default=0.0),
        length,
        np.array([*ground.repeat, *ground.pattern]),
        np.array(PULLS),
        _starts(len(kind.poses[0]) for kind in kinds),
        DRAG,
        math.inf if ground.length is None else MISSING * ground.length,
    )
    return Tables(kinds, sums, table, fixed, np.empty((6, _room(sums, task))))


def thinned(ring: Line) -> tuple[NDArray[np.float64], ...]:
    """Convex outlines that together cover ``ring``, nowhere further out than about ``SLACK``."""
    if is_convex(ring):
        return (np.array(fewer_corners(hull(ring), SLACK)),)
    plain = Polygon(ring)
    fewer = plain.simplify(SLACK)
    if len(fewer.exterior.coords) < len(plain.exterior.coords):
        fewer = fewer.buffer(SLACK, join_style="mitre").intersection(box(*plain.bounds))
    return convex_parts(tuple((float(x), float(y)) for x, y in fewer.exterior.coords[:-1]))


def _kinds(task: Task) -> Iterable[Kind]:
    groups: dict[object, list[Shape]] = {}
    for shape in task.shapes:
        groups.setdefault(tuple(_key(pose) for pose in shape.poses), []).append(shape)
    for same in groups.values():
        different: dict[object, int] = {}
        for number, pose in enumerate(same[0].poses):
            left, right = _reach(pose, task.ground.width)
            if left <= right:
                different.setdefault(_key(pose), number)
        yield Kind(tuple(same), tuple(tuple(shape.poses[k] for k in different.values()) for shape in same))


def ring_key(ring: Line) -> Line:
    """The same for outlines that are the same but for where they start, and their sense."""
    corners = [(round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in (ring if area(ring) > 0 else ring[::-1])]
    least = corners.index(min(corners))
    return tuple(corners[least:] + corners[:least])


def _key(pose: Pose) -> object:
    """The same for poses that are laid alike: an outline turned onto itself is one."""
    mark = None if pose.mark is None else (round(pose.mark[0], 6), round(pose.mark[1], 6))
    return ring_key(pose.ring), pose.past, pose.on_fold, mark


def _reach(pose: Pose, width: float) -> tuple[float, float]:
    """The least and greatest x of a pose (cm)."""
    if pose.on_fold:
        return 0.0, 0.0
    left, right = -pose.past[0], width - pose.width + pose.past[1]
    return left, left if left - HAIR < right < left else right


def _starts(sizes: Iterable[int]) -> Counts:
    return np.cumsum([0, *sizes], dtype=np.int64)


def _within(outlines: Sequence[tuple[NDArray[np.float64], ...]], coming: int) -> list[tuple[NDArray[np.float64], ...]]:
    """The outlines, the most hollow ones as hulls where there would be too many sums."""
    out = list(outlines)
    while True:
        parts = sum(len(o) for o in out[:coming])
        corners = sum(len(part) for o in out for part in o)
        worst = max(range(len(out)), key=lambda k: len(out[k]), default=0)
        if 2 * parts * corners <= MOST_EDGES or len(out[worst]) == 1:
            return out
        points = [(float(x), float(y)) for part in out[worst] for x, y in part]
        out[worst] = (np.array(hull(points)),)


def _room(sums: Sums, task: Task) -> int:
    """How many runs there can be at once."""
    most = int(np.diff(sums.tracks).max(initial=0)) * (len(task.shapes) + len(task.ground.blocked)) + 4
    across, along = task.ground.repeat
    if across > 0:
        most = max(most, math.ceil(task.ground.width / across) + 2)
    if along > 0:
        tall = sum(max((pose.height for pose in shape.poses), default=0.0) + along for shape in task.shapes)
        tall += max((y for fault in task.ground.blocked for _, y in fault), default=0.0)
        most = max(most, math.ceil(tall / along) + 2)
    return most
