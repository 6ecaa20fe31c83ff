"""The pieces that charges are cut as: what is alike is one piece, cut as often as it is needed."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from ellwand.adorn.applied.cutting import Side, applied
from ellwand.adorn.applied.facings import edge_allowance
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, Point, area, backwards, bounds, mirror, shift
from ellwand.language import _
from ellwand.model.draft import Draft, Part
from ellwand.model.heraldry import Face, Tincture
from ellwand.model.motif import Region
from ellwand.model.piece import Piece

if TYPE_CHECKING:
    from shapely.geometry import LineString, Polygon

ALIKE: Final = 0.002
"""Shapes whose outlines lie nearer than this to each other (cm, on the whole) are cut alike."""
FINE: Final = 0.4
"""A shape that is nowhere twice as wide cannot be turned under (cm): our own figure."""
FOUND: Final = 1e-6

Laid = tuple[str, Tincture, Face, Sequence["Polygon"]]
"""A charge's name, tincture and face, and its shapes there."""
Cut = tuple[tuple[Region, ...], tuple[str, ...], bool]
"""Its regions, the parts they are cut as, and whether any is caught in a seam."""


@dataclass(frozen=True, slots=True)
class CutCharges:
    """The pieces with their parts, and of each charge what is cut of it."""

    pieces: tuple[Piece, ...]
    parts: tuple[Part, ...]
    charges: tuple[Cut, ...]


@dataclass(slots=True)
class _Kind:
    """Shapes that are cut alike: the first of them, and the parts they are cut as."""

    name: str
    tincture: Tincture
    first: Region
    sides: list[Side]
    holes: list[list[Side]]
    parts: list[tuple[str, bool]]


def cut_charges(draft: Draft, laid: Sequence[Laid], seams: Mapping[Face, Sequence[LineString]]) -> CutCharges:
    """Cut every shape with the allowance that is turned under, or that of the seam it is caught in.

    Raises CannotDraft where a shape is too fine to be turned under.
    """
    kinds: list[_Kind] = []
    used = {part.id for part in (*draft.parts, *draft.applied)}
    charges: list[Cut] = []
    for name, tincture, face, shapes in laid:
        regions, parts, caught = [], [], False
        for shape in shapes:
            if shape.buffer(-FINE).is_empty:
                raise CannotDraft(
                    "garment.charges",
                    _("some of the {name} is too fine to be cut from cloth and turned under", name=name),
                    _("make it larger, or paint or embroider it instead"),
                )
            region = _region(shape)
            sides, held = _sides(draft, region.ring, seams[face])
            holes = [_sides(draft, hole, ())[0] for hole in region.holes]
            part = _free(f"{name}-{face}".replace(" ", "-"), used, "-")
            _enter(kinds, _Kind(name, tincture, region, sides, holes, [(part, False)]))
            regions.append(region)
            parts.append(part)
            caught = caught or held
        charges.append((tuple(regions), tuple(parts), caught))
    pieces = []
    put_on: list[Part] = []
    names = {piece.name for piece in draft.pieces}
    for kind in kinds:
        name = _free(f"{kind.name} {kind.tincture}", names, " ")
        cut = applied(name, draft.pieces[0].cloth, "body", kind.parts, kind.sides, kind.holes)
        pieces.append(replace(cut.piece, tincture=kind.tincture))
        put_on += cut.parts
    return CutCharges(tuple(pieces), tuple(put_on), tuple(charges))


def _free(stem: str, used: set[str], joint: str) -> str:
    """The stem, or the stem and the first number that is free; it is used from then on."""
    name = next(n for n in (stem, *(f"{stem}{joint}{i}" for i in range(2, 1000))) if n not in used)
    used.add(name)
    return name


def _region(shape: Polygon) -> Region:
    def line(coords: object) -> Line:
        return tuple((float(x), float(y)) for x, y in list(coords)[:-1])  # type: ignore[call-overload]

    def turned(ring: Line, sense: int) -> Line:
        return ring if area(ring) * sense > 0 else backwards(ring)

    return Region(turned(line(shape.exterior.coords), 1), tuple(turned(line(h.coords), -1) for h in shape.interiors))


def _sides(draft: Draft, ring: Line, seams: Sequence[LineString]) -> tuple[list[Side], bool]:
    """A ring as edges: those that lie on a seam with its allowance, the others with what is turned under."""
    from shapely.geometry import Point as Spot

    steps = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    held = [any(seam.distance(Spot(a)) < FOUND and seam.distance(Spot(b)) < FOUND for seam in seams) for a, b in steps]
    start = next((i for i in range(len(steps)) if held[i] != held[i - 1]), 0)
    out: list[Side] = []
    turned = edge_allowance(draft)
    run: list[Point] = []
    order = [*range(start, len(steps)), *range(start)]
    for n, i in enumerate(order):
        run = run or [steps[i][0]]
        run.append(steps[i][1])
        if n == len(order) - 1 or held[order[n + 1]] != held[i]:
            allowance = draft.choices.sewing.allowance if held[i] else turned
            out.append(Side(f"edge-{len(out) + 1}", "facing", tuple(run), allowance))
            run = []
    return out, any(held)


def _enter(kinds: list[_Kind], new: _Kind) -> None:
    """Among the kinds: as one more of a kind that is alike as it is or in a mirror, or as one of its own."""
    for kind in kinds:
        if kind.name != new.name or kind.tincture != new.tincture:
            continue
        for mirrored in (False, True):
            if _alike(kind, new, mirrored):
                kind.parts.append((new.parts[0][0], mirrored))
                return
    new.holes = [[replace(side, id=f"hole-{n}-{side.id}") for side in hole] for n, hole in enumerate(new.holes, 1)]
    kinds.append(new)


def _alike(kind: _Kind, new: _Kind, mirrored: bool) -> bool:
    """Whether two shapes and their allowances are the same, wherever they lie."""
    other = mirror(new.first.ring) if mirrored else new.first.ring
    return _same(_home(kind.first.ring), _home(other)) and _same_allowances(kind.sides, new.sides, mirrored)


def _home(ring: Line) -> Line:
    x, y, _, _ = bounds(ring)
    return shift(ring, -x, -y)


def _same(one: Line, other: Line) -> bool:
    from shapely.geometry import Polygon

    a, b = Polygon(one), Polygon(other)
    return bool(a.symmetric_difference(b).area < ALIKE * a.length)


def _same_allowances(one: Sequence[Side], other: Sequence[Side], mirrored: bool) -> bool:
    """Whether edges of the same place have the same allowance; where all have one, it is just that."""
    every = {side.allowance for side in (*one, *other)}
    if len(every) == 1:
        return True
    mine, theirs = _middles(one, False), _middles(other, mirrored)
    return len(mine) == len(theirs) and all(
        any(allowance == own and math.dist(at, there) < 0.1 for there, own in theirs) for at, allowance in mine
    )


def _middles(sides: Sequence[Side], mirrored: bool) -> list[tuple[Point, float]]:
    """The middle of each edge, in the shape's own place, with its allowance."""
    flip = -1.0 if mirrored else 1.0
    x0, y0, _, _ = bounds([(flip * x, y) for side in sides for x, y in side.points])
    boxes = [(bounds([(flip * x, y) for x, y in side.points]), side.allowance) for side in sides]
    return [(((a + c) / 2 - x0, (b + d) / 2 - y0), allowance) for (a, b, c, d), allowance in boxes]
