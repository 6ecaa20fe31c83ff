"""Round charges in the chalk list, and the neck of a body in any number of pieces."""

from __future__ import annotations

from typing import Any

import pytest
from shapely import LineString, Polygon

from ellwand import make, prove_sheet
from ellwand.depict.chalk import chalk_rows
from ellwand.depict.view_neck import neck_curve
from ellwand.model.draft import Draft
from ellwand.model.heraldry import Face
from ellwand.model.neckline import necklines
from ellwand.publish.card_lays import chalk_text
from sheets import sheet


def test_a_disc_is_swung_all_round_and_a_ring_twice() -> None:
    charges = [
        {"motif": "annulet", "tincture": "gules", "size": 0.3},
        {"motif": "roundel", "tincture": "or", "size": 0.1, "place": "middle base"},
    ]
    garment = make(sheet({"charges": charges, "neck": {"shape": "round"}}), seconds=0)
    pieces = {piece.tincture: piece for piece in garment.draft.pieces}
    for tincture, says in (("gules", ["all round", "of the hole"]), ("or", ["all round"])):
        (lay,) = [each for each in garment.lays if each.cloth == tincture]
        rows = [row for row in chalk_rows(lay, garment.draft.pieces, "cm") if row.key]
        assert [(row.what, row.letter) for row in rows] == [("arc", word) for word in says]
        rings = [pieces[tincture].cut, *pieces[tincture].cut_holes]
        for row, ring in zip(rows, rings, strict=True):
            wide = Polygon(ring).bounds[2] - Polygon(ring).bounds[0]
            assert 2 * row.radius == pytest.approx(wide, abs=0.1)
        assert chalk_text(rows, "cm").startswith("arc all round: radius")


def draft(**garment: Any) -> Draft:
    return prove_sheet(sheet({"neck": {"shape": "round"}, **garment})).draft


@pytest.mark.parametrize("face", ["front", "back"])
@pytest.mark.parametrize("shape", ["round", "rectangle", "V", "boat"])
@pytest.mark.parametrize(
    "garment",
    [
        {"body": {"shoulder": "seam", "centre_seam": "both"}},
        {"body": {"shoulder": "fold", "centre_seam": "both"}},
        {"division": {"by": "per pale", "tinctures": ["gules", "or"]}},
        {"division": {"by": "paly", "tinctures": ["gules", "or"], "count": 12}},
        {"division": {"by": "quarterly", "tinctures": ["gules", "or"]}, "body": {"shoulder": "seam"}},
    ],
)
def test_the_neck_is_the_same_in_however_many_pieces_the_body_is_cut(
    garment: dict[str, Any], shape: str, face: Face
) -> None:
    neck = {"shape": shape}
    whole, parted = draft(body={"shoulder": "seam"}, neck=neck), draft(**garment, neck=neck)
    one = LineString(necklines(whole)[face])
    assert one.hausdorff_distance(LineString(necklines(parted)[face])) < 0.01
    top = whole.dimensions.length
    assert one.hausdorff_distance(LineString(neck_curve(whole, face, top))) < 0.01
    # as it is drawn: no spike at the centre of a back in two halves
    seen = LineString(neck_curve(parted, face, top))
    assert seen.hausdorff_distance(one) < 0.01 and seen.length == pytest.approx(one.length, rel=1e-3)
