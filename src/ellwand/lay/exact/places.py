"""A task as the exact engine knows it, and its places as the task's spots."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ellwand.lay.bounds.kinds import Kind, Way, key_of
from ellwand.lay.bounds.proof import Answer
from ellwand.lay.engines import settled
from ellwand.lay.task import Ground, Pose, Shape, Spot, Task

Numbered = Sequence[tuple[int, int, float, float]]
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


def settled_places(answer: Answer, kinds: Sequence[Kind], width: float) -> Numbered:
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
    return [(kind, way, spot.x, spot.y) for (kind, way), spot in zip(numbers, lay, strict=True)] if lay else []


def numbered(spots: Sequence[Spot], kinds: Sequence[Kind]) -> Numbered:
    """The task's spots by the numbers of their kinds and ways."""
    known = {_keys(kind.ways): number for number, kind in enumerate(kinds)}
    out = []
    for spot in spots:
        number = known[_keys(_ways(spot.shape))]
        (mine,) = _ways(replace(spot.shape, poses=(spot.pose,)))
        out.append((number, [key_of(way) for way in kinds[number].ways].index(key_of(mine)), spot.x, spot.y))
    return out


def spots_of(places: Numbered, task: Task, kinds: Sequence[Kind]) -> tuple[Spot, ...]:
    """A lay as it was told, as the task's spots in its order."""
    waiting: dict[frozenset[tuple[object, ...]], list[Shape]] = {}
    for shape in task.shapes:
        waiting.setdefault(_keys(_ways(shape)), []).append(shape)
    laid: dict[str, Spot] = {}
    for number, way, x, y in places:
        shape = waiting[_keys(kinds[number].ways)].pop(0)
        key = key_of(kinds[number].ways[way])
        pose = next(pose for pose, mine in zip(shape.poses, _ways(shape), strict=True) if key_of(mine) == key)
        laid[shape.part] = Spot(shape, pose, x, y)
    return tuple(laid[shape.part] for shape in task.shapes)


def _ways(shape: Shape) -> tuple[Way, ...]:
    return tuple(Way(pose.ring, (), pose.on_fold) for pose in shape.poses)


def _keys(ways: Sequence[Way]) -> frozenset[tuple[object, ...]]:
    return frozenset(key_of(way) for way in ways)
