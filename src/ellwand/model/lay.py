"""Where each piece lies on the cloth."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.geometry.lines import Line, mirror, shift, turn


@dataclass(frozen=True, slots=True)
class Placement:
    """A part's cut outline on the cloth: mirror x if ``flip``, turn counter-clockwise, then move by (x, y)."""

    piece: str
    part: str
    x: float
    y: float
    turn: float
    flip: bool
    layers: int = 1


@dataclass(frozen=True, slots=True)
class Lay:
    """One cloth's lay (cm). x runs from the left selvedge, y from the cut end.

    ``width`` and ``length`` are of the cloth on the table; ``buy_length`` allows for shrinkage and the
    seller's unit. ``lower_bound`` is a length no lay of these pieces can undercut, ``bound`` says why.
    ``use`` is the pieces' area over width × length.
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


def lie(line: Line, placement: Placement) -> Line:
    """A line of the piece where it lies: mirrored if flipped, turned, moved; points in the same order."""
    return shift(turn(mirror(line) if placement.flip else line, placement.turn), placement.x, placement.y)
