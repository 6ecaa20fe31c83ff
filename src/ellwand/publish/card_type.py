"""The card's type: its sizes, plain and large, and its headings."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from ellwand.publish.typst_text import words


@dataclass(frozen=True, slots=True)
class CardType:
    """Sizes in points.  ``small``: notes; ``rows``: lists of numbers; ``after``: what follows the lays.

    ``air``: above and below a row of a table; ``enlarged``: how many times as large the drawings are.
    """

    title: float
    heading: float
    text: float
    after: float
    small: float
    rows: float
    pieces: float
    foot: float
    air: float = 2.4
    enlarged: float = 1.0


PLAIN: Final = CardType(title=19.0, heading=12.5, text=10.0, after=10.0, small=9.0, rows=9.0, pieces=9.5, foot=8.5)
SMALLER: Final = replace(PLAIN, after=9.0)
TIGHT: Final = replace(PLAIN, after=8.5, rows=8.5, air=1.7)
LARGE: Final = CardType(
    title=24.0,
    heading=18.0,
    text=15.0,
    after=15.0,
    small=14.0,
    rows=14.0,
    pieces=14.0,
    foot=14.0,
    air=4.0,
    enlarged=1.75,
)
"""At least 14 points, as large print is usually set (common practice); the drawings' smallest letters have 8."""

ABOVE: Final = 0.4
"""What is left free above a heading (cm)."""


def heading(text: str, sizes: CardType = PLAIN) -> str:
    """A heading of the card."""
    return f"#block(above: {ABOVE * 10:g}mm, below: 2mm, sticky: true, {words(text, size=sizes.heading, bold=True)})"
