"""The garment as a picture of its own, with a title and a description for who reads by ear."""

from __future__ import annotations

from typing import Final

from ellwand.depict.spread import drawing_bounds
from ellwand.depict.view_words import both_faces, shown_best, title, told
from ellwand.model.garment import Garment
from ellwand.publish.svg import svg

WIDE: Final = 19.0
HIGH: Final = 13.0
"""The picture is at most so large (paper cm)."""


def garment_svg(garment: Garment) -> str:
    """Front and back side by side, within the width of an A4 sheet; in colours where it has any."""
    draft = garment.draft
    shown = shown_best(draft)
    x0, y0, x1, y1 = drawing_bounds(both_faces(draft, 1.0, shown), 1.0)
    scale = min(WIDE / (x1 - x0), HIGH / (y1 - y0))
    return svg(both_faces(draft, scale, shown), scale, title(garment), told=told(garment))
