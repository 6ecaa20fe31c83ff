"""What is cut from folded cloth: two parts at once, or one with its middle on the fold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import box
from shapely.geometry import MultiPolygon, Polygon

from ellwand.geometry.lines import bounds, shift, turn
from ellwand.lay.grounds import Bed
from ellwand.lay.shapes import HAIR, copies, fitting, grown, poses_of, ring_of
from ellwand.lay.sides import is_even
from ellwand.lay.task import Pose, Shape, Spot
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Part
from ellwand.model.piece import Piece


@dataclass(frozen=True, slots=True)
class Folded:
    """``double``: shapes to lay on the fold or beside it.  ``fixed``: those that lie on a crosswise fold already.

    ``single``: parts that fold or width do not allow, to cut from cloth that lies flat.
    """

    double: tuple[Shape, ...]
    fixed: tuple[Spot, ...]
    single: tuple[Part, ...]


def fold_in(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, bed: Bed, *, as_cut: bool = False) -> Folded:
    """Every part's way onto the folded cloth.

    Two parts of a piece are cut together where one is the mirror image of the other: by their parts, because the
    piece is even, or because the cloth may lie either side up.  A part that is left over, or too wide to be cut
    double, lies on the fold when it is even about it.  ``as_cut``: with hollow outlines as they are.
    """
    double: list[Shape] = []
    fixed: list[Spot] = []
    single: list[Part] = []
    for piece in pieces:
        pairs, rest = _pairs(piece, tuple(copies(piece, parts)), cloth)
        for one, other in pairs:
            poses = fitting(poses_of(piece, one.mirrored, cloth, bed.past, as_cut=as_cut), bed.ground.width)
            if poses:
                double.append(Shape(piece.id, one.id, poses, 2, other.id))
            else:
                rest = (*rest, one, other)
        for part in rest:
            poses = fitting(_on_fold(piece, part, cloth, bed, as_cut), bed.ground.width)
            if not poses:
                single.append(part)
            elif bed.fold == "lengthwise":
                double.append(Shape(piece.id, part.id, poses, 2))
            else:
                shape = Shape(piece.id, part.id, poses, 2)
                x = max((spot.x + spot.pose.width for spot in fixed), default=0.0)
                pose = min(poses, key=lambda pose: pose.width)
                if x + pose.width <= bed.ground.width + HAIR:
                    fixed.append(Spot(shape, pose, x, 0.0))
                else:
                    single.append(part)
    return Folded(_alike(double), tuple(fixed), tuple(single))


def _pairs(piece: Piece, found: tuple[Part, ...], cloth: Cloth) -> tuple[list[tuple[Part, Part]], tuple[Part, ...]]:
    """The parts that can be cut two at once, and those left over."""
    if cloth.reversible or is_even(piece.cut, piece.cut_holes):
        one, other = found[: len(found) // 2 * 2 : 2], found[1::2]
    else:
        one = tuple(part for part in found if not part.mirrored)
        other = tuple(part for part in found if part.mirrored)
    pairs = list(zip(one, other, strict=False))
    taken = {part.id for pair in pairs for part in pair}
    return pairs, tuple(part for part in found if part.id not in taken)


def _on_fold(piece: Piece, part: Part, cloth: Cloth, bed: Bed, as_cut: bool) -> tuple[Pose, ...]:
    """The half outlines of the part in the poses that are even about the fold."""
    across = bed.fold == "lengthwise"
    plain = poses_of(piece, part.mirrored, replace(cloth, gap=0.0), bed.past, as_cut=as_cut)
    out = []
    for pose in plain:
        degrees = pose.turn + (0.0 if across else 90.0)
        if not is_even(turn(piece.cut, degrees), tuple(turn(hole, degrees) for hole in piece.cut_holes)):
            continue
        width, height = pose.width, pose.height
        half = Polygon(pose.ring).intersection(
            box(width / 2, -1, width + 1, height + 1) if across else box(-1, height / 2, width + 1, height + 1)
        )
        if isinstance(half, MultiPolygon):
            continue
        ring = ring_of(half)
        left, low, right, high = bounds(ring)
        if (across and left > width / 2 + HAIR) or (not across and low > height / 2 + HAIR):
            continue
        x, y = pose.origin
        past = (0.0, pose.past[1]) if across else pose.past
        halved = replace(
            pose,
            ring=shift(ring, -left, -low),
            origin=(x - left, y - low),
            width=right - left,
            height=high - low,
            past=past,
            on_fold=across,
        )
        out.append(grown(halved, cloth.gap / 2, across, not across) if cloth.gap else halved)
    return tuple(out)


def _alike(shapes: Sequence[Shape]) -> tuple[Shape, ...]:
    """The shapes with equal poses shared, as copies of one thing."""
    known: dict[tuple[Pose, ...], tuple[Pose, ...]] = {}
    return tuple(replace(shape, poses=known.setdefault(shape.poses, shape.poses)) for shape in shapes)
