"""How the bench looks: a handful of pictures that were looked at and found good, and are kept so.

Compared by where things stand and how dark they are, in fields of about 20 pixels, so that another version of the
browser or of a heading's type does not matter; after looking at the new ones, run this file as a script to keep them.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import Final

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

APPROVED: Final = Path(__file__).parent / "approved"
STATES: Final = {
    "garment": ("/?garment.length=mid-calf&cloth.main.width=140", (1180, 860)),
    "mending": ("/?garment.length=ankle&garment.gores=none&open=hem", (1180, 860)),
    "measuring": ("/people/new", (1180, 860)),
    "phone": ("/?garment.sleeve.shape=wide#z-sleeve", (390, 844)),
    "cloth-side": ("/cloth-side?cloth.main.width=140", (390, 844)),
}
FIELD: Final = 20
FAR: Final = 14.0
"""A mean difference of grey (of 255) by which a picture looks another."""


def shot(page: Page, home: str, name: str) -> Image.Image:
    """The page as it first shows, letters and lay there."""
    page.goto(home + STATES[name][0], wait_until="networkidle")
    page.evaluate("document.fonts.ready")
    page.evaluate("scrollTo(0, 0)")
    return Image.open(io.BytesIO(page.screenshot(animations="disabled"))).convert("L")


def apart(one: Image.Image, other: Image.Image) -> float:
    """The mean difference of grey between two pictures seen from afar."""
    size = (max(1, one.width // FIELD), max(1, one.height // FIELD))
    a, b = (np.asarray(each.resize(size, Image.Resampling.BOX), dtype=float) for each in (one, other))
    return float(np.abs(a - b).mean())


@pytest.mark.parametrize("name", STATES)
def test_it_looks_as_it_was_approved(chromium: Browser, served: str, name: str) -> None:
    wide, high = STATES[name][1]
    context = chromium.new_context(viewport={"width": wide, "height": high}, locale="en-GB", reduced_motion="reduce")
    found = shot(context.new_page(), served, name)
    context.close()
    approved = {each.stem: Image.open(each).convert("L") for each in APPROVED.glob("*.png")}
    assert apart(found, approved[name]) < FAR
    # and it is none of the others
    others = [apart(found, each) for other, each in approved.items() if other != name and each.size == found.size]
    assert all(apart(found, approved[name]) < each for each in others)


def keep(home: str, browser: str) -> None:
    """Makes the pictures anew."""
    APPROVED.mkdir(exist_ok=True)
    with sync_playwright() as play:
        opened = play.chromium.launch(executable_path=browser, args=["--no-sandbox"])
        for name, (_path, (wide, high)) in STATES.items():
            context = opened.new_context(viewport={"width": wide, "height": high}, locale="en-GB")
            shot(context.new_page(), home, name).quantize(16).save(APPROVED / f"{name}.png", optimize=True)
            context.close()


if __name__ == "__main__":
    keep(*sys.argv[1:])
