"""What every page needs beside its text: style, scripts and letters, each named by its content too."""

from __future__ import annotations

import hashlib
import io
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Final

KINDS: Final = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
    "woff": "font/woff",
    "webmanifest": "application/manifest+json",
}
"""What is served, by the ending of its name."""
FACES: Final = {"text.woff": "SourceSansPro-Regular.ttf", "strong.woff": "SourceSansPro-Semibold.ttf"}
"""Our letters, cut down to the signs of European languages."""
SIGNS: Final = (
    *range(0x20, 0x7F),
    *range(0xA0, 0x180),
    *(ord(sign) for sign in "–—‘’‚“”„…‰′″‹›−⅛⅓⅔⅜⅝⅞←↑→↓€≈≤≥✓•"),
)


def asset(name: str) -> tuple[bytes, str] | None:
    """A file's bytes and kind; None where there is none of that name."""
    if name in FACES:
        return _letters(FACES[name]), KINDS["woff"]
    return _files().get(name)


def prepared() -> None:
    """Cuts the letters down before anyone waits for them."""
    for name in FACES:
        asset(name)


@cache
def address(name: str) -> str:
    """Where a page finds the file: with its content's mark, so that a browser may keep it for good."""
    found = asset(name)
    if found is None:
        raise LookupError(name)
    return f"/static/{name}?{hashlib.sha256(found[0]).hexdigest()[:12]}"


@cache
def _files() -> dict[str, tuple[bytes, str]]:
    """All files of the static folder."""
    folder = resources.files("ellwand.web").joinpath("static")
    return {
        file.name: (file.read_bytes(), KINDS[Path(file.name).suffix[1:]])
        for file in folder.iterdir()
        if Path(file.name).suffix[1:] in KINDS
    }


@cache
def _letters(file: str) -> bytes:
    """A face with no more signs than we need, compressed."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    from ellwand.publish.letters import fonts_folder

    options = subset.Options()
    options.flavor, options.hinting, options.notdef_outline = "woff", False, True
    options.layout_features = ["kern", "liga", "lnum", "tnum", "frac"]
    with TTFont(fonts_folder() / file, lazy=True) as font:
        cut = subset.Subsetter(options)
        cut.populate(unicodes=SIGNS)
        cut.subset(font)
        out = io.BytesIO()
        subset.save_font(font, out, options)
    return out.getvalue()
