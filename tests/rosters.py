"""A small company of our own invention for tests: its sheets and rosters."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

from openpyxl import Workbook

from ellwand.company.roster import Bundle, load_roster

PAGEANT = Path(__file__).parents[1] / "src" / "ellwand" / "examples" / "pageant"
CLOTH = "[cloth.wool]\nwidth = 150\nshrink_warp = 0.05\nprice = 18.0\n"
TUNIC = f'[garment]\nstyle = "tunic"\nlength = "knee"\n{CLOTH}\n[cloth.linen]\nwidth = 140\n'
GOWN = f'[wearer]\nunit = "in"\n[garment]\nstyle = "gored gown"\n{CLOTH}'


def bundles_of(folder: Path, roster: str | bytes, *sheets: str, name: str = "roster.csv") -> tuple[Bundle, ...]:
    """The bundles of a roster with these sheets (tunic.toml and gown.toml where none are given)."""
    named = {f"sheet{n}.toml": text for n, text in enumerate(sheets, 1)} or {"tunic.toml": TUNIC, "gown.toml": GOWN}
    for file, text in named.items():
        (folder / file).write_text(text, "utf-8")
    (folder / name).write_bytes(roster.encode() if isinstance(roster, str) else roster)
    return load_roster(folder / name, [folder / file for file in named]).bundles


def spreadsheet(rows: Sequence[Sequence[object]]) -> bytes:
    """The rows as an .xlsx file, behind an empty sheet."""
    book = Workbook()
    page = book.create_sheet("People")
    for row in rows:
        page.append(list(row))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
