"""What the card says of bands, and where the garment's picture shows them."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from shapely import LineString, Polygon

from ellwand import prove_sheet
from ellwand.depict.adornment import adornment_rows
from ellwand.depict.view import garment_view
from ellwand.model.drawing import Stroke
from ellwand.model.garment import Garment
from ellwand.publish.card_adornment import adornment_section
from ellwand.publish.card_type import PLAIN
from ellwand.publish.files import sewing_md
from ellwand.publish.garment_json import garment_json
from sheets import JOAN, sheet


def _garment(bands: list[dict[str, Any]], unit: str = "cm", **garment: Any) -> Garment:
    wearer = dict(JOAN) if unit == "cm" else {**JOAN, "unit": "in", **_inches()}
    return prove_sheet(sheet({**garment, "bands": bands}, wearer=wearer))


def _inches() -> dict[str, float]:
    return {key: round(value / 2.54, 2) for key, value in JOAN.items() if isinstance(value, (int, float))}


def _told(bands: list[dict[str, Any]], unit: str = "cm", **garment: Any) -> str:
    ((title, text),) = adornment_rows(_garment(bands, unit, **garment))
    return f"{title}: {text}".replace("\u00a0", " ")


def test_a_cuff_band_of_cloth() -> None:
    assert _told([{"at": "cuffs", "width": 3, "cut": "straight", "colour": "red"}]) == (
        "Red cloth band: 3 cm wide, round each cuff: 2 of 24.6 cm. Cut strips along the thread (piece 5), finished 2 of"
        " 24.6 cm; turn 1 cm under along each side. Its ends meet at the underarm seam. One side of it lies on a line"
        " 1.1 cm shorter than the other: ease that side in as you pin."
    )


def test_a_mitred_neck_band() -> None:
    text = _told([{"at": "neck", "width": 4}], neck={"shape": "rectangle"})
    assert "Fold it aslant at 4 corners, the fold at 45° to its edge; each takes up to 8 cm of its length" in text
    assert "ease that side" not in text


def test_a_shaped_neck_band_is_not_folded() -> None:
    text = _told([{"at": "neck", "width": 4}], neck={"shape": "round"}, body={"shoulder": "seam"})
    assert "Cut it shaped like the edge it lies along (pieces" in text
    assert "Sew its parts together first" in text
    assert "Fold" not in text


def test_a_bought_band_is_asked_for_as_shops_sell_it() -> None:
    metric = _told([{"at": "hem", "width": 1, "make": "bought"}])
    assert "Buy 230 cm, ends turned under 1.5 cm in it." in metric
    quarter_yards = _told([{"at": "hem", "width": 1, "make": "bought"}], "in")
    assert "Buy 90 in, ends turned under" in quarter_yards


def test_a_tablet_woven_band() -> None:
    text = _told([{"at": "cuffs", "width": 2, "make": "tablet woven"}])
    assert "warp 48 threads (12 tablets of 4 holes), each 120 cm long" in text
    assert "10% is taken up in weaving, and 60 cm stays unwoven" in text


def test_a_braid_says_to_try_first() -> None:
    text = _told([{"at": "hem", "width": 0.5, "make": "braid"}])
    assert "from 9 strands" in text
    assert "1.5 times the braid" in text
    assert "Try a hand's length first" in text


def test_no_section_without_bands() -> None:
    bare = prove_sheet(sheet({}))
    assert adornment_section(bare, PLAIN) == ""
    assert "bands" not in json.loads(garment_json(bare))
    section = adornment_section(_garment([{"at": "cuffs"}]), PLAIN)
    assert section.startswith(adornment_section(_garment([{"at": "neck"}]), PLAIN).splitlines()[0])


def test_the_document_tells_where_each_band_lies() -> None:
    garment = _garment([{"at": "hem", "width": 2}, {"at": "cuffs", "width": 2, "make": "braid"}])
    doc = json.loads(garment_json(garment))
    assert [band["at"] for band in doc["bands"]] == ["hem", "cuffs", "cuffs"]
    assert [yarn["number"] for yarn in doc["yarns"]] == [2]
    edges = {(piece["id"], edge["id"]) for piece in doc["pieces"] for edge in piece["edges"]}
    piece_of = {part["id"]: part["piece"] for part in doc["parts"]}
    for band in doc["bands"]:
        stretches = band["run"]["stretches"]
        assert all((piece_of[each["part"]], each["edge"]) in edges for each in stretches)
        walked = sum(
            math.dist(a, b) for each in stretches for a, b in zip(each["points"], each["points"][1:], strict=False)
        )
        assert band["length"] == pytest.approx(walked, abs=2.5)


def _bands_in(garment: Garment, face: Any) -> list[Stroke]:
    return [stroke for stroke in garment_view(garment.draft, face).strokes if stroke.role == "band"]


@pytest.mark.parametrize("face", ["front", "back"])
def test_a_ring_in_the_picture_follows_the_hem_s_level(face: str) -> None:
    garment = _garment([{"at": "hem", "width": 4}, {"at": "skirt ring", "height": 20, "width": 4}])
    hem, ring = _bands_in(garment, face)
    outline = next(
        s for s in garment_view(garment.draft, face).strokes if s.role == "garment" and min(y for _, y in s.points) < 1
    )  # type: ignore[arg-type]
    body = Polygon(outline.points)
    low = min(y for _, y in hem.points)
    assert min(y for _, y in ring.points) == pytest.approx(low + 18, abs=0.01)
    for stroke in (hem, ring):
        shape = Polygon(stroke.points)
        assert body.buffer(1e-6).covers(shape)
        # both sides run from side to side of the garment
        assert shape.area == pytest.approx(4 * (shape.length - 8) / 2, rel=0.03)


def test_bands_round_sleeves_lie_on_both_of_them() -> None:
    garment = _garment([{"at": "cuffs", "width": 5}, {"at": "arm ring", "height": 25, "width": 3}])
    strokes = _bands_in(garment, "front")
    assert len(strokes) == 4
    assert sum(Polygon(each.points).centroid.x > 0 for each in strokes) == 2
    long = garment.draft.dimensions.sleeve_lengths["left"]
    cuff, ring = (each for each in strokes if Polygon(each.points).centroid.x > 0)
    top = LineString([(garment.draft.dimensions.panel_width / 2, garment.draft.dimensions.length), cuff.points[0]])
    assert top.length > long - 10
    assert Polygon(cuff.points).distance(Polygon(ring.points)) == pytest.approx(25 - 1.5 - 5, abs=0.05)


def test_the_sewing_sheet_tells_of_bands_too() -> None:
    garment = _garment([{"at": "cuffs", "width": 3, "cut": "straight"}])
    told = sewing_md(garment)
    assert told.index("## Sewing order") < told.index("## Adornment") < told.index("## Stitches")
    assert "- Cloth band: 3 cm wide, round each cuff" in told.replace("\u00a0", " ")
    assert "## Adornment" not in sewing_md(prove_sheet(sheet({})))
