"""Where the pieces lie on the cloth: our own engine, a solver, and the bound they are measured against."""

from __future__ import annotations

from ellwand.lay.layout import lay_out
from ellwand.lay.shapes import usable_width

__all__ = ["lay_out", "usable_width"]
