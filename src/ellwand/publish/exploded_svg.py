"""The garment taken apart as SVG."""

from __future__ import annotations

from typing import Final

from ellwand.depict.exploded import exploded_sheet
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.publish.svg import svg

ROOM: Final = (19.0, 25.0)
"""It fits an A4 or a Letter page (cm)."""


def exploded_svg(garment: Garment) -> str:
    """The flat pieces where they are sewn, leaders from edge to edge, and the sewn garment small."""
    sheet = exploded_sheet(garment.draft, garment.wearer.unit, *ROOM)
    return svg(sheet.drawing, sheet.scale, _("{garment}, taken apart", garment=named(garment.title)))
