"""Tinctures in pictures: a colour for each, and the hatching that stands for it in black and white.

Hatching after Petra Sancta, 1638 (Chambers's Encyclopaedia, heraldry): or dotted, argent plain, gules upright, azure
level, sable crossed, vert from the dexter chief (the viewer's upper left), purpure from the sinister.  Tenné, sinister
lines over level ones, and sanguine, diagonals crossed: from memory.  A picture is hatched as it is looked at, so that
a back's hatching is read like a front's.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
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
LINE: Final = 1
"""A line's number among the kinds of geometry."""
EIGHT: Final = tuple((math.cos(math.pi * n / 4), math.sin(math.pi * n / 4)) for n in range(8))
SHORT: Final = 0.2
"""What is left of a line or dot that is shorter than this share of that distance is left out."""


def hatched(shape: BaseGeometry, tincture: Tincture, apart: float) -> list[Stroke]:
    """The tincture's lines or dots within a shape (cm), ``apart`` from each other; none for argent."""
    from shapely import prepare

    if shape.is_empty:
        return []
    prepare(shape)
    if tincture == "or":
        return [Stroke("hatch dot", line, True) for line in _rounds(_dots(shape, apart), DOT * apart)]
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
    from shapely import get_coordinates

    def line(ring: BaseGeometry) -> Line:
        return tuple((x, y) for x, y in get_coordinates(ring)[:-1].tolist())

    return line(shape.exterior), tuple(line(hole) for hole in shape.interiors)


def _lines(shape: BaseGeometry, angle: float, apart: float) -> Iterator[Line]:
    """Parallel lines clipped by the shape; those of one direction lie on one grid, whatever the shape."""
    from shapely import get_coordinates, get_parts, get_point, get_type_id, intersection, length, linestrings

    dx, dy = math.cos(angle), math.sin(angle)
    x0, y0, x1, y1 = shape.bounds
    corners = ((x0, y0), (x1, y0), (x0, y1), (x1, y1))
    across = [y * dx - x * dy for x, y in corners]
    along = [x * dx + y * dy for x, y in corners]
    rows = range(math.ceil(min(across) / apart - 0.5), math.floor(max(across) / apart - 0.5) + 1)
    offs = [(n + 0.5) * apart for n in rows]
    ends = (min(along) - 1.0, max(along) + 1.0)
    if not offs:
        return
    parts = get_parts(
        intersection(shape, linestrings([[(t * dx - off * dy, t * dy + off * dx) for t in ends] for off in offs]))
    )
    kept = parts[(get_type_id(parts) == LINE) & (length(parts) > SHORT * apart)]
    starts, finishes = (get_coordinates(get_point(kept, end)).tolist() for end in (0, -1))
    yield from zip(starts, finishes, strict=True)


def _dots(shape: BaseGeometry, apart: float) -> list[Point]:
    """Every other place of a grid, so that a dot stands between those above it; whole dots only."""
    from shapely import contains_xy

    x0, y0, x1, y1 = shape.bounds
    spots = [
        ((column + 0.5 * (row % 2)) * apart, (row + 0.5) * apart)
        for row in range(math.floor(y0 / apart) - 1, math.ceil(y1 / apart) + 1)
        for column in range(math.floor(x0 / apart) - 1, math.ceil(x1 / apart) + 1)
    ]
    within = contains_xy(shape.buffer(-DOT * apart), [x for x, _ in spots], [y for _, y in spots])
    return [at for at, inside in zip(spots, within.tolist(), strict=True) if inside]


def _rounds(spots: Sequence[Point], radius: float) -> Iterator[Line]:
    """A dot about each place."""
    import numpy as np

    if spots:
        dots = np.array(spots)[:, None, :] + radius * np.array(EIGHT)[None, :, :]
        yield from (tuple(map(tuple, dot)) for dot in dots.tolist())
