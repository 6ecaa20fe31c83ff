"""SVG through the standard library's XML parser, CSV through its csv reader."""

from __future__ import annotations

import csv
import io
import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from card_specimens import KINDS, garment
from test_card import HOSTILE

from ellwand.publish import chalk_csv, lay_svg, pieces_svg, sewing_md
from ellwand.units import CM_PER

SVG = "{http://www.w3.org/2000/svg}"
FLAT = [kind for kind in KINDS if kind != "folded"]
"""Folded cloth is drawn and chalked by half: depict's tests open it out."""


@pytest.mark.parametrize("name", HOSTILE)
def test_svg_is_xml_whatever_the_name(name: str) -> None:
    made = garment("child")
    hostile = replace(made, wearer=replace(made.wearer, name=name), title=name)
    for text in (pieces_svg(hostile), lay_svg(hostile, hostile.lays[0])):
        root = ET.fromstring(text)
        assert root.tag == f"{SVG}svg"
        assert {child.tag for child in root.iter()} <= {f"{SVG}{t}" for t in ("svg", "title", "rect", "path", "text")}


@pytest.mark.parametrize("kind", FLAT)
def test_svg_shows_each_piece_once_per_placement_at_one_to_ten(kind: str) -> None:
    made = garment(kind)
    lay = made.lays[0]
    root = ET.fromstring(lay_svg(made, lay))
    cuts = [p for p in root.iter(f"{SVG}path") if p.get("class") == "cut"]
    assert len(cuts) == len(lay.placements)
    cloth = next(p for p in root.iter(f"{SVG}path") if p.get("class") == "cloth")
    numbers = [float(n) for n in re.findall(r"[\d.]+", cloth.get("d") or "")]
    # lying: the cloth's length runs across the page; 1 cm of cloth is 1 mm of paper
    assert max(numbers[0::2]) - min(numbers[0::2]) == pytest.approx(lay.length, abs=0.002)
    assert max(numbers[1::2]) - min(numbers[1::2]) == pytest.approx(lay.width, abs=0.002)


@pytest.mark.parametrize("kind", FLAT)
def test_chalk_csv_can_be_computed_again_from_the_placements(kind: str) -> None:
    """Every corner row lies on the placed cut outline, which is moved here with plain trigonometry."""
    import math

    made = garment(kind)
    lay, per = made.lays[0], CM_PER[made.wearer.unit]
    pieces = {p.id: p for p in made.draft.pieces}
    spots = set()
    for place in lay.placements:
        c, s = math.cos(math.radians(place.turn)), math.sin(math.radians(place.turn))
        for x, y in pieces[place.piece].cut:
            fx = -x if place.flip else x
            spots.add((round(fx * c - y * s + place.x, 3), round(fx * s + y * c + place.y, 3)))
    rows = list(csv.DictReader(io.StringIO(chalk_csv(made, lay))))
    corners = [r for r in rows if r["what"] == "corner"]
    assert {r["step"] for r in rows} == {str(n) for n in range(1, len(lay.placements) + 1)}
    assert len(corners) >= 3 * len(lay.placements)
    for row in corners:
        x, y = float(row["from_left_selvedge"]) * per, float(row["from_cut_end"]) * per
        assert min(math.hypot(x - a, y - b) for a, b in spots) < 0.005


def test_markdown_shows_names_as_they_are() -> None:
    made = garment("child")
    text = sewing_md(replace(made, wearer=replace(made.wearer, name="<b>*Wat*</b>")))
    assert r"\<b\>\*Wat\*\</b\>" in text
    assert all(f"{step.n}. " in text for step in made.steps)
