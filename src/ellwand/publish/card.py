"""The cut card: everything needed to chalk, cut and sew one garment, on paper."""

from __future__ import annotations

from collections.abc import Iterator

from ellwand.depict import words as say
from ellwand.depict.naming import cut_how, numbers, places
from ellwand.depict.people import estimated, measure_these, measured
from ellwand.depict.sizes import extent
from ellwand.depict.spread import drawing_bounds, pieces_sheet
from ellwand.depict.view import garment_view
from ellwand.depict.view_others import view_names
from ellwand.depict.words.blazon import arms as arms_of
from ellwand.depict.words.blazon import hatching_key
from ellwand.depict.words.pace import hours_said
from ellwand.model.garment import Garment
from ellwand.publish.card_adornment import adornment_section
from ellwand.publish.card_lays import heading, lays
from ellwand.publish.letters import cut_short
from ellwand.publish.paper import Paper, paper_for
from ellwand.publish.typst_text import (
    FONT,
    LAST_PAGE,
    PRELUDE,
    compile_pdf,
    page_count,
    picture,
    quoted,
    table,
    words,
)
from ellwand.sew.pace import totals
from ellwand.units import format_length

LONGEST_NAME = 60
SHARED = ((9.0, 10.0), (8.0, 10.0), (7.2, 10.0), (6.4, 10.0), (7.2, 9.0), (6.4, 9.0), (5.6, 9.0))
"""How high a lay may be on a page that it shares (cm), and the size of the text after it (points), best first."""
TALLEST = 12.5
"""How high it may be on a page that it has almost to itself (cm)."""


def card_pdf(garment: Garment) -> bytes:
    """The card as PDF: A4, or Letter for who reads inches; the same bytes for the same garment.

    The lay is drawn as large as lets the card end on its second page; where that cannot be, the sewing goes on a
    page of its own.
    """
    before = _opening(garment)

    def sources() -> Iterator[str]:
        return (f"{before}\n{lays(garment, _paper(garment), tall)}\n{_closing(garment, size)}" for tall, size in SHARED)

    fitting = _first_on(2, sources())
    if not fitting and len(garment.lays) > 1:
        fitting = _first_on(3, sources())
    apart = [before, lays(garment, _paper(garment), TALLEST), "#pagebreak(weak: true)", _closing(garment, 10.0)]
    return compile_pdf(fitting or "\n".join(apart))


def _first_on(pages: int, sources: Iterator[str]) -> str:
    """The first source that fills so many pages at most, or ''."""
    return next((source for source in sources if page_count(source) <= pages), "")


def _paper(garment: Garment) -> Paper:
    return paper_for(garment.wearer.unit)


def _opening(garment: Garment) -> str:
    """The setting of the pages, and the first of them."""
    paper, title = _paper(garment), _title(garment)
    return "\n".join(
        [
            f"#set document(title: {quoted(title)}, date: none)",
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm,"
            f" footer-descent: 2mm, footer: context align(right, text(size: 8.5pt, [#{words(title)},"
            " #counter(page).display() of #counter(page).final().first()])))",
            f'#set text(font: "{FONT}", size: 10pt, hyphenate: false)',
            "#set par(leading: 0.45em, spacing: 0.6em)",
            "#set table(align: left + horizon)",
            PRELUDE,
            _front_page(garment, paper, title),
        ]
    )


def _closing(garment: Garment, size: float) -> str:
    """The order of sewing, what adorns, the checks and the cautions in text of ``size`` points."""
    return "\n".join([_sewing(garment, size), adornment_section(garment, size), _findings(garment, size), LAST_PAGE])


def _title(garment: Garment) -> str:
    name = cut_short(garment.wearer.name, LONGEST_NAME)
    style = cut_short(garment.title, LONGEST_NAME)
    return f"{style[:1].upper()}{style[1:]} for {name}" if name else style[:1].upper() + style[1:]


def _front_page(garment: Garment, paper: Paper, title: str) -> str:
    unit, draft = garment.wearer.unit, garment.draft
    sewing = garment.choices.sewing
    note = (
        f"Sizes are in {'inches' if unit == 'in' else 'cm'}, as cut: the seam allowance of"
        f" {format_length(sewing.allowance, unit)} and the hem of {format_length(sewing.hem, unit)} are in them."
    )
    if garment.choices.growth is not None:
        note += (
            f" It is cut for the body expected in {garment.choices.growth.months:g} months; until then some of its"
            " length is taken up along the marked lines."
        )
    left = 8.6
    views, tall = _views(garment, left, 6.2)
    # title and note, the views or the table beside them, the key, and air
    arms = _arms(garment)
    above = 1.9 + 0.45 * len(arms) + max(tall + 0.7, 0.5 * (len(draft.pieces) + 1) + 3.2)
    sheet = pieces_sheet(draft, unit, paper.room, paper.height - 2 * paper.margin - above - 1.9)
    return "\n".join(
        [
            f"#block(below: 3mm, {words(title, size=19, bold=True)})",
            f"#{words(note)}",
            "#v(2mm)",
            f"#grid(columns: ({left}cm, 1fr), column-gutter: 6mm, [",
            views,
            "], [",
            _piece_table(garment),
            _measures(garment),
            "])",
            *arms,
            "#v(1fr)",
            f"#align(center)[{picture(sheet.drawing, sheet.scale)}]",
            "#v(1fr)",
            f"#{words(_KEY + _BAND_KEY * bool(draft.adornment.bands), size=9)}",
            "#pagebreak(weak: true)",
        ]
    )


