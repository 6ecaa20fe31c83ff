"""A task begun from the other end of the cloth.

Pieces that may not be turned by half a turn (nap) fall into other places there.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ellwand.geometry.lines import Line
from ellwand.lay.search.tables import ring_key
from ellwand.lay.task import Found, Pose, Shape, Spot, Task


@dataclass(frozen=True, slots=True)
class Upturned:
    """The task from its other end, and from the one it is asked for."""

    task: Task
    asked: Task

    def righted(self, found: Found) -> Found:
        """The lay of the task that was asked for."""
        number = {id(shape): k for k, shape in enumerate(self.task.shapes)}
        spots = []
        for spot in found.spots:
            shape = self.asked.shapes[number[id(spot.shape)]]
            pose = next(own for own, turned in zip(shape.poses, spot.shape.poses, strict=True) if turned is spot.pose)
            spots.append(Spot(shape, pose, spot.x, found.length - spot.y - pose.height))
        return replace(found, spots=tuple(spots))


def upturned(task: Task) -> Upturned | None:
    """None where that would be the same task again, or where the ground has faults or a pattern."""
    ground = task.ground
    if ground.blocked or any(ground.repeat) or all(_turns(shape) for shape in task.shapes):
        return None
    shapes = tuple(Shape(s.piece, s.part, tuple(_tipped(pose) for pose in s.poses)) for s in task.shapes)
    return Upturned(Task(shapes, ground), task)


def _turns(shape: Shape) -> bool:
    """Whether each pose may also be turned by half a turn: only left and right differ then from the other end."""
    rings = {ring_key(pose.ring) for pose in shape.poses}
    return all(ring_key(tuple((p.width - x, p.height - y) for x, y in p.ring)) in rings for p in shape.poses)


def _tipped(pose: Pose) -> Pose:
    """The pose seen in a mirror across the cloth."""
    ring: Line = tuple((x, pose.height - y) for x, y in pose.ring[::-1])
    return replace(pose, ring=ring, mark=None)
