"""The workbook put together: title, contents and the chapters in their order."""

from __future__ import annotations

import re
from typing import Final

from ellwand.depict.view import garment_view
from ellwand.depict.workbook.glossary import glossary
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.publish.letters import cut_short
from ellwand.publish.typst_text import compile_pdf, picture, quoted, words
from ellwand.publish.workbook.cloth import cloth_chapter
from ellwand.publish.workbook.ending import care_chapter, caution_chapter, glossary_chapter, source_chapter
from ellwand.publish.workbook.making import making_chapter, measuring_chapter, pieces_chapter
from ellwand.publish.workbook.page import Leaf, at_page, fitted, leaf_for, para, said, setting
from ellwand.publish.workbook.sewing import adornment_chapter, sewing_chapter

LONGEST_NAME: Final = 60
LONGEST_TITLE: Final = 48
"""Signs of the name on the first page, and of the running head."""
_STRINGS: Final = re.compile(r'text\([^"]*"((?:[^"\\]|\\.)*)"')


def workbook_pdf(garment: Garment) -> bytes:
    """The workbook as PDF for all (PDF/UA-1): A5 pages in reading order, or half Letter for who reads inches.

    The same bytes each time.
    """
    leaf = leaf_for(garment.wearer.unit)
    body = [
        making_chapter(garment, leaf),
        measuring_chapter(garment, leaf),
        pieces_chapter(garment, leaf),
        cloth_chapter(garment, leaf),
        sewing_chapter(garment, leaf),
        adornment_chapter(garment, leaf),
        care_chapter(garment),
        caution_chapter(garment),
    ]
    told = "\n".join(body)
    body += [glossary_chapter(glossary(" ".join(_STRINGS.findall(told)))), source_chapter(garment)]
    source = "\n".join([setting(leaf, _running(garment)), _title_page(garment, leaf), _contents(), *body])
    return compile_pdf(source, standards=("ua-1",))


def _style(garment: Garment, most: int) -> str:
    style = named(garment.title)
    return cut_short(style[:1].upper() + style[1:], most)


def _running(garment: Garment) -> str:
    style, name = _style(garment, 30), cut_short(garment.wearer.name, 30)
    if name:
        return cut_short(_("Workbook: {garment} for {name}", garment=style, name=name), LONGEST_TITLE)
    return cut_short(_("Workbook: {garment}", garment=style), LONGEST_TITLE)


def _title_page(garment: Garment, leaf: Leaf) -> str:
    """What it is, for whom, and the garment as it will be."""
    drawing = garment_view(garment.draft, "front")
    scale = fitted(drawing, leaf.room, 9.5)
    name = cut_short(garment.wearer.name, LONGEST_NAME)
    lines = [said(_("A workbook"), size=12), f"title({words(_style(garment, 60))})"]
    if name:
        lines.append(said(name, size=14))
    alt = _("The sewn garment from the front, lying flat: {garment}.", garment=_style(garment, 60))
    drawn = (
        f'#figure(kind: "title", supplement: none, outlined: false, alt: {quoted(alt)}, [{picture(drawing, scale)}])'
    )
    use = _("Read the first chapter, measure, then work on from page to page.")
    return "\n".join(
        [
            "#{",
            "set par(justify: false)",
            "set text(font: schrift, hyphenate: false)",
            "set align(center)",
            "show title: set text(size: 26pt)",
            "v(1.2cm)",
            "\nv(3mm)\n".join(f"par({line})" if not line.startswith("title") else line for line in lines),
            "v(1fr)",
            f"[{drawn}]",
            "v(1fr)",
            f"par({said(use, italic=True)})",
            "}",
        ]
    )


def _contents() -> str:
    """Chapters with their pages, and what else there is on paper."""
    title = quoted(_("Contents"))
    papers = _(
        "The cut card has all sizes on a page or two, for the cutting table; the sewing order is there for the wall."
        " This book tells the same at length, with the reasons. It is made for one person and one cloth: for another,"
        " make a new one from the sheet."
    )
    measures = _(
        "Sizes of pieces are given as cut, with all allowances, where nothing else is said. Read every step to its end"
        " before you take the needle, and try each new thing on a scrap."
    )
    return "\n".join(
        [
            "#pagebreak()",
            "#show outline.entry: set block(above: 2.2mm)",
            f"#outline(depth: 1, title: {title})",
            "#v(6mm)",
            para(papers),
            para(measures),
            para(_("Something is unclear? The glossary on page {page} explains the words.", page=at_page("glossary"))),
        ]
    )
