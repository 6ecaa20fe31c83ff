"""The card's picture of the garment as it hangs, where that was reckoned."""

from __future__ import annotations

import base64
from typing import Final

from ellwand.depict.hang import pictures
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.publish.card_type import CardType, heading
from ellwand.publish.png import png
from ellwand.publish.typst_text import quoted

HIGH: Final = 8.0
"""How high the picture is (cm)."""
PIXELS: Final = 480
"""The same in pixels."""


def hang_section(garment: Garment, sizes: CardType) -> str:
    """Front, side and back under a heading; nothing where it was not hung."""
    if garment.hang is None:
        return ""
    picture = pictures(garment, garment.hang, PIXELS)
    high, wide = picture.shape[:2]
    data = base64.b64encode(png(picture)).decode()
    # Typst takes pictures as files or bytes; as text they are only an SVG's
    drawing = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{high}"><image width="{wide}"'
        f' height="{high}" href="data:image/png;base64,{data}"/></svg>'
    )
    said = quoted(_("front, side and back of the garment on its wearer"))
    return "\n".join(
        [
            heading(_("As it hangs"), sizes),
            f'#align(center, image(bytes({quoted(drawing)}), format: "svg", height: {HIGH}cm, alt: {said}))',
        ]
    )
