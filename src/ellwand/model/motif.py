"""A motif: a small flat shape to be painted, stamped, embroidered or sewn on.

It is made of filled regions only; who wants its lines (an embroiderer's outline, say) takes the regions' rings.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ellwand.geometry.lines import Line, Point, area, backwards, bounds


@dataclass(frozen=True, slots=True)
class Region:
    """One filled shape in cm, y upward: a ring (counter-clockwise, not closed) with holes (clockwise)."""

    ring: Line
    holes: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Motif:
    """Regions that do not overlap; the lowest and leftmost point of all is (0, 0)."""

    name: str
    regions: tuple[Region, ...]

    @property
    def size(self) -> tuple[float, float]:
        """(width, height) in cm."""
        x0, y0, x1, y1 = bounds([point for region in self.regions for point in region.ring])
        return x1 - x0, y1 - y0


def motif_of(name: str, rings: Iterable[tuple[Line, tuple[Line, ...]]], width: float) -> Motif:
    """A motif ``width`` cm wide from (ring, holes) in any unit, place and sense; y upward."""
    kept = tuple(rings)
    x0, y0, x1, _ = bounds([point for ring, _ in kept for point in ring])
    scale = width / (x1 - x0)

    def there(line: Line, sense: int) -> Line:
        moved = tuple(((x - x0) * scale, (y - y0) * scale) for x, y in line)
        return moved if area(moved) * sense > 0 else backwards(moved)

    return Motif(name, tuple(Region(there(ring, 1), tuple(there(hole, -1) for hole in holes)) for ring, holes in kept))


def sized(motif: Motif, width: float) -> Motif:
    """The same motif ``width`` cm wide."""
    return motif_of(motif.name, ((region.ring, region.holes) for region in motif.regions), width)


def motif_area(motif: Motif) -> float:
    """What it covers (cm²)."""
    return math.fsum(area(ring) for region in motif.regions for ring in (region.ring, *region.holes))


def placed_line(line: Line, middle: Point, at: Point, degrees: float, mirrored: bool) -> Line:
    """A line of a motif whose middle is ``middle``, with that middle laid on ``at``: mirrored left to right if
    ``mirrored``, then turned counter-clockwise; a mirrored ring changes its sense."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    sign = -1.0 if mirrored else 1.0
    return tuple(
        (at[0] + c * dx * sign - s * dy, at[1] + s * dx * sign + c * dy)
        for dx, dy in ((x - middle[0], y - middle[1]) for x, y in line)
    )
