"""Left-over pieces of the cloth, used first where that spares some of the main length."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace

from ellwand.geometry.lines import area
from ellwand.lay.grounds import Bed, left_over
from ellwand.lay.shapes import HAIR, copies, fitting, poses_of, shapes_of
from ellwand.lay.task import Budget, Found, Shape, Spot, Stop, Task
from ellwand.model.cloth import Cloth, Remnant, remnant_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece

Needed = Callable[[Collection[str]], float]
"""The main length (cm) that these parts take, as the instant engine lays them."""


def on_remnants(
    pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, budget: Budget, stop: Stop, needed: Needed
) -> tuple[Lay, ...]:
    """A lay for each left-over that is worth using, in the order of the sheet.

    The largest is filled first, with what of the garment covers most of it.  Then each, the least filled first, is
    left alone again if the main length ``needed`` for the rest is no longer without it.
    """
    from ellwand.lay.search import fill

    share = 1 / len(cloth.remnants)
    each = replace(budget, seconds=budget.seconds * share, effort=math.floor(budget.effort * share))
    every = shapes_of(pieces, parts, cloth)
    poses = _Poses(pieces, parts, cloth)
    filled: dict[int, _Filled] = {}
    left = every
    sizes = [remnant_on_table(remnant, cloth) for remnant in cloth.remnants]
    for number in sorted(range(len(sizes)), key=lambda n: (-_area(sizes[n]), n)):
        bed = left_over(sizes[number], cloth.gap)
        fit = poses.that_fit(left, bed)
        spots = fill(Task(fit, bed.ground), each, _unheard, stop) if fit else ()
        if spots:
            filled[number] = _Filled(bed, sizes[number], spots)
            left = tuple(shape for shape in left if shape.part not in filled[number].parts)
    whole, length = needed({shape.part for shape in every}), needed({shape.part for shape in left})
    for number in sorted(filled, key=lambda n: (filled[n].covered, n)):
        without = tuple(s for s in every if s in left or s.part in filled[number].parts)
        longer = needed({shape.part for shape in without})
        if longer < length + HAIR:
            left, length = without, longer
            del filled[number]
    if length > whole - HAIR:
        return ()
    return tuple(_lay(number + 1, filled[number], pieces, cloth) for number in sorted(filled))


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


def _unheard(_: Found) -> None:
    return None


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
