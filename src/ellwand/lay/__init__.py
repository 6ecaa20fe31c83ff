"""Where the pieces lie on the cloth: our own engine, a solver, and the bound they are measured against."""

from __future__ import annotations

from ellwand.lay.layout import lay_out

__all__ = ["lay_out"]
