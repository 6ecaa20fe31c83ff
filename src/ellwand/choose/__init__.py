"""The sheet: what a maker writes down, read once and settled."""

from __future__ import annotations

from ellwand.choose.sheet import Sheet, read_sheet, read_tables, sheet_tables
from ellwand.choose.styles import STYLES

__all__ = ["STYLES", "Sheet", "read_sheet", "read_tables", "sheet_tables"]
