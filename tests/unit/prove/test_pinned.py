"""What is said of a pin's pull on the cloth."""

from __future__ import annotations

import pytest
from shapely import Polygon

from ellwand import prove_sheet
from ellwand.depict import words
from sheets import sheet


def told(garment: dict[str, object], grams: float | None) -> dict[str, float]:
    cloth = {} if grams is None else {"grams": grams}
    found = prove_sheet(sheet(garment, cloth=cloth)).cautions
    return {each.code: float(each.values["grams"]) for each in found if each.code.startswith("pin-")}


PINNED = {"closures": [{"at": "neck slit", "by": "pins"}]}


@pytest.mark.parametrize(
    ("garment", "grams", "codes"),
    [
        (PINNED, 120, {"pin-thin"}),
        (PINNED, 300, set()),
        (PINNED, None, set()),
        ({}, 120, set()),
        ({"style": "cloak"}, 400, {"pin-carries"}),
        ({"style": "cloak"}, 120, {"pin-carries", "pin-thin"}),
    ],
)
def test_only_what_is_pinned_and_weighed_is_cautioned(
    garment: dict[str, object], grams: float, codes: set[str]
) -> None:
    assert set(told(garment, grams)) == codes


def test_a_cloak_weighs_what_its_cloth_does() -> None:
    garment = prove_sheet(sheet({"style": "cloak"}, cloth={"grams": 400}))
    area = sum(piece.count * Polygon(piece.cut, piece.cut_holes).area for piece in garment.draft.pieces)
    caution = next(each for each in garment.cautions if each.code == "pin-carries")
    assert caution.values["grams"] == pytest.approx(400 * area / 1e4)
    assert f"{400 * area / 1e7:.1f} kg" in words.caution(caution, "cm")
