"""Every file of one garment by its name, each made when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from typing import Final, Literal

from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.names import named

ROLL: Final = 90.0
"""Paper on the roll for the long sheet is so wide (cm)."""


def files_of(garment: Garment) -> Mapping[str, Callable[[], bytes]]:
    """What there is of the garment: a name, and what makes the file's bytes.

    Where there are several lays, each has a drawing and a chalk list of its own: lay.svg, lay-2.svg and so on.
    """
    from ellwand.publish import card_pdf, chalk_csv, lay_svg, pieces_svg, sewing_md, sewing_pdf
    from ellwand.publish.dxf import cutter_dxf, pattern_dxf
    from ellwand.publish.exploded_svg import exploded_svg
    from ellwand.publish.garment_json import garment_json
    from ellwand.publish.garment_svg import garment_svg
    from ellwand.publish.handout import handout_pdf
    from ellwand.publish.pattern import pattern_pdf
    from ellwand.publish.svg_layers import pattern_svg
    from ellwand.publish.workbook import booklet_pdf, workbook_pdf

    workbook = cache(partial(workbook_pdf, garment))
    files: dict[str, Callable[[], bytes]] = {
        "card.pdf": lambda: card_pdf(garment),
        "garment.json": lambda: garment_json(garment).encode(),
        "pieces.svg": lambda: pieces_svg(garment).encode(),
        "garment.svg": lambda: garment_svg(garment).encode(),
        "exploded.svg": lambda: exploded_svg(garment).encode(),
        "handout.pdf": lambda: handout_pdf(garment),
        "workbook.pdf": workbook,
        "workbook-booklet.pdf": lambda: booklet_pdf(workbook()),
        "sewing.md": lambda: sewing_md(garment).encode(),
        "sewing.pdf": lambda: sewing_pdf(garment),
        "pattern.pdf": lambda: pattern_pdf(garment),
        "pattern-letter.pdf": lambda: pattern_pdf(garment, "Letter"),
        "pattern.dxf": lambda: pattern_dxf(garment),
        "pattern-cutter.dxf": lambda: cutter_dxf(garment),
        "pattern.svg": lambda: pattern_svg(garment).encode(),
        **_tables(garment),
    }
    for number, lay in enumerate(garment.lays, 1):
        files[_numbered("lay", number, "svg")] = partial(_encoded, lay_svg, garment, lay)
        files[_numbered("chalk", number, "csv")] = partial(_encoded, chalk_csv, garment, lay)
    return {**files, **_hanging(garment), **_torn(garment), **_stencils(garment), **_long_sheets(garment)}


def _hanging(garment: Garment) -> dict[str, Callable[[], bytes]]:
    """How it hangs, where that was reckoned."""
    if garment.hang is None:
        return {}
    from ellwand.publish.hang import hang_csv, hang_glb, hang_png, hang_turn_png

    return {
        "hang.glb": partial(hang_glb, garment, garment.hang),
        "hang.png": partial(hang_png, garment, garment.hang),
        "hang-turn.png": partial(hang_turn_png, garment, garment.hang),
        "hang.csv": partial(_encoded, hang_csv, garment, garment.hang),
    }


def _torn(garment: Garment) -> dict[str, Callable[[], bytes]]:
    """How each cloth is torn that is torn."""
    from ellwand.publish import block_csv, tear_csv, tear_svg

    unit, cloths = garment.wearer.unit, {cloth.name: cloth for cloth in garment.cloths}
    title = _("Tears: {garment}", garment=named(garment.title))
    pieces = garment.draft.pieces
    out: dict[str, Callable[[], bytes]] = {}
    for number, plan in enumerate(garment.tears, 1):
        cloth = cloths[plan.lay.cloth]
        out[_numbered("tears", number, "svg")] = partial(_encoded, tear_svg, plan, pieces, cloth, unit, title)
        out[_numbered("tears", number, "csv")] = partial(_encoded, tear_csv, plan, unit)
        out[_numbered("blocks", number, "csv")] = partial(_encoded, block_csv, plan, pieces, unit)
    return out


def _stencils(garment: Garment) -> dict[str, Callable[[], bytes]]:
    """The stencils at full size, where there are any."""
    from ellwand.publish.stencil_sheets import stencil_svgs, stencils_pdf

    if not garment.draft.adornment.repeats:
        return {}
    drawn = stencil_svgs(garment)
    paper: Literal["A4", "Letter"] = "Letter" if garment.wearer.unit == "in" else "A4"
    svgs = {f"stencil-{number}.svg": text.encode for number, text in drawn.items()}
    return {"stencils.pdf": lambda: stencils_pdf(garment, paper), **svgs}


def _long_sheets(garment: Garment) -> dict[str, Callable[[], bytes]]:
    """The pattern on a roll, in sheets of a bearable length."""
    from ellwand.publish.pattern import long_sheet_count, long_sheet_pdf

    sheets = cache(lambda: tuple(long_sheet_pdf(garment, ROLL)))
    return {
        _numbered("pattern-long", number, "pdf"): partial(_sheet, sheets, number - 1)
        for number in range(1, long_sheet_count(garment, ROLL) + 1)
    }


def _tables(garment: Garment) -> dict[str, Callable[[], bytes]]:
    """The tables, each for a spreadsheet, and all of them to be read."""
    from ellwand.depict.tables import chalk_table, pieces_table, shopping_table, steps_table
    from ellwand.publish.tables import table_csv, tables_md

    tables = {"pieces": pieces_table(garment), "shopping": shopping_table(garment), "steps": steps_table(garment)}
    chalk = tuple(chalk_table(garment, lay) for lay in garment.lays)
    every = (tables["pieces"], tables["shopping"], *chalk, tables["steps"])
    heading = _("{garment} for {name}", garment=named(garment.title), name=garment.wearer.name)
    return {
        **{f"{name}.csv": partial(_encoded, table_csv, table) for name, table in tables.items()},
        "tables.md": lambda: tables_md(heading, every).encode(),
    }


def _numbered(name: str, number: int, ending: str) -> str:
    return f"{name}-{number}.{ending}" if number > 1 else f"{name}.{ending}"


def _encoded(write: Callable[..., str], *of: object) -> bytes:
    return write(*of).encode()


def _sheet(sheets: Callable[[], Sequence[bytes]], at: int) -> bytes:
    return sheets()[at]
