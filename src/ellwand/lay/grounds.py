"""The cloth as the engines see it: a ground for each stretch of it, and the way back onto the cloth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from shapely import box, constrained_delaunay_triangles
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, Point, bounds, shift
from ellwand.lay.shapes import HAIR, ring_of, usable_width
from ellwand.lay.task import Ground, Spot
from ellwand.model.cloth import Cloth, Fault, Remnant, width_on_table
from ellwand.model.lay import Placement

Fold = Literal["flat", "lengthwise", "crosswise"]


@dataclass(frozen=True, slots=True)
class Bed:
    """A stretch of cloth ready to be laid on.

    ``corner`` is where the ground's (0, 0) lies on the cloth (cm); on folded cloth x or y runs from the fold.
    ``past``: how far straight seam edges may pass the ground's left and right.
    """

    ground: Ground
    corner: Point
    fold: Fold = "flat"
    past: tuple[float, float] = (0.0, 0.0)

    def placement(self, spot: Spot) -> Placement:
        """The spot as the lay writes it; where its side passes the ground, it lies in a selvedge."""
        pose, shape = spot.pose, spot.shape
        double = shape.layers > 1 and not pose.on_fold and shape.partner != ""
        left, right = spot.x < -HAIR, spot.x + pose.width > self.ground.width + HAIR
        return Placement(
            piece=shape.piece,
            part=shape.part,
            x=round(spot.x + pose.origin[0] + self.corner[0], 6),
            y=round(spot.y + pose.origin[1] + self.corner[1], 6),
            turn=pose.turn,
            flip=pose.flip,
            layers=2 if double else 1,
            partner=shape.partner,
            on_fold=shape.layers > 1 and not double,
            selvedge="left" if left else "right" if right else "",
        )


def how_folded(cloth: Cloth) -> Fold:
    """How the cloth lies on the table.

    Flat unless a fold is asked for, as no folded lay is shorter.  Also where a fold would do harm: stripes and checks
    are matched on a single layer, a crosswise fold turns the nap of the upper layer about, and where a fault falls
    under it is known only when the lay is done.
    """
    if cloth.repeat is None and cloth.fold == "lengthwise":
        return "lengthwise"
    if cloth.repeat is None and cloth.fold == "crosswise" and not cloth.nap and not cloth.faults:
        return "crosswise"
    return "flat"


def flat(cloth: Cloth, start: float = 0.0) -> Bed:
    """The cloth lying flat, from ``start`` (cm from the cut end) on; a gap is kept from what lies below that."""
    below = cloth.gap / 2 if start else -cloth.gap / 2
    corner = (cloth.selvedge - cloth.gap / 2, start + below)
    repeat, pattern = (0.0, 0.0), (0.0, 0.0)
    if cloth.repeat is not None:
        repeat = (cloth.repeat.across, cloth.repeat.along)
        pattern = (cloth.repeat.x - corner[0], cloth.repeat.y - corner[1])
    holes = tuple(hole for fault in cloth.faults if bounds(hole := shift(_ring(fault), -corner[0], -corner[1]))[3] > 0)
    past = cloth.selvedge if cloth.selvedge_edges else 0.0
    ground = Ground(usable_width(cloth) + cloth.gap, None, holes, repeat, pattern)
    return Bed(ground, (corner[0], below), past=(past, past))


def lengthwise(cloth: Cloth) -> Bed:
    """The cloth folded along its middle, the fold at the left and both selvedges at the right."""
    middle = width_on_table(cloth) / 2
    holes = []
    for fault in cloth.faults:
        left, low, right, high = bounds(_ring(fault))
        if right > middle:
            holes.append(box(max(left - middle, 0.0), low, right - middle, high))
        if left < middle:
            holes.append(box(max(middle - right, 0.0), low, middle - left, high))
    corner = (0.0, -cloth.gap / 2)
    blocked = tuple(shift(ring_of(hole), -corner[0], -corner[1]) for hole in holes)
    past = cloth.selvedge if cloth.selvedge_edges else 0.0
    ground = Ground((usable_width(cloth) + cloth.gap) / 2, None, blocked)
    return Bed(ground, corner, "lengthwise", (0.0, past))


def crosswise(cloth: Cloth) -> Bed:
    """The cloth folded across, the fold below."""
    past = cloth.selvedge if cloth.selvedge_edges else 0.0
    ground = Ground(usable_width(cloth) + cloth.gap)
    return Bed(ground, (cloth.selvedge - cloth.gap / 2, 0.0), "crosswise", (past, past))


def bed_of(cloth: Cloth, fold: Fold) -> Bed:
    """The whole cloth as it lies."""
    return {"flat": flat, "lengthwise": lengthwise, "crosswise": crosswise}[fold](cloth)


def left_over(remnant: Remnant, gap: float) -> Bed:
    """A left-over piece; what of its rectangle lies outside its outline is blocked."""
    grow = gap / 2
    blocked: Iterable[Line] = ()
    if remnant.outline:
        whole = box(-grow, -grow, remnant.width + grow, remnant.length + grow)
        lacking = whole.difference(Polygon(remnant.outline).buffer(grow, join_style="mitre"))
        parts = getattr(lacking, "geoms", (lacking,))
        triangles = (t for part in parts if part.area > HAIR for t in constrained_delaunay_triangles(part).geoms)
        blocked = (shift(ring_of(t), grow, grow) for t in triangles if t.area > HAIR)
    ground = Ground(remnant.width + gap, remnant.length + gap, tuple(blocked))
    return Bed(ground, (-grow, -grow))


def _ring(fault: Fault) -> Line:
    return ring_of(box(*fault.spoils))
