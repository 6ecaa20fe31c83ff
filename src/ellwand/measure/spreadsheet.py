"""A list of people in a spreadsheet (.xlsx): the cells of its first sheet that has any, as a CSV list."""

from __future__ import annotations

import csv
import io
import zipfile
from datetime import date, datetime, time
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import _

MOST_UNPACKED: Final = 100_000_000
"""No honest list is larger when it is unpacked (bytes)."""
MOST_CELLS: Final = 2_000_000


def is_spreadsheet(data: bytes) -> bool:
    """Whether the bytes begin as those of an .xlsx file: a zip archive."""
    return data[:4] == b"PK\x03\x04"


def as_csv(data: bytes) -> str:
    """The cells as text; formulas give what they came to when the file was saved.

    Raises BadInput where it is no spreadsheet, or one too large.
    """
    from openpyxl import load_workbook

    mend = _("save the list as CSV (comma separated, UTF-8)")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            if sum(entry.file_size for entry in packed.infolist()) > MOST_UNPACKED:
                raise BadInput("", _("the list is too long"), _("give a list of fewer people"))
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
    except BadInput:
        raise
    except Exception:
        # whatever a broken archive or its XML raises
        raise BadInput("", _("the spreadsheet cannot be read"), mend) from None
    out = io.StringIO()
    writer = csv.writer(out)
    count = 0
    try:
        for sheet in book.worksheets:
            for row in sheet.iter_rows(values_only=True):
                count += len(row)
                if count > MOST_CELLS:
                    raise BadInput("", _("the list is too long"), _("give a list of fewer people"))
                writer.writerow([_said(cell) for cell in row])
            if out.getvalue().strip(",\r\n"):
                break
    except BadInput:
        raise
    except Exception:
        raise BadInput("", _("the spreadsheet cannot be read"), mend) from None
    finally:
        book.close()
    return out.getvalue()


def _said(cell: object) -> str:
    """A cell as it would be typed."""
    if cell is None:
        return ""
    if isinstance(cell, float):
        return f"{cell:.6f}".rstrip("0").rstrip(".")
    if isinstance(cell, (datetime, date, time)):
        return cell.isoformat()
    return str(cell)
