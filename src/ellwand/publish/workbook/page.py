"""The workbook's page and type: chapters, paragraphs, figures with numbers, and pages that are referred to."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.depict.spread import drawing_bounds
from ellwand.language import _, language
from ellwand.model.drawing import Drawing
from ellwand.publish.letters import spelled
from ellwand.publish.typst_text import FONT, PRELUDE, picture, quoted, words
from ellwand.units import Unit

SERIF: Final = "Libertinus Serif"
TEXT: Final = 10.0
"""Size of the text (points)."""
SMALL: Final = 8.5
"""Of tables, captions and what stands beside pictures."""
INSIDE: Final = 1.8
OUTSIDE: Final = 1.5
ABOVE: Final = 2.0
BELOW: Final = 1.8
"""Margins (cm): the wider ones at the fold and above."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page of the book (cm)."""

    width: float
    height: float

    @property
    def room(self) -> float:
        """Width of the text."""
        return self.width - INSIDE - OUTSIDE

    @property
    def tall(self) -> float:
        """Height of the text."""
        return self.height - ABOVE - BELOW


A5: Final = Leaf(14.8, 21.0)
HALF_LETTER: Final = Leaf(13.97, 21.59)


def leaf_for(unit: Unit) -> Leaf:
    """A5, or half Letter for who reads inches."""
    return HALF_LETTER if unit == "in" else A5


_PAGE: Final = re.compile("\x02([a-z0-9-]+)\x03")


def at_page(place: str) -> str:
    """Stands in a sentence for the page of that place in the book."""
    return f"\x02{place}\x03"


def said(text: str, *, bold: bool = False, italic: bool = False, size: float | None = None) -> str:
    """A sentence as a Typst expression, with the pages that it names as links."""
    parts = _PAGE.split(text)
    out = []
    for i, part in enumerate(parts):
        if i % 2:
            out.append(f"seite(<{part}>)")
        elif part:
            out.append(_spaced(part, bold=bold, italic=italic, size=size))
    return " + ".join(out) if out else words("")


def _spaced(text: str, *, bold: bool, italic: bool, size: float | None) -> str:
    """Spaces at either end are kept, which the spelling of foreign letters takes away."""
    before, after = text[: len(text) - len(text.lstrip(" "))], text[len(text.rstrip(" ")) :]
    body = words(text.strip(" "), size=size, bold=bold, italic=italic)
    return " + ".join([*(["[ ]"] if before else []), body, *(["[ ]"] if after else [])])


def para(text: str, *, lead: str = "") -> str:
    """A paragraph; ``lead`` stands before it in small bold sans."""
    if not lead:
        return f"#par({said(text)})"
    return f"#par(kopf({quoted(spelled(lead))}) + h(0.6em) + {said(text)})"


def chapter(title: str, place: str, *, fresh: bool = True) -> str:
    """A chapter's head, on a ``fresh`` page or below what went before."""
    before = "#pagebreak(weak: true)" if fresh else "#v(12mm, weak: true)"
    return f"{before}\n#heading(level: 1, {quoted(spelled(title))}) <{place}>"


def section(title: str, place: str = "") -> str:
    """A heading within a chapter."""
    return f"#heading(level: 2, {quoted(spelled(title))})" + (f" <{place}>" if place else "")


def figure(
    drawing: Drawing, scale: float, caption: str, alt: str, *, enlarged: float = 1.0, floats: bool = False
) -> str:
    """A drawing with its number, caption and what it shows in words for who cannot see it.

    ``enlarged``: lettering and lines too; ``floats``: it goes to the head or foot of a page, and the text about it.
    """
    return _figure([picture(drawing, scale, enlarged=enlarged)], caption, alt, floats=floats)


def pair(drawings: Sequence[Drawing], scale: float, caption: str, alt: str) -> str:
    """Drawings beside each other as one figure."""
    return _figure([picture(drawing, scale) for drawing in drawings], caption, alt, floats=False)


def _figure(pictures: Sequence[str], caption: str, alt: str, *, floats: bool) -> str:
    cells = ", ".join(f"[{each}]" for each in pictures)
    body = f"grid(columns: {len(pictures)}, column-gutter: 6mm, align: center + bottom, {cells})"
    return (
        f"#figure(kind: image, supplement: {quoted(_('Figure'))}, alt: {quoted(alt)}, caption: [#{{{said(caption)}}}],"
        f" placement: {'auto' if floats else 'none'}, text(font: schrift, hyphenate: false, {body}))"
    )


