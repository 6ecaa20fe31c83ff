"""Tables as CSV, for spreadsheets, and as Markdown, to be read and printed anywhere."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable

from ellwand.model.table import Table
from ellwand.publish.text import clean


def table_csv(table: Table) -> str:
    """The table with its head as the first line."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerows([[clean(cell) for cell in row] for row in (table.head, *table.rows)])
    return out.getvalue()


def tables_md(title: str, tables: Iterable[Table]) -> str:
    """The tables under one heading."""
    parts = [f"# {plain(title)}"]
    for table in tables:
        lines = [f"## {plain(table.title)}", "", _row(table.head), "|" + " --- |" * len(table.head)]
        parts.append("\n".join([*lines, *(_row(row) for row in table.rows)]))
    return "\n\n".join(parts) + "\n"


def _row(cells: Iterable[str]) -> str:
    return "| " + " | ".join(plain(cell) for cell in cells) + " |"


def plain(text: str) -> str:
    """Text that Markdown shows as it is."""
    return re.sub(r"([\\`*_\[\]<>#|~])", r"\\\1", clean(text))
