"""The sheet as a form: every option as a control, and what was filled in as the sheet's tables.

Nothing here is told twice: controls come from the descriptions in ``choose.options``.
"""

from __future__ import annotations

from ellwand.choose.form.controls import Control, Entry, Group, groups
from ellwand.choose.form.filled import START, Pairs, pairs_of, plain_path, tables_of, with_entry, without_entry
from ellwand.choose.form.where import path_of
from ellwand.choose.form.written import sheet_text

__all__ = [
    "START",
    "Control",
    "Entry",
    "Group",
    "Pairs",
    "groups",
    "pairs_of",
    "path_of",
    "plain_path",
    "sheet_text",
    "tables_of",
    "with_entry",
    "without_entry",
]
