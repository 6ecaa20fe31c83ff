"""The handout's sums, read as they are printed and reckoned by hand, come to the draft's own sizes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pytest

from bodies import sample
from ellwand import make, prove_sheet
from ellwand.depict.figure_landmarks import FRONT_ARM, KNEE, WAIST
from ellwand.depict.handout_words import Sums, measures_of, printed, reckoned, worked
from ellwand.depict.worn import worn_view
from ellwand.language import speaking
from ellwand.model.draft import Dimensions
from ellwand.model.garment import Garment
from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.wearer import Wearer, upper
from ellwand.publish.handout import sums_of
from ellwand.units import format_length, round_near, round_up
from sheets import sheet

SEED = 3
TUNICS = ("shift", "tunic", "gored gown", "riding surcote", "wide-sleeved gown")
FIELD_OF = {each.label: field for field, each in MEASUREMENTS.items()}
CLOTH = 150.0
SURE = ("head_girth", "hand_girth", "neck_base_girth")
"""A guess at these counts as the largest that they may well be: the neck and the cuff have to go on."""


def by_hand(sums: Sums, wearer: Wearer, sure: tuple[str, ...] = SURE) -> dict[str, float]:
    """Every printed line worked from left to right by its words alone (cm)."""
    letters = {letter: key for key, letter in sums.letters().items()}
    out: dict[str, float] = {}

    def number(text: str) -> float:
        if text in FIELD_OF:
            field = FIELD_OF[text]
            return upper(wearer.measures[field]) if field in sure else wearer[field]
        if text in letters:
            return out[letters[text]]
        if text == "width of the cloth":
            return CLOTH
        found = re.match(r"[\d.]+", text)
        assert found, text
        return float(found[0])

    for rule in sums.rules:
        total, sign = None, "start"
        for bit in printed(sums, rule, "cm"):
            text = bit.text
            if text == "the largest of":
                sign = "but at least"
            elif text in ("+", "−", "×", "÷", "but at least", "but at most"):
                sign = text
            elif text == "=":
                assert bit.blank
            elif text.startswith("(round"):
                assert total is not None
                shop = re.fullmatch(r"\(round up to (\d+) cm\)", text)
                total = (
                    round_up(total, float(shop[1]))
                    if shop
                    else {"(round up)": round_up, "(round)": round_near}[text](total, sums.grid)
                )
            elif total is None:
                total = number(text)
            else:
                total = {
                    "+": total + number(text),
                    "−": total - number(text),
                    "×": total * number(text),
                    "÷": total / (number(text) or 1.0),
                    "but at least": max(total, number(text)),
                    "but at most": min(total, number(text)),
                }[sign]
        assert total is not None
        out[rule.key] = total
    return out


def wanted(size: Dimensions) -> dict[str, float]:
    return {
        "length": size.length,
        "panel": size.panel_width,
        "side": size.side_panel,
        "armhole": size.armhole,
        "top": size.sleeve_top,
        "sleeve": max(size.sleeve_lengths.values()),
        "cuff": size.cuff,
        "elbow": size.elbow_width,
        "neck": size.neck_target,
        "slit": size.neck_slit,
    }


def agrees(garment: Garment) -> None:
    """All sizes that the draft has are told, and come to the same; the gusset's own is within what is told."""
    size = garment.draft.dimensions
    sums = sums_of(garment.draft, "cm")
    got = by_hand(sums, garment.wearer)
    for key, cm in wanted(size).items():
        if cm and not (key in ("top", "sleeve", "cuff", "elbow") and garment.choices.sleeve.head == "shaped"):
            # a length told to a tenth may be half of that away; on the grid it is the grid's own
            assert got[key] == pytest.approx(cm, abs=0.06 if key == "neck" else 1e-6), (key, garment.choices)
    if size.gusset and garment.choices.sleeve.gusset == "auto" and garment.choices.sleeve.head == "straight":
        assert 6.0 <= size.gusset <= got["gusset"] + 1e-6


@pytest.mark.parametrize("style", TUNICS)
def test_sums_by_hand_give_the_draft(style: str) -> None:
    for wearer in sample(60, SEED):
        agrees(prove_sheet(sheet({"style": style}, wearer=wearer)))


@pytest.mark.parametrize("style", TUNICS)
def test_gores_by_hand(style: str) -> None:
    for wearer in sample(10, SEED + 1):
        garment = prove_sheet(sheet({"style": style}, wearer=wearer))
        got = by_hand(sums_of(garment.draft, "cm"), garment.wearer)
        for i, gore in enumerate(garment.choices.gores):
            like = [other.start for other in garment.choices.gores].index(gore.start)
            piece = next(p for p in garment.draft.pieces if p.name in ("gore", "side gore", f"{gore.place} gore"))
            wide = {p.levels[0].radius for p in garment.draft.pieces if "gore" in p.name}
            assert any(got[f"gore length {like}"] == pytest.approx(radius, abs=0.02) for radius in wide), piece.id
            assert got[f"gore base {i}"] > 0


CHANGES: tuple[dict[str, Any], ...] = (
    {"style": "tunic", "sleeve": {"shape": "straight", "length": "elbow"}},
    {"style": "tunic", "sleeve": {"length": "three-quarter", "cuff": "close"}, "blouse": 8},
    {"style": "tunic", "sleeve": {"length": 40}, "length": 100},
    {"style": "tunic", "sleeve": {"length": "elbow"}, "layer": "outer"},
    {"style": "gored gown", "gores": [], "body": {"cut": "shoulder panels", "flare": 20}},
    {"style": "gored gown", "length": "ankle", "body": {"cut": "wide panels", "shoulder": "seam", "ease": 20}},
    {
        "style": "tunic",
        "body": {"centre_seam": "both"},
        "gores": [
            {"place": "side", "start": "waist", "base": 40, "top": 4},
            {"place": "centre-front", "start": "waist", "base": 30},
        ],
    },
    {"style": "tunic", "gores": [{"place": "side", "start": 25, "base": 20}], "length": "mid-thigh"},
    {"style": "tunic", "neck": {"shape": "round", "opening": "both shoulders"}, "body": {"shoulder": "seam"}},
    {"style": "tunic", "neck": {"shape": "boat", "ease": 4}},
)


