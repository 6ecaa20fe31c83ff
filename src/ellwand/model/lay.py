"""Where each piece lies on the cloth."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ellwand.geometry.lines import Line, bounds, mirror, shift, turn
from ellwand.model.piece import Piece


@dataclass(frozen=True, slots=True)
class Placement:
    """A part's cut outline on the cloth: mirror x if ``flip``, turn counter-clockwise, then move by (x, y).

    On folded cloth ``layers`` is 2 and ``partner`` the part cut from the other layer; a part that lies ``on_fold``
    is cut once, its middle on the fold.  ``selvedge`` is left or right where a straight edge lies in that selvedge.
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
    selvedge: str = ""


_OTHER = {"": "", "left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class Lay:
    """One cloth's lay (cm). x runs from the left selvedge, y from the cut end.

    ``width`` and ``length`` are of the cloth on the table; ``buy_length`` allows for shrinkage and the
    seller's unit. ``lower_bound`` is a length no lay of these pieces can undercut, ``bound`` says why.
    ``use`` is the pieces' area over width × length.  ``fold`` is flat, lengthwise or crosswise: then x runs from
    the fold to the selvedges, or y from the fold, and ``length`` is of the opened cloth.  ``remnant`` counts from 1
    the left-over piece that this lay is on; 0 is the main length.  ``outline``: the left-over's, where it is no
    rectangle.

    A cloth that is folded for what can be cut double and lies flat for the rest has two lays: the second begins at
    ``start`` from the cut end, where the first ends.  ``buy_length`` is then the first one's, for both; left-overs
    have none.
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
    outline: Line = ()
    start: float = 0.0

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


def opened(lay: Lay) -> Lay:
    """The same lay on the flat cloth, its outside up: every part once, where it lies when the fold is opened.

    The second of two parts is the first one's mirror image about the fold.
    """
    if lay.fold == "flat":
        return lay
    out = []
    for one in lay.placements:
        if lay.fold == "lengthwise":
            near = replace(one, x=round(one.x + lay.width / 2, 6))
            far = replace(one, x=round(lay.width / 2 - one.x, 6), turn=-one.turn % 360, selvedge=_OTHER[one.selvedge])
        else:
            near = replace(one, y=round(one.y + lay.length / 2, 6))
            far = replace(one, y=round(lay.length / 2 - one.y, 6), turn=(180 - one.turn) % 360)
        out.append(replace(near, layers=1, partner="", on_fold=False))
        if one.layers == 2:
            out.append(replace(far, part=one.partner, flip=not one.flip, layers=1, partner=""))
    return replace(lay, fold="flat", placements=tuple(out))


def other_face(placement: Placement, piece: Piece) -> Placement:
    """The same outline in the same place with the other face up, for a piece that is its own mirror image."""
    left, _, right, _ = bounds(piece.cut)
    ((dx, dy),) = turn((((left + right) * (-1 if placement.flip else 1), 0.0),), placement.turn)
    return replace(placement, flip=not placement.flip, x=round(placement.x + dx, 6), y=round(placement.y + dy, 6))
