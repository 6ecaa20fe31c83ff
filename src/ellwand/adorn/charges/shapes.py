"""Plain charges that can be cut from cloth and turned under all round, drawn in a box one high.

A coat of arms leaves their drawing to the maker; the proportions are our own, but for the billet, twice as high as it
is wide, and the mullet, a star of five points (Fox-Davies, A Complete Guide to Heraldry; the billet from memory).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Final

from shapely import Point as Spot
from shapely import Polygon, box, union_all
from shapely.affinity import rotate

from ellwand.geometry.lines import Line
from ellwand.model.motif import Motif, motif_of

ROUND: Final = 24
"""Steps in a quarter of a circle."""


def _disc(x: float, y: float, radius: float) -> Polygon:
    return Spot(x, y).buffer(radius, quad_segs=ROUND)


def _roundel() -> Polygon:
    return _disc(0.0, 0.0, 0.5)


def _annulet() -> Polygon:
    return _roundel().difference(_disc(0.0, 0.0, 0.3))


def _lozenge() -> Polygon:
    return Polygon(((-0.36, 0.0), (0.0, -0.5), (0.36, 0.0), (0.0, 0.5)))


def _billet() -> Polygon:
    return box(-0.25, -0.5, 0.25, 0.5)


def _mullet() -> Polygon:
    """Straight-sided: each inner corner lies on the line between two points that are not neighbours."""
    inner = math.sin(math.radians(18)) / math.sin(math.radians(54))
    radii = (1.0, inner)
    turns = [math.pi / 2 + math.pi * n / 5 for n in range(10)]
    return Polygon([(radii[n % 2] * math.cos(a), radii[n % 2] * math.sin(a)) for n, a in enumerate(turns)])


def _crescent() -> Polygon:
    """Its horns upward, blunt enough to be turned under."""
    moon = _roundel().difference(_disc(0.0, 0.2, 0.36))
    return moon.difference(box(-1.0, 0.36, 1.0, 1.0))


def _couped_cross() -> Polygon:
    return box(-0.15, -0.5, 0.15, 0.5).union(box(-0.5, -0.15, 0.5, 0.15))


def _escutcheon() -> Polygon:
    """A shield with round sides: each is an arc about the other upper corner."""
    wide = 0.8
    sides = _disc(-wide / 2, 0.1, wide).intersection(_disc(wide / 2, 0.1, wide))
    return union_all([sides.intersection(box(-1.0, -1.0, 1.0, 0.1)), box(-wide / 2, 0.1, wide / 2, 0.4)])


def _heart() -> Polygon:
    return rotate(union_all([box(0.0, 0.0, 0.5, 0.5), _disc(0.25, 0.5, 0.25), _disc(0.5, 0.25, 0.25)]), 45, (0.0, 0.0))


CHARGES: Final[Mapping[str, Callable[[], Polygon]]] = {
    "roundel": _roundel,
    "annulet": _annulet,
    "lozenge": _lozenge,
    "billet": _billet,
    "mullet": _mullet,
    "crescent": _crescent,
    "cross couped": _couped_cross,
    "escutcheon": _escutcheon,
    "heart": _heart,
}
"""By name."""


def plain_charge(name: str) -> Motif | None:
    """One of the plain charges, 1 cm high; None for a name that is none of them."""
    if name not in CHARGES:
        return None
    shape = CHARGES[name]()
    low, high = shape.bounds[1], shape.bounds[3]
    width = (shape.bounds[2] - shape.bounds[0]) / (high - low)
    return motif_of(name, [(_line(shape.exterior.coords), tuple(_line(h.coords) for h in shape.interiors))], width)


def _line(coords: object) -> Line:
    return tuple((float(x), float(y)) for x, y in list(coords)[:-1])  # type: ignore[call-overload]
