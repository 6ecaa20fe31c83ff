"""The divided field and the charges on the view of the garment: hatched for paper, in colours for screens."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final, Literal

from ellwand.depict.tinctures import filled, hatched, polygons_of, ring_of
from ellwand.depict.view_turning import Bend
from ellwand.geometry.lines import Line, mirror
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.heraldry import Charge, Face, Tincture
from ellwand.model.motif import Region
from ellwand.model.wearer import Hand

if TYPE_CHECKING:
    from shapely.geometry import Polygon
    from shapely.geometry.base import BaseGeometry

Shown = Literal["hatching", "colours"]
APART: Final = 1 / 52
"""Hatching lines lie this share of the picture's height from each other: 1.2 mm where it is 6 cm high."""
NEAR: Final = 1e-6
"""A side this near (cm) to the edge of the field lies on it."""
BEYOND: Final = 10.0
"""Patches go on so far beyond the outline (cm)."""
FINE: Final = 2.0
"""Lines are bent beside gores at steps of this length (cm)."""


def tinctured(shape: BaseGeometry, tincture: Tincture, shown: Shown, apart: float) -> list[Stroke]:
    """A shape in its tincture."""
    return filled(shape, tincture) if shown == "colours" else hatched(shape, tincture, apart)


def field_strokes(draft: Draft, face: Face, outline: Line, bend: Bend, shown: Shown) -> list[Stroke]:
    """The patches within the outline of the body; what is set in beside them is of their tincture."""
    from shapely.geometry import Polygon

    from ellwand.adorn.division.field import patches

    divided = draft.adornment.field
    if divided is None:
        return []
    body, field = Polygon(outline).buffer(0), divided.front
    far = max(max(abs(x) for x, _ in outline), -min(y for _, y in outline)) + BEYOND
    out: list[Stroke] = []
    for patch in patches(divided.division, field):
        ring = patch.ring if face == "front" else mirror(patch.ring)
        wide = _widened(Polygon(ring), (-field.half, field.bottom, field.half, field.top), far)
        seen = _bent(wide, bend).intersection(body)
        out += tinctured(seen, patch.tincture, shown, apart(outline))
        if shown == "hatching":
            out += [Stroke("hatch", ring_of(part)[0], True) for part in polygons_of(seen)]
    return [*out, *again(outline, shown)]


def in_tincture(outline: Line, tincture: Tincture | None, shown: Shown, step: float) -> list[Stroke]:
    """A sleeve in its tincture, if it has one."""
    from shapely.geometry import Polygon

    if tincture is None:
        return []
    return [*tinctured(Polygon(outline).buffer(0), tincture, shown, step), *again(outline, shown)]


def again(outline: Line, shown: Shown) -> list[Stroke]:
    """An outline once more over the colours within it; hatching leaves it as it is."""
    return [Stroke("garment", (*outline, outline[0]))] if shown == "colours" else []


def apart(outline: Line) -> float:
    """How far hatching lines lie from each other on a body of that outline (cm)."""
    return (max(y for _, y in outline) - min(y for _, y in outline)) * APART


def charge_strokes(draft: Draft, face: Face, outline: Line, bend: Bend, shown: Shown) -> list[Stroke]:
    """The charges of this face, later ones over earlier."""
    out: list[Stroke] = []
    for charge in draft.adornment.charges:
        if charge.face == face:
            for region in charge.regions:
                out += _charge(charge, region, bend, shown, apart(outline))
    return out


def _charge(charge: Charge, region: Region, bend: Bend, shown: Shown, step: float) -> list[Stroke]:
    from shapely.geometry import Polygon

    shape = _bent(Polygon(region.ring, region.holes), bend)
    out: list[Stroke] = []
    for part in polygons_of(shape):
        ring, holes = ring_of(part)
        ground = Stroke("charge", ring, True, holes)
        over = [Stroke("charge", (*line, line[0])) for line in (ring, *holes)] if shown == "colours" else []
        out += [ground, *tinctured(part, charge.tincture, shown, step), *over]
    return out


def sleeve_tinctures(draft: Draft) -> Mapping[Hand, Tincture]:
    """The tincture of each sleeve that has one."""
    by_id = {piece.id: piece for piece in draft.pieces}
    hands: tuple[Hand, ...] = ("left", "right")
    out: dict[Hand, Tincture] = {}
    for hand in hands:
        for part in draft.parts:
            words = part.id.split("-")
            tincture = by_id[part.piece].tincture
            if words[0] == "sleeve" and hand in words and tincture:
                out[hand] = tincture  # type: ignore[assignment]
                break
    return out


def _widened(patch: Polygon, field: tuple[float, float, float, float], far: float) -> BaseGeometry:
    """The patch, and beside the field whatever lies level with it or below it."""
    from shapely import unary_union
    from shapely.geometry import box

    x0, y0, x1, y1 = field
    parts: list[BaseGeometry] = [patch]
    for edge, sideways in (((x0, y0, x0, y1), (x0 - far, x0)), ((x1, y0, x1, y1), (x1, x1 + far))):
        shared = _shared(patch, edge)
        parts += [box(sideways[0], low, sideways[1], high) for _, low, _, high in shared]
        parts += [box(sideways[0], low - far, sideways[1], low) for _, low, _, _ in shared if low - y0 < 1e-6]
    parts += [box(low, y0 - far, high, y0) for low, _, high, _ in _shared(patch, (x0, y0, x1, y0))]
    return unary_union(parts)


def _shared(patch: Polygon, edge: tuple[float, float, float, float]) -> list[tuple[float, float, float, float]]:
    """The sides of a patch that lie on an edge of the field, as (least x, least y, greatest x, greatest y)."""
    x0, y0, x1, _ = edge
    points = list(patch.exterior.coords)

    def on(point: tuple[float, ...]) -> bool:
        return abs(point[0] - x0) < NEAR if x0 == x1 else abs(point[1] - y0) < NEAR

    return [
        (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        for a, b in itertools.pairwise(points)
        if on(a) and on(b) and math.dist(a, b) > NEAR
    ]


def _bent(shape: BaseGeometry, bend: Bend) -> BaseGeometry:
    """The shape with every point where it lies in the picture."""
    from shapely import get_coordinates, make_valid, segmentize, set_coordinates

    fine = segmentize(shape, FINE)
    return make_valid(set_coordinates(fine, bend.many(get_coordinates(fine))))
