"""A stencil cut from card: the motif's regions as windows, bridged so that the card stays one piece."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Final, Literal

import shapely
from shapely import Polygon, box, get_parts
from shapely.geometry.base import BaseGeometry

from ellwand.adorn.stencils.bridging import CURVE, bridged
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, Point
from ellwand.language import _
from ellwand.model.motif import Motif
from ellwand.model.stencil import Stencil, Weak

BRIDGE: Final = 0.3
"""Width of a bridge (cm): 3 to 4 mm of stencil card hold; common practice, no source."""
MARGIN: Final = 3.0
"""Card about the motif (cm), so that a brush does not slip over its edge: common practice, no source."""
WIDEST: Final = 5.0
"""The card is not made wider for its marks by more than this on either side (cm): our own figure."""
AROUND_MARK: Final = 0.8
"""Card about a mark (cm)."""
FROM_MOTIF: Final = 0.8
"""Between the motif and its marks, upward and downward (cm)."""
LEAST_WINDOW: Final = 0.15
"""A narrower window is hard to cut and takes little paint (cm): our own figure."""
LONG: Final = 3.0
"""A thin place counts where it reaches this many widths from what is wide enough; corners do not: our own figure."""


@lru_cache(maxsize=64)
def stencil(motif: Motif, width: float = BRIDGE, *, step: float | None = None) -> Stencil:
    """The motif's stencil with bridges at least ``width`` wide (cm).

    ``step``: from one print to the next along the line (cm), for its marks; None where it does not repeat.
    Raises CannotDraft when the motif has no area, or its bridges would leave less than half of it.
    """
    windows = motif_shape(motif)
    if windows.is_empty or windows.area <= 0:
        raise CannotDraft(
            "motif", _("{name} has nothing to be painted", name=motif.name), _("draw it with closed shapes")
        )
    x0, y0, x1, y1 = windows.bounds
    side = MARGIN if step is None else _side(x1 - x0, step)
    sheet = box(x0 - side, y0 - MARGIN, x1 + side, y1 + MARGIN)
    left, bridges, islands = bridged(windows, sheet, width)
    if left.area < windows.area / 2:
        raise CannotDraft(
            "motif",
            _("{name} is so small that its bridges would cover most of it", name=motif.name),
            _("make it larger, or print it by block"),
        )
    return Stencil(
        name=motif.name,
        card=_ring(sheet),
        windows=tuple(_ring(part) for part in get_parts(left)),
        bridges=bridges,
        islands=islands,
        marks=register_marks((x1 - x0, y1 - y0), step),
        weak=(
            *thin("card", sheet.difference(left), width),
            *thin("window", left, LEAST_WINDOW),
        ),
        width=width,
        taken=max(0.0, float(windows.area - left.area)),
    )


def register_marks(size: tuple[float, float], step: float | None) -> tuple[Point, ...]:
    """Four marks about a motif of that size, half a step to the left and right of its middle, below and above it.

    The right ones of one print are where the left ones of the next go.  None where it does not repeat, or so far on
    that the card would grow too wide for them.
    """
    wide, high = size
    if step is None or _side(wide, step) - AROUND_MARK < step / 2 - wide / 2 - 1e-9:
        return ()
    levels = (-FROM_MOTIF, high + FROM_MOTIF)
    return tuple((wide / 2 + way * step / 2, y) for y in levels for way in (-1, 1))


def _side(wide: float, step: float) -> float:
    """Card on either side of a motif so wide, with room for the marks unless they are too far out (cm)."""
    needed = step / 2 + AROUND_MARK - wide / 2
    return max(MARGIN, needed) if needed <= MARGIN + WIDEST else MARGIN


def motif_shape(motif: Motif) -> BaseGeometry:
    """The motif's regions as one shape."""
    return shapely.union_all([Polygon(region.ring, region.holes).buffer(0) for region in motif.regions])


def thin(what: Literal["card", "window"], shape: BaseGeometry, width: float) -> tuple[Weak, ...]:
    """Where a shape is narrower than ``width`` for some way; its corners, which always are, are left out."""
    solid = shape.buffer(-width / 2, quad_segs=CURVE).buffer(width / 2 + 1e-6, quad_segs=CURVE)
    out = []
    for part in get_parts(shape.difference(solid)):
        a, b, c, d = part.bounds
        if math.hypot(c - a, d - b) <= LONG * width and not solid.is_empty:
            continue
        spots = shapely.points(shapely.get_coordinates(shapely.segmentize(part, width)))
        reach = math.inf if solid.is_empty else float(shapely.distance(spots, solid).max())
        if reach > LONG * width:
            inner = shapely.maximum_inscribed_circle(part, 0.005)
            x, y = inner.coords[0]
            out.append(Weak(what, (float(x), float(y)), 2 * float(inner.length)))
    return tuple(out)


def _ring(shape: BaseGeometry) -> Line:
    """A polygon's outer ring, counter-clockwise, not closed."""
    ring = shapely.orient_polygons(shape).exterior.coords[:-1]
    return tuple((float(x), float(y)) for x, y in ring)
