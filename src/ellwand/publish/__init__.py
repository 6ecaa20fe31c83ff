"""How a garment, or what is to be measured for it, is written down: PDF, SVG, CSV, Markdown, JSON."""

from __future__ import annotations

from ellwand.publish.card import card_pdf
from ellwand.publish.files import chalk_csv, lay_svg, pieces_svg, sewing_md
from ellwand.publish.measuring_form import measuring_form_csv, measuring_form_pdf
from ellwand.publish.sewing_sheet import sewing_pdf
from ellwand.publish.svg import svg
from ellwand.publish.tearing import block_csv, tear_csv, tear_svg

__all__ = [
    "block_csv",
    "card_pdf",
    "chalk_csv",
    "lay_svg",
    "measuring_form_csv",
    "measuring_form_pdf",
    "pieces_svg",
    "sewing_md",
    "sewing_pdf",
    "svg",
    "tear_csv",
    "tear_svg",
]
