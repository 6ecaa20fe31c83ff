"""Single files of a garment: pieces and lay as SVG, the chalk list as CSV, the sewing order as Markdown."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence

from ellwand.depict import words as say
from ellwand.depict.adornment import adornment_rows
from ellwand.depict.chalk import chalk_rows
from ellwand.depict.laying import lay_drawing
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.spread import pieces_sheet
from ellwand.depict.step_facts import facts_line
from ellwand.depict.stitches import HEAD, stitch_rows
from ellwand.depict.words.lays import lay_name
from ellwand.depict.words.pace import hours_said, whose_pace
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.publish.svg import svg
from ellwand.publish.text import clean
from ellwand.sew.pace import totals
from ellwand.units import CM_PER, Unit

LAY_SCALE = 0.1
"""Paper cm per cm of the lay's SVG."""
CSV_HEAD = (
    "step",
    "no",
    "piece",
    "part",
    "what",
    "corner",
    "from_cut_end",
    "from_left_selvedge",
    "radius",
    "to_from_cut_end",
    "to_from_left_selvedge",
    "unit",
    "note",
)


def pieces_svg(garment: Garment) -> str:
    """Every piece with its sizes, at one scale, on a sheet as wide as A3."""
    sheet = pieces_sheet(garment.draft, garment.wearer.unit, 40.0, 27.0)
    return svg(
        sheet.drawing,
        sheet.scale,
        _("{garment}: pieces for {name}", garment=named(garment.title), name=garment.wearer.name),
    )


def lay_svg(garment: Garment, lay: Lay) -> str:
    """The lay at one to ten, its cut end at the left."""
    cloth = next(each for each in garment.cloths if each.name == lay.cloth)
    drawing = lay_drawing(lay, garment.draft.pieces, garment.wearer.unit, cloth=cloth, scale=LAY_SCALE, lying=True)
    title = _(
        "{garment}, {lay}: for {name}",
        garment=named(garment.title),
        lay=lay_name(lay, garment.lays),
        name=garment.wearer.name,
    )
    return svg(drawing, LAY_SCALE, title)


def chalk_csv(garment: Garment, lay: Lay) -> str:
    """The chalk list; lengths in the wearer's unit as decimals."""
    return chalk_list(lay, garment.draft.pieces, garment.wearer.unit)


def chalk_list(lay: Lay, pieces: Sequence[Piece], unit: Unit) -> str:
    """The same of any pieces; those of several garments say whose they are in a column of its own."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    shared = any(piece.bundle for piece in pieces)
    writer.writerow([*(["garment"] if shared else []), *CSV_HEAD])
    for row in chalk_rows(lay, pieces, unit):
        is_slit = row.what == "slit"
        writer.writerow(
            [
                *([row.bundle] if shared else []),
                row.step,
                row.key,
                row.piece,
                row.part,
                row.what,
                row.letter,
                _decimal(row.along, unit),
                _decimal(row.across, unit),
                _decimal(row.radius, unit) if row.radius else "",
                _decimal(row.to_along, unit) if is_slit else "",
                _decimal(row.to_across, unit) if is_slit else "",
                unit,
                row.note,
            ]
        )
    return out.getvalue()


def _decimal(cm: float, unit: Unit) -> str:
    return f"{round(cm / CM_PER[unit], 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def sewing_md(garment: Garment) -> str:
    """What to buy, the sewing order and the cautions as Markdown."""
    unit = garment.wearer.unit
    title = _("{garment} for {name}", garment=named(garment.title), name=garment.wearer.name)
    lines = [f"# {_plain(title)}", ""]
    lines += [f"- {what}: {_plain(text)}" for what, text in shopping_rows(garment)]
    sewing = garment.choices.sewing
    lines += ["", "## " + _("Sewing order ({hours})", hours=hours_said(totals(garment.steps).hours, sewing)), ""]
    for step in garment.steps:
        lines.append(f"{step.n}. {_plain(say.step(step, garment.draft, unit))}")
        if facts := facts_line(step, garment.draft, unit):
            lines.append(f"    - {_plain(facts)}")
    if trims := adornment_rows(garment):
        lines += ["", "## " + _("Adornment"), ""]
        lines += [f"- {_plain(f'{what}: {text}' if what else text)}" for what, text in trims]
    lines += [
        "",
        "## " + _("Stitches"),
        "",
        *_table([_(word) for word in HEAD], stitch_rows(garment)),
        "",
        _plain(whose_pace(sewing)),
    ]
    if garment.cautions:
        lines += ["", "## " + _("Take care"), ""]
        lines += [f"- {_plain(say.caution(each, unit))}" for each in garment.cautions]
    return "\n".join(lines) + "\n"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    return ["| " + " | ".join(cells) + " |" for cells in (head, ["---"] * len(head), *rows)]


def _plain(text: str) -> str:
    """Text that Markdown shows as it is."""
    return re.sub(r"([\\`*_\[\]<>#|~])", r"\\\1", clean(text))
