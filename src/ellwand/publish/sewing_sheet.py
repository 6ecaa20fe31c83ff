"""The illustrated sewing order: every step with its picture and what is to be known of it, on A4 or Letter."""

from __future__ import annotations

from typing import Final

from ellwand.depict import words as say
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.step_facts import step_facts
from ellwand.depict.step_view import section, step_drawing
from ellwand.depict.step_view.legend import legend
from ellwand.depict.stitches import HEAD, stitch_rows
from ellwand.depict.words.pace import hours_said, whose_pace
from ellwand.depict.words.step_asking import FINISH_NAMES, finishing
from ellwand.depict.words.step_names import step_named
from ellwand.language import _
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
SAID: Final = 12.0
FACTS: Final = 10.0
"""Sizes of the sentences and of the facts beside them (points): to be read in a hall with little light."""


def sewing_pdf(garment: Garment) -> bytes:
    """The sewing order with a picture for every step: A4, or Letter for who reads inches; the same bytes each time."""
    paper = paper_for(garment.wearer.unit)
    out = [_setting(garment, paper), _head(garment, paper)]
    out += [_step(garment, step) for step in garment.steps]
    out += [_stitches(garment), _cautions(garment)]
    return compile_pdf("\n".join(out))


def _title(garment: Garment) -> str:
    name, style = (cut_short(text, LONGEST_NAME) for text in (garment.wearer.name, named(garment.title)))
    style = style[:1].upper() + style[1:]
    return _("{garment} for {name}", garment=style, name=name) if name else style


def _order(title: str) -> str:
    return _("Sewing order: {garment}", garment=title)


def _setting(garment: Garment, paper: Paper) -> str:
    title, order = _title(garment), _("Sewing order")
    pages = _("{page} of {pages}", page="#counter(page).display()", pages="#counter(page).final().first()")
    return "\n".join(
        [
            f"#set document(title: {quoted(_order(title))}, date: none)",
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: (x: {paper.margin}cm, top: 1.9cm,"
            f" bottom: 1.6cm), header-ascent: 4mm, footer-descent: 4mm, header: text(size: 9pt, grid(columns:"
            f" (1fr, auto), {words(title)}, {words(order)})), footer: context align(right, text(size: 9pt,"
            f" [{pages}])))",
            f'#set text(font: "{FONT}", size: {FACTS}pt, hyphenate: false)',
            "#set par(leading: 0.5em, spacing: 0.7em)",
            "#set table(align: left + top)",
            PRELUDE,
        ]
    )


def _head(garment: Garment, paper: Paper) -> str:
    """Title, how long it takes, how a seam is finished, what the signs mean, and the pieces by their numbers."""
    sewing = garment.choices.sewing
    hours = hours_said(totals(garment.steps).hours, sewing)
    line = _("{count} steps, {hours}. Pieces are numbered as on the cut card.", count=len(garment.steps), hours=hours)
    signs = legend()
    seams = _("Seams: {finish}. {how}", finish=_(FINISH_NAMES[sewing.finish]), how=finishing(sewing.finish))
    finish = (
        f"grid(columns: (3.6cm, 1fr), column-gutter: 4mm, align: horizon, [{picture(section(sewing.finish), 1.15)}],"
        f" {words(seams, size=FACTS + 1)})"
    )
    return "\n".join(
        [
            f"#block(below: 2mm, {words(_order(_title(garment)), size=19, bold=True)})",
            f"#block(below: 3mm, {words(line, size=11)})",
            f"#{finish}",
            "#v(2mm)",
            f"#block(stroke: 0.6pt, inset: 2.5mm, width: {paper.room}cm, [{picture(signs, 1.0)}])",
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


def _step(garment: Garment, step: Step) -> str:
    """Number and name, the picture, the sentence and the facts; never parted by the end of a page."""
    unit, draft = garment.wearer.unit, garment.draft
    drawing = step_drawing(step, draft, unit, garment.steps)
    rows = ", ".join(
        f"{words(name, size=FACTS, italic=True)}, {words(text, size=FACTS)}"
        for name, text in step_facts(step, draft, unit)
    )
    facts = f"table(columns: (1.5cm, 1fr), stroke: none, inset: (x: 0pt, y: 2pt), column-gutter: 1mm, {rows})"
    # how a seam is finished stands in the head
    text = say.step(step, draft, unit).removesuffix(finishing(garment.choices.sewing.finish)).rstrip()
    said = f"block(below: 2.5mm, {words(text, size=SAID)})"
    title = f"block(below: 2mm, {words(f'{step.n}  {step_named(step.code)}', size=15, bold=True)})"
    right = f"{{{title}; {said}; {facts if rows else 'none'}}}"
    return (
        "#block(breakable: false, width: 100%, above: 0mm, below: 0mm, inset: (y: 2.5mm), stroke: (top: 0.6pt),"
        f" grid(columns: ({PICTURE}cm, 1fr), column-gutter: 5mm, align: top, [{picture(drawing, 1.0)}], {right}))"
    )


def _stitches(garment: Garment) -> str:
    rows = [[words(cell) for cell in row] for row in stitch_rows(garment)]
    if not rows:
        return ""
    title = f"block(above: 4mm, below: 2mm, {words(_('Stitches'), size=13, bold=True)})"
    body = table(["auto"] * len(HEAD), [_(word) for word in HEAD], rows, FACTS)
    note = f"block(above: 2mm, {words(whose_pace(garment.choices.sewing))})"
    return f"#block(breakable: false, width: 100%, [#{title}\n{body}\n#{note}])"


def _cautions(garment: Garment) -> str:
    if not garment.cautions:
        return ""
    unit = garment.wearer.unit
    said = [f"#block(above: 1.6mm, {words('– ' + say.caution(each, unit))})" for each in garment.cautions]
    return f"#block(above: 4mm, below: 2mm, {words(_('Take care'), size=13, bold=True)})\n" + "\n".join(said)
