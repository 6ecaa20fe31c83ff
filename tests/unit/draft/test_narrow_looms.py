"""Looms of 50 to 75 cm, as the finds have them, and short cloths: real bodies, every style, judged from outside."""

from __future__ import annotations

import json

import pytest

from bodies import sample
from ellwand.choose.styles import STYLES
from ellwand.model.garment import Garment
from ellwand.pipeline import make, prove_sheet
from ellwand.publish.garment_json import garment_json
from independent import faults
from sheets import sheet

LOOMS = (50, 55, 60, 65, 70, 75)
PEOPLE = sample(6, 7)
CASES = [(style, LOOMS[i % 6], PEOPLE[(i + i // 6) % 6]) for i, style in enumerate(sorted(STYLES))]


def failing(garment: Garment) -> set[str]:
    return {finding.code for finding in garment.proof.findings if finding.outcome == "will not work"}


def piecings(garment: Garment) -> int:
    return sum(note.code == "pieced" for note in garment.draft.notes)


@pytest.mark.parametrize(("style", "loom", "person"), CASES, ids=[f"{style} {loom}" for style, loom, _ in CASES])
def test_every_style_can_be_cut(style: str, loom: int, person: dict[str, object]) -> None:
    made = make(sheet({"style": style}, wearer=person, cloth={"width": loom}), seconds=0)
    assert faults(json.loads(garment_json(made))) == []
    broad = prove_sheet(sheet({"style": style}, wearer=person, cloth={"width": 160}))
    assert failing(made) <= failing(broad)
    assert piecings(made) <= 5 and piecings(broad) == 0
    assert all(lay.use > 0.5 for lay in made.lays)


def test_an_apron_is_two_breadths_or_one_and_a_strip() -> None:
    apron = {"style": "apron", "apron": {"width": 80, "top": "plain"}}
    halves = make(sheet(apron, cloth={"width": 50}), seconds=0)
    assert [piece.name for piece in halves.draft.pieces] == ["apron", "apron half"]
    one, other = (max(x for x, _ in p.sewn) - min(x for x, _ in p.sewn) for p in halves.draft.pieces)
    assert one == pytest.approx(40) and other == pytest.approx(40)
    strip = make(sheet(apron, cloth={"width": 75}), seconds=0)
    assert [piece.name for piece in strip.draft.pieces] == ["apron", "apron strip"]
    assert "piecing" in [step.code for step in strip.steps]


def test_breeches_are_cut_from_a_narrow_loom() -> None:
    made = make(sheet({"style": "breeches"}, cloth={"width": 55}), seconds=0)
    assert piecings(made) == 1 and failing(made) == set()
    steps = [step.code for step in made.steps]
    assert steps.index("piecing") < steps.index("inside legs")


TUNIC = {"style": "tunic", "length": "ankle", "body": {"shoulder": "seam"}}


def test_a_panel_longer_than_the_cloth_is_pieced() -> None:
    """Two lengths of 130 cm side by side: no panel of 140 cm lies on them, but its two parts do."""
    short = {"width": 320, "length": 130, "washed": True}
    made = make(sheet(TUNIC, cloth=short), seconds=0)
    assert faults(json.loads(garment_json(made))) == []
    assert piecings(made) > 0 and "cloth-enough" not in failing(made)
    assert all(max(y for _, y in piece.cut) <= 130 for piece in made.draft.pieces)


def test_where_there_is_too_little_cloth_nothing_is_pieced_in_vain() -> None:
    made = make(sheet(TUNIC, cloth={"width": 60, "length": 130, "washed": True}), seconds=0)
    assert "cloth-enough" in failing(made)
    assert not any(note.values.get("what") == "long" for note in made.draft.notes)


def test_never_is_never() -> None:
    whole = {**TUNIC, "body": {"shoulder": "seam", "pieced": "never"}}
    made = make(sheet(whole, cloth={"width": 320, "length": 130, "washed": True}), seconds=0)
    assert piecings(made) == 0 and "cloth-enough" in failing(made)
