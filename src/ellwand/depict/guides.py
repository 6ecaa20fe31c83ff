"""How the lines within a piece are drawn."""

from __future__ import annotations

from ellwand.model.drawing import Role
from ellwand.model.piece import Guide


def guide_role(guide: Guide) -> Role:
    """The edge of a band is dotted; all else is a fold."""
    return "band line" if "band" in guide.name.split() else "fold"
