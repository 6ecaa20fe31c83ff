"""Where the parts of a garment lie when it is spread apart: each beside the edges it is sewn to (cm of the cloth)."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from ellwand.depict.step_view.groups import beside, outward
from ellwand.depict.step_view.joins import Join, joins, other_hand
from ellwand.depict.step_view.motion import REST, Laid, Motion, Own, own
from ellwand.geometry.lines import Point, area
from ellwand.model.draft import Draft, Seam, whole_part
from ellwand.model.surface import surface_of

if TYPE_CHECKING:
    from shapely import Geometry, Polygon, STRtree

Bunch = dict[str, Laid]
"""Parts that move as one: what a piece was cut apart into lies together as the piece does."""
APART: Final = 0.1
"""What was cut from one piece is drawn so much wider spread than it lies in it."""
UPRIGHT: Final = math.radians(25.0)
"""A panel or sleeve that would lie aslant by less than this is laid straight."""
WAYS: Final = tuple(math.radians(way) for way in (0, 15, -15, 30, -30, 50, -50, 75, -75, 100, -100, 135, -135, 180))
"""The directions in which a place is looked for, from the edge outward."""
STEPS: Final = 60
AT_ONCE: Final = 48
"""So many places are looked at together."""
_ORDER: Final = ("sleeve", "panel", "gusset", "gore", "band", "collar")


def spread_apart(draft: Draft, gap: float, between: float) -> dict[str, Laid]:
    """Every part of the shell where it lies; no two are nearer to each other than about ``gap`` (cm).

    The body stands upright in the middle, its back above it with the shoulders together.  What there is of each hand
    lies by the front on the wearer's left and by the back on the right, so that every seam is short on one of the two
    sides.  ``between``: how far apart (cm) the gap is where there is a choice.
    """
    owns = {part.id: own(draft, part) for part in draft.parts}
    bunches = _bunches(draft, owns)
    home = {part: i for i, bunch in enumerate(bunches) for part in bunch}
    links = [join for join in all_joins(draft.seams, owns) if home[join.a] != home[join.b]]
    waiting = sorted(range(len(bunches)), key=lambda i: _rank(bunches[i]))
    here: Bunch = {}
    shapes: list[Polygon] = []
    while waiting:
        chosen = next((i for i in waiting if not here or _linked(bunches[i], links, here)), waiting[0])
        waiting.remove(chosen)
        bunch = bunches[chosen]
        if here:
            bunch = _placed(bunch, _anchors(bunch, _linked(bunch, links, here)), here, shapes, gap, between)
        here |= bunch
        shapes += [laid.shape() for laid in bunch.values()]
    return {part.id: here[part.id] for part in draft.parts}


def all_joins(seams: Iterable[Seam], owns: Mapping[str, Own]) -> list[Join]:
    """All seams as joins."""
    pairs: dict[frozenset[str], list[Seam]] = {}
    for seam in seams:
        pairs.setdefault(frozenset((seam.a.part, seam.b.part)), []).append(seam)
    return [join for group in pairs.values() for join in joins(group, owns)]


def _bunches(draft: Draft, owns: Mapping[str, Own]) -> list[Bunch]:
    """The parts, those that were cut from one piece together and a little apart."""
    flat = surface_of(draft).flat
    together: dict[tuple[str, bool], list[str]] = {}
    for part, each in owns.items():
        together.setdefault((flat[part][0], each.mirrored), []).append(part)
    out: list[Bunch] = []
    for (_, mirrored), parts in together.items():
        sign = -1.0 if mirrored else 1.0
        bunch = {part: Laid(owns[part], Motion(0.0, sign * flat[part][1][0], flat[part][1][1])) for part in parts}
        wide = _wider(bunch)
        if len(bunch) == 1 or _lie_free(wide.values()):
            out.append(wide)
        else:
            out += [{part: Laid(owns[part], REST)} for part in parts]
    return out


def _wider(bunch: Bunch) -> Bunch:
    if len(bunch) == 1:
        return {part: replace(laid, motion=REST) for part, laid in bunch.items()}
    return {
        part: replace(laid, motion=laid.motion.moved(APART * laid.shape().centroid.x, APART * laid.shape().centroid.y))
        for part, laid in bunch.items()
    }


def _lie_free(bunch: Iterable[Laid]) -> bool:
    shapes = [laid.shape() for laid in bunch]
    return all(one.intersection(two).area < 1e-6 for one, two in itertools.combinations(shapes, 2))


def _rank(bunch: Bunch) -> tuple[int, int, int, float, str]:
    """The body first, in front before behind; of two hands the wearer's right, which lies at the left."""
    words = _words(bunch)
    later = max((_ORDER.index(word) + 1 for word in words if word in _ORDER), default=0)
    cover = sum(abs(area(laid.own.piece.sewn)) for laid in bunch.values())
    return later, int("back" in words), int("left" in words), -round(cover), min(bunch)


