"""Where each piece lies on the cloth."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.geometry.lines import Line, mirror, shift, turn


@dataclass(frozen=True, slots=True)
class Placement:
    """A part's cut outline on the cloth: mirror x if ``flip``, turn counter-clockwise, then move by (x, y).

    On folded cloth ``layers`` is 2 and ``partner`` the part cut from the other layer; a part that lies ``on_fold``
    is cut once, its middle on the fold.
    """

    piece: str
    part: str
    x: float
    y: float
    turn: float
    flip: bool
    layers: int = 1
    partner: str = ""
    on_fold: bool = False


@dataclass(frozen=True, slots=True)
class Lay:
    """One cloth's lay (cm). x runs from the left selvedge, y from the cut end.

    ``width`` and ``length`` are of the cloth on the table; ``buy_length`` allows for shrinkage and the
    seller's unit. ``lower_bound`` is a length no lay of these pieces can undercut, ``bound`` says why.
    ``use`` is the pieces' area over width × length.  ``fold`` is flat, lengthwise or crosswise: then x runs from
    the fold to the selvedges, or y from the fold, and ``length`` is of the opened cloth.  ``remnant`` counts from 1
    the left-over piece that this lay is on; 0 is the main length.
    """

    cloth: str
    width: float
    usable_width: float
    length: float
    buy_length: float
    lower_bound: float
    bound: str
    use: float
    fold: str
    engine: str
    placements: tuple[Placement, ...]
    remnant: int = 0

    @property
    def gap(self) -> float:
        """How far the length lies above the bound, as a fraction of it; 0 for an empty lay."""
        return self.length / self.lower_bound - 1 if self.lower_bound else 0.0

    @property
    def proved_best(self) -> bool:
        """Whether no lay can be shorter by the millimetre that lengths are rounded to."""
        return self.length < self.lower_bound + 0.1


def lie(line: Line, placement: Placement) -> Line:
    """A line of the piece where it lies: mirrored if flipped, turned, moved; points in the same order."""
    return shift(turn(mirror(line) if placement.flip else line, placement.turn), placement.x, placement.y)
