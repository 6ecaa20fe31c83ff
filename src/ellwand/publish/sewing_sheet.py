"""The illustrated sewing order: every step with its picture and what is to be known of it, on A4 or Letter."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.depict import words as say
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.step_facts import step_facts
from ellwand.depict.step_view import section, step_drawing
from ellwand.depict.step_view.legend import legend
from ellwand.depict.stitches import HEAD, stitch_rows
from ellwand.depict.words.pace import hours_said, whose_pace
from ellwand.depict.words.step_asking import FINISH_NAMES, finishing
from ellwand.depict.words.step_names import step_named
from ellwand.language import _
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.model.step import Step
from ellwand.publish.letters import cut_short
from ellwand.publish.paper import Paper, paper_for
from ellwand.publish.typst_text import FONT, PRELUDE, compile_pdf, picture, quoted, table, words
from ellwand.sew.pace import totals

LONGEST_NAME: Final = 50
PICTURE: Final = 8.2
"""The column of the pictures (cm)."""


@dataclass(frozen=True, slots=True)
class Type:
    """Sizes in points; ``enlarged``: how many times as large the drawings are; ``beside``: they stand beside the text.

    ``names``: the column of the facts' names (cm).
    """

    title: float = 19.0
    step: float = 15.0
    heading: float = 13.0
    said: float = 12.0
    line: float = 11.0
    facts: float = 10.0
    foot: float = 9.0
    enlarged: float = 1.0
    beside: bool = True
    names: float = 1.5


PLAIN: Final = Type()
"""To be read in a hall with little light."""
LARGE: Final = Type(24.0, 20.0, 18.0, 17.0, 15.0, 14.0, 14.0, 2.0, beside=False, names=2.4)
"""At least 14 points, as large print is usually set (common practice)."""


def sewing_pdf(garment: Garment) -> bytes:
    """The sewing order with a picture for every step: A4, or Letter for who reads inches; the same bytes each time."""
    paper, of = paper_for(garment.wearer.unit), LARGE if garment.choices.sewing.large_type else PLAIN
    out = [_setting(garment, paper, of), _head(garment, paper, of)]
    out += [_step(garment, step, of) for step in garment.steps]
    out += [_stitches(garment, of), _cautions(garment, of)]
    return compile_pdf("\n".join(out))


def _title(garment: Garment) -> str:
    name, style = (cut_short(text, LONGEST_NAME) for text in (garment.wearer.name, named(garment.title)))
    style = style[:1].upper() + style[1:]
    return _("{garment} for {name}", garment=style, name=name) if name else style


def _order(title: str) -> str:
    return _("Sewing order: {garment}", garment=title)


def _setting(garment: Garment, paper: Paper, of: Type) -> str:
    title, order = _title(garment), _("Sewing order")
    pages = _("{page} of {pages}", page="#counter(page).display()", pages="#counter(page).final().first()")
    return "\n".join(
        [
            f"#set document(title: {quoted(_order(title))}, date: none)",
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: (x: {paper.margin}cm, top: 1.9cm,"
            f" bottom: 1.6cm), header-ascent: 4mm, footer-descent: 4mm, header: text(size: {of.foot}pt, grid(columns:"
            f" (1fr, auto), {words(title)}, {words(order)})), footer: context align(right, text(size: {of.foot}pt,"
            f" [{pages}])))",
            f'#set text(font: "{FONT}", size: {of.facts}pt, hyphenate: false)',
            "#set par(leading: 0.5em, spacing: 0.7em)",
            "#set table(align: left + top)",
            PRELUDE,
        ]
    )


def _head(garment: Garment, paper: Paper, of: Type) -> str:
    """Title, how long it takes, how a seam is finished, what the signs mean, and the pieces by their numbers."""
    sewing = garment.choices.sewing
    hours = hours_said(totals(garment.steps).hours, sewing)
    line = _("{count} steps, {hours}. Pieces are numbered as on the cut card.", count=len(garment.steps), hours=hours)
    signs = picture(legend(3 if of.beside else 1), 1.0, enlarged=min(of.enlarged, 1.6))
    seams = _("Seams: {finish}. {how}", finish=_(FINISH_NAMES[sewing.finish]), how=finishing(sewing.finish))
    finish = (
        f"grid(columns: ({3.6 * of.enlarged}cm, 1fr), column-gutter: 4mm, align: horizon,"
        f" [{picture(section(sewing.finish), 1.15, enlarged=of.enlarged)}],"
        f" {words(seams, size=of.line)})"
    )
    return "\n".join(
        [
            f"#block(below: 2mm, {words(_order(_title(garment)), size=of.title, bold=True)})",
            f"#block(below: 3mm, {words(line, size=of.line)})",
            f"#{finish}",
            "#v(2mm)",
            f"#block(stroke: 0.6pt, inset: 2.5mm, width: {paper.room}cm, [{signs}])",
            f"#{_pieces(garment)}",
        ]
    )


def _pieces(garment: Garment) -> str:
    key = numbers(garment.draft.pieces)
    said = "; ".join(
        f"{key[piece.id]} {named(piece.name)} ({cut_how(garment.draft, piece)})" for piece in garment.draft.pieces
    )
    head = f"{_('Pieces')}: "
    return f"block(above: 3mm, below: 4mm, {words(head, bold=True)} + {words(said + '.')})"


def _step(garment: Garment, step: Step, of: Type) -> str:
    """Number and name, the picture, the sentence and the facts; parted by the end of a page only in large type."""
    unit, draft = garment.wearer.unit, garment.draft
    drawing = step_drawing(step, draft, unit, garment.steps)
    rows = ", ".join(
        f"{words(name, size=of.facts, italic=True)}, {words(text, size=of.facts)}"
        for name, text in step_facts(step, draft, unit)
    )
    facts = f"table(columns: ({of.names}cm, 1fr), stroke: none, inset: (x: 0pt, y: 2pt), column-gutter: 1mm, {rows})"
    # how a seam is finished stands in the head
    text = say.step(step, draft, unit).removesuffix(finishing(garment.choices.sewing.finish)).rstrip()
    said = f"block(below: 2.5mm, {words(text, size=of.said)})"
    title = f"block(below: 2mm, sticky: true, {words(f'{step.n}  {step_named(step.code)}', size=of.step, bold=True)})"
    told = f"{said}; {facts if rows else 'none'}"
    if of.beside:
        shown = f"[{picture(drawing, 1.0)}]"
        body = f"grid(columns: ({PICTURE}cm, 1fr), column-gutter: 5mm, align: top, {shown}, {{{title}; {told}}})"
    else:
        shown = f"[{picture(drawing, 1.0, enlarged=_fitted(drawing, paper_for(unit).room, of))}]"
        body = f"{{{title}; block(breakable: false, sticky: true, {shown}); {told}}}"
    whole = "true" if not of.beside else "false"
    return (
        f"#block(breakable: {whole}, width: 100%, above: 0mm, below: 0mm, inset: (y: 2.5mm), stroke: (top: 0.6pt),"
        f" {body})"
    )


def _fitted(drawing: Drawing, room: float, of: Type) -> float:
    """How many times as large it is drawn: as the type says, or less where it would be wider than its room (cm)."""
    x0, _y0, x1, _y1 = drawing_bounds(drawing, 1.0)
    return min(of.enlarged, room / (x1 - x0)) if of.enlarged > 1 else 1.0


def _stitches(garment: Garment, of: Type) -> str:
    rows = [[words(cell) for cell in row] for row in stitch_rows(garment)]
    if not rows:
        return ""
    title = f"block(above: 4mm, below: 2mm, {words(_('Stitches'), size=of.heading, bold=True)})"
    body = table(["auto"] * len(HEAD), [_(word) for word in HEAD], rows, of.facts)
    note = f"block(above: 2mm, {words(whose_pace(garment.choices.sewing))})"
    return f"#block(breakable: false, width: 100%, [#{title}\n{body}\n#{note}])"


def _cautions(garment: Garment, of: Type) -> str:
    if not garment.cautions:
        return ""
    unit = garment.wearer.unit
    said = [f"#block(above: 1.6mm, {words('– ' + say.caution(each, unit))})" for each in garment.cautions]
    return f"#block(above: 4mm, below: 2mm, {words(_('Take care'), size=of.heading, bold=True)})\n" + "\n".join(said)
