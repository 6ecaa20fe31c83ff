"""Words for a full-size pattern: set by Typst, one small page for each, to be stamped wherever they stand."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from ellwand.model.drawing import Label
from ellwand.publish.pens import FACES
from ellwand.publish.typst_text import FONT, words

AIR: Final = 0.6
"""About a word on its page (ems): what hangs below the line or leans out of it is not cut off."""

Word = tuple[str, float, bool, bool]
"""Text, size in points, bold, italic."""


def word_of(label: Label) -> Word:
    """What is set for a label."""
    face = FACES[label.role]
    return label.text, label.size, face.bold, face.italic


def word_pages(wanted: Iterable[Word]) -> str:
    """Typst source: a page for each word, as large as it is, with air about it; cap height is its height."""
    out = [f'#set text(font: "{FONT}", hyphenate: false)']
    for text, size, bold, italic in wanted:
        out.append(
            f"#page(width: auto, height: auto, margin: {AIR * size:g}pt, footer: none)"
            f"[#{words(text, size=size, bold=bold, italic=italic)}]"
        )
    return "\n".join(out)
