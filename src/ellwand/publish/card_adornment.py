"""The card's section on bands, motifs and charges."""

from __future__ import annotations

from ellwand.depict.adornment import adornment_rows
from ellwand.model.garment import Garment
from ellwand.publish.card_lays import heading
from ellwand.publish.typst_text import table, words


def adornment_section(garment: Garment, size: float) -> str:
    """All that adorns the garment, in text of ``size`` points; '' where nothing does."""
    rows = [[words(what, bold=True), words(text)] for what, text in adornment_rows(garment)]
    return heading("Adornment") + "\n" + table(["4.2cm", "1fr"], [], rows, size) if rows else ""
