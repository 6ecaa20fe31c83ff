"""droop.pdf: how to measure a cloth for hanging, with the wedge to cut out; one page."""

from __future__ import annotations

from typing import Final

from ellwand.depict.droop import wedge
from ellwand.language import N_, _
from ellwand.publish.paper import paper_for
from ellwand.publish.typst_text import FONT, PRELUDE, compile_pdf, picture, quoted, words
from ellwand.units import Unit

STANDARD: Final = 41.5
"""The slope (degrees) of the standard test (BS 3356; ISO 9073-7)."""
WEIGHT: Final = (
    N_("Weight: cut a square of 20 cm by 20 cm and weigh it in grams. Times 25 it is grams."),
    N_("Bending length: cut a strip 2.5 cm wide and 25 cm long along the warp, one along the weft, one on the bias."),
    N_(
        "Paste the wedge on card, cut it out and stand it upright at the edge of a table, its level edge flush with it."
    ),
    N_(
        "Lay the strip on the table, a rule on it, and push both slowly over the edge until the tip sinks to the slope."
    ),
    N_(
        "Half of what hangs over is the bending length: bends_warp, bends_weft, bends_bias. Turn the strip over, take"
        " both ends, and use the mean of the four."
    ),
    N_("A strip too stiff or too short for the slope: measure its overhang and angle, and ask ellwand droop."),
    N_(
        "Stretch: hang 500 g on a strip 5 cm wide, marks 20 cm apart on it. What it gains in mm, times 0.5, is what"
        " it gives in 100: gives_warp, gives_weft."
    ),
    N_("Check the print first: from 0 to 10 it must be 10 cm."),
)


def droop_pdf(unit: Unit = "cm") -> bytes:
    """The page: A4, or Letter for who reads inches; the same bytes each time."""
    paper = paper_for(unit)
    lines = [
        f"#set document(title: {quoted(_('Measuring a cloth'))}, date: none)",
        f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm)",
        f'#set text(font: "{FONT}", size: 11pt)',
        PRELUDE,
        f"#{words(_('Measuring a cloth'), size=20, bold=True)}",
        "#v(3mm)",
    ]
    for number, text in enumerate(WEIGHT, 1):
        lines.append(f"#grid(columns: (8mm, 1fr), {words(f'{number}.')}, {words(_(text))})\n#v(1.5mm)")
    lines += ["#v(6mm)", f"#align(center)[{picture(wedge(STANDARD), 1.0)}]"]
    return compile_pdf("\n".join(lines))
