"""The chapter on the cloth: what to buy, how it is washed first, the lay, and what is chalked in which order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.tearing import block_chalk, tear_rows
from ellwand.depict.words.lays import how_it_lies, how_short, lay_name, measured_from
from ellwand.language import _
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.model.tearing import TearPlan
from ellwand.publish.card_lays import LayPart, chalk_text, lay_parts
from ellwand.publish.card_type import PLAIN
from ellwand.publish.typst_text import words
from ellwand.publish.workbook.page import Leaf, at_page, chapter, figure, para, rows_table, section


def cloth_chapter(garment: Garment, leaf: Leaf) -> str:
    """Buying, washing, the lays and the chalk."""
    out = [chapter(_("The cloth and the lay"), "cloth"), section(_("What to buy"))]
    out += [para(text, lead=_upper(what)) for what, text in shopping_rows(garment)]
    out += [section(_("Before you cut")), *_before(garment)]
    torn = {plan.lay: plan for plan in garment.tears}
    for part in lay_parts(garment, PLAIN):
        name = _upper(lay_name(part.lay, garment.lays))
        out += [
            section(name),
            para(f"{how_it_lies(part.lay, garment.wearer.unit)} {_short(garment, part.lay)}".strip()),
        ]
        drawing, scale = _largest(part, leaf.room, leaf.tall - 4.5)
        names = {piece.id: named(piece.name) for piece in garment.draft.pieces}
        laid = ", ".join(dict.fromkeys(names[each.piece] for each in part.lay.placements))
        alt = _("The cloth on the table, with these pieces on it: {pieces}.", pieces=laid)
        out.append(figure(drawing, scale, _caption(part.lay, torn), alt, floats=True))
        out += _torn(garment, torn[part.lay]) if part.lay in torn else _chalked(garment, part.lay)
    return "\n\n".join(out)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _short(garment: Garment, lay: Lay) -> str:
    return how_short(lay, garment.wearer.unit)


def _before(garment: Garment) -> Iterator[str]:
    if any(not cloth.washed and cloth.wash == "before" for cloth in garment.cloths):
        yield para(
            _(
                "Wash the cloth as you will wash the garment, before it is cut; run a thread along raw ends first, so"
                " that they do not fray. Dry it lying or hanging over its whole width, and press it along the threads."
            )
        )
    if any(not cloth.washed and cloth.wash == "after" for cloth in garment.cloths):
        yield para(
            _(
                "Cloth that is cut unwashed shrinks in its first wash; the pieces are cut for the cloth as it is, so"
                " wash the garment cool."
            )
        )
    yield para(
        _(
            "Straighten the ends: pull one thread out across the cloth and cut along the gap. Look at the cloth against"
            " the light for holes and stains, and put a thread through each."
        )
    )
    yield para(
        _(
            "Measure every length twice and cut once. Lay all pieces out before the first cut. Scissors and rotary"
            " knives cut fingers: keep the other hand behind the blade, and close them when you put them down."
        )
    )


def _caption(lay: Lay, torn: dict[Lay, TearPlan]) -> str:
    along, across = measured_from(lay)
    if lay in torn:
        return _("The cloth with its tears, numbered in their order.")
    return _(
        "How the pieces lie, by their numbers. The small figures are distances: from {along} / from {across}.",
        along=along,
        across=across,
    )


def _chalked(garment: Garment, lay: Lay) -> Iterator[str]:
    along, across = measured_from(lay)
    yield para(
        _(
            "Chalk in this order. For each corner: its letter, how far it lies from {along} / from {across}. The"
            " letters run against the clock, from the corner nearest {along}. Join them with straight lines; arcs are"
            " swung with a string. The pieces are drawn from page {page} on.",
            along=along,
            across=across,
            page=at_page("pieces"),
        ),
        lead=_("Chalk list"),
    )
    rows = _steps(chalk_rows(lay, garment.draft.pieces, garment.wearer.unit))
    yield rows_table(
        ("auto", "auto", "2.4cm", "1fr"),
        (_("step"), _("no."), _("piece"), _("chalk at")),
        [
            (
                words(str(each[0].step)),
                words(str(each[0].key), bold=True),
                words(f"{named(each[0].piece)} {named(each[0].part)}".strip()),
                words(chalk_text(each, garment.wearer.unit)),
            )
            for each in rows
        ],
    )


def _torn(garment: Garment, plan: TearPlan) -> Iterator[str]:
    unit = garment.wearer.unit
    yield para(
        _(
            "Cut into the edge for the width of a thumb, then tear along the thread, in this order. Tear gently at the"
            " end."
        ),
        lead=_("Tear in this order"),
    )
    tears = [(words(str(row.n)), words(row.words)) for row in tear_rows(plan, unit)]
    yield rows_table(("auto", "1fr"), (_("no."), _("tear")), tears)
    blocks = block_chalk(plan, garment.draft.pieces, unit)
    if blocks:
        yield para(
            _(
                "Some pieces are still to be cut in the torn blocks. For each corner: its letter, how far it lies from"
                " the block's lower end / from its left edge, as the block lay in the cloth."
            ),
            lead=_("In the blocks"),
        )
        cells = [
            (
                words(block.name, bold=True),
                words(f"{row[0].key} {named(row[0].piece)}"),
                words(chalk_text(row, unit)),
            )
            for block, rows in blocks
            for row in _steps([replace(row, note="" if row.what == "corner" else row.note) for row in rows])
        ]
        yield rows_table(("auto", "2.4cm", "1fr"), (_("block"), _("piece"), _("chalk at")), cells)


def _steps(rows: Sequence[ChalkRow]) -> list[list[ChalkRow]]:
    """The rows of each piece together."""
    return [list(each) for _step, each in groupby(rows, key=lambda row: row.step)]


def _largest(part: LayPart, width: float, height: float) -> tuple[Drawing, float]:
    """The lay, lying or upright, as large as the page allows."""
    part = part.fit_for(width, height)
    sizes = {lying: part.size(lying) for lying in (True, False)}
    starts = {lying: min(width / across, height / up) for lying, (across, up) in sizes.items()}
    found: list[tuple[Drawing, float]] = []
    for lying, most in sorted(starts.items(), key=lambda each: -each[1]):
        if found and found[0][1] >= 0.9 * most:
            break
        across, up = sizes[lying]
        scale = 0.9 * most
        while True:
            drawing = part.draw(scale, lying)
            x0, y0, x1, y1 = drawing_bounds(drawing, scale)
            wide, high = (x1 - x0) * scale, (y1 - y0) * scale
            if wide <= width and high <= height:
                break
            # what is written round the cloth is as wide at every scale
            fits = min((width - wide) / across + scale, (height - high) / up + scale)
            scale = max(0.7 * scale, min(0.98 * scale, 0.998 * fits))
        found.append((drawing, scale))
    return max(found, key=lambda each: each[1])
