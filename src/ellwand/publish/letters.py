"""Letters that our fonts hold, so that the same text looks the same on every machine and never comes as boxes."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from pathlib import Path

from ellwand.depict.lettering import shortened
from ellwand.publish.text import clean


def spelled(text: str) -> str:
    """The text with every sign that our fonts do not hold written in Latin letters ('王小明' as 'WangXiaoMing').

    Letters and their marks are joined first, as far as there is one sign for both.
    """
    joined = unicodedata.normalize("NFC", clean(text))
    if joined.isascii():
        return joined
    from anyascii import anyascii

    held = letters()
    return "".join(sign if ord(sign) in held else anyascii(sign) for sign in joined).strip()


def cut_short(text: str, most: int) -> str:
    """The text, cut with an ellipsis where it has more than ``most`` signs once it is spelled."""
    if len(spelled(text)) <= most:
        return text
    return next(cut for n in range(min(len(text), most), 0, -1) if len(spelled(cut := shortened(text, n))) <= most)


def plain_name(text: str, most: int = 60, nameless: str = "ellwand") -> str:
    """The text as part of a file's name, in plain letters.

    >>> plain_name("Léa & Bo: gown")
    'lea-bo-gown'
    """
    return re.sub(r"[^a-z0-9]+", "-", spelled(text).lower()).strip("-")[:most] or nameless


@cache
def letters() -> frozenset[int]:
    """The signs that our sans holds, as their numbers in Unicode."""
    from fontTools.ttLib import TTFont

    with TTFont(fonts_folder() / "SourceSansPro-Regular.ttf", lazy=True) as font:
        return frozenset(font.getBestCmap())


def fonts_folder() -> Path:
    """Where our sans lies."""
    import font_source_sans_pro

    return Path(font_source_sans_pro.__file__).parent / "files"
