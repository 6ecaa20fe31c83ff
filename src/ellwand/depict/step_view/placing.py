"""How parts are laid against those that lie there: face to face a gap apart, or as near to that as they lie free."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final

from ellwand.depict.step_view.frame import hull
from ellwand.depict.step_view.groups import Group, beside, outward, overlap
from ellwand.depict.step_view.joins import MEET, Join
from ellwand.depict.step_view.motion import Laid, Motion
from ellwand.geometry.lines import Point

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

FARTHER: Final = (1.0, 1.6, 2.5)
"""How many gaps apart is tried before parts are laid elsewhere."""
PARALLEL: Final = math.radians(0.5)
"""Chords within this are parallel."""
WAYS: Final = 16
"""In so many directions a part is moved away until it lies free."""


def placed(
    group: Group,
    links: Sequence[Join],
    here: Mapping[str, Laid],
    shapes: Mapping[str, Polygon | MultiPolygon],
    gap: float,
) -> Group:
    """The group where its joins face what is here, or as near to that as it lies free."""
    if not links:
        return _aside(group, shapes, gap)
    main = max(links, key=lambda join: join.length)
    upright = _turned_to(group, main, here, 0.0)
    for times in FARTHER:
        moved = upright.moved(_shift(links, here, gap * times))
        if _free(moved, shapes):
            return moved
    mouth = _mouth(links, here)
    return _freed(_fitted(group, links, here) if mouth else upright, mouth, shapes, gap)


def _mouth(links: Sequence[Join], here: Mapping[str, Laid]) -> Point | None:
    """Out at the mouth of a slit, where two of the joins are its sides; None for no slit."""
    for i, one in enumerate(links):
        for two in links[i + 1 :]:
            if one.a != two.a:
                continue
            a, b = (here[one.a].motion.of(join.a_line) for join in (one, two))
            b = b if math.dist(a[0], b[0]) <= math.dist(a[0], b[-1]) else b[::-1]
            if max(math.dist(a[0], b[0]), math.dist(a[-1], b[-1])) > MEET:
                continue
            # the gore's sides meet in its point
            mouth = max((0, -1), key=lambda k: _spread_at(k, one, two))
            tip = a[-1 - mouth]
            long = math.dist(tip, a[mouth])
            return (a[mouth][0] - tip[0]) / long, (a[mouth][1] - tip[1]) / long
    return None


def _spread_at(end: int, one: Join, two: Join) -> float:
    """How far apart the set-in part's two sides are where the first ends."""
    return min(math.dist(one.b_line[end], two.b_line[0]), math.dist(one.b_line[end], two.b_line[-1]))


def _turned_to(group: Group, main: Join, here: Mapping[str, Laid], gap: float) -> Group:
    """The group turned so that its side of a join is parallel to the other, ``gap`` from it."""
    motion = beside(main, here[main.a].motion, gap, here[main.a].own)
    start = group.laid[main.b].motion
    # undo how the part lies in its group, then lay the part
    undone = Motion(-start.angle).of(((-start.dx, -start.dy),))[0]
    return group.moved(Motion(-start.angle, *undone).then(motion))


def _shift(links: Sequence[Join], here: Mapping[str, Laid], gap: float) -> Motion:
    """How far to move so that every join opens by ``gap``: least squares over their normals."""
    import numpy as np

    normals = []
    for join in links:
        normal = outward(join.a_line, here[join.a].own)
        normals.append(Motion(here[join.a].motion.angle).of((normal,))[0])
    move, *_ = np.linalg.lstsq(np.array(normals), np.full(len(normals), gap), rcond=0.05)
    return Motion(0.0, float(move[0]), float(move[1]))


def _free(group: Group, shapes: Mapping[str, Polygon | MultiPolygon]) -> bool:
    return not any(overlap(one, two) for one in group.shapes().values() for two in shapes.values())


