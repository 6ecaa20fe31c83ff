"""How a garment is written down: PDF, SVG, CSV, Markdown, JSON."""

from __future__ import annotations

from ellwand.publish.card import card_pdf
from ellwand.publish.files import chalk_csv, lay_svg, pieces_svg, sewing_md
from ellwand.publish.svg import svg

__all__ = ["card_pdf", "chalk_csv", "lay_svg", "pieces_svg", "sewing_md", "svg"]
