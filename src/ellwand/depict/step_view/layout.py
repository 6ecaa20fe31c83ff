"""Where the parts of a step lie in its picture (cm of the cloth): what is sewn already shut, the rest a gap apart."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from ellwand.depict.step_view.folding import fold_of, is_under, lies_on_fellow, on_top
from ellwand.depict.step_view.groups import Group, beside, groups, outward, overlap, rank
from ellwand.depict.step_view.joins import MEET, Join, edges_shown_once, in_front, joins, one_of_each, shown_once
from ellwand.depict.step_view.motion import REST, Fold, Laid, Motion, Own, own
from ellwand.depict.step_view.showing import BOTH_FACES, FOLDED, ROUND, TRIMMED, edges_shown
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.model.draft import Draft, EdgeRef, whole_part
from ellwand.model.step import Step

if TYPE_CHECKING:
    from shapely import Polygon

GAP: Final = 0.07
"""The gap between edges to be joined, as a share of the longest of them."""
FARTHER: Final = (1.0, 1.6, 2.5)
"""How many gaps apart is tried before parts are laid elsewhere."""
PARALLEL: Final = math.radians(0.5)
"""Chords within this are parallel."""
WAYS: Final = 16
"""In so many directions a part is moved away until it lies free."""


Bold = tuple[str, Line]
"""A part, and a line on it in its own place: an edge that is finished, or where a band goes."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The parts, the joins of the step and those that are shut already, the edges and lines that are finished.

    ``facing``: how far apart (cm) the chords of each join lie that could be laid face to face, by its place in
    ``joins``; the others are told by letters.  ``repeated``: where else it is done alike.  ``apart``: the parts that
    are not joined yet to the first.  ``beneath``: the joins whose second edge lies on a lower layer.
    """

    laid: Mapping[str, Laid]
    joins: tuple[Join, ...]
    shut: tuple[Join, ...]
    edges: tuple[Bold, ...]
    gap: float
    facing: Mapping[int, float]
    repeated: tuple[str, ...]
    folded: bool
    apart: frozenset[str]
    beneath: frozenset[int] = frozenset()

    def line(self, join: Join, second: bool = False) -> Line:
        """An edge of a join where it lies."""
        if second:
            return self.laid[join.b].motion.of(join.b_line)
        return self.laid[join.a].motion.of(join.a_line)


def layout(step: Step, draft: Draft, steps: Sequence[Step] = (), gap: float | None = None) -> Layout:
    """The picture's parts; ``steps``: the garment's, of which the earlier are done; ``gap``: between joins (cm)."""
    owns = {part.id: own(draft, part) for part in (*draft.parts, *draft.applied)}
    seams = [seam for seam in draft.seams if seam.id in set(step.seams)]
    earlier = {name for each in steps if each.n < step.n for name in each.seams}
    done = joins([seam for seam in draft.seams if seam.id in earlier], owns)
    once, repeated = shown_once(seams, owns)
    if step.code == "gussets":
        once, repeated = in_front(once, repeated)
    once, repeated = one_of_each(once, owns, repeated)
    shown = joins(once, owns)
    edges: list[Bold] = []
    if not shown:
        edges, repeated = _edges(step, draft, owns)
        edges += _runs(step, draft, owns)
    names = [part for join in shown for part in (join.a, join.b)] + [part for part, _ in edges]
    parts = _with_fellows(dict.fromkeys(names or [part for part in step.parts if part in owns]), done, owns)
    folded = step.code in FOLDED or (step.code == "crown" and all(lies_on_fellow(j.a, j.b) for j in shown))
    if folded:
        if len(parts) > 1:
            parts = _with_neighbours(parts, done)
        wrong = draft.choices.sewing.finish != "french"
        return _folded(parts, owns, shown, done, repeated, gap, wrong)
    laid = {part: Laid(owns[part], REST) for part in parts}
    return _spread(laid, shown, done, edges, repeated, False, gap)


def _edges(step: Step, draft: Draft, owns: Mapping[str, Own]) -> tuple[list[Bold], tuple[str, ...]]:
    """The edges that the step finishes, of one hand where both are alike; and where they are finished again."""
    refs: list[EdgeRef] = edges_shown(step, draft)
    repeated: tuple[str, ...] = ()
    if step.code not in ROUND:
        refs, repeated = edges_shown_once(refs, step.code not in BOTH_FACES)
    return [(ref.part, owns[ref.part].edge(ref.edge)) for ref in refs if ref.part in owns], repeated


def _runs(step: Step, draft: Draft, owns: Mapping[str, Own]) -> list[Bold]:
    """Where the bands or motifs of the step go."""
    trims = draft.adornment.bands if step.code.startswith("bands") else draft.adornment.repeats
    runs = [trims[i].run for i in step.trims if i < len(trims)] if step.code in TRIMMED else []
    return [
        (stretch.part, tuple(owns[stretch.part].at(point) for point in stretch.points))
        for run in runs
        for stretch in run.stretches
        if stretch.part in owns
    ]


def _with_fellows(names: Mapping[str, None], done: Sequence[Join], owns: Mapping[str, Own]) -> list[str]:
    """The parts, with what is sewn on to them already and belongs to them: halves, gores of one row, what is pieced."""
    out = dict(names)
    grown = True
    while grown:
        grown = False
        for join in done:
            if join.kind not in _FELLOWS and whole_part(join.a) != whole_part(join.b):
                continue
            for a, b in ((join.a, join.b), (join.b, join.a)):
                if a in out and b not in out:
                    out[b] = None
                    grown = True
    return [part for part in out if part in owns]


def _with_neighbours(parts: Sequence[str], done: Sequence[Join]) -> list[str]:
    """The parts, and of the same hand what is sewn to them already: the garment that is folded."""
    out = list(parts)
    for join in done:
        for a, b in ((join.a, join.b), (join.b, join.a)):
            if a in parts and b not in out and not {"right", "back"} & set(b.split("-")):
                out.append(b)
    return out


_FELLOWS: Final = frozenset({"piecing seam", "gore to gore", "sleeve seam", "sleeve gore", "strip seam", "tail seam"})


def _folded(
    parts: Sequence[str],
    owns: Mapping[str, Own],
    shown: Sequence[Join],
    done: Sequence[Join],
    repeated: tuple[str, ...],
    gap: float | None,
    wrong: bool,
) -> Layout:
    """One half lies on the other, ``wrong`` side up or not, and the run is seen on the upper half."""
    hidden = {part for part in parts if is_under(part, parts)}
    hidden |= {
        max(join.a, join.b) for join in shown if lies_on_fellow(join.a, join.b) and "right" in max(join.a, join.b)
    }
    top = [part for part in parts if part not in hidden]
    laid: dict[str, Laid] = {}
    for part in top:
        fold: Fold | None = fold_of(owns[part], [*shown, *done])
        laid[part] = Laid(owns[part], REST, fold, wrong)
    kept = []
    for join in shown:
        for each in (join, join.turned()):
            if each.a in laid and on_top(laid[each.a].fold, each.a_line):
                kept.append(each)
                break
    made = _spread(laid, kept, done, [], repeated, True, gap)
    hidden_too = {
        i
        for i, join in enumerate(made.joins)
        if join.a == join.b or join.b not in laid or not on_top(laid[join.b].fold, join.b_line)
    }
    return replace(made, beneath=frozenset(hidden_too))


def _spread(
    laid: Mapping[str, Laid],
    shown: Sequence[Join],
    done: Sequence[Join],
    edges: Sequence[Bold],
    repeated: tuple[str, ...],
    folded: bool,
    asked: float | None,
) -> Layout:
    """The groups beside each other, each against those it is to be joined to."""
    waiting = groups(laid, [join for join in done if join.a != join.b])
    gap = _gap(shown) if asked is None else asked
    if not waiting:
        return Layout({}, (), (), (), 1.0, {}, (), False, frozenset())
    first = _root(waiting)
    waiting.remove(first)
    if edges:
        # what does not lie flat beside its fellow is told with it
        known = {(join.a, join.b) for join in done} | {(join.b, join.a) for join in done}
        waiting = [g for g in waiting if not any((a, b) in known for a in first.laid for b in g.laid)]
        kept = {part for group in (first, *waiting) for part in group.laid}
        edges = [each for each in edges if each[0] in kept]
    here = dict(first.laid)
    shapes = first.shapes()
    shut = list(first.shut)
    while waiting:
        group, links = _nearest(waiting, shown, here)
        waiting.remove(group)
        if not links:
            # sewn on already, but not flat: beside the place
            links = _links(group, [join for join in done if join.a != join.b], here)
            if folded and links and not any(join.a in group.laid or join.b in group.laid for join in shown):
                continue
        group = _placed(group, links, here, shapes, gap)
        here.update(group.laid)
        shapes.update(group.shapes())
        shut += group.shut
    both = [join for join in shown if join.a in here]
    facing = {
        i: cm
        for i, join in enumerate(both)
        if join.b in here and join.a != join.b and (cm := _apart(join, here, gap)) is not None
    }
    apart = frozenset(part for part in here if part not in first.laid)
    return Layout(here, tuple(both), tuple(shut), tuple(edges), gap, facing, repeated, folded, apart)


def _gap(shown: Sequence[Join]) -> float:
    longest = max((join.length for join in shown), default=20.0)
    return min(8.0, max(0.8, GAP * longest))


def _root(waiting: Sequence[Group]) -> Group:
    """What lies still: the largest, the front before its back, the left before the right."""
    return min(waiting, key=lambda group: (min(rank(part) for part in group.laid), -round(group.area), min(group.laid)))


def _nearest(waiting: Sequence[Group], shown: Sequence[Join], here: Mapping[str, Laid]) -> tuple[Group, list[Join]]:
    """The group with the most to join to what is here, and those joins from here to it."""

    ranked = sorted(waiting, key=lambda g: (-sum(join.length for join in _links(g, shown, here)), min(g.laid)))
    return ranked[0], _links(ranked[0], shown, here)


def _links(group: Group, among: Sequence[Join], here: Mapping[str, Laid]) -> list[Join]:
    """The joins from what is here to the group."""
    out = []
    for join in among:
        if join.a == join.b:
            continue
        if join.a in here and join.b in group.laid:
            out.append(join)
        if join.b in here and join.a in group.laid:
            out.append(join.turned())
    return out


def _placed(
    group: Group, links: Sequence[Join], here: Mapping[str, Laid], shapes: Mapping[str, Polygon], gap: float
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


def _free(group: Group, shapes: Mapping[str, Polygon]) -> bool:
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


def _freed(group: Group, mouth: Point | None, shapes: Mapping[str, Polygon], gap: float) -> Group:
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


def _clear(mine: Polygon, there: Polygon, dx: float, dy: float) -> bool:
    from shapely.affinity import translate

    return not there.intersects(translate(mine, dx, dy))


def _aside(group: Group, shapes: Mapping[str, Polygon], gap: float) -> Group:
    """To the right of all that is here, its middle as high."""
    _, y0, x1, y1 = _box(shapes)
    a0, b0, _, b1 = _box(group.shapes())
    return group.moved(Motion(0.0, x1 + 2 * gap - a0, (y0 + y1 - b0 - b1) / 2))


def _box(shapes: Mapping[str, Polygon]) -> tuple[float, float, float, float]:
    return bounds([(x, y) for shape in shapes.values() for x, y in shape.exterior.coords])


def _apart(join: Join, here: Mapping[str, Laid], gap: float) -> float | None:
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
