"""What a full-size pattern shows: every piece, or what of it chalk and a rule cannot draw."""

from __future__ import annotations

from ellwand.depict.pattern.curves import curved_parts
from ellwand.depict.pattern.fullsize import FullSize, full_size
from ellwand.depict.pattern.squares import legend, test_squares
from ellwand.model.garment import Garment

__all__ = ["FullSize", "legend", "pattern_pieces", "test_squares"]


def pattern_pieces(garment: Garment, *, only_curved: bool = False) -> tuple[FullSize, ...]:
    """Every piece once at full size, in the card's order; ``only_curved``: only its curves, with cloth about them.

    Empty when ``only_curved`` is asked of a garment that is all straight lines.
    """
    make = curved_parts if only_curved else full_size
    return tuple(each for piece in garment.draft.pieces for each in make(garment, piece))
