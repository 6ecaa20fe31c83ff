"""A neutral table of text: made once, written as CSV or Markdown."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Table:
    """``rows`` have as many cells as ``head``."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
