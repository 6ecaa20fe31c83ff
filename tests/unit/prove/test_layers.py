"""Garments worn over each other: compared on the same body, told with numbers, mended by what the mend says."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from ellwand.depict import words
from ellwand.draft import draft
from ellwand.errors import BadInput
from ellwand.loading import load_sheet
from ellwand.measure import wearer_from
from ellwand.model.finding import Finding
from ellwand.pipeline import prove_sheet
from ellwand.prove.layers import layers
from sheets import JOAN, sheet, toml

BENEATH: Mapping[str, Any] = {"style": "shift", "length": 100}


def compared(outer: Mapping[str, Any], inner: Mapping[str, Any], thick: float = 0.6) -> dict[str, Finding]:
    """What is found of the outer over the inner, by code."""
    outer = {"over": [{"thickness_mm": thick}], **outer}
    over, under = sheet(outer), sheet(inner)
    wearer = wearer_from(over.wearer)
    drafts = [draft(each.choices, wearer, "main") for each in (over, under)]
    out = {each.code: each for each in layers(drafts[0], drafts[1:], wearer)}
    for unit in ("cm", "in"):
        for each in out.values():
            assert words.why(each, unit).endswith(".")  # type: ignore[arg-type]
            assert bool(words.mend(each, unit)) == (each.outcome != "sound")  # type: ignore[arg-type]
    return out


def test_a_tunic_over_a_shift() -> None:
    found = compared({"style": "tunic", "sleeve": {"length": 40}}, BENEATH)
    assert {code: each.outcome for code, each in found.items()} == dict.fromkeys(
        ("layer-girth", "layer-sleeve-room", "layer-sleeve", "layer-hem", "layer-neck"), "sound"
    )
    assert found["layer-sleeve"].measured == pytest.approx(5, abs=1.6)


def test_girths_clear_the_one_beneath() -> None:
    inner = {**BENEATH, "body": {"ease": 40}}
    tight = compared({"style": "tunic", "body": {"ease": 14}}, inner)["layer-girth"]
    assert tight.outcome == "look again" and tight.measured is not None and tight.needed is not None
    # 2π × thickness, less what lies in folds
    assert tight.needed == pytest.approx(float(tight.values["inner"]) + 2 * math.pi * 0.06 - 4)
    more = tight.needed - tight.measured + float(tight.values["rounding"])
    mended = compared({"style": "tunic", "body": {"ease": 14 + math.ceil(2 * more) / 2}}, inner)["layer-girth"]
    assert mended.outcome == "sound"


def test_sleeves_step() -> None:
    bad = compared({"style": "tunic"}, BENEATH)["layer-sleeve"]
    assert bad.outcome == "look again" and bad.measured == pytest.approx(0, abs=1)
    wanted = float(bad.values["length"])
    good = compared({"style": "tunic", "sleeve": {"length": wanted}}, BENEATH)["layer-sleeve"]
    assert good.outcome == "sound" and good.measured == pytest.approx(4, abs=0.6)


@pytest.mark.parametrize("shape", ["wide", "none"])
def test_wide_sleeves_and_none_need_not_step(shape: str) -> None:
    assert "layer-sleeve" not in compared({"style": "tunic", "sleeve": {"shape": shape}}, BENEATH)


def test_a_sleeve_passes_the_one_beneath() -> None:
    inner = {**BENEATH, "sleeve": {"shape": "straight"}}
    bad = compared({"style": "tunic", "sleeve": {"shape": "fitted forearm"}}, inner)["layer-sleeve-room"]
    assert bad.outcome == "look again" and 'sleeve.shape = "straight"' in words.mend(bad, "cm")
    assert compared({"style": "tunic", "sleeve": {"shape": "straight"}}, inner)["layer-sleeve-room"].outcome == "sound"
    wide = {**BENEATH, "sleeve": {"shape": "wide"}}
    told = compared({"style": "tunic"}, wide)["layer-sleeve-room"]
    assert told.outcome == "look again" and "closer sleeve" in words.mend(told, "cm")


def test_hems_show_or_cover() -> None:
    same = compared({"style": "tunic", "length": 101}, BENEATH)["layer-hem"]
    assert same.outcome == "look again" and same.measured == -1
    mended = compared({"style": "tunic", "length": float(same.values["length"])}, BENEATH)["layer-hem"]
    assert mended.outcome == "sound" and mended.measured == 4 and "shows 4 cm" in words.why(mended, "cm")
    covers = compared({"style": "tunic", "length": 110}, BENEATH)["layer-hem"]
    assert covers.outcome == "sound" and "covers" in words.why(covers, "cm")


def test_a_cloak_is_compared_by_its_hem_alone() -> None:
    found = compared({"style": "cloak", "cloak": {"length": 100.5}}, BENEATH)
    assert list(found) == ["layer-hem"] and 'cloak.length = "96 cm"' in words.mend(found["layer-hem"], "cm")
    mended = compared({"style": "cloak", "cloak": {"length": 96}}, BENEATH)
    assert mended["layer-hem"].outcome == "sound"
    assert compared({"style": "hood"}, BENEATH) == {}


def test_necks_show_or_cover_but_do_not_cross() -> None:
    inner = {**BENEATH, "neck": {"shape": "round"}}
    crossing = compared({"style": "tunic", "neck": {"shape": "boat"}}, inner)["layer-neck"]
    assert crossing.outcome == "look again" and float(crossing.values["wider"]) > 0 > float(crossing.values["deeper"])
    same = compared({"style": "tunic", "neck": {"shape": "round"}}, inner)["layer-neck"]
    assert same.outcome == "sound" and "edge to edge" in words.why(same, "cm")
    shows = compared({"style": "tunic", "neck": {"shape": "round"}}, BENEATH)["layer-neck"]
    assert shows.outcome == "sound" and "shows" in words.why(shows, "cm")


def write(folder: Path, name: str, garment: Mapping[str, Any], thickness: float) -> None:
    tables = {"wearer": JOAN, "garment": garment, "cloth": {"main": {"width": 150, "thickness_mm": thickness}}}
    (folder / name).write_text(toml(tables), "utf-8")


def test_an_outfit_of_sheets(tmp_path: Path) -> None:
    """Every sheet beneath counts once, however often it is named, and each is compared."""
    write(tmp_path, "shift.toml", {"style": "shift"}, 0.5)
    write(tmp_path, "tunic.toml", {"style": "tunic", "over": ["shift.toml"]}, 1.5)
    write(tmp_path, "coat.toml", {"style": "riding surcote", "over": ["shift.toml", "tunic.toml"]}, 3)
    write(tmp_path, "coat2.toml", {"style": "riding surcote", "over": ["tunic.toml", {"thickness_mm": 4}]}, 3)
    read = load_sheet(tmp_path / "coat.toml")
    assert read.choices.beneath_mm == pytest.approx(2)
    assert [under.choices.style for under in read.beneath] == ["shift", "tunic"]
    assert load_sheet(tmp_path / "coat2.toml").choices.beneath_mm == pytest.approx(6)
    done = prove_sheet(read)
    assert [f.subject for f in done.proof.findings if f.code == "layer-hem"] == ["shift", "tunic"]


def test_a_sheet_beneath_that_cannot_be_drafted_is_named(tmp_path: Path) -> None:
    write(tmp_path, "shift.toml", {"style": "shift", "length": 31}, 0.5)
    write(tmp_path, "tunic.toml", {"style": "tunic", "over": ["shift.toml"]}, 1)
    with pytest.raises(BadInput, match=r"garment.over: the shift beneath: garment.length"):
        prove_sheet(load_sheet(tmp_path / "tunic.toml"))