def _linked(bunch: Bunch, links: Sequence[Join], here: Mapping[str, Laid]) -> list[Join]:
    """The joins that lead from what is here to the bunch."""
    return [each for join in links for each in (join, join.turned()) if each.a in here and each.b in bunch]


def _anchors(bunch: Bunch, links: Sequence[Join]) -> list[Join]:
    """The joins that the bunch is laid by: of one hand's those in front, of the other's those behind."""
    words = _words(bunch)
    if shoulders := [join for join in links if join.kind == "shoulder"]:
        return shoulders
    if "sleeve" in words:
        return [join for join in links if "panel" not in join.a.split("-")] or list(links)
    if words >= {"front"} or words >= {"back"}:
        own_face = "front" if "front" in words else "back"
        links = [join for join in links if own_face in join.a.split("-")] or links
    elif words & {"left", "right"}:
        face = "back" if "right" in words else "front"
        links = [join for join in links if _at(join, face)] or links
    return list(links)


def _words(bunch: Bunch) -> set[str]:
    return {word for part in bunch for word in whole_part(part).split("-")}


def _at(join: Join, face: str) -> bool:
    return any(face in name.split("-") for name in (join.a, join.b, *join.a_edges, *join.b_edges))


def _placed(
    bunch: Bunch, anchors: Sequence[Join], here: Mapping[str, Laid], shapes: Sequence[Polygon], gap: float, step: float
) -> Bunch:
    """The bunch laid against its anchors and drawn away from them until it lies free."""
    from shapely import STRtree, unary_union

    if not anchors:
        return _aside(bunch, shapes, step)
    fitted = _fitted(bunch, anchors, here)
    mine = unary_union([laid.shape() for laid in fitted.values()])
    spots = _spots(_away(fitted, anchors, here, mine), step)
    tree = STRtree(list(shapes))
    for start in range(0, len(spots), AT_ONCE):
        some = spots[start : start + AT_ONCE]
        free = _free(mine, tree, some, gap)
        if len(free):
            dx, dy = some[free[0]]
            return _moved(fitted, Motion(0.0, float(dx), float(dy)))
    return _aside(fitted, shapes, step)


def _spots(way: float, step: float) -> NDArray[np.float64]:
    """Where to draw it to, the nearest and straightest outward first: rows of (dx, dy) in cm."""
    turned = np.array(WAYS)[:, None]
    far = step * (1.0 + 0.25 * np.arange(STEPS))[None, :]
    dear = far * (1.0 + np.abs(turned))
    spots = np.stack([np.cos(way + turned) * far, np.sin(way + turned) * far], axis=-1).reshape(-1, 2)
    return np.asarray(spots[np.lexsort((spots[:, 1], spots[:, 0], dear.ravel()))])


def _free(mine: Geometry, tree: STRtree, spots: NDArray[np.float64], gap: float) -> NDArray[np.intp]:
    """Which of the spots are clear of everything by ``gap``, in their order."""
    from shapely import get_num_coordinates, transform

    moved = transform([mine] * len(spots), lambda points: points + np.repeat(spots, get_num_coordinates(mine), axis=0))
    taken = tree.query(moved, predicate="dwithin", distance=gap)[0]
    return np.setdiff1d(np.arange(len(spots)), taken)


def _fitted(bunch: Bunch, anchors: Sequence[Join], here: Mapping[str, Laid]) -> Bunch:
    """Turned and moved so that the ends of all anchors come as near as they can (least squares, rigid)."""
    if len(anchors) == 1:
        join = anchors[0]
        goal = beside(join, here[join.a].motion, 0.0, here[join.a].own)
        start = bunch[join.b].motion
        undone = Motion(-start.angle).of(((-start.dx, -start.dy),))[0]
        whole = Motion(-start.angle, *undone).then(goal)
    else:
        whole = _least_squares(bunch, anchors, here)
    return _straightened(bunch, anchors, here, whole)


