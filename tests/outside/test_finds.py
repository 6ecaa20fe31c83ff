"""Extant garments rebuilt from choices.

Figures after the finds' publications as collected in the project's sources: the Bocksten kyrtle (Nockert 1997, in
I. Marc Carlson's web pages), the Greenland gowns of Herjolfsnes (Norlund 1924, same pages).  Each test
gives choices (panel ease, gore bases, neck ease), never the number it checks.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from finds import Find, doubts, finds, page

from ellwand import Garment, prove_sheet
from ellwand.prove.evidence import evidence
from sheets import sheet

DOC = Path(__file__).parents[2] / "docs" / "finds.md"

MAN: dict[str, Any] = {
    "sex": "male",
    "height": 175,
    "bust_girth": 98,
    "waist_girth": 86,
    "hip_girth": 98,
    "head_girth": 57,
    "neck_base_girth": 40,
}


def rim(garment: Garment, name: str) -> float:
    return next(rim.length for rim in garment.proof.shell.rims if rim.id == name)


def bocksten() -> Garment:
    """Body panels 58 + 58, gores 48 front and back, side gores 38 together, cloth 230 over the shoulders,
    neck 82 round without a shoulder seam, a head of 57."""
    return prove_sheet(
        sheet(
            {
                "style": "tunic",
                "length": 230 / 2,
                "body": {"ease": 116 - 98},
                "gores": [
                    {"place": "centre-front", "start": "hip", "base": 48, "make": "halves"},
                    {"place": "centre-back", "start": "hip", "base": 48},
                    {"place": "side", "start": "hip", "base": 38 / 2},
                ],
                "neck": {"shape": "round", "ease": 82 - 57},
                "sleeve": {"length": 61, "cuff": 23},
            },
            wearer=MAN,
        )
    )


def test_bocksten_bases_and_panels_add_up_to_its_hem() -> None:
    # the side gores' 38 are what the hem of 250 leaves: this checks the sum, not the find; slits are drawn 0.2 wide
    assert rim(bocksten(), "hem") == pytest.approx(250, abs=0.6)


def test_bocksten_neck_is_82_and_passes_a_head_of_57_without_a_slit() -> None:
    garment = bocksten()
    assert rim(garment, "neck") == pytest.approx(82, abs=0.1)
    assert garment.draft.dimensions.neck_slit == 0


def test_bocksten_body_is_one_length_of_cloth() -> None:
    body = next(piece for piece in bocksten().draft.pieces if piece.id == "body")
    assert max(y for _, y in body.sewn) - min(y for _, y in body.sewn) == pytest.approx(230)
    assert max(x for x, _ in body.sewn) - min(x for x, _ in body.sewn) == pytest.approx(58)


def test_herjolfsnes_33_hem_over_waist() -> None:
    """H33: waist 113, hem 277 of which side gores 170 (two a side); hem/waist 2.45."""
    garment = prove_sheet(
        sheet(
            {
                "length": 108,
                "body": {"ease": 113 - 98},
                "gores": [
                    {"place": "side", "start": "waist", "base": 85 / 2},
                    {"place": "side", "start": "waist", "base": 85 / 2},
                ],
                "neck": {"shape": "round", "ease": 73 - 57},
            },
            wearer=MAN,
            sewing={"chalk": 0.5},
        )
    )
    assert garment.draft.dimensions.body_girth == pytest.approx(113, abs=0.5)
    # the find's own panels narrow to 107 at the hem; straight panels keep the waist's 113
    assert rim(garment, "hem") - garment.draft.dimensions.body_girth == pytest.approx(170, abs=1)
    assert rim(garment, "hem") / garment.draft.dimensions.body_girth == pytest.approx(2.45, abs=0.07)
    assert rim(garment, "neck") == pytest.approx(73, abs=0.1)


@pytest.mark.parametrize(("find", "round_", "head"), [("H39", 70.5, 57.0), ("H43", 79.0, 57.0), ("close", 41.0, 57.0)])
def test_necks_with_a_slit_open_to_the_round_and_both_lips(find: str, round_: float, head: float) -> None:
    """H39: 70.5 round and a slit; H43: 79 and a slit; both pass a head of 57 (the Greenland hoods' own head girth)."""
    garment = prove_sheet(
        sheet(
            {"neck": {"shape": "keyhole", "ease": round_ - 40}},
            wearer={**MAN, "head_girth": head, "across_shoulder": 46},
            sewing={"chalk": 0.1},
        )
    )
    assert rim(garment, "neck") == pytest.approx(round_ + 2 * garment.draft.dimensions.neck_slit, abs=0.3), find
    assert rim(garment, "neck") >= head + 0.7


def test_keyhole_of_a_five_and_a_half_inch_circle_and_a_three_inch_slit() -> None:
    """A keyhole that passes most heads: 5.5 in circle and 3 in slit open 59.1 cm (published by a re-enactor)."""
    circle, slit = math.pi * 5.5 * 2.54, 3 * 2.54
    garment = prove_sheet(
        sheet(
            {"neck": {"shape": "keyhole", "ease": circle - 40}},
            wearer={**MAN, "head_girth": circle + 2 * slit - 1},
            sewing={"chalk": 0.1},
        )
    )
    assert garment.draft.dimensions.neck_slit == pytest.approx(slit, abs=0.1)
    assert rim(garment, "neck") == pytest.approx(59.1, abs=0.3)


def test_neck_of_38_needs_a_slit_of_ten_and_a_half_for_a_head_of_57_and_two_to_spare() -> None:
    """Arithmetic: (57 + 2 − 38) / 2 = 10.5."""
    garment = prove_sheet(
        sheet({"neck": {"shape": "keyhole", "ease": 0}}, wearer={**MAN, "neck_base_girth": 38, "head_girth": 58})
    )
    assert garment.draft.dimensions.neck_slit == 10.5


def test_cote_of_eight_gores() -> None:
    """A published cote: chest 105, ease 12 a half (girth 129), eight gores of 25 set in pairs: hem 329."""
    gores = [
        {"place": place, "start": "waist", "base": 50, "make": "halves"}
        for place in ("side", "centre-front", "centre-back")
    ]
    garment = prove_sheet(
        sheet(
            {"length": 110, "body": {"ease": 24, "centre_seam": "both", "shoulder": "seam"}, "gores": gores},
            wearer={**MAN, "bust_girth": 105},
        )
    )
    assert garment.draft.dimensions.body_girth == pytest.approx(129)
    assert rim(garment, "hem") == pytest.approx(329, abs=0.2)


def test_layer_beneath_adds_two_pi_its_thickness() -> None:
    """2π × 3 mm = 1.9 cm and 2π × 10 mm = 6.3 cm (arithmetic on a circle)."""
    girths = [
        prove_sheet(
            sheet({"over": [{"thickness_mm": mm}] if mm else []}, wearer=MAN, sewing={"chalk": 0.1})
        ).draft.dimensions.body_girth
        for mm in (0, 3, 10)
    ]
    assert girths[1] - girths[0] == pytest.approx(1.9, abs=0.2)
    assert girths[2] - girths[0] == pytest.approx(6.3, abs=0.2)


@pytest.mark.parametrize("layer", ["skin", "middle", "outer"])
def test_sizes_lie_in_published_ranges(layer: str) -> None:
    """Thursfield 2001: cote flat width half chest + 8 to 20 (smock + 10 or more in girth), sleeve top 35 to 60, gusset
    8 to 12; extant armholes 45 to 66 round."""
    garment = prove_sheet(sheet({"layer": layer, "style": "tunic"}, wearer=MAN))
    size = garment.draft.dimensions
    assert 98 + 10 <= size.body_girth <= 98 + 40
    assert 35 <= size.sleeve_top <= 60
    assert size.gusset == 0 or 8 <= size.gusset <= 12


NAMES = [find.name for find in finds()]


@pytest.mark.parametrize("find", finds(), ids=NAMES)
def test_numbers_of_finds_that_no_choice_was_given(find: Find) -> None:
    """Every residual within what the data say it may be; the data say why it is not nothing."""
    for number in find.numbers:
        assert abs(number.residual) <= number.tolerance, (number.what, number.residual)
        assert number.basis in ("geometry", "wearer")


@pytest.mark.parametrize("find", finds(), ids=NAMES)
def test_what_was_once_worn_can_be_made_and_worn(find: Find) -> None:
    """It assembles, goes on, lets its wearer walk and sit: nothing in the proof 'will not work'."""
    assert all(each.outcome != "will not work" for each in find.garment.proof.findings)
    assert find.garment.proof.shell.orientable
    assert all("the program" not in each for each in doubts(find))


@pytest.mark.parametrize("find", finds(), ids=NAMES)
def test_the_evidence_knows_the_finds_in_their_own_time(find: Find) -> None:
    """What is not known at a find's own date and place is only what we added to it, and said so."""
    not_here = ("not known", "known elsewhere")
    unknown = {each.subject for each in evidence(find.garment.draft) if each.values.get("standing") in not_here}
    assert unknown == find.undated


def test_armholes_agree_with_finds_on_the_whole() -> None:
    """Six published armholes: their mean residual is small, though no wearer is known."""
    residuals = [number.residual for find in finds() for number in find.numbers if number.what == "armhole"]
    assert len(residuals) == 6
    assert abs(sum(residuals) / len(residuals)) < 3


def test_the_page_of_finds_is_up_to_date() -> None:
    """python tests/outside/finds.py > docs/finds.md"""
    assert DOC.read_text("utf-8") == page()
