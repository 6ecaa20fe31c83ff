"""Labels to pin to the bundles of cut pieces: the garment's number large, for whom, of what, and how many pieces."""

from __future__ import annotations

from typing import Final

from ellwand.language import _, plural
from ellwand.model.company import Company, Done
from ellwand.model.names import named
from ellwand.publish.letters import cut_short
from ellwand.publish.paper import paper_for
from ellwand.publish.typst_text import FONT, compile_pdf, quoted, words

ACROSS: Final = 3
HIGH: Final = 3.7
"""Columns on the sheet, and how high a label is (cm)."""
LONGEST: Final = 26
LISTED: Final = 120
"""Signs of a name, and of the list of pieces, that there is room for."""


def labels_pdf(company: Company) -> bytes:
    """A label for every garment that can be cut, in the order of their numbers, to be cut apart along the lines."""
    paper = paper_for(company.order.unit)
    cells = [f"[{_label(n, each, company)}]" for n, each in sorted(company.done.items()) if not each.trouble]
    return compile_pdf(
        "\n".join(
            [
                f"#set document(title: {quoted(_('Labels for the bundles'))}, date: none)",
                f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm)",
                f'#set text(font: "{FONT}", size: 10pt, hyphenate: false)',
                "#set par(leading: 0.4em, spacing: 0.4em)",
                f"#grid(columns: (1fr,) * {ACROSS}, rows: {HIGH}cm, inset: 2.5mm,"
                f' stroke: (thickness: 0.5pt, dash: "dashed"), {", ".join(cells)})',
            ]
        )
    )


def _label(number: int, done: Done, company: Company) -> str:
    what = ", ".join(part for part in (named(done.garment), done.colour) if part)
    lays = [each.number for each in company.shared if each.pieces and any(number in stack for stack in each.stacks)]
    where = _("lay {numbers}", numbers=", ".join(map(str, lays))) if lays else _("by its own card")
    pieces = plural("{n} piece", "{n} pieces", done.pieces)
    return (
        f"#grid(columns: (auto, 1fr), column-gutter: 3mm, align: horizon, {words(str(number), size=30, bold=True)},"
        f" {words(cut_short(done.name, LONGEST), size=13, bold=True)})"
        f"#v(1mm)#{words(cut_short(what, 2 * LONGEST), size=11)}"
        f"#v(0.5mm)#{words(_('{pieces}, {where}', pieces=pieces, where=where), size=10)}"
        f"#v(1mm)#{words(cut_short(', '.join(done.listed), LISTED), size=8)}"
    )
