"""What a pin or brooch does to the cloth that it goes through, where the cloth's weight is known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft
from ellwand.model.finding import Caution
from ellwand.model.others import CloakSize
from ellwand.model.piece import cloth_in

THIN: Final = 150.0
"""Lighter cloth (g/m²) is dragged down and torn by a heavy pin: common practice, no source; the figure is our own."""
CM2: Final = 1e4
"""In a square metre."""


def pinned(draft: Draft, cloths: Sequence[Cloth]) -> tuple[Caution, ...]:
    """Cautions for a garment that is closed with pins, and for a cloak, all of which may hang from one."""
    cloak = isinstance(draft.settled, CloakSize)
    grams = cloths[0].grams
    if grams is None or not (cloak or any(closing.by == "pins" for closing in draft.closings)):
        return ()
    out = []
    if cloak:
        weights = [
            (cloth.grams or grams) / CM2 * cloth_in([piece for piece in draft.pieces if piece.cloth == cloth.name])
            for cloth in cloths
        ]
        out.append(Caution("pin-carries", {"grams": math.fsum(weights)}))
    if grams < THIN:
        out.append(Caution("pin-thin", {"grams": grams}))
    return tuple(out)
