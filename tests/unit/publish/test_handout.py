"""The handout: one sheet, everything on it within the page, the pieces, the sums and the wearer's example."""

from __future__ import annotations

import io
import itertools
from typing import Any

import pdfplumber
import pytest

from ellwand import prove_sheet
from ellwand.choose.styles import STYLES
from ellwand.publish.exploded_svg import exploded_svg
from ellwand.publish.handout import handout_pdf, sums_of
from ellwand.publish.letters import spelled
from sheets import JOAN, sheet

ONE_PAGE = ("hood", "cloak", "coif", "apron", "breeches")
IN_INCHES = {**JOAN, "unit": "in", "height": 65, "bust_girth": 38, "waist_girth": 33, "hip_girth": 41, "head_girth": 22}


@pytest.mark.parametrize("style", sorted(STYLES))
@pytest.mark.parametrize("person", [JOAN, IN_INCHES], ids=["cm", "in"])
def test_it_is_one_sheet_and_nothing_runs_off_it(style: str, person: dict[str, Any]) -> None:
    garment = prove_sheet(sheet({"style": style}, wearer=person))
    made = handout_pdf(garment)
    assert style != "tunic" or made == handout_pdf(garment)
    with pdfplumber.open(io.BytesIO(made)) as pdf:
        assert len(pdf.pages) <= (1 if style in ONE_PAGE else 2)
        said = ""
        for page in pdf.pages:
            words = page.extract_words()
            said += " ".join(word["text"] for word in words)
            for word in words:
                assert word["x0"] >= 20
                assert word["x1"] <= page.width - 20
                assert word["top"] >= 20
                assert word["bottom"] <= page.height - 20
            for one, two in itertools.combinations(words, 2):
                apart = one["x1"] <= two["x0"] + 0.6 or two["x1"] <= one["x0"] + 0.6
                # lines of text may touch by their line height, not by their letters
                assert apart or one["bottom"] <= two["top"] + 3.2 or two["bottom"] <= one["top"] + 3.2, (one, two)
    assert "Your own sizes" in said
    assert "Joan Netmaker" in said
    for number in range(1, len(garment.draft.pieces) + 1):
        assert str(number) in said


@pytest.mark.parametrize("name", ["王小明", "Ælfgyfu " * 9, '#"]) \\ [x]'])
def test_any_name(name: str) -> None:
    garment = prove_sheet(sheet({"style": "shift"}, wearer={**JOAN, "name": name}))
    with pdfplumber.open(io.BytesIO(handout_pdf(garment))) as pdf:
        assert len(pdf.pages) <= 2
        text = " ".join(page.extract_text() for page in pdf.pages)
    assert spelled(name).strip()[:6] in text


def test_every_rule_has_its_box() -> None:
    garment = prove_sheet(sheet({"style": "tunic"}))
    with pdfplumber.open(io.BytesIO(handout_pdf(garment))) as pdf:
        boxes = [r for page in pdf.pages for r in page.rects if 60 < r["width"] < 75 and 14 < r["height"] < 20]
    assert len(boxes) == len(sums_of(garment.draft, "cm").rules)


def test_the_pieces_apart_as_svg() -> None:
    garment = prove_sheet(sheet({"style": "tunic"}))
    drawn = exploded_svg(garment)
    assert "<title>tunic, taken apart</title>" in drawn
    assert drawn.count('class="piece"') == len(garment.draft.parts)
    assert drawn.count('class="link"') >= 8