def _least_squares(bunch: Bunch, anchors: Sequence[Join], here: Mapping[str, Laid]) -> Motion:
    to: list[Point] = []
    of: list[Point] = []
    for join in anchors:
        a, b = here[join.a].motion.of(join.a_line), bunch[join.b].motion.of(join.b_line)
        to += [a[0], a[-1]]
        of += [b[0], b[-1]]
    (px, py), (qx, qy) = _mean(of), _mean(to)
    pairs = [((x - px, y - py), (u - qx, v - qy)) for (x, y), (u, v) in zip(of, to, strict=True)]
    dot = math.fsum(p[0] * q[0] + p[1] * q[1] for p, q in pairs)
    cross = math.fsum(p[0] * q[1] - p[1] * q[0] for p, q in pairs)
    angle = math.atan2(cross, dot)
    ((x, y),) = Motion(angle).of(((px, py),))
    return Motion(angle, qx - x, qy - y)


def _straightened(bunch: Bunch, anchors: Sequence[Join], here: Mapping[str, Laid], motion: Motion) -> Bunch:
    """Moved; what is no gore or gusset lies straight, about the middle of its anchors."""
    words, turned = _words(bunch), motion.angle
    quarter = round(turned / (math.pi / 2)) * math.pi / 2
    twin = _twin(bunch, here)
    if twin is not None:
        quarter = twin.motion.angle
    elif words & {"gore", "gusset"} or abs(turned - quarter) > UPRIGHT:
        return _moved(bunch, motion)
    middle = _mean([p for join in anchors for p in bunch[join.b].motion.of((join.b_line[0], join.b_line[-1]))])
    (goal,) = motion.of((middle,))
    ((x, y),) = Motion(quarter).of((middle,))
    return _moved(bunch, Motion(quarter, goal[0] - x, goal[1] - y))


def _twin(bunch: Bunch, here: Mapping[str, Laid]) -> Laid | None:
    """The same of the other hand, where both belong to the body and lie beside each other."""
    if _words(bunch) & set(_ORDER):
        return None
    return next(
        (here[other_hand(part)] for part in bunch if other_hand(part) != part and other_hand(part) in here), None
    )


def _away(bunch: Bunch, anchors: Sequence[Join], here: Mapping[str, Laid], mine: Geometry) -> float:
    """The direction (radians) in which the bunch is drawn away: square to its edges, out of a slit by its mouth."""
    x = y = total = 0.0
    for join in anchors:
        nx, ny = Motion(here[join.a].motion.angle).of((outward(join.a_line, here[join.a].own),))[0]
        x, y, total = x + nx * join.length, y + ny * join.length, total + join.length
    if _twin(bunch, here) is not None and any(other_hand(join.a) == join.b for join in anchors):
        return 0.0 if x > 0 else math.pi
    if math.hypot(x, y) > 0.3 * total:
        return math.atan2(y, x)
    mx, my = _mean([p for join in anchors for p in here[join.a].motion.of((join.a_line[0], join.a_line[-1]))])
    dx, dy = mine.centroid.x - mx, mine.centroid.y - my
    return math.atan2(dy, dx) if math.hypot(dx, dy) > 1.0 else -math.pi / 2


def _aside(bunch: Bunch, shapes: Sequence[Polygon], step: float) -> Bunch:
    """To the right of all that is here."""
    from shapely import unary_union

    _x0, y0, x1, y1 = unary_union(list(shapes)).bounds
    a0, b0, _, b1 = unary_union([laid.shape() for laid in bunch.values()]).bounds
    return _moved(bunch, Motion(0.0, x1 + 2 * step - a0, (y0 + y1 - b0 - b1) / 2))


def _moved(bunch: Bunch, motion: Motion) -> Bunch:
    return {part: replace(laid, motion=laid.motion.then(motion)) for part, laid in bunch.items()}


def _mean(points: Sequence[Point]) -> Point:
    return math.fsum(x for x, _ in points) / len(points), math.fsum(y for _, y in points) / len(points)