_KEY = (
    "Full line: cut here. Dashed: sew here. Dash and dot: fold. Arrow: along the selvedge. A short bar across the"
    " allowance: mark it; there one seam ends and the next begins. The figures beside the marks count from the"
    " cut hem or cuff; those along a top edge from its left corner."
)


def _arms(garment: Garment) -> list[str]:
    """The field of front and back as heralds say it, and in plain words; each block a line or two high."""
    out = []
    rows = arms_of(garment.draft)
    for faces, blazon, plain in rows:
        where = "" if len(rows) == 1 else f"{faces[:1].upper()}{faces[1:]}: "
        out.append(f"#block(above: 1.6mm, {words(where + blazon, bold=True)} + {words('. ' + plain + '.', size=9)})")
    if key := hatching_key(garment.draft):
        out.append(f"#block(above: 1.6mm, {words('In the drawing, ' + key + '.', size=9)})")
    return out


_BAND_KEY = " Dotted: where the edge of a band will lie."


def _views(garment: Garment, width: float, height: float) -> tuple[str, float]:
    """Front and back beside each other at one scale, with captions; and their height (cm)."""
    drawings = [garment_view(garment.draft, face) for face in ("front", "back")]
    boxes = [drawing_bounds(drawing, 1.0) for drawing in drawings]
    scale = min(width * 0.48 / max(b[2] - b[0] for b in boxes), height / max(b[3] - b[1] for b in boxes))
    cells = [f"[{picture(drawing, scale)}]" for drawing in drawings]
    captions = [f"align(center, {words(text)})" for text in view_names(garment.draft)]
    grid = f"#grid(columns: (1fr, 1fr), align: center, row-gutter: 1.5mm, {', '.join(cells)}, {', '.join(captions)})"
    return grid, scale * max(b[3] - b[1] for b in boxes)


def _piece_table(garment: Garment) -> str:
    unit, key = garment.wearer.unit, numbers(garment.draft.pieces)
    rows = []
    for piece in garment.draft.pieces:
        size, where = extent(piece), places(garment.draft, piece)
        where = "" if piece.name.startswith(where.replace(" ", "-")) else where
        wide = max(x for x, _ in piece.cut) - min(x for x, _ in piece.cut)
        rows.append(
            [
                words(str(key[piece.id]), bold=True),
                words(f"{piece.name}: {where}" if where else piece.name),
                words(cut_how(garment.draft, piece).removeprefix("cut ")),
                words(f"{format_length(wide, unit, mark=False)} × {format_length(size.height, unit, mark=False)}"),
            ]
        )
    return table(["auto", "1fr", "auto", "auto"], ["no.", "piece", "cut", "width × length"], rows, 9.5)


def _measures(garment: Garment) -> str:
    out = []
    for label, text in (("Measured: ", measured(garment)), ("Estimated: ", estimated(garment))):
        if text:
            out.append(f"#block(above: 2mm, {words(label, size=9, bold=True)} + {words(text + '.', size=9)})")
    if these := measure_these(garment):
        decide = "it decides" if len(these) == 1 else "they decide"
        text = f"Measure before cutting: {' and '.join(these)}; {decide} whether the neck passes the head."
        out.append(f"#block(above: 2mm, stroke: 0.8pt, inset: 3pt, {words(text, bold=True)})")
    return "\n".join(out)


def _sewing(garment: Garment, size: float) -> str:
    if not garment.steps:
        return ""
    unit = garment.wearer.unit
    hours = hours_said(totals(garment.steps).hours, garment.choices.sewing)
    rows = [[words(str(s.n), bold=True), words(say.step(s, garment.draft, unit))] for s in garment.steps]
    return heading(f"Sewing order ({hours})") + "\n" + table(["auto", "1fr"], [], rows, size)


def _findings(garment: Garment, size: float) -> str:
    unit = garment.wearer.unit
    order = ("will not work", "look again")
    found = [f for outcome in order for f in garment.proof.findings if f.outcome == outcome]
    sound = sum(1 for f in garment.proof.findings if f.outcome == "sound")
    lasting = [f for f in garment.proof.findings if f.code == "lasts" and f.outcome == "sound"]
    out = [heading(f"Checks ({sound} of {len(garment.proof.findings)} sound)")]
    rows = []
    for f in found:
        mend = say.mend(f, unit)
        rows.append([words(f.outcome, bold=True), words(say.why(f, unit) + (f" To mend: {mend}" if mend else ""))])
    rows += [[words("good to know", bold=True), words(say.why(f, unit))] for f in lasting]
    if rows:
        out.append(table(["auto", "1fr"], [], rows, size))
    if garment.cautions:
        out.append(heading("Take care"))
        out += [f"#block(above: 1.6mm, {words('– ' + say.caution(c, unit), size=size)})" for c in garment.cautions]
    return "\n".join(out)
