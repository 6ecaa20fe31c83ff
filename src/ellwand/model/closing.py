"""How an opening is closed, in numbers (cm)."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.model.choices import ClosureBy, ClosurePlace, Lacing, Lap


@dataclass(frozen=True, slots=True)
class Closing:
    """The fastenings of one kind of opening.

    ``openings``: how many such openings the garment has (two cuffs); everything else is of each one.
    ``one`` and ``other``: where the fastenings sit on its two edges (``edges``: the wearer's left and right, or front
    and back), measured along the edge from where it begins (``start``).  ``pitch``: from one to the next.
    ``pieces``: how many things to buy or make (pairs of ties, eyelets, buttons, toggles, hooks, pins); ``cord``:
    of lace, ties or loops, ends included.  ``overlap`` is 0 where the edges meet.
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
    minutes: float
    thread_m: float
