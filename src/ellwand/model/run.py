"""A run: a line on the sewn garment that goes from part to part, as a neck, a hem or a ring round a sleeve does."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from ellwand.geometry.lines import Line, length

ClothOn = Literal["left", "right", "both"]
"""On which hand the cloth lies of someone who walks the line on the piece's outside face; ``both``: inside a piece."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """What of a run lies on one part: ``points`` in the coordinates of its piece (cm), as they are walked.

    ``edge``: the edge it follows, or '' where it crosses the piece.  A mirrored part's piece is drawn the other way
    round: there, left and right change places.
    """

    part: str
    edge: str
    points: Line
    cloth: ClothOn

    @property
    def length(self) -> float:
        """Centimetres."""
        return length(self.points)


@dataclass(frozen=True, slots=True)
class Run:
    """Stretches end to end.  A closed one begins at the centre front, or where the band's join would be hidden.

    Seen from outside, a run round the body goes from the wearer's centre front toward the wearer's left; one round an
    arm begins at its seam; one along an opening begins at its upper end.
    ``corners``: how far along (cm) it turns sharply; ``seams``: how far along it crosses a seam.
    """

    name: str
    stretches: tuple[Stretch, ...]
    closed: bool
    corners: tuple[float, ...] = ()
    seams: tuple[float, ...] = ()

    @property
    def length(self) -> float:
        """Centimetres."""
        return math.fsum(stretch.length for stretch in self.stretches)
