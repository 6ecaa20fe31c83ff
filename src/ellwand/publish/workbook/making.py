"""The first chapters: what is made and why it is cut so, how to measure for it, and its pieces."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.depict.exploded import exploded_sheet
from ellwand.depict.figure import number
from ellwand.depict.measuring import in_unit
from ellwand.depict.naming import cut_how, numbers, places
from ellwand.depict.sizes import extent
from ellwand.depict.spread import pieces_sheets
from ellwand.depict.view import garment_view
from ellwand.depict.view_others import view_names
from ellwand.depict.workbook.showing import fields_of, tapes_drawing
from ellwand.depict.workbook.structure import Point, opening_words, structure
from ellwand.language import _, plural
from ellwand.model.garment import Garment
from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.names import named
from ellwand.model.wearer import Measure
from ellwand.publish.letters import cut_short
from ellwand.publish.typst_text import words
from ellwand.publish.workbook.page import (
    Leaf,
    at_page,
    chapter,
    figure,
    fitted,
    pair,
    para,
    rows_table,
    section,
)
from ellwand.units import format_length

VIEW: Final = 8.0
"""How high the sewn garment is drawn (cm)."""
FIGURE: Final = 8.6
"""How high the measured figure is drawn (cm)."""
SPREAD: Final = 12.5
"""How high the garment is spread apart (cm)."""
CAPTION: Final = 2.2
"""What a caption of some lines takes below a picture as high as a page (cm)."""
BESIDES: Final = 5.6
ROW: Final = 0.45
"""What the text of the chapter on pieces takes, and each row of its table (cm)."""
LONGEST_NAME: Final = 60


def making_chapter(garment: Garment, leaf: Leaf) -> str:
    """What is made, seen sewn and spread apart, and each part of it with its reason."""
    draft, unit = garment.draft, garment.wearer.unit
    drawings = [garment_view(draft, face) for face in ("front", "back")]
    scale = min(fitted(each, (leaf.room - 0.8) / 2, VIEW) for each in drawings)
    one, other = (named(name) for name in view_names(draft))
    seen = _("The sewn garment lying flat: {one} and {other}.", one=one, other=other)
    out = [
        chapter(_("What we make and why"), "making"),
        para(opening_words(garment)),
        pair(drawings, scale, seen, seen),
    ]
    if len(draft.parts) > 1:
        spread = exploded_sheet(draft, unit, leaf.room, SPREAD, sewn=False)
        caption = _(
            "The pieces spread apart. Each lies beside the edges that it is sewn to; a line with a dot at each end"
            " joins the two edges of a seam. Numbers are those of the pieces."
        )
        alt = _("Flat pieces around the body, each beside the edge it is sewn to: {pieces}.", pieces=_names(garment))
        out.append(figure(spread.drawing, spread.scale, caption, alt, floats=True))
    out.append(section(_("Part by part")))
    out += [para(f"{point.text} {_where(garment, point)}".strip(), lead=point.term) for point in structure(garment)]
    return "\n\n".join(out)


def _names(garment: Garment) -> str:
    return ", ".join(named(piece.name) for piece in garment.draft.pieces)


def _where(garment: Garment, point: Point) -> str:
    """Which pieces it is, and on which page they are first sewn."""
    if not point.pieces:
        return ""
    draft, key = garment.draft, numbers(garment.draft.pieces)
    listed = ", ".join(str(key[piece]) for piece in point.pieces)
    parts = {part.id for part in (*draft.parts, *draft.applied) if part.piece in point.pieces}
    step = next((step for step in garment.steps if step.seams and parts & set(step.parts)), None)
    if step is None:
        return plural("(Piece {which}.)", "(Pieces {which}.)", len(point.pieces), which=listed)
    return plural(
        "(Piece {which}; first sewn in step {step}, page {page}.)",
        "(Pieces {which}; first sewn in step {step}, page {page}.)",
        len(point.pieces),
        which=listed,
        step=step.n,
        page=at_page(f"step-{step.n}"),
    )


def measuring_chapter(garment: Garment, leaf: Leaf) -> str:
    """The tapes on the figure, and of each measurement how it is taken and what it was."""
    wearer, fields = garment.wearer, fields_of(garment)
    drawing = tapes_drawing(fields)
    scale = fitted(drawing, leaf.room, FIGURE)
    name = cut_short(wearer.name, LONGEST_NAME)
    caption = _("Where the tape goes; the numbers are those of the table.")
    alt = _("A standing figure with a tape for each of these: {fields}.", fields=", ".join(_label(f) for f in fields))
    out = [
        chapter(_("How to measure"), "measuring"),
        para(
            _(
                "Find a private room and one helper, and ask before you touch. Tie a string round the natural waist."
                " Stand easily and look ahead. The tape is snug, not tight. Take everything twice, over what will be"
                " worn beneath the garment. What you write down is private: cut this page out before you lend the book."
            )
        ),
        figure(drawing, scale, caption, alt),
        rows_table(
            ("auto", "1fr", "2.1cm"),
            (_("no."), _("how it is taken"), cut_short(name, 14) if name else _("measured")),
            [_measure_row(garment, field) for field in fields],
        ),
    ]
    if any(wearer.measures[field].source == "estimated" for field in fields):
        out.append(
            para(
                _(
                    "A value with ± is estimated from the others; two in three people lie within what stands behind it."
                    " Measure it if you can, and make the sheet anew."
                )
            )
        )
    return "\n\n".join(out)


def _label(field: str) -> str:
    return _(MEASUREMENTS[field].label)


def _measure_row(garment: Garment, field: str) -> Sequence[str]:
    wearer, measurement = garment.wearer, MEASUREMENTS[field]
    how = in_unit(_(measurement.how), wearer.unit)
    if measurement.mind:
        how += "; " + in_unit(_(measurement.mind), wearer.unit)
    value = _value(wearer.measures[field], garment)
    if field == "arm_length":
        both = [f"{_(hand)} {format_length(cm, wearer.unit)}" for hand, cm in wearer.arms.items()]
        value = "; ".join(both) or value
    text = f"{words(_upper(_label(field)), bold=True)} + [ ] + {words(how + '.')}"
    return (words(str(number(field)), bold=True), text, words(value))


def _value(measure: Measure, garment: Garment) -> str:
    unit = garment.wearer.unit
    if measure.source == "measured":
        return format_length(measure.value, unit)
    return f"{format_length(measure.value, unit, mark=False)} ± {format_length(measure.sd, unit)}"


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def pieces_chapter(garment: Garment, leaf: Leaf) -> str:
    """Every piece drawn with its sizes, and the list of them."""
    draft, unit, sewing = garment.draft, garment.wearer.unit, garment.choices.sewing
    whole = leaf.tall - CAPTION
    sheets = pieces_sheets(draft, unit, leaf.room, whole - BESIDES - ROW * len(draft.pieces), whole)
    if len(sheets) > 1:
        sheets = pieces_sheets(draft, unit, leaf.room, whole, whole)
    note = _(
        "All sizes are as cut: the seam allowance of {allowance} and the hem of {hem} are in them. A full line is cut,"
        " a dashed one is sewn; dash and dot is a fold. The arrow lies along the selvedge. A short bar across the"
        " allowance is marked on the cloth: one seam ends there and the next begins.",
        allowance=format_length(sewing.allowance, unit),
        hem=format_length(sewing.hem, unit),
    )
    out = [chapter(_("The pieces"), "pieces"), para(note)]
    for i, sheet in enumerate(sheets):
        caption = _("The pieces with their sizes, 1 to {scale} of their true size.", scale=f"{1 / sheet.scale:.0f}")
        if len(sheets) > 1:
            caption += f" ({i + 1}/{len(sheets)})"
        alt = _("Measured drawings of the pieces to cut: {pieces}.", pieces=_names(garment))
        out.append(figure(sheet.drawing, sheet.scale, caption, alt, floats=True))
    out.append(
        rows_table(
            ("auto", "1fr", "auto", "auto"),
            (_("no."), _("piece"), _("cut"), _("width × length")),
            [_piece_row(garment, i) for i in range(len(draft.pieces))],
        )
    )
    out.append(para(_("How they lie on the cloth is drawn from page {page} on.", page=at_page("cloth"))))
    return "\n\n".join(out)


def _piece_row(garment: Garment, index: int) -> Sequence[str]:
    draft, unit = garment.draft, garment.wearer.unit
    piece = draft.pieces[index]
    where = places(draft, piece)
    where = "" if piece.name.startswith(where.replace(" ", "-")) else where
    wide = max(x for x, _y in piece.cut) - min(x for x, _y in piece.cut)
    size = f"{format_length(wide, unit, mark=False)} × {format_length(extent(piece).height, unit, mark=False)}"
    name = f"{named(piece.name)}: {named(where)}" if where else named(piece.name)
    return words(str(index + 1), bold=True), words(name), words(cut_how(draft, piece)), words(size)
