"""Motifs set out on the field: one at a point of the field, or several in their usual order.

The nine points: Fox-Davies, A Complete Guide to Heraldry.  The middle of the field is the fess point; the points in
chief and in base lie in the middles of the field's upper and lower thirds, the honour and nombril points half way
between those and the fess point.  Three are set two and one, six three, two and one (the same); the rest from memory.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from ellwand.adorn.charges.ground import CLEAR
from ellwand.adorn.charges.shapes import CHARGES, plain_charge
from ellwand.adorn.motifs import OWN, motif
from ellwand.errors import CannotDraft, InternalFault
from ellwand.language import _
from ellwand.model.heraldry import ChargeChoice, Face, Field, FieldPoint
from ellwand.model.motif import Motif, sized
from ellwand.units import format_length, round_near

if TYPE_CHECKING:
    from shapely.geometry import Polygon
    from shapely.geometry.base import BaseGeometry

Spot = tuple[float, float]
POINTS: Final[Mapping[FieldPoint, Spot]] = {
    "dexter chief": (-2 / 3, 5 / 6),
    "middle chief": (0.0, 5 / 6),
    "sinister chief": (2 / 3, 5 / 6),
    "honour point": (0.0, 2 / 3),
    "fess point": (0.0, 1 / 2),
    "nombril point": (0.0, 1 / 3),
    "dexter base": (-2 / 3, 1 / 6),
    "middle base": (0.0, 1 / 6),
    "sinister base": (2 / 3, 1 / 6),
}
"""(share of the field's half width toward sinister, share of its height above the base)."""
HIGH, LOW = 5 / 6, 1 / 6
SEVERAL: Final[Mapping[int, tuple[Spot, ...]]] = {
    2: ((0.0, HIGH), (0.0, LOW)),
    3: ((-0.5, HIGH), (0.5, HIGH), (0.0, LOW)),
    4: ((-0.5, HIGH), (0.5, HIGH), (-0.5, LOW), (0.5, LOW)),
    5: ((-0.5, HIGH), (0.5, HIGH), (0.0, 0.5), (-0.5, LOW), (0.5, LOW)),
    6: ((-2 / 3, HIGH), (0.0, HIGH), (2 / 3, HIGH), (-1 / 3, 0.5), (1 / 3, 0.5), (0.0, LOW)),
}
"""In pale, two and one, two and two, in saltire, three two and one."""
USUAL_SIZE: Final[Mapping[int, float]] = {1: 0.45, 2: 0.4, 3: 0.32, 4: 0.32, 5: 0.26, 6: 0.22}
"""The larger side of a motif as a share of the field's width, by how many there are: our own figures."""
AT_SIDE: Final = 0.3
"""The same of a single one on the dexter or sinister side."""
SMALLER: Final = (1.0, 0.85, 0.7, 0.55, 0.4)
"""What is tried of the usual size, until there is room."""
MOST_AWAY: Final = 1 / 4
"""A motif that has no room where it belongs moves up or down by at most this share of the field's height: our own."""
STEP: Final = 0.5


def motif_of_choice(choice: ChargeChoice) -> Motif:
    """The motif that was chosen: the maker's own, a plain charge, or one of our motifs.

    Raises CannotDraft for a name that is none of them.
    """
    name = choice.motif or ""
    found = choice.drawn or plain_charge(name)
    if found is not None:
        return found
    if name in OWN:
        return motif(name, 1.0)
    raise CannotDraft(
        ".motif",
        _("{name!r} is none of our charges", name=name[:60]),
        _("choose one of {names}, or name an SVG file", names=", ".join(CHARGES)),
    )


def set_out(
    choice: ChargeChoice, field: Field, rooms: Mapping[Face, BaseGeometry], grid: float
) -> tuple[str, Mapping[Face, tuple[Polygon, ...]]]:
    """(its name, the shapes of all its motifs as each face is seen (cm), clear of each other and alike on both).

    Raises CannotDraft where it is none of our motifs, or there is no room for them.
    """
    shape = motif_of_choice(choice)
    shares = SMALLER if choice.size is None else (1.0,)
    for share in shares:
        try:
            size = _size(choice, shape, field, grid, share)
            return shape.name, {face: _on(choice, shape, size, field, face, rooms[face], grid) for face in rooms}
        except CannotDraft as error:
            if share == shares[-1]:
                raise error from None
    raise InternalFault("no size was tried")


def _on(
    choice: ChargeChoice,
    shape: Motif,
    size: tuple[float, float],
    field: Field,
    face: Face,
    room: BaseGeometry,
    grid: float,
) -> tuple[Polygon, ...]:
    """The motifs on one face.

    Raises CannotDraft where one has no room.
    """
    from shapely import union_all
    from shapely.affinity import translate
    from shapely.geometry import Polygon, box

    wide, high = size
    one = [Polygon(region.ring, region.holes) for region in sized(shape, wide).regions]
    whole = union_all(one)
    out: list[Polygon] = []
    boxes = []
    tall = field.top - field.bottom
    widest = max(0.0, math.floor((field.half - CLEAR - wide / 2) / grid) * grid)
    for across, up in SEVERAL.get(choice.number) or (POINTS[choice.place],):
        # dexter is at the viewer's right of the back
        side = -across if face == "back" else across
        x = math.copysign(min(round_near(abs(side) * field.half, grid), widest), side)
        dx, dy = x - wide / 2, field.bottom + round_near(up * tall, grid) - high / 2
        moved = _up(translate(whole, dx, dy), room, MOST_AWAY * tall, down=up >= 0.5)
        if moved is None:
            raise CannotDraft(
                "",
                _("the front has no room for {charge}", charge=_said(choice, shape.name, high))
                if face == "front"
                else _("the back has no room for {charge}", charge=_said(choice, shape.name, high)),
                _("choose a smaller size, or fewer")
                if choice.number > 1
                else _("choose a smaller size, or another place"),
            )
        out += [translate(each, dx, dy + moved) for each in one]
        boxes.append(box(dx, dy + moved, dx + wide, dy + moved + high))
    if any(a.intersection(b).area > 1e-6 for a, b in itertools.combinations(boxes, 2)):
        raise CannotDraft(
            "",
            _("on the front, {charge} do not lie clear of each other", charge=_said(choice, shape.name, high))
            if face == "front"
            else _("on the back, {charge} do not lie clear of each other", charge=_said(choice, shape.name, high)),
            _("choose a smaller size, or fewer"),
        )
    return tuple(out)


def _said(choice: ChargeChoice, name: str, high: float) -> str:
    """'3 times roundel 20 cm high', or 'roundel 20 cm high at the dexter chief'."""
    if choice.number > 1:
        return _("{count} times {name} {high} high", count=choice.number, name=name, high=format_length(high))
    return _("{name} {high} high at the {place}", name=name, high=format_length(high), place=choice.place)


def _size(choice: ChargeChoice, shape: Motif, field: Field, grid: float, share: float) -> tuple[float, float]:
    """(width, height) of one motif (cm), its height on the chalk grid; ``share``: of its usual size."""
    w, h = shape.size
    aside = choice.number == 1 and POINTS[choice.place][0] != 0
    usual = (AT_SIDE if aside else USUAL_SIZE[choice.number]) * 2 * field.half * h / max(w, h)
    high = share * usual if choice.size is None else choice.size * (field.top - field.bottom)
    high = max(grid, round_near(high, grid))
    return high * w / h, high


def _up(shape: BaseGeometry, room: BaseGeometry, most: float, *, down: bool) -> float | None:
    """How far up (cm) a shape moves to lie in the room, the least that will do; None where nothing will."""
    from shapely.affinity import translate

    far = 0.0
    while far <= most:
        for way in (-far, far) if down else (far, -far):
            if room.contains(translate(shape, 0.0, way)):
                return way
        far += STEP
    return None
