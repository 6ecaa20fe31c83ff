"""Charges: ordinaries and plain shapes of another tincture, cut with an allowance and sewn on to the front or back.

They are drawn on the field as it is seen; on the back, seen from behind, dexter lies at the viewer's right, so an
ordinary is the front's mirror image there, and a motif keeps its shape and changes its side.  What of a shape would lie
on the neck, the hem, a gore, an opening or a free armhole is cut away; ends that reach a seam are caught in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from ellwand.adorn.charges.cutting import cut_charges
from ellwand.adorn.charges.ground import SMOOTH, Ground, ground_of
from ellwand.adorn.charges.ordinaries import USUAL, ordinary_shapes, ordinary_width
from ellwand.adorn.charges.places import set_out
from ellwand.adorn.division.field import patches
from ellwand.adorn.division.frames import field_of
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.heraldry import Charge, ChargeChoice, Face, Field, Ordinary, Tincture

if TYPE_CHECKING:
    from shapely.geometry import Polygon

UPON: Final = 0.05
"""A tincture counts as lying beneath a charge from this share of it on: our own figure."""
LIES_ON: Final = 0.5
"""A charge lies on an earlier one when so much of it does; else it lies on the field: our own figure."""
NARROW: Final = 1.2
"""Cloth that is narrower cannot be turned under on both sides and still be seen (cm): our own figure."""
SPIKE: Final = 0.05
FACES: Final[dict[str, tuple[Face, ...]]] = {"front": ("front",), "back": ("back",), "both": ("front", "back")}


@dataclass(frozen=True, slots=True)
class Drawn:
    """One charge on one face: what is kept of its shapes as they are seen."""

    chosen: ChargeChoice
    name: str
    face: Face
    kept: tuple[Polygon, ...]


Grounds = Mapping[Face, Ground]
Shapes = tuple[str, Mapping[Face, tuple["Polygon", ...]]]
"""A name, and shapes on each face as it is seen."""


@dataclass(frozen=True, slots=True)
class Room:
    """How wide a piece may be cut from a cloth (cm), and whether it may lie crosswise."""

    width: float
    crosswise: bool


UNBOUNDED: Final[Mapping[str, Room]] = {}
"""Every charge is cut in one piece."""


def charged(draft: Draft, rooms: Mapping[str, Room] = UNBOUNDED) -> Draft:
    """The draft with its charges placed, and what is cut for them among its pieces.

    ``rooms``: of each tincture; what is wider than its cloth is cut in strips that meet edge to edge.
    Raises CannotDraft where one cannot go where it was asked.
    """
    if not draft.choices.charges:
        return draft
    field = field_of(draft)
    faces: tuple[Face, ...] = ("front", "back")
    grounds = {face: ground_of(draft, face) for face in faces}
    drawn: list[Drawn] = []
    for n in range(1, len(draft.choices.charges) + 1):
        try:
            drawn += _drawn(draft, n, field, grounds)
        except CannotDraft as error:
            raise CannotDraft(f"garment.charges[{n}]{error.where}", error.problem, error.mend) from None
    seams = {face: ground.seams for face, ground in grounds.items()}
    cut = cut_charges(draft, [(d.name, d.chosen.tincture, d.face, _fitting(draft, d, rooms)) for d in drawn], seams)
    charges = []
    for i, (each, (regions, parts, caught)) in enumerate(zip(drawn, cut.charges, strict=True)):
        upon, on_charge = _beneath(draft, field, each, drawn[:i])
        charges.append(
            Charge(
                name=each.name,
                tincture=each.chosen.tincture,
                chosen=each.chosen,
                face=each.face,
                regions=regions,
                parts=parts,
                upon=upon,
                caught=caught,
                on_charge=on_charge,
            )
        )
    return replace(
        draft,
        pieces=(*draft.pieces, *cut.pieces),
        applied=(*draft.applied, *cut.parts),
        adornment=replace(draft.adornment, charges=tuple(charges)),
    )


def _fitting(draft: Draft, each: Drawn, rooms: Mapping[str, Room]) -> tuple[Polygon, ...]:
    """Its shapes, those that are too wide for their cloth in as few equal upright strips as fit it."""
    from shapely.geometry import box

    room = rooms.get(each.chosen.tincture)
    if room is None:
        return each.kept
    spare = 2 * draft.choices.sewing.allowance
    out: list[Polygon] = []
    for shape in each.kept:
        x0, y0, x1, y1 = shape.bounds
        wide = min(x1 - x0, y1 - y0) if room.crosswise else x1 - x0
        count = math.ceil((x1 - x0) / (room.width - spare)) if wide + spare > room.width > spare else 1
        step = (x1 - x0) / count
        strips = [shape.intersection(box(x0 + i * step, y0, x0 + (i + 1) * step, y1)) for i in range(count)]
        out += [shape] if count == 1 else [part for strip in strips for part in _sewable(strip)]
    return tuple(out)


def _drawn(draft: Draft, n: int, field: Field, grounds: Grounds) -> list[Drawn]:
    """The n-th charge on each of its faces.

    Raises CannotDraft where it is neither an ordinary nor a motif, or has no room.
    """
    choice = draft.choices.charges[n - 1]
    if (choice.ordinary is None) == (choice.motif is None):
        raise CannotDraft(
            "", _("a charge is either an ordinary or a motif"), _('give one of them, as in ordinary = "fess"')
        )
    if choice.ordinary is None:
        name, whole = _motifs(draft, choice, field, grounds)
    else:
        name, whole = _ordinary(draft, n, choice.ordinary, field, grounds)
    out = []
    for face, shapes in whole.items():
        cut = [shape.intersection(grounds[face].cut).simplify(SMOOTH) for shape in shapes]
        kept = tuple(part for shape in cut for part in _sewable(shape))
        if not kept:
            problem = _("nothing is left of the {name} beside neck, hem and openings", name=name)
            raise CannotDraft("", problem, _("make it wider, or leave it out"))
        out.append(Drawn(choice, name, face, kept))
    return out


def _motifs(draft: Draft, choice: ChargeChoice, field: Field, grounds: Grounds) -> Shapes:
    rooms = {face: grounds[face].room for face in FACES[choice.on]}
    return set_out(choice, field, rooms, draft.dimensions.grid)


def _ordinary(draft: Draft, n: int, ordinary: Ordinary, field: Field, grounds: Grounds) -> Shapes:
    """An ordinary as wide as it was asked for, or as is usual for what lies on it."""
    from shapely.affinity import scale

    choice, grid = draft.choices.charges[n - 1], draft.dimensions.grid
    # a bordure runs along the edge of what can be seen of it
    low = max(grounds[face].low for face in FACES[choice.on])
    within = replace(field, bottom=low) if ordinary == "bordure" else field

    def shapes(share: float) -> dict[Face, tuple[Polygon, ...]]:
        front = ordinary_shapes(ordinary, within, ordinary_width(ordinary, field, share, grid), grid)
        behind = [scale(each, -1.0, 1.0, origin=(0.0, 0.0)) for each in front]
        return {face: tuple(front if face == "front" else behind) for face in FACES[choice.on]}

    if choice.width is not None:
        return ordinary, shapes(choice.width)
    plain, charged = USUAL[ordinary]
    wide = shapes(charged) if plain != charged else {}
    later = [each for each in draft.choices.charges[n:] if each.ordinary is None and each.motif is not None]
    carries = wide and any(_lies_on(_motifs(draft, each, field, grounds)[1], wide) for each in later)
    return ordinary, shapes(charged if carries else plain)


def _lies_on(motifs: Mapping[Face, Sequence[Polygon]], wide: Mapping[Face, Sequence[Polygon]]) -> bool:
    """Whether most of a motif lies on the shapes of its face."""
    from shapely import union_all

    return any(
        shape.intersection(union_all(wide[face])).area > LIES_ON * shape.area
        for face in motifs
        if face in wide
        for shape in motifs[face]
    )


def _sewable(shape: Polygon) -> Iterator[Polygon]:
    """The parts of a shape that can be sewn on, parted where it is too narrow."""
    from shapely import get_parts
    from shapely.geometry import GeometryCollection

    for part in get_parts(shape):
        # a shape that barely touches the field leaves slivers that are no cloth
        if part.geom_type != "Polygon" or part.area < SMOOTH:
            continue
        cores = get_parts(part.buffer(-NARROW / 2, join_style="mitre"))
        if len(cores) == 1:
            yield _plain(part)
            continue
        taken = GeometryCollection()
        for core in sorted(cores, key=lambda each: -each.area):
            again = core.buffer(NARROW / 2, join_style="mitre").intersection(part).difference(taken)
            taken = taken.union(again)
            # what the corner of one core took from another is too narrow again
            kept = [each for each in get_parts(again) if not each.buffer(-NARROW / 3).is_empty]
            yield from map(_plain, map(_spikeless, kept))


def _spikeless(shape: Polygon) -> Polygon:
    """The shape without spikes that have no width, which parting may leave."""
    from shapely import get_parts

    inner = shape.buffer(-SPIKE, join_style="mitre")
    return max(get_parts(inner.buffer(SPIKE, join_style="mitre")), key=lambda part: part.area)


def _plain(shape: Polygon) -> Polygon:
    """The shape without points that cannot be told apart, and without the crossings that leaving them out may make."""
    from shapely import get_parts, remove_repeated_points

    plain = remove_repeated_points(shape.simplify(SMOOTH), SMOOTH)
    return plain if plain.is_valid else max(get_parts(plain.buffer(0)), key=lambda part: part.area)


def _beneath(draft: Draft, field: Field, each: Drawn, earlier: Sequence[Drawn]) -> tuple[tuple[Tincture, ...], str]:
    """(the tinctures that a charge lies on, the most first; the charge that it lies on or '')."""
    from shapely import union_all
    from shapely.geometry import Polygon

    own = union_all(each.kept)
    for other in reversed(earlier):
        if other.face == each.face and union_all(other.kept).intersection(own).area > LIES_ON * own.area:
            return (other.chosen.tincture,), other.name
    divided = draft.adornment.field
    if divided is None:
        return (), ""
    sign = -1.0 if each.face == "back" else 1.0
    shares: dict[Tincture, float] = {}
    for patch in patches(divided.division, field):
        shape = Polygon([(sign * x, y) for x, y in patch.ring])
        shares[patch.tincture] = shares.get(patch.tincture, 0.0) + shape.intersection(own).area / own.area
    found = sorted((share, tincture) for tincture, share in shares.items() if share >= UPON)
    return tuple(tincture for _, tincture in reversed(found)), ""
