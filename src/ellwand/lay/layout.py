"""From pieces and a cloth to the lays: left-overs first, then what is folded, then what lies flat."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from ellwand.errors import InternalFault
from ellwand.geometry.lines import Point
from ellwand.lay.bounded import at_once, on_the_way, searched
from ellwand.lay.buy import buy_length
from ellwand.lay.check import faults_in
from ellwand.lay.fold import fold_in
from ellwand.lay.grounds import Bed, bed_of, flat, how_folded
from ellwand.lay.hulls import Ring, convex_parts
from ellwand.lay.pattern_match import marks_of
from ellwand.lay.portfolio import best
from ellwand.lay.remnants import on_remnants
from ellwand.lay.shapes import NO_MARKS, copies, shapes_of, usable_width
from ellwand.lay.task import Budget, Found, Report, Shape, Spot, Stop, Task, length_of, never, unheard
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part, Seam
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece, cloth_in
from ellwand.units import round_up

ON_LEFT_OVERS: Final = 0.15
"""The part of the search that left-overs may take."""


INSTANT: Final = Budget()
"""No search: what the instant engine lays."""


ON_BOUNDS: Final = 0.15
"""The part of the search that goes into the bound."""


@dataclass(frozen=True, slots=True)
class _Search:
    """How long, who is told, and who may end it."""

    budget: Budget
    report: Report
    stop: Stop

    def part(self, share: float) -> _Search:
        """As much of it as ``share`` says; of a small effort the larger share is all."""
        effort = self.budget.effort * share
        whole = math.ceil(effort) if share >= 0.5 else math.floor(effort)
        return replace(self, budget=replace(self.budget, seconds=self.budget.seconds * share, effort=whole))


def lay_out(
    pieces: Sequence[Piece],
    parts: Sequence[Part],
    cloth: Cloth,
    budget: Budget = INSTANT,
    report: Report = unheard,
    stop: Stop = never,
    seams: Sequence[Seam] = (),
) -> tuple[Lay, ...]:
    """All ``pieces`` laid on the one cloth: a lay for each left-over that spares some of the main length, then the
    main length; folded where that is asked for, with a lay of its own for what has to be cut from a single layer.

    With no budget the instant engine answers, always the same; with ``effort`` a longer search does, the same every
    time; with ``seconds`` as good a lay as can be had by then.  ``report`` hears of every shorter lay of the main
    length; ``stop`` ends the search with what it has; stripes are matched at ``seams``.  The lay may be longer than
    the cloth at hand: the caller compares.  Every lay has passed an independent check.
    Raises CannotDraft when a piece is wider than the cloth however it may lie.
    """
    lays = _all(pieces, parts, cloth, _Search(budget, report, stop), seams)
    faults = faults_in(lays, pieces, cloth, parts)
    if faults and (budget.seconds or budget.effort):
        # what a search got wrong is not shown: the instant lay is
        lays = _all(pieces, parts, cloth, _Search(INSTANT, report, stop), seams)
        faults = faults_in(lays, pieces, cloth, parts)
    if faults:
        raise InternalFault(f"the lay on {cloth.name} is wrong: {'; '.join(faults)}")
    return lays


def _all(
    pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, search: _Search, seams: Sequence[Seam]
) -> tuple[Lay, ...]:
    marks = marks_of(pieces, parts, seams) if cloth.repeat is not None else NO_MARKS

    def main(names: Collection[str], how: _Search) -> tuple[Lay, ...]:
        rest, which = _only(pieces, parts, names)
        if how_folded(cloth) == "flat":
            return (_flat(rest, which, cloth, how, marks),)
        return _folded(rest, which, cloth, how)

    def needed(names: Collection[str]) -> float:
        return math.fsum(lay.length for lay in main(names, _Search(INSTANT, unheard, search.stop)))

    lays: tuple[Lay, ...] = ()
    left = {part.id for piece in pieces for part in copies(piece, parts)}
    if cloth.remnants and cloth.repeat is None and pieces:
        own = search.part(ON_LEFT_OVERS)
        lays = on_remnants(pieces, parts, cloth, own.budget, own.stop, needed)
        left -= {placed.part for lay in lays for placed in lay.placements}
        search = search.part(1 - ON_LEFT_OVERS)
    if left or not lays:
        lays += _bought(main(left, search), cloth)
    return lays


def _bought(lays: tuple[Lay, ...], cloth: Cloth) -> tuple[Lay, ...]:
    """The lays of the main length, with what to buy for all of them on the first."""
    bought = buy_length(math.fsum(lay.length for lay in lays), cloth)
    return (replace(lays[0], buy_length=bought), *lays[1:])


def _only(
    pieces: Sequence[Piece], parts: Sequence[Part], names: Collection[str]
) -> tuple[tuple[Piece, ...], tuple[Part, ...]]:
    """What is still to be cut: the pieces with so many copies, and those copies as parts."""
    out, which = [], []
    for piece in pieces:
        mine = [part for part in copies(piece, parts) if part.id in names]
        if mine:
            out.append(replace(piece, count=len(mine)))
            which += mine
    return tuple(out), tuple(which)


def _flat(
    pieces: Sequence[Piece],
    parts: Sequence[Part],
    cloth: Cloth,
    search: _Search,
    marks: Mapping[str, Point] = NO_MARKS,
    start: float = 0.0,
) -> Lay:
    shapes = shapes_of(pieces, parts, cloth, marks)
    return _strip(shapes, flat(cloth, start), pieces, parts, cloth, search, start)


def _folded(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, search: _Search) -> tuple[Lay, ...]:
    """The folded stretch first, then a flat one for what is left."""
    bed = bed_of(cloth, how_folded(cloth))
    ways = fold_in(pieces, parts, cloth, bed)
    single, singles = _only(pieces, parts, {part.id for part in ways.single})
    if not ways.double and not ways.fixed:
        return (_flat(pieces, parts, cloth, search),)
    names = {part.id for piece in pieces for part in copies(piece, parts)} - {part.id for part in ways.single}
    double, doubles = _only(pieces, parts, names)
    share = cloth_in(double) / max(cloth_in(double) + cloth_in(single), 1e-9)
    first = _strip(ways.double, bed, double, doubles, cloth, search.part(share), fixed=ways.fixed)
    if not single:
        return (first,)
    return (first, _flat(single, singles, cloth, search.part(1 - share), start=first.length))


def _strip(
    shapes: Sequence[Shape],
    bed: Bed,
    pieces: Sequence[Piece],
    parts: Sequence[Part],
    cloth: Cloth,
    search: _Search,
    start: float = 0.0,
    fixed: Sequence[Spot] = (),
) -> Lay:
    """As short a lay of the shapes as can be found; ``fixed`` ones lie already."""
    lying = tuple(tuple((float(x), float(y)) for x, y in part) for spot in fixed for part in _where(spot))
    ground = replace(bed.ground, blocked=(*bed.ground.blocked, *lying))
    bound, why = at_once(pieces, parts, cloth, bed.fold) if pieces else (0.0, "area")
    found = Found((), 0.0, "rows")
    if shapes:
        # the engines know of one layer only, and of outlines with the gap around them
        enough = bound / 2 if bed.fold == "crosswise" else bound + cloth.gap
        own = search.part(1 - ON_BOUNDS)

        def tell(shorter: Found) -> None:
            search.report(replace(shorter, length=_length((*fixed, *shorter.spots), bed, cloth.gap)))

        task = Task(tuple(shapes), ground)
        found = best(task, own.budget, tell, own.stop, enough=enough)
        bound, why = max((bound, why), on_the_way(found, task, pieces, parts, cloth, bed.fold) or (bound, why))
    spots = (*fixed, *found.spots)
    width = width_on_table(cloth)
    length = _length(spots, bed, cloth.gap)
    rest = search.part(ON_BOUNDS)
    if shapes and (rest.budget.seconds or rest.budget.effort) and length >= bound + 0.1 and not rest.stop():
        better = searched(pieces, parts, cloth, bed.fold, rest.budget, rest.stop, length)
        bound, why = max(better, (bound, why)) if better else (bound, why)
    return Lay(
        cloth=cloth.name,
        width=width,
        usable_width=usable_width(cloth),
        length=length,
        buy_length=0.0,
        lower_bound=bound,
        bound=why,
        use=cloth_in(pieces) / (width * length) if length else 0.0,
        fold=bed.fold,
        engine=found.engine,
        placements=tuple(bed.placement(spot) for spot in spots),
        start=start,
    )


def _length(spots: Sequence[Spot], bed: Bed, gap: float) -> float:
    """How much of the opened cloth the spots take (cm), to the millimetre above."""
    length = round_up(max(length_of(spots) + bed.corner[1] - gap / 2, 0.0), 0.1)
    return 2 * length if bed.fold == "crosswise" else length


def _where(spot: Spot) -> list[Ring]:
    return [part + np.array([spot.x, spot.y]) for part in convex_parts(spot.pose.ring)]
