"""Tinctures in pictures: a colour for each, and the hatching that stands for it in black and white.

Hatching after Petra Sancta, 1638 (Chambers's Encyclopaedia, heraldry): or dotted, argent plain, gules upright, azure
level, sable crossed, vert from the dexter chief (the viewer's upper left), purpure from the sinister.  Tenné, sinister
lines over level ones, and sanguine, diagonals crossed: from memory.  A picture is hatched as it is looked at, so that
a back's hatching is read like a front's.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Final

from ellwand.geometry.lines import Line, Point
from ellwand.model.drawing import Stroke
from ellwand.model.heraldry import Tincture

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

HATCHING: Final[Mapping[Tincture, tuple[float, ...]]] = {
    "or": (),
    "argent": (),
    "gules": (90.0,),
    "azure": (0.0,),
    "sable": (0.0, 90.0),
    "vert": (-45.0,),
    "purpure": (45.0,),
    "tenné": (45.0, 0.0),
    "sanguine": (45.0, -45.0),
}
"""The directions of each tincture's lines, in degrees counter-clockwise from level."""
DOT: Final = 0.17
"""Radius of a dot, as a share of the distance between the lines."""
SHORT: Final = 0.2
"""What is left of a line or dot that is shorter than this share of that distance is left out."""


def hatched(shape: BaseGeometry, tincture: Tincture, apart: float) -> list[Stroke]:
    """The tincture's lines or dots within a shape (cm), ``apart`` from each other; none for argent."""
    from shapely import prepare

    if shape.is_empty:
        return []
    prepare(shape)
    if tincture == "or":
        return [Stroke("hatch dot", _round(at, DOT * apart), True) for at in _dots(shape, apart)]
    return [
        Stroke("hatch", line)
        for direction in HATCHING[tincture]
        for line in _lines(shape, math.radians(direction), apart)
    ]


def filled(shape: BaseGeometry, tincture: Tincture) -> list[Stroke]:
    """The shape (cm) in the tincture's colour."""
    return [Stroke(tincture, ring, True, holes) for part in polygons_of(shape) for ring, holes in [ring_of(part)]]


def polygons_of(shape: BaseGeometry) -> list[BaseGeometry]:
    """The polygons of a shape, without lines, points and slivers."""
    parts = shape.geoms if hasattr(shape, "geoms") else [shape]
    return [part for part in parts if part.geom_type == "Polygon" and part.area > 1e-6]


def ring_of(shape: BaseGeometry) -> tuple[Line, tuple[Line, ...]]:
    """(ring, holes) of a polygon."""

    def line(coords: object) -> Line:
        return tuple((float(x), float(y)) for x, y in list(coords)[:-1])  # type: ignore[call-overload]

    return line(shape.exterior.coords), tuple(line(hole.coords) for hole in shape.interiors)


def _lines(shape: BaseGeometry, angle: float, apart: float) -> Iterator[Line]:
    """Parallel lines clipped by the shape; those of one direction lie on one grid, whatever the shape."""
    from shapely.geometry import LineString

    dx, dy = math.cos(angle), math.sin(angle)
    x0, y0, x1, y1 = shape.bounds
    corners = ((x0, y0), (x1, y0), (x0, y1), (x1, y1))
    across = [y * dx - x * dy for x, y in corners]
    along = [x * dx + y * dy for x, y in corners]
    for n in range(math.ceil(min(across) / apart - 0.5), math.floor(max(across) / apart - 0.5) + 1):
        off = (n + 0.5) * apart
        ends = [(t * dx - off * dy, t * dy + off * dx) for t in (min(along) - 1.0, max(along) + 1.0)]
        found = shape.intersection(LineString(ends))
        for part in found.geoms if hasattr(found, "geoms") else [found]:
            if part.geom_type == "LineString" and part.length > SHORT * apart:
                (ax, ay), (bx, by) = part.coords[0], part.coords[-1]
                yield (float(ax), float(ay)), (float(bx), float(by))


def _dots(shape: BaseGeometry, apart: float) -> Iterator[Point]:
    """Every other place of a grid, so that a dot stands between those above it; whole dots only."""
    from shapely.geometry import Point as Spot

    x0, y0, x1, y1 = shape.bounds
    for row in range(math.floor(y0 / apart) - 1, math.ceil(y1 / apart) + 1):
        for column in range(math.floor(x0 / apart) - 1, math.ceil(x1 / apart) + 1):
            at = ((column + 0.5 * (row % 2)) * apart, (row + 0.5) * apart)
            if shape.contains(Spot(at).buffer(DOT * apart, quad_segs=2)):
                yield at


def _round(at: Point, radius: float) -> Line:
    return tuple(
        (at[0] + radius * math.cos(math.pi * n / 4), at[1] + radius * math.sin(math.pi * n / 4)) for n in range(8)
    )