def _fitted(group: Group, links: Sequence[Join], here: Mapping[str, Laid]) -> Group:
    """Turned and moved so that the ends of all joins come as near as they can (least squares, rigid)."""
    import numpy as np

    to, of = [], []
    for join in links:
        a = here[join.a].motion.of(join.a_line)
        b = group.laid[join.b].motion.of(join.b_line)
        to += [a[0], a[-1]]
        of += [b[0], b[-1]]
    p, q = np.array(of), np.array(to)
    pc, qc = p.mean(axis=0), q.mean(axis=0)
    dot = float(((p - pc) * (q - qc)).sum())
    cross = float(((p - pc)[:, 0] * (q - qc)[:, 1] - (p - pc)[:, 1] * (q - qc)[:, 0]).sum())
    angle = math.atan2(cross, dot)
    ((x, y),) = Motion(angle).of(((float(pc[0]), float(pc[1])),))
    return group.moved(Motion(angle, float(qc[0]) - x, float(qc[1]) - y))


def _freed(group: Group, mouth: Point | None, shapes: Mapping[str, Polygon | MultiPolygon], gap: float) -> Group:
    """The group moved the shortest way, by whole gaps, until it lies free; or out of a slit by its mouth."""
    from shapely import prepare, unary_union

    there = unary_union(list(shapes.values())).buffer(gap * 0.9)
    prepare(there)
    mine = unary_union(list(group.shapes().values()))
    x0, y0, x1, y1 = there.bounds
    a0, b0, a1, b1 = mine.bounds
    most = math.hypot(x1 - x0 + a1 - a0, y1 - y0 + b1 - b0)
    found: list[tuple[float, int, Point]] = []
    angles = [2 * math.pi * way / WAYS - math.pi / 2 for way in range(WAYS)]
    for way, (ux, uy) in enumerate([mouth] if mouth else [(math.cos(angle), math.sin(angle)) for angle in angles]):
        low, high = 0.0, most
        while high - low > gap / 4:
            middle = (low + high) / 2
            if _clear(mine, there, ux * middle, uy * middle):
                high = middle
            else:
                low = middle
        found.append((round(high / gap), way, (ux * high, uy * high)))
    _, _, (dx, dy) = min(found)
    return group.moved(Motion(0.0, dx, dy))


def _clear(mine: Polygon | MultiPolygon, there: Polygon | MultiPolygon, dx: float, dy: float) -> bool:
    from shapely.affinity import translate

    return not there.intersects(translate(mine, dx, dy))


def _aside(group: Group, shapes: Mapping[str, Polygon | MultiPolygon], gap: float) -> Group:
    """To the right of all that is here, its middle as high."""
    _, y0, x1, y1 = _box(shapes)
    a0, b0, _, b1 = _box(group.shapes())
    return group.moved(Motion(0.0, x1 + 2 * gap - a0, (y0 + y1 - b0 - b1) / 2))


def _box(shapes: Mapping[str, Polygon | MultiPolygon]) -> tuple[float, float, float, float]:
    return hull([shape.bounds for shape in shapes.values() if not shape.is_empty])


def distance_apart(join: Join, here: Mapping[str, Laid], gap: float) -> float | None:
    """How far apart the chords of a join lie (cm), or None where they are not face to face."""
    a, b = here[join.a].motion.of(join.a_line), here[join.b].motion.of(join.b_line)
    (ux, uy), (vx, vy) = ((line[-1][0] - line[0][0], line[-1][1] - line[0][1]) for line in (a, b))
    long = math.hypot(ux, uy)
    wx, wy = (a[0][0] + a[-1][0] - b[0][0] - b[-1][0]) / 2, (a[0][1] + a[-1][1] - b[0][1] - b[-1][1]) / 2
    along, apart = abs(wx * ux + wy * uy) / long, abs(wx * uy - wy * ux) / long
    turned = abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))
    if turned > PARALLEL or along > gap or apart > FARTHER[-1] * gap * 1.01:
        return None
    return apart
