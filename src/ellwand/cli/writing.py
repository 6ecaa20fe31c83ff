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
    from ellwand.publish.dxf import pattern_dxf
    from ellwand.publish.garment_json import garment_json
    from ellwand.publish.pattern import long_sheet_pdf, pattern_pdf
    from ellwand.publish.stencil_sheets import stencil_svgs, stencils_pdf

    files: dict[str, bytes] = {
        "card.pdf": card_pdf(garment),
        "garment.json": garment_json(garment).encode(),
        "pieces.svg": pieces_svg(garment).encode(),
        "sewing.md": sewing_md(garment).encode(),
        "sewing.pdf": sewing_pdf(garment),
        "pattern.pdf": pattern_pdf(garment),
        "pattern-letter.pdf": pattern_pdf(garment, "Letter"),
        "pattern.dxf": pattern_dxf(garment),
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
