"""The class handout: how the garment is made, and its sizes as sums with blanks, for whoever has no more than this."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.depict.exploded import exploded_sheet, fitting_scale
from ellwand.depict.handout_others import other_sums
from ellwand.depict.handout_tunic import tunic_sums
from ellwand.depict.handout_words import (
    Bit,
    Measured,
    Rule,
    Sums,
    measures_of,
    printed,
    reckoned,
    rule_asks,
    rule_name,
    used,
    worked,
)
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.spread import Sheet, drawing_bounds
from ellwand.depict.view import garment_view
from ellwand.depict.worn import worn_view
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.names import named
from ellwand.publish.letters import cut_short
from ellwand.publish.paper import Paper, paper_for
from ellwand.publish.typst_text import FONT, LAST_PAGE, PRELUDE, compile_pdf, page_count, picture, quoted, words
from ellwand.units import Unit, format_length

TEXT: Final = 9.5
"""Size of the text and of the sums (points)."""
WORKED: Final = 8.0
"""Size of the example's line (points)."""
GREY: Final = 60
"""Its grey (0 black to 255 white): still read on a photocopy."""
SHARES: Final = (1.0, 0.86, 0.72, 0.6, 0.5, 0.4, 0.3)
"""How much of a page's height the pictures take, best first: so much that all fits its pages."""
FEW: Final = 12
"""With so many rules or fewer all goes on one page, if it can."""
BESIDE: Final = 5.8
"""The column of the sewn and the worn garment (cm)."""
ABOVE: Final = 3.4
"""What stands above and below the pictures on their page (cm)."""
BELOW: Final = 7.0
"""What the sewn and the worn garment take below wide pieces (cm)."""
LOWEST: Final = 12.0
"""They are given so much beside the pieces (cm), where there is room."""
SHORT: Final = 18
"""A shorter text is not parted by the end of a line."""
LONGEST: Final = 40


def handout_pdf(garment: Garment) -> bytes:
    """One sheet, A4 or Letter, printed on one side or on both; the same bytes each time."""
    paper = paper_for(garment.wearer.unit)
    sums = sums_of(garment.draft, garment.wearer.unit)
    around = _setting(garment, paper), _head(garment)
    below = _pieces(garment), "#v(2mm)", _sums(garment, sums)
    pictures, high = _pictures(garment, paper.room, paper.height - 2 * paper.margin - ABOVE)

    def fits(share: float, pages: int) -> bool:
        room = f"#block(height: {share * high:.3f}cm)"
        return page_count("\n".join([*around, room, *below, LAST_PAGE])) <= pages

    ways = [(share, 1) for share in SHARES if len(sums.rules) <= FEW] + [(share, 2) for share in SHARES]
    share = next((share for share, pages in ways if fits(share, pages)), SHARES[-1])
    if share < 1.0:
        pictures, _high = _pictures(garment, paper.room, share * high)
    return compile_pdf("\n".join([*around, pictures, *below]))


def sums_of(draft: Draft, unit: Unit) -> Sums:
    """The sums of any garment."""
    return other_sums(draft, unit) if draft.choices.other is not None else tunic_sums(draft, unit)


def _style(garment: Garment) -> str:
    title = named(garment.title)
    return cut_short(title[:1].upper() + title[1:], LONGEST)


def _setting(garment: Garment, paper: Paper) -> str:
    title = _("{garment}: handout", garment=_style(garment))
    return "\n".join(
        [
            f"#set document(title: {quoted(title)}, date: none)",
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm)",
            f'#set text(font: "{FONT}", size: {TEXT}pt, hyphenate: false)',
            "#set par(leading: 0.5em, spacing: 0.6em)",
            PRELUDE,
            BLANKS,
        ]
    )


BLANKS: Final = """
#let blank = box(width: 13mm, height: 4.2mm, baseline: 0.6mm, stroke: (bottom: 0.6pt))
#let result(letter) = box(width: 24mm, height: 6mm, stroke: 0.8pt, inset: 1.2mm, align(left + horizon, letter))
"""


def _head(garment: Garment) -> str:
    if garment.draft.seams:
        text = _(
            "The flat pieces lie where they are sewn; a line with a dot at each end joins the two edges of a seam. What"
            " is joined on one side is joined on the other side too."
        )
    else:
        text = _("It is cut in one piece and has no seams.")
    return "\n".join(
        [
            f"#block(below: 2mm, {words(_style(garment), size=20, bold=True)})",
            f"#block(below: 3mm, {words(text, size=10)})",
        ]
    )