@pytest.mark.parametrize("change", CHANGES, ids=str)
def test_other_choices_by_hand(change: Mapping[str, Any]) -> None:
    for wearer in sample(4, SEED + 2):
        garment = prove_sheet(sheet(change, wearer=wearer))
        open_at = garment.choices.neck.opening != "none"
        if open_at:
            size, got = garment.draft.dimensions, by_hand(sums_of(garment.draft, "cm"), garment.wearer)
            assert got["neck"] == pytest.approx(size.neck_target, abs=0.06)
            assert got["panel"] == pytest.approx(size.panel_width)
        else:
            agrees(garment)


OTHERS: tuple[dict[str, Any], ...] = (
    {"style": "hood"},
    {"style": "hood", "hood": {"gores": "shoulder", "cape": "15 cm"}},
    {"style": "hood", "hood": {"gores": "none", "cut": "halves"}},
    {"style": "cloak"},
    {"style": "cloak", "cloak": {"shape": "three-quarter", "length": "knee"}},
    {"style": "cloak", "cloak": {"shape": "rectangle"}},
    {"style": "coif"},
    {"style": "coif", "coif": {"cut": "band"}},
    {"style": "apron"},
    {"style": "apron", "apron": {"top": "plain", "length": "knee"}},
    {"style": "breeches"},
    {"style": "breeches", "breeches": {"waist": "band", "hem": "50 cm"}},
)


@pytest.mark.parametrize("choices", OTHERS, ids=str)
def test_the_others_by_hand(choices: Mapping[str, Any]) -> None:
    for wearer in sample(12, SEED):
        garment = prove_sheet(sheet(choices, wearer=wearer))
        size = garment.draft.settled
        got = by_hand(sums_of(garment.draft, "cm"), garment.wearer, ("head_girth",))
        told = 0
        for key in (
            "width",
            "height",
            "face",
            "gore",
            "length",
            "inner",
            "outer",
            "curve",
            "leg",
            "rise",
            "gusset",
            "band",
        ):
            cm = getattr(size, key, 0.0)
            if cm and key in got and not (key == "width" and "inner" in got):
                # only a circle's radii are not rounded: they are as near as what is printed
                assert got[key] == pytest.approx(cm, abs=0.06 if key in ("inner", "outer", "face") else 1e-6), key
                told += 1
        assert told >= 2


def test_german_says_the_same() -> None:
    garment = prove_sheet(sheet({"style": "tunic"}))
    with speaking("de"):
        sums = sums_of(garment.draft, "cm")
        bits = [bit.text for rule in sums.rules for bit in printed(sums, rule, "cm")]
    assert "+" in bits


def test_the_hem_and_cuffs_are_worn_at_the_right_height() -> None:
    garment = prove_sheet(sheet({"style": "tunic", "length": "knee"}))
    worn = [stroke.points for stroke in worn_view(garment.draft, garment.wearer).strokes if stroke.role == "garment"]
    body = max(worn, key=len)
    assert min(y for _, y in body) == pytest.approx(KNEE, abs=0.5)
    sleeves = [points for points in worn if len(points) in (4, 5) and points is not body]
    wrist = FRONT_ARM[6][1]
    assert len(sleeves) == 2
    for points in sleeves:
        assert min(y for _, y in points) == pytest.approx(wrist, abs=4.0)


def test_an_apron_hangs_from_the_waist() -> None:
    garment = prove_sheet(sheet({"style": "apron", "apron": {"length": "knee"}}))
    worn = [stroke.points for stroke in worn_view(garment.draft, garment.wearer).strokes if stroke.role == "garment"]
    heights = [y for points in worn for _, y in points]
    assert min(heights) == pytest.approx(KNEE + 0.0, abs=5.0)
    assert max(heights) == pytest.approx(WAIST, abs=6.0)


@pytest.mark.parametrize("style", [*TUNICS, "hood", "cloak", "coif", "apron", "breeches"])
def test_the_cloth_to_buy_is_enough(style: str) -> None:
    for width in (150, 90):
        garment = make(sheet({"style": style}, cloth={"width": width}), seconds=0.2, seed=1)
        measured = measures_of(garment.wearer, width)
        asked = reckoned(sums_of(garment.draft, "cm"), measured)["cloth"]
        laid = sum(lay.length for lay in garment.lays)
        assert laid <= asked <= 2.5 * laid


@pytest.mark.parametrize("style", [*TUNICS, "hood", "cloak", "coif", "apron", "breeches"])
def test_the_example_is_the_draft(style: str) -> None:
    garment = prove_sheet(sheet({"style": style}))
    sums, measured = sums_of(garment.draft, "cm"), measures_of(garment.wearer, CLOTH)
    values = reckoned(sums, measured)
    by_words = by_hand(sums, garment.wearer, SURE if style in TUNICS else ("head_girth",))
    for rule in sums.rules:
        assert values[rule.key] == pytest.approx(by_words[rule.key], abs=0.1)
        assert worked(sums, rule, values, measured, "cm").endswith(f"= {format_length(values[rule.key], mark=False)}")
