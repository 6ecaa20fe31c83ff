"""Where the parts of a step lie in its picture (cm of the cloth): what is sewn already shut, the rest a gap apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from ellwand.depict.step_view.folding import fold_of, is_under, lies_on_fellow, on_top
from ellwand.depict.step_view.groups import Group, groups, rank
from ellwand.depict.step_view.joins import Join, edges_shown_once, in_front, joins, one_of_each, shown_once
from ellwand.depict.step_view.motion import REST, Fold, Laid, Own, own
from ellwand.depict.step_view.placing import distance_apart, placed
from ellwand.depict.step_view.showing import BOTH_FACES, FOLDED, ROUND, TRIMMED, edges_shown
from ellwand.geometry.lines import Line
from ellwand.model.draft import Draft, EdgeRef, whole_part
from ellwand.model.step import Step

GAP: Final = 0.07
"""The gap between edges to be joined, as a share of the longest of them."""


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
        group = placed(group, links, here, shapes, gap)
        here.update(group.laid)
        shapes.update(group.shapes())
        shut += group.shut
    both = [join for join in shown if join.a in here]
    facing = {
        i: cm
        for i, join in enumerate(both)
        if join.b in here and join.a != join.b and (cm := distance_apart(join, here, gap)) is not None
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
