"""A stencil: a card with windows to paint through, and the bridges that hold its islands."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from ellwand.geometry.lines import Line, Point, area, bounds, length


@dataclass(frozen=True, slots=True)
class Bridge:
    """A straight strip of card left standing, ``width`` wide, from ``a`` to ``b`` (cm; the middle of its ends).

    ``across``: how far it runs across a window; 0 where it only widens a neck of card, which is less than half its
    width.
    """

    a: Point
    b: Point
    width: float
    across: float


@dataclass(frozen=True, slots=True)
class Weak:
    """A place of the card that tears easily, or of a window that is hard to cut and to paint: about ``width`` wide."""

    what: Literal["card", "window"]
    at: Point
    width: float


@dataclass(frozen=True, slots=True)
class Stencil:
    """A card of one piece, in the coordinates of its motif (cm, y upward).

    ``windows`` are cut out: rings counter-clockwise, none with a hole.  ``islands``: pieces of card that would have
    fallen out; ``bridges`` hold them, and widen necks of card narrower than ``width``.  ``marks``: holes to be
    pricked; a right one over the left one of the print before sets the next print.  ``taken``: what the bridges take
    from the motif (cm²).
    """

    name: str
    card: Line
    windows: tuple[Line, ...]
    bridges: tuple[Bridge, ...]
    islands: int
    marks: tuple[Point, ...]
    weak: tuple[Weak, ...]
    width: float
    taken: float

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the card (cm)."""
        x0, y0, x1, y1 = bounds(self.card)
        return x1 - x0, y1 - y0

    @property
    def area(self) -> float:
        """What is painted (cm²)."""
        return math.fsum(area(ring) for ring in self.windows)

    @property
    def cut_length(self) -> float:
        """How much the knife cuts, the card's own edge apart (cm)."""
        return math.fsum(length((*ring, ring[0])) for ring in self.windows)
