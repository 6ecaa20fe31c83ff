"""A task as the outside solvers are asked, and their answers as spots.

They lay on a strip that grows along their x and is as high as our cloth is wide, so x and y change places: they
see the cloth from its back, every turn runs the other way, and the least corner of a box stays its least corner.
Arcs are drawn a little outside themselves to save corners; ``settle`` takes that back.
"""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from shapely.geometry import Polygon, box

from ellwand.geometry.lines import Line, area
from ellwand.lay.hulls import fewer_corners, hull, is_convex
from ellwand.lay.task import Pose, Shape, Spot, Task

HAIR: Final = 1e-6
"""Lengths that differ by less than this (cm) are the same."""

SLACK: Final = 0.02
"""How far (cm) an arc may be taken outside itself to save corners."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Shapes that are alike to a solver, and the poses it may choose from."""

    shapes: tuple[Shape, ...]
    poses: tuple[Pose, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """What a solver was asked: the kinds in its order."""

    kinds: tuple[Kind, ...]
    task: Task

    def problem(
        self, *, seconds: float = math.inf, seed: int = 1, threads: int = 1, runs: int = 0, nice: int = 0
    ) -> str:
        """One line of JSON for a worker; ``runs`` counts its runs where there is no clock.

        ``nice``: by how much it gives way to the others on the same cores, as the system counts it.
        """
        ground = self.task.ground
        # room for all one after the other, and once more beyond each fault
        tallest = [max(p.height for p in s.poses) for s in self.task.shapes]
        long = sum(tallest) + sum(max(y for _, y in ring) for ring in ground.blocked)
        asked = {
            "width": ground.width,
            "long": long,
            "blocked": [_transposed(_clipped(ring, ground.width, long)) for ring in ground.blocked],
            "kinds": [_described(kind) for kind in self.kinds],
            "seconds": seconds,
            "seed": seed,
            "threads": threads,
            "runs": runs,
            "nice": nice,
        }
        return json.dumps(asked) + "\n"

    def spots(self, answer: str) -> tuple[Spot, ...]:
        """A worker's line as spots, in the task's order; they may overlap, or pass the edges, by a hair."""
        waiting = [list(kind.shapes) for kind in self.kinds]
        laid: dict[str, Spot] = {}
        for number, pose, along, across in json.loads(answer):
            shape = waiting[number].pop(0)
            laid[shape.part] = Spot(shape, self.kinds[number].poses[pose], across, along)
        return tuple(laid[shape.part] for shape in self.task.shapes)


def ask(task: Task, faces: Sequence[Spot] = ()) -> Asked | None:
    """The task for a solver; with ``faces`` each shape keeps the face it has there.

    Solvers know no fold and no selvedge edges: each piece is asked in the poses that lie freely within the width, and
    None is answered where a piece has no such pose.
    """
    flips = {spot.shape.part: spot.pose.flip for spot in faces}
    kinds: dict[tuple[tuple[Pose, ...], bool | None], list[Shape]] = {}
    for shape in task.shapes:
        kinds.setdefault((shape.poses, flips.get(shape.part)), []).append(shape)
    asked = []
    for (_, flip), shapes in kinds.items():
        poses = [p for p in shapes[0].poses if flip is None or p.flip == flip]
        inside = tuple(p for p in poses if p.width <= task.ground.width + HAIR and not p.on_fold)
        if not inside:
            return None
        asked.append(Kind(tuple(shapes), inside))
    return Asked(tuple(asked), task)


def only_boxes(task: Task) -> bool:
    """Whether the task is plain and all its pieces are rectangles."""
    poses = {id(s.poses): s.poses for s in task.shapes}.values()
    return task.plain and all(abs(area(p.ring) - p.width * p.height) < HAIR for each in poses for p in each)


def _described(kind: Kind) -> dict[str, Any]:
    base = kind.poses[0]
    poses = []
    for pose in kind.poses:
        # each pose is the first one turned; if it shows the other face, mirrored left to right in their frame before
        mirror = pose.flip != base.flip
        angle = 180 - pose.turn - base.turn if mirror else base.turn - pose.turn
        poses.append((angle % 360, mirror))
    return {"ring": _transposed(eased(base.ring)), "count": len(kind.shapes), "poses": poses}


def _clipped(ring: Line, width: float, long: float) -> Line:
    """A fault as far as it lies on the strip."""
    inside = Polygon(ring).intersection(box(0.0, 0.0, width, long))
    return tuple((float(x), float(y)) for x, y in inside.normalize().exterior.coords[:-1])[::-1]


def _transposed(ring: Line) -> Line:
    """x and y changed, counter-clockwise again."""
    return tuple((y, x) for x, y in ring[::-1])


def eased(ring: Line) -> Line:
    """An outline around ``ring``, nowhere further out than about ``SLACK``, with fewer corners."""
    if is_convex(ring):
        return fewer_corners(hull(ring), SLACK)
    plain = Polygon(ring)
    fewer = plain.simplify(SLACK)
    if len(fewer.exterior.coords) < len(plain.exterior.coords):
        fewer = fewer.buffer(SLACK, join_style="mitre").intersection(box(*plain.bounds))
    ring = tuple((float(x), float(y)) for x, y in fewer.exterior.coords[:-1])
    return ring if fewer.exterior.is_ccw else ring[::-1]
