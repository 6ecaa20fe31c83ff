"""How an opening is closed, in numbers (cm)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.model.choices import ClosureBy, ClosurePlace, Lacing, Lap

EASE: Final = 0.2
"""A buttonhole is so much longer than its button is wide (cm): common practice, no source."""
EYELET: Final = 0.48
"""Width of an eyelet's hole before it is worked (cm): 3/16 in, for an aglet of 1/8 in (a maker's page on aglets)."""


@dataclass(frozen=True, slots=True)
class Closing:
    """The fastenings of one kind of opening.

    ``openings``: how many such openings the garment has (two cuffs); everything else is of each one.
    ``one`` and ``other``: where the fastenings sit on its two edges (``edges``: the wearer's left and right, or front
    and back), measured along the edge from where it begins (``start``).  ``pitch``: from one to the next.
    ``pieces``: how many things to buy or make (pairs of ties, eyelets, buttons, toggles, hooks, pins); ``cord``:
    of lace, ties or loops, ends included.  ``overlap`` is 0 where the edges meet.  ``size``: how wide a button or
    toggle is, 0 for the rest; ``circle``: how wide the circle of cloth is that a cloth button is made of, else 0.
    """

    at: ClosurePlace
    by: ClosureBy
    openings: int
    length: float
    start: str
    count: int
    pitch: float
    edges: tuple[str, str]
    one: tuple[float, ...]
    other: tuple[float, ...]
    pieces: int
    cord: float
    lacing: Lacing | None
    lap: Lap
    overlap: float
    size: float = 0.0
    circle: float = 0.0

    @property
    def hole(self) -> float:
        """How long its buttonholes are (cm), 0 where it has none."""
        return self.size + EASE if self.by == "buttons" else 0.0
