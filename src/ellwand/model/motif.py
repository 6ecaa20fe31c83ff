"""A motif: a small flat shape to be painted, stamped, embroidered or sewn on."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.geometry.lines import Line, bounds


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
