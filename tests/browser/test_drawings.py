"""The SVG drawings in a real browser: they show what they say, and a name with markup in it stays text."""

from __future__ import annotations

import subprocess
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from PIL import Image, ImageOps

from ellwand import make
from ellwand.publish import lay_svg, pieces_svg
from sheets import JOAN, sheet
from visiting import browser


def picture(page: Path, folder: Path, width: int, height: int) -> Image.Image:
    """The page as the browser draws it."""
    shot = folder / "shot.png"
    subprocess.run(
        [
            browser(),
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-first-run",
            "--hide-scrollbars",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            f"--user-data-dir={folder / 'profile'}",
            f"--window-size={width},{height}",
            f"--screenshot={shot}",
            page.as_uri(),
        ],
        check=True,
        capture_output=True,
        timeout=120,
    )
    return Image.open(shot).convert("L")


@pytest.mark.parametrize("what", ["pieces", "lay"])
def test_a_drawing_fills_its_page_in_a_browser(what: str, tmp_path: Path) -> None:
    hostile = {**JOAN, "name": "<script>document.documentElement.remove()</script>"}
    garment = make(sheet(wearer=hostile), seconds=0)
    text = pieces_svg(garment) if what == "pieces" else lay_svg(garment, garment.lays[0])
    page = tmp_path / "drawing.svg"
    page.write_text(text, encoding="utf-8")
    # at 96 CSS pixels an inch
    size = ET.fromstring(text).attrib
    width, height = (round(float(size[side].removesuffix("mm")) / 25.4 * 96) for side in ("width", "height"))
    shown = picture(page, tmp_path, width, height)
    ink = ImageOps.invert(shown).point(lambda level: 255 if level > 96 else 0)
    box = ink.getbbox()
    assert box is not None, "the browser shows an empty page"
    assert box[2] - box[0] > 0.8 * width and box[3] - box[1] > 0.8 * height
    dark = sum(ink.histogram()[255:]) / (width * height)
    assert 0.005 < dark < 0.5
