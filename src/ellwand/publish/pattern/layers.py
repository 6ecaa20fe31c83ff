"""The layers of a full-size pattern, which a reader can show and hide."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Literal

from ellwand.language import N_
from ellwand.model.drawing import Role

Layer = Literal["pieces", "allowances", "texts", "sheets"]
LAYERS: Final[Mapping[Layer, str]] = {
    "pieces": N_("Pieces"),
    "allowances": N_("Sewing lines and allowances"),
    "texts": N_("Texts"),
    "sheets": N_("Trim lines and sheet names"),
}
"""What can be shown or hidden, and what it is called in a reader."""


def layer_of(role: Role) -> Layer:
    """The layer of a line of a piece."""
    return "allowances" if role == "sewn" else "pieces"
