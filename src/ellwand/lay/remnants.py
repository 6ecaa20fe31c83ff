"""Left-over pieces of the cloth, used first where that spares some of the main length."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from ellwand.geometry.lines import area
from ellwand.lay.grounds import Bed, left_over
from ellwand.lay.shapes import HAIR, copies, fitting, poses_of, shapes_of
from ellwand.lay.task import Budget, Shape, Spot, Stop, Task, unheard
from ellwand.model.cloth import Cloth, Remnant, remnant_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece

Needed = Callable[[Collection[str]], float]
"""The main length (cm) that these parts take, as the instant engine lays them."""


MOST_KINDS: Final = 6
"""Of so many pieces, the largest, each is tried alone on the left-overs."""


def on_remnants(
    pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, budget: Budget, stop: Stop, needed: Needed
) -> tuple[Lay, ...]:
    """A lay for each left-over that is worth using, in the order of the sheet.

    The largest is filled first, with what of the garment covers most of it, or with copies of one piece only: whichever
    spares most of the main length ``needed`` for the rest.  Then each left-over, the least filled first, is left alone
    again if the main length is no longer without it.
    """
    share = 1 / len(cloth.remnants)
    each = replace(budget, seconds=budget.seconds * share, effort=math.floor(budget.effort * share))
    every = shapes_of(pieces, parts, cloth)
    sizes = [remnant_on_table(remnant, cloth) for remnant in cloth.remnants]
    table = _Table(sizes, cloth.gap, _Poses(pieces, parts, cloth))
    whole = length = needed({shape.part for shape in every})
    filled: dict[int, _Filled] = {}
    seen: set[frozenset[str]] = set()
    for only in ("", *_largest(pieces)):
        tried = table.filled(tuple(s for s in every if only in ("", s.piece)), replace(each, seconds=0, effort=0), stop)
        on_them = _on(tried)
        if not on_them or on_them in seen:
            continue
        seen.add(on_them)
        takes = needed({shape.part for shape in every} - on_them)
        if takes < length - HAIR:
            filled, length = tried, takes
    if (budget.seconds or budget.effort) and not stop():
        searched = table.filled(every, each, stop)
        if (on_them := _on(searched)) not in seen:
            takes = needed({shape.part for shape in every} - on_them)
            if takes < length - HAIR:
                filled, length = searched, takes
    for number in sorted(filled, key=lambda n: (filled[n].covered, n)):
        fewer = {n: one for n, one in filled.items() if n != number}
        if needed({shape.part for shape in every} - _on(fewer)) < length + HAIR:
            filled = fewer
    return tuple(_lay(number + 1, filled[number], pieces, cloth) for number in sorted(filled)) if length < whole else ()


def _largest(pieces: Sequence[Piece]) -> list[str]:
    """The largest pieces' names, the largest first."""
    return [piece.id for piece in sorted(pieces, key=lambda p: (-abs(area(p.cut)), p.id))[:MOST_KINDS]]


def _on(filled: Mapping[int, _Filled]) -> frozenset[str]:
    """The parts that lie on left-overs."""
    return frozenset(part for one in filled.values() for part in one.parts)


@dataclass(frozen=True, slots=True)
class _Table:
    """All left-overs, and the ways the pieces may lie on them."""

    sizes: Sequence[Remnant]
    gap: float
    poses: _Poses

    def filled(self, shapes: Sequence[Shape], budget: Budget, stop: Stop) -> dict[int, _Filled]:
        """The left-overs, the largest first, each with what of the shapes left covers most of it."""
        from ellwand.lay.search import fill

        out: dict[int, _Filled] = {}
        left = tuple(shapes)
        for number in sorted(range(len(self.sizes)), key=lambda n: (-_area(self.sizes[n]), n)):
            bed = left_over(self.sizes[number], self.gap)
            fit = self.poses.that_fit(left, bed)
            spots = fill(Task(fit, bed.ground), budget, unheard, stop) if fit else ()
            if spots:
                out[number] = _Filled(bed, self.sizes[number], spots)
                left = tuple(shape for shape in left if shape.part not in out[number].parts)
        return out


@dataclass(frozen=True, slots=True)
class _Filled:
    """A left-over with what lies on it."""

    bed: Bed
    remnant: Remnant
    spots: Sequence[Spot]

    @property
    def parts(self) -> frozenset[str]:
        return frozenset(spot.shape.part for spot in self.spots)

    @property
    def covered(self) -> float:
        return math.fsum(area(spot.pose.ring) for spot in self.spots)


class _Poses:
    """The poses that parts may have on a left-over, which has no selvedges."""

    def __init__(self, pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth) -> None:
        self._mirrored = {part.id: part.mirrored for piece in pieces for part in copies(piece, parts)}
        self._poses = {
            (piece.id, part.mirrored): poses_of(piece, part.mirrored, cloth, (0.0, 0.0))
            for piece in pieces
            for part in copies(piece, parts)
        }

    def that_fit(self, shapes: Sequence[Shape], bed: Bed) -> tuple[Shape, ...]:
        """The shapes that have room, in the poses that do."""
        ground = bed.ground
        fit = {key: fitting(poses, ground.width, ground.length or 0.0) for key, poses in self._poses.items()}
        found = ((shape, fit[shape.piece, self._mirrored[shape.part]]) for shape in shapes)
        return tuple(replace(shape, poses=poses) for shape, poses in found if poses)


def _lay(number: int, filled: _Filled, pieces: Sequence[Piece], cloth: Cloth) -> Lay:
    by_id = {piece.id: piece for piece in pieces}
    laid = [by_id[spot.shape.piece] for spot in filled.spots]
    cut = math.fsum(abs(area(p.cut)) - math.fsum(abs(area(hole)) for hole in p.cut_holes) for p in laid)
    remnant = filled.remnant
    return Lay(
        cloth=cloth.name,
        width=remnant.width,
        usable_width=remnant.width,
        length=remnant.length,
        buy_length=0.0,
        lower_bound=0.0,
        bound="",
        use=cut / _area(remnant),
        fold="flat",
        engine="left-over",
        placements=tuple(filled.bed.placement(spot) for spot in filled.spots),
        remnant=number,
        outline=remnant.outline,
    )


def _area(remnant: Remnant) -> float:
    return area(remnant.outline) if remnant.outline else remnant.width * remnant.length
