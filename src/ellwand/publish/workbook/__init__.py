"""The workbook: an illustrated booklet about one garment, for its maker or a class; page by page, and to be folded."""

from __future__ import annotations

from ellwand.publish.workbook.binding import booklet_pdf
from ellwand.publish.workbook.bound import workbook_pdf

__all__ = ["booklet_pdf", "workbook_pdf"]
