"""What a garment of its own cut is tied with; a tunic has closures instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.model.others import Apron, BreechesSize, Coif, Other

CHIN: Final = 30.0
"""Each tie of a coif (cm): common practice, no source."""
WAIST: Final = 70.0
"""Each tie of an apron (cm): common practice, no source."""
ENDS: Final = 40.0
"""Of a cord beyond what it goes round, to tie (cm): common practice, no source."""


@dataclass(frozen=True, slots=True)
class Ties:
    """``count`` ties, ``each`` so long (cm); ``threaded``: a cord that runs through a casing, not sewn on."""

    count: int
    each: float
    threaded: bool = False


def ties_of(other: Other | None, settled: object) -> Ties | None:
    """The ties or the cord of a coif, an apron, or breeches with a casing; None for what has none, or a choice."""
    if isinstance(other, Coif):
        return Ties(2, CHIN)
    if isinstance(other, Apron):
        return Ties(2, WAIST)
    if isinstance(settled, BreechesSize) and not settled.band:
        return Ties(1, round(2 * settled.leg) + ENDS, threaded=True)
    return None
