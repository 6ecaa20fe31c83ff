"""A shared lay on paper: drawn across as many pages as its length needs, to be laid end to end."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.laying import lay_drawing
from ellwand.depict.spread import drawing_bounds
from ellwand.language import _
from ellwand.model.cloth import Cloth
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece
from ellwand.publish.paper import paper_for
from ellwand.publish.typst_text import FONT, PRELUDE, compile_pdf, picture, quoted, words
from ellwand.units import Unit, format_length

HEAD: Final = 1.5
"""Room for the heading (cm)."""
TWICE: Final = 10.0
"""So much of the cloth's length (cm) is drawn on two pages."""
LARGEST: Final = 0.12
"""Paper cm per cm of cloth at most."""


def lay_pdf(lay: Lay, pieces: Sequence[Piece], cloth: Cloth, unit: Unit, title: str) -> bytes:
    """The lay on lying A4, or Letter for who reads inches; every page says from where to where it goes."""
    paper = paper_for(unit)
    room, high = paper.height - 2 * paper.margin, paper.width - 2 * paper.margin - HEAD
    length = laid_size(lay)[1]
    scale = LARGEST
    for _try in range(4):
        drawing = lay_drawing(lay, pieces, unit, cloth=cloth, scale=scale, lying=True)
        left, low, right, top = drawing_bounds(drawing, scale)
        if (top - low) * scale <= high:
            break
        scale *= high / ((top - low) * scale) * 0.995
    step = room / scale - TWICE
    whole = picture(drawing, scale)
    pages: list[str] = []
    start = left
    while not pages or start + TWICE < right:
        first, last = (format_length(min(max(end, 0.0), length), unit) for end in (start, start + room / scale))
        said = _("{start} to {end} from the cut end", start=first, end=last)
        pages.append(
            f"#block(height: {HEAD}cm, below: 0pt, grid(columns: (1fr, auto), {words(title, size=13, bold=True)},"
            f" {words(said, size=11)}))\n"
            f"#box(width: {room}cm, height: {high}cm, clip: true, place(dx: {-(start - left) * scale:.4f}cm, lay))"
        )
        start += step
    return compile_pdf(
        "\n".join(
            [
                f"#set document(title: {quoted(title)}, date: none)",
                f"#set page(width: {paper.height}cm, height: {paper.width}cm, margin: {paper.margin}cm)",
                f'#set text(font: "{FONT}", size: 10pt, hyphenate: false)',
                PRELUDE,
                f"#let lay = [{whole}]",
                "\n#pagebreak()\n".join(pages),
            ]
        )
    )
