"""Names of garments, pieces, edges and places: each has words of its own in every language."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from ellwand.choose import STYLES
from ellwand.errors import BadInput
from ellwand.language import speaking
from ellwand.model.heraldry import PLAIN_CHARGES, Ordinary, Tincture
from ellwand.model.names import NAMES, named
from ellwand.model.piece import EdgeKind
from ellwand.model.repeat import MOTIFS
from sweep import garments, made

FIXED: Any = {*STYLES, *get_args(EdgeKind), *get_args(Ordinary), *get_args(Tincture), *PLAIN_CHARGES, *MOTIFS}


def test_what_the_sheet_can_name_has_a_name() -> None:
    assert FIXED <= NAMES


def left_english(text: str) -> set[str]:
    """Words that are shown as they are."""
    with speaking("de"):
        shown = named(text).replace(",", "").split()
    return {word for word in text.replace(",", "").split() if word in shown and not word.isdigit()}


def test_pieces_and_lines_of_any_garment_are_named() -> None:
    left: set[str] = set()
    for tables, person in garments(31, 150):
        try:
            garment = made(tables, person)
        except BadInput:
            continue
        adornment = garment.draft.adornment
        for text in (
            *(piece.name for piece in garment.draft.pieces),
            *(edge.kind for piece in garment.draft.pieces for edge in piece.edges),
            *(line.run.name for line in (*adornment.bands, *adornment.repeats)),
        ):
            left |= left_english(text)
    assert left == set()


@pytest.mark.parametrize(
    "english, german",
    [
        ("body, or, lower left of the front", "Rumpf, Gold, unten links vorn"),
        ("back, gules, upper back", "Rückenbahn, Rot, oben hinten"),
        ("centre-front half gore left", "halber Keil vordere Mitte links"),
        ("neck strip on the bias 2", "Halsstreifen im schrägen Fadenlauf 2"),
        ("no such piece", "no such piece"),
    ],
)
def test_names_are_looked_up_in_parts(english: str, german: str) -> None:
    assert named(english) == english
    with speaking("de"):
        assert named(english) == german
