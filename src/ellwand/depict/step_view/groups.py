"""Parts that are sewn already, laid flat as one: each against its fellow along their seam."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from ellwand.depict.step_view.joins import Join
from ellwand.depict.step_view.motion import REST, Laid, Motion, Own, half
from ellwand.geometry.lines import Line, Point, area

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

OVER: float = 0.004
"""Parts overlap when what they share is more than this of the smaller."""


@dataclass(frozen=True, slots=True)
class Group:
    """Parts that move as one, and the joins along which they are shut."""

    laid: Mapping[str, Laid]
    shut: tuple[Join, ...]

    def moved(self, motion: Motion) -> Group:
        """The group after a motion."""
        return Group(
            {part: replace(each, motion=each.motion.then(motion)) for part, each in self.laid.items()}, self.shut
        )

    @property
    def area(self) -> float:
        """What all its parts cover (cm²)."""
        return sum(abs(area(each.own.piece.sewn)) for each in self.laid.values())

    def shapes(self) -> dict[str, Polygon | MultiPolygon]:
        """What is seen of each part."""
        return {part: each.shape() for part, each in self.laid.items()}


def groups(laid: Mapping[str, Laid], done: Sequence[Join]) -> list[Group]:
    """The parts in groups along the joins that are done, as far as they lie flat; the largest group first."""
    left = sorted(laid, key=lambda part: (*rank(part), -abs(area(laid[part].own.piece.sewn)), part))
    out: list[Group] = []
    while left:
        here = {left[0]: replace(laid[left[0]], motion=REST)}
        shapes = {left[0]: here[left[0]].shape()}
        shut: list[Join] = []
        tried: set[str] = set()
        while join := _next(done, here, left, tried):
            part = join.b
            tried.add(part)
            placed = replace(laid[part], motion=beside(join, here[join.a].motion, 0.0, here[join.a].own))
            shape = placed.shape()
            if any(overlap(shape, other) for other in shapes.values()):
                continue
            here[part], shapes[part] = placed, shape
        for join in done:
            if join.a in here and join.b in here and shut_on(join, here):
                shut.append(join)
        left = [part for part in left if part not in here]
        out.append(Group(here, tuple(shut)))
    return sorted(out, key=lambda group: (-group.area, min(group.laid)))


def rank(part: str) -> tuple[int, int]:
    """What lies upright and is laid first: a panel before what is set in to it, the front before the back."""
    words = part.split("-")
    later = ("panel", "gore", "gusset", "sleeve", "band")
    return (max((later.index(word) + 1 for word in words if word in later), default=0), int("back" in words))


def _next(done: Sequence[Join], here: Mapping[str, Laid], left: Sequence[str], tried: set[str]) -> Join | None:
    """The longest join that leads from what is here to a part that is left."""
    for join in done:
        for each in (join, join.turned()):
            if each.a in here and each.b in left and each.b not in here and each.b not in tried:
                return each
    return None


def shut_on(join: Join, here: Mapping[str, Laid]) -> bool:
    """Whether the two edges of a join lie on each other (within 0.5 cm at both ends)."""
    a, b = here[join.a].motion.of(join.a_line), here[join.b].motion.of(join.b_line)
    return join.a != join.b and math.dist(a[0], b[0]) < 0.5 and math.dist(a[-1], b[-1]) < 0.5


def beside(join: Join, motion: Motion, gap: float, own: Own) -> Motion:
    """The motion that lays ``b`` against ``a`` where it lies, the chords of their edges ``gap`` apart and parallel."""
    a, b = motion.of(join.a_line), join.b_line
    angle = _heading(a) - _heading(b)
    turned = Motion(angle).of((_middle(b),))[0]
    out = outward(join.a_line, own)
    nx, ny = Motion(motion.angle).of((out,))[0]
    mx, my = _middle(a)
    return Motion(angle, mx - turned[0] + nx * gap, my - turned[1] + ny * gap)


@lru_cache(maxsize=1024)
def outward(line: Line, own: Own) -> Point:
    """The unit vector square to the line's chord, away from the part's cloth."""
    from shapely import LineString

    angle = _heading(line) - math.pi / 2
    nx, ny = math.cos(angle), math.sin(angle)
    # the cloth lies on the side where a strip along the edge covers more of it
    whole = half(own, None, True)
    edge = LineString(line)
    step = min(1.0, edge.length / 20)
    sides = [
        whole.intersection(LineString([(x + s * step * nx, y + s * step * ny) for x, y in line]).buffer(step / 4)).area
        for s in (1, -1)
    ]
    return (nx, ny) if sides[0] <= sides[1] else (-nx, -ny)


def overlap(one: Polygon | MultiPolygon, two: Polygon | MultiPolygon) -> bool:
    """Whether two shapes cover each other by more than a hairline."""
    if not one.intersects(two):
        return False
    # on a grid: edges that all but lie on each other else give false areas
    shared: float = one.intersection(two, grid_size=1e-6).area
    return shared > OVER * float(min(one.area, two.area))


def _heading(line: Line) -> float:
    """The direction of a line's chord (radians)."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    return math.atan2(y1 - y0, x1 - x0)


def _middle(line: Line) -> Point:
    return (line[0][0] + line[-1][0]) / 2, (line[0][1] + line[-1][1]) / 2