def fitted(drawing: Drawing, width: float, height: float, most: float = 1.0) -> float:
    """The scale at which a drawing without lettering fits (paper cm per cm), ``most`` at most."""
    x0, y0, x1, y1 = drawing_bounds(drawing, 1.0)
    return min(most, width / (x1 - x0), height / (y1 - y0))


def rows_table(columns: Sequence[str], head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table with its head on every page; cells and widths are Typst, heads are words."""
    heads = ", ".join(f"strong({quoted(spelled(each))})" for each in head)
    cells = ",\n".join(", ".join(row) for row in rows)
    return (
        f"#block(above: 3mm, below: 4mm, klein({{set par(justify: false)\n"
        f" table(columns: ({', '.join(columns)},), align: left + top, inset: (x: 2pt, y: 2.6pt), stroke: (_, y) =>"
        f" (bottom: if y == 0 {{ 0.7pt }} else {{ 0.25pt + luma(140) }}), table.header({heads}),\n{cells})}}))"
    )


def facts_grid(rows: Sequence[tuple[str, str]]) -> str:
    """Small facts under their names."""
    cells = ", ".join(f"{words(name, italic=True)}, {words(text)}" for name, text in rows)
    return (
        f"#block(above: 3.5mm, klein({{set par(justify: false)\n"
        f" grid(columns: (1.7cm, 1fr), row-gutter: 1.8mm, column-gutter: 2mm, {cells})}}))"
    )


def setting(leaf: Leaf, title: str) -> str:
    """The whole book's page, heads and type.

    The left page bears the book's title above, the right one its chapter's; the numbers stand outside below.
    """
    return "\n".join(
        [
            f"#set document(title: {quoted(spelled(title))}, date: none)",
            f'#let schrift = "{FONT}"',
            f'#set text(font: ("{SERIF}", "{FONT}"), lang: "{language()}", size: {TEXT}pt, hyphenate: true)',
            "#set par(justify: true, leading: 0.62em, spacing: 1.05em)",
            '#let kopf(body) = text(font: schrift, size: 9pt, weight: "bold", body)',
            "#let seite(place) = link(place, context str(counter(page).at(place).first()))",
            "#let klein(body) = text(font: schrift, size: 8.5pt, hyphenate: false, body)",
            f"#let buch = {quoted(spelled(title))}",
            _RUNNING,
            f'#set page(width: {leaf.width}cm, height: {leaf.height}cm, numbering: "1", margin: (inside: {INSIDE}cm,'
            f" outside: {OUTSIDE}cm, top: {ABOVE}cm, bottom: {BELOW}cm), header-ascent: 6mm, footer-descent: 6mm,"
            " header: kolumne, footer: zahl)",
            _HEADINGS,
            PRELUDE,
        ]
    )


_RUNNING: Final = """#let kolumne = context {
  let n = here().page()
  let heads = query(heading.where(level: 1))
  let opens = heads.any(each => each.location().page() == n)
  if n > 1 and not opens {
    let sofar = heads.filter(each => each.location().page() < n)
    let chapter = if sofar.len() > 0 { sofar.last().body } else { buch }
    set text(font: schrift, size: 8pt)
    if calc.even(n) { align(left, buch) } else { align(right, chapter) }
  }
}
#let zahl = context {
  let n = here().page()
  if n > 1 {
    set text(font: schrift, size: 9pt)
    align(if calc.even(n) { left } else { right }, counter(page).display())
  }
}"""
"""The head of a page on which a chapter begins stays empty."""

_HEADINGS: Final = """#show heading: set text(font: schrift, hyphenate: false)
#show heading: set par(justify: false)
#show heading.where(level: 1): set text(size: 17pt)
#show heading.where(level: 1): set block(below: 6mm, sticky: true)
#show heading.where(level: 2): set text(size: 11.5pt)
#show heading.where(level: 2): set block(above: 6mm, below: 3mm, sticky: true)
#show figure: set block(above: 4.5mm, below: 5mm, breakable: false)
#show figure.caption: set text(font: schrift, size: 8.5pt, hyphenate: false)
#show figure.caption: set par(justify: false)
#show figure.caption: set align(left)
#set figure.caption(separator: [. ])
#set figure(gap: 2.5mm)
#set place(clearance: 6mm)"""
