"""The card's section on bands, motifs and charges."""

from __future__ import annotations

from ellwand.depict.adornment import adornment_rows
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.publish.card_type import CardType, heading
from ellwand.publish.typst_text import table, words


def adornment_section(garment: Garment, sizes: CardType) -> str:
    """All that adorns the garment; '' where nothing does."""
    rows = [[words(what, bold=True), words(text)] for what, text in adornment_rows(garment)]
    return (
        heading(_("Adornment"), sizes) + "\n" + table(["4.2cm", "1fr"], [], rows, sizes.after, air=sizes.air)
        if rows
        else ""
    )
