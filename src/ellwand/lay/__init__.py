"""Where the pieces lie on the cloth: a portfolio of engines, and the bound they are measured against."""

from __future__ import annotations

from ellwand.lay.layout import INSTANT, lay_out
from ellwand.lay.shapes import shapes_of, usable_width
from ellwand.lay.task import Budget, Found, Report, Stop, never, unheard

__all__ = ["INSTANT", "Budget", "Found", "Report", "Stop", "lay_out", "never", "shapes_of", "unheard", "usable_width"]
