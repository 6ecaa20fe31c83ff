"""A task as the exact engine knows it, and its places as the task's spots."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from ellwand.lay.bounds.kinds import Kind, Way, key_of, kinds_in
from ellwand.lay.bounds.proof import Answer
from ellwand.lay.engines import settled
from ellwand.lay.task import Ground, Pose, Shape, Spot, Task

Places = list[tuple[int, int, float, float]]
"""Of every thing: the number of its kind, the number of that kind's way, and where its least corner is (cm)."""


def as_json(kinds: Sequence[Kind]) -> list[dict[str, Any]]:
    """Kinds without holes, as another process reads them."""
    return [
        {"name": k.name, "count": k.count, "ways": [{"outline": w.outline, "on_fold": w.on_fold} for w in k.ways]}
        for k in kinds
    ]


def from_json(read: Sequence[dict[str, Any]]) -> tuple[Kind, ...]:
    """The kinds again."""
    return tuple(Kind(k["name"], k["count"], tuple(_way(w) for w in k["ways"])) for k in read)


def _way(read: dict[str, Any]) -> Way:
    return Way(tuple((x, y) for x, y in read["outline"]), (), read["on_fold"])


def settled_places(answer: Answer, kinds: Sequence[Kind], width: float) -> list[tuple[int, int, Spot]]:
    """The places of a 'yes' pushed apart where they overlap, by kind and way; empty where that cannot be done."""
    numbers = [(kinds.index(kind), kind.ways.index(way)) for kind, way, _, _ in answer.places]
    shapes = [
        Shape(kind.name, f"{n}", tuple(Pose(0.0, False, w.outline, (0.0, 0.0), w.width, w.height) for w in kind.ways))
        for n, (kind, _, _, _) in enumerate(answer.places)
    ]
    spots = [
        Spot(shape, shape.poses[way], x, y)
        for shape, (_, way), (_, _, x, y) in zip(shapes, numbers, answer.places, strict=True)
    ]
    lay = settled(spots, Task(tuple(shapes), Ground(width)))
    return [(kind, way, spot) for (kind, way), spot in zip(numbers, lay, strict=True)] if lay else []


def spots_of(line: str, task: Task) -> tuple[Spot, ...]:
    """A lay as it was written, as the task's spots in its order."""
    kinds, _ = kinds_in(task)
    waiting = [
        [shape for shape in task.shapes if _keys(shape) == frozenset(key_of(way) for way in kind.ways)]
        for kind in kinds
    ]
    laid: dict[str, Spot] = {}
    for kind, way, x, y in json.loads(line):
        shape = waiting[kind].pop(0)
        key = key_of(kinds[kind].ways[way])
        pose = next(pose for pose in shape.poses if key_of(Way(pose.ring, (), pose.on_fold)) == key)
        laid[shape.part] = Spot(shape, pose, x, y)
    return tuple(laid[shape.part] for shape in task.shapes)


def _keys(shape: Shape) -> frozenset[tuple[object, ...]]:
    return frozenset(key_of(Way(pose.ring, (), pose.on_fold)) for pose in shape.poses)