def _pictures(garment: Garment, room: float, most: float) -> tuple[str, float]:
    """Flat pieces, sewn, worn, and how high that is (cm): the pieces at the left of the others, or above where wide."""
    draft, unit = garment.draft, garment.wearer.unit
    beside, below = (room - BESIDE - 0.8, most), (room, max(3.0, most - BELOW))
    flat, worn = garment_view(draft, "front"), worn_view(draft, garment.wearer)
    style = _style(garment)
    pieces_alt = _("The flat pieces round the body, each beside the edge that it is sewn to: {garment}.", garment=style)
    sewn_alt = _("The sewn garment from the front, lying flat: {garment}.", garment=style)
    worn_alt = _("The garment as it is worn, from the front: {garment}.", garment=style)
    if fitting_scale(draft, *below) > 1.15 * fitting_scale(draft, *beside):
        wide = exploded_sheet(draft, unit, *below, sewn=False)
        left, right = (_fitted(each, room / 2 - 1.0, BELOW - 1.4) for each in (flat, worn))
        cells = ", ".join([_told(left, _("sewn"), sewn_alt), _told(right, _("worn"), worn_alt)])
        others = f"grid(columns: (1fr, 1fr), align: center + bottom, {cells})"
        high = wide.height + max(left.height, right.height) + 1.2
        return f"#align(center, [{_drawn(wide, pieces_alt)}])\n#v(2mm)\n#{others}", high
    tall = exploded_sheet(draft, unit, *beside, sewn=False)
    # the others are as high together as the pieces, but no lower than can be seen
    high = max(tall.height, min(most, LOWEST))
    left = _fitted(flat, BESIDE, 0.4 * (high - 2.2))
    right = _fitted(worn, BESIDE, high - 2.2 - left.height)
    cells = ", ".join([_told(left, _("sewn"), sewn_alt), _told(right, _("worn"), worn_alt)])
    column = f"grid(columns: 1, row-gutter: 4mm, align: center, {cells})"
    both = (
        f"#grid(columns: (1fr, {BESIDE}cm), column-gutter: 8mm, align: (center + horizon, center + horizon),"
        f" [{_drawn(tall, pieces_alt)}], {column})"
    )
    return both, high


def _fitted(drawing: Drawing, width: float, height: float) -> Sheet:
    x0, y0, x1, y1 = drawing_bounds(drawing, 1.0)
    scale = min(width / (x1 - x0), height / (y1 - y0))
    return Sheet(drawing, scale, (x1 - x0) * scale, (y1 - y0) * scale)


def _drawn(sheet: Sheet, alt: str) -> str:
    """The picture, and what it shows for who reads by ear."""
    return (
        f'#figure(kind: "picture", supplement: none, outlined: false, alt: {quoted(alt)},'
        f" [{picture(sheet.drawing, sheet.scale)}])"
    )


def _told(sheet: Sheet, caption: str, alt: str) -> str:
    return f"[#align(center)[{_drawn(sheet, alt)}\n#block(above: 1.5mm, {words(caption, size=10)})]]"


def _pieces(garment: Garment) -> str:
    key = numbers(garment.draft.pieces)
    said = "; ".join(
        f"{key[piece.id]} {named(piece.name)} ({cut_how(garment.draft, piece)})" for piece in garment.draft.pieces
    )
    return f"#block(above: 3mm, below: 1mm, {words(_('Pieces:') + ' ', bold=True)} + {words(said + '.')})"


def _sums(garment: Garment, sums: Sums) -> str:
    """Every rule as a row: its name, what to reckon with, a box for what it comes to, and the example below."""
    unit = garment.wearer.unit
    measured = measures_of(garment.wearer, garment.cloths[0].width if garment.cloths else 150.0)
    values = reckoned(sums, measured)
    rows = [_row(sums, rule, values, measured, unit) for rule in sums.rules]
    measure = ", ".join(_(MEASUREMENTS[field].label) for field in used(sums))
    name = cut_short(garment.wearer.name, LONGEST)
    who = _("In small grey figures, for example: {name}.", name=name)
    lines = [
        _("Measure: {these}.", these=measure),
        _("Fill in the lines, reckon from left to right, and write the result in the box; its letter is used again."),
        _("Round: to the nearest {grid}; round up: to the next larger.", grid=format_length(sums.grid, unit)),
        _("Sizes are as sewn: add seam and hem allowances all round when you chalk.") + f" {who}",
    ]
    heading = f"#block(above: 3mm, below: 2mm, sticky: true, {words(_('Your own sizes'), size=14, bold=True)})"
    told = "\n".join(f"#block(above: 1.2mm, below: 1.2mm, sticky: true, {words(line)})" for line in lines)
    return f"{heading}\n{told}\n" + "\n".join(rows)


RULE: Final = "(bottom: 0.25pt + luma(140))"


def _row(sums: Sums, rule: Rule, values: dict[str, float], measured: Measured, unit: Unit) -> str:
    name = words(_upper(rule_name(rule)), bold=rule.shown)
    bits = _bits(printed(sums, rule, unit))
    said = worked(sums, rule, values, measured, unit) if rule_asks(rule) else ""
    example = f"text(size: {WORKED}pt, fill: luma({GREY}), {words(said)})"
    note = f"; block(above: 1mm, {words(sums.notes[rule.key], size=9)})" if rule.key in sums.notes else ""
    letter = words(sums.letters().get(rule.key, ""), bold=True)
    middle = f"{{par({bits}); block(above: 1mm, {example}){note}}}"
    row = (
        "grid(columns: (4.6cm, 1fr, auto), column-gutter: 3mm,"
        f" align: (left + horizon, left + horizon, right + horizon), {name}, {middle}, result({letter}))"
    )
    return f"#block(breakable: false, width: 100%, above: 0mm, below: 0mm, inset: (y: 0.8mm), stroke: {RULE}, {row})"


def _bits(bits: Sequence[Bit]) -> str:
    """The words with their lines to write on; a sign stays with what follows it."""
    space = words(" ")
    out: list[str] = []
    sign = ""
    for bit in bits:
        if bit.sign:
            sign += f"{words(bit.text)} + {space} + "
        elif bit.blank:
            out.append(f"box({sign}{words(bit.text)} + {space} + blank)")
            sign = ""
        else:
            short = len(bit.text) <= SHORT
            out.append(f"box({sign}{words(bit.text)})" if short else f"{sign}{words(bit.text)}")
            sign = ""
    return f" + {space} + ".join(out)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
