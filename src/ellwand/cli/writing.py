"""Files: made whole in memory, then put in place one by one so that none is ever half-written."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.names import named

ROLL: Final = 90.0
"""Paper on the roll for the long sheet is so wide (cm)."""

NUMBERED: Final = re.compile(
    r"(lay|tears|stencil)-\d+\.svg|(chalk|tears|blocks)-\d+\.csv|pattern-long-\d+\.pdf|stencils\.pdf"
)
"""Files of which a garment may have more or fewer each time."""


def write_garment(garment: Garment, folder: Path) -> list[str]:
    """Write the card and all files of one garment; returns their names.

    Where there are several lays, each has a drawing and a chalk list of its own: lay.svg, lay-2.svg and so on; those
    of an earlier run that had more of them are taken away.
    Raises BadInput when the folder cannot be written.
    """
    from ellwand.publish import (
        block_csv,
        card_pdf,
        chalk_csv,
        lay_svg,
        pieces_svg,
        sewing_md,
        sewing_pdf,
        tear_csv,
        tear_svg,
    )
    from ellwand.publish.dxf import cutter_dxf, pattern_dxf
    from ellwand.publish.exploded_svg import exploded_svg
    from ellwand.publish.garment_json import garment_json
    from ellwand.publish.garment_svg import garment_svg
    from ellwand.publish.handout import handout_pdf
    from ellwand.publish.pattern import long_sheet_pdf, pattern_pdf
    from ellwand.publish.stencil_sheets import stencil_svgs, stencils_pdf
    from ellwand.publish.svg_layers import pattern_svg
    from ellwand.publish.workbook import booklet_pdf, workbook_pdf

    workbook = workbook_pdf(garment)
    files: dict[str, bytes] = {
        "card.pdf": card_pdf(garment),
        "garment.json": garment_json(garment).encode(),
        "pieces.svg": pieces_svg(garment).encode(),
        "garment.svg": garment_svg(garment).encode(),
        "exploded.svg": exploded_svg(garment).encode(),
        "handout.pdf": handout_pdf(garment),
        "workbook.pdf": workbook,
        "workbook-booklet.pdf": booklet_pdf(workbook),
        "sewing.md": sewing_md(garment).encode(),
        "sewing.pdf": sewing_pdf(garment),
        "pattern.pdf": pattern_pdf(garment),
        "pattern-letter.pdf": pattern_pdf(garment, "Letter"),
        "pattern.dxf": pattern_dxf(garment),
        "pattern-cutter.dxf": cutter_dxf(garment),
        "pattern.svg": pattern_svg(garment).encode(),
        **_tables(garment),
    }
    for number, lay in enumerate(garment.lays, 1):
        files[_numbered("lay", number, "svg")] = lay_svg(garment, lay).encode()
        files[_numbered("chalk", number, "csv")] = chalk_csv(garment, lay).encode()
    unit, cloths = garment.wearer.unit, {cloth.name: cloth for cloth in garment.cloths}
    for number, plan in enumerate(garment.tears, 1):
        drawn = tear_svg(
            plan,
            garment.draft.pieces,
            cloths[plan.lay.cloth],
            unit,
            _("Tears: {garment}", garment=named(garment.title)),
        )
        files[_numbered("tears", number, "svg")] = drawn.encode()
        files[_numbered("tears", number, "csv")] = tear_csv(plan, unit).encode()
        files[_numbered("blocks", number, "csv")] = block_csv(plan, garment.draft.pieces, unit).encode()
    if sheets := stencils_pdf(garment, "Letter" if unit == "in" else "A4"):
        files["stencils.pdf"] = sheets
    files |= {f"stencil-{number}.svg": drawn.encode() for number, drawn in stencil_svgs(garment).items()}
    for number, sheet in enumerate(long_sheet_pdf(garment, ROLL), 1):
        files[_numbered("pattern-long", number, "pdf")] = sheet
    written = write_files(files, folder)
    for old in folder.iterdir():
        if NUMBERED.fullmatch(old.name) and old.name not in files:
            old.unlink()
    return written


def _tables(garment: Garment) -> dict[str, bytes]:
    """The tables, each for a spreadsheet, and all of them to be read."""
    from ellwand.depict.tables import chalk_table, pieces_table, shopping_table, steps_table
    from ellwand.publish.tables import table_csv, tables_md

    tables = {"pieces": pieces_table(garment), "shopping": shopping_table(garment), "steps": steps_table(garment)}
    chalk = (chalk_table(garment, lay) for lay in garment.lays)
    heading = _("{garment} for {name}", garment=named(garment.title), name=garment.wearer.name)
    return {
        **{f"{name}.csv": table_csv(table).encode() for name, table in tables.items()},
        "tables.md": tables_md(heading, (tables["pieces"], tables["shopping"], *chalk, tables["steps"])).encode(),
    }


def _numbered(name: str, number: int, ending: str) -> str:
    return f"{name}-{number}.{ending}" if number > 1 else f"{name}.{ending}"


def write_files(files: Mapping[str, bytes], folder: Path) -> list[str]:
    """Write files into a folder, making it; returns their names.

    Raises BadInput when the folder cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in files.items():
            write_whole(folder / name, data)
    except OSError as error:
        raise BadInput(
            str(folder),
            _("the files cannot be written ({why})", why=error.strerror),
            _("name another folder with --out"),
        ) from None
    return list(files)


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that it is either the old one or the new one, never half of it."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, 0o644)  # noqa: PTH101
        os.replace(name, path)  # noqa: PTH105
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
