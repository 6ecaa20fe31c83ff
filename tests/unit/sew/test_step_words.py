"""Every step in words: short, in the maker's unit, and true of the garment at hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, get_args

import pytest

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.model.choices import Finish, SewnBy
from ellwand.model.draft import Draft, edge_at
from ellwand.sew import sew
from ellwand.sew.plan import NEEDS
from ellwand.units import Unit
from proving_specimens import drafted, wide_sample
from sheets import sheet

FINISHES: tuple[Finish, ...] = get_args(Finish)
PUT_ON = {"collar", "underlaps", "divisions", "charges", "motifs", "bands flat", "bands round", "motifs round"}
"""Steps of what the wide sample does not wear: below, and tests/unit/sew/test_trims.py."""


def said(draft: Draft, unit: Unit = "cm") -> dict[str, str]:
    return {step.code: words.step(step, draft, unit) for step in sew(draft)}


def sewn(draft: Draft, finish: Finish, by: SewnBy = "hand") -> Draft:
    sewing = replace(draft.choices.sewing, finish=finish, by=by)
    return replace(draft, choices=replace(draft.choices, sewing=sewing))


def gown(**garment: Any) -> Draft:
    return drafted({"gores": [], **garment})[0]


def test_every_step_has_words_and_few_of_them() -> None:
    met = set()
    for i, (draft, _) in enumerate(wide_sample()):
        here = sewn(draft, FINISHES[i % 6], "hand" if i % 5 else "machine")
        for unit in ("cm", "in"):
            for code, text in said(here, unit).items():
                met.add(code)
                assert 0 < len(text) < 400, (code, len(text), text)
                assert text[0].isupper() and text.endswith(".") and "  " not in text
                assert " cm" not in text if unit == "in" else " in)" not in text
    assert met == set(NEEDS) - PUT_ON


def test_a_sleeve_is_sewn_round_the_whole_of_its_top() -> None:
    draft = gown(body={"cut": "wide panels"}, sleeve={"shape": "tapered"})
    text = said(draft)["sleeves"]
    assert f"({draft.dimensions.sleeve_top:g} cm each)" in text
    assert "lies flat" in text


@pytest.mark.parametrize(("by", "stitch"), [("hand", True), ("machine", False)])
def test_strained_seams_are_back_stitched_by_hand(by: SewnBy, stitch: bool) -> None:
    text = said(sewn(gown(body={"cut": "wide panels"}), "run and fell", by))
    assert ("back stitch" in text["sleeves"]) is ("back stitch" in text["gussets"]) is stitch


@pytest.mark.parametrize(
    ("finish", "told"),
    [
        ("run and fell", " Fell toward the gusset."),
        ("flat-felled", " Fell flat toward the gusset."),
        ("french", " Press toward the gusset."),
        ("plain", " Press open."),
        ("overcast", " Press open."),
        ("open and stitched down", " Press open and sew both sides down."),
    ],
)
def test_each_seam_says_which_sides_meet_and_which_way_it_folds(finish: Finish, told: str) -> None:
    draft = sewn(gown(body={"cut": "wide panels"}), finish)
    text = said(draft)
    assert text["gussets"].endswith(told)
    faces = "wrong sides together" if finish == "french" else "right sides together"
    for step in sew(draft):
        if step.seams:
            assert faces in text[step.code].lower(), text[step.code]
    assert ("wrong sides together" in text["mark"]) is (finish == "french")
    folds = {step.folds for step in sew(draft) if step.seams}
    assert (folds == {"open"}) is (finish in ("plain", "overcast", "open and stitched down"))
    # ISO 4916: a felled seam is lapped, a plain or French one superimposed
    lapped = finish in ("run and fell", "flat-felled")
    assert {step.seam_iso for step in sew(draft) if step.seams} == {"2" if lapped else "1"}


def test_no_words_of_what_the_garment_does_not_have() -> None:
    plain = said(gown(body={"cut": "wide panels", "centre_seam": "front"}, neck={"shape": "round"}))
    assert "gores" not in plain["centre seams"] and "slit" not in plain["centre seams"]
    assert "fullness" not in plain["hem"]
    aside = said(gown(body={"cut": "wide panels", "centre_seam": "front"}, neck={"slit": "left"}))
    assert "slit open" not in aside["centre seams"] and "neck slit" in aside
    within = said(gown(body={"cut": "wide panels", "centre_seam": "front"}, neck={"slit": "centre"}))
    assert "slit open" in within["centre seams"] and "slit" in within["neck"]


def test_splits_cut_into_a_panel_are_faced_and_those_in_a_seam_hemmed() -> None:
    """A slit has no allowance to turn."""
    body = {"cut": "wide panels"}
    panel = said(gown(body=body, splits=[{"place": "centre-front"}]))
    assert "Face" in panel["split slits"] and "splits" not in panel
    seam = said(gown(body=body, splits=[{"place": "side"}]))
    assert "Face" not in seam["splits"] and "hem them" in seam["splits"]
    assert "top of the split" in seam["underarm and sides"]
    both = said(gown(body=body, splits=[{"place": "side"}, {"place": "centre-back"}]))
    assert "Face" in both["split slits"] and "hem them" in both["splits"]
    open_front = said(gown(body=body, closures=[{"at": "centre-front"}]))
    assert "open front" in open_front["splits"] and "top of each split" not in open_front["splits"]
    assert open_front["closures"].startswith("Centre-front: ")


def test_gores_that_are_whole_are_not_called_halves() -> None:
    row = [{"place": "centre-front", "base": 20, "make": "whole"}] * 2
    body = {"cut": "wide panels", "centre_seam": "front"}
    assert "half" not in said(gown(body=body, gores=row))["halves"]
    pair = [{"place": "centre-front", "base": 40, "make": "halves"}]
    assert "half gores" in said(gown(body=body, gores=pair))["halves"]


@pytest.mark.parametrize("gussets", ["on the sleeve", "on the body"])
@pytest.mark.parametrize("sleeves", ["flat", "in the round"])
def test_gussets_that_come_first_are_told_of_wherever_their_sides_are_sewn(sleeves: Any, gussets: Any) -> None:
    draft = gown(body={"cut": "wide panels"})
    sewing = replace(draft.choices.sewing, sleeves=sleeves, gussets=gussets)
    draft = replace(draft, choices=replace(draft.choices, sewing=sewing))
    text = said(draft)
    for step in sew(draft):
        if any("gusset" in f"{seam.a.part} {seam.b.part}" for seam in draft.seams if seam.id in step.seams):
            assert "gusset" in text[step.code], text[step.code]
    assert ("until it hangs well" in text["sleeves"]) is (sleeves == "in the round")


def test_selvedges_are_left_as_they_are() -> None:
    kept = {"selvedge_edges": True}
    for cloth, garment, some in (
        (kept, {"body": {"cut": "wide panels", "centre_seam": "front"}}, True),
        ({}, {"body": {"cut": "wide panels", "centre_seam": "front"}}, False),
        (kept, {"body": {"cut": "shoulder panels"}, "sleeve": {"shape": "none"}}, True),
    ):
        done = prove_sheet(sheet({"gores": [], **garment}, cloth=cloth))
        text = words.step(done.steps[0], done.draft, "cm")
        assert ("selvedges leave them as they are" in text) is some
        upright = {seam.id: {x for x, _ in edge_at(done.draft, seam.a).points} for seam in done.draft.seams}
        for step in done.steps[1:]:
            assert all(len(upright[name]) == 1 for name in step.selvedges)
            assert set(step.selvedges) <= set(step.seams)
            assert set(step.selvedges) <= set(done.steps[0].selvedges)


def test_collars_and_underlaps_have_steps_of_their_own() -> None:
    closed = [{"at": "neck slit", "by": "buttons", "lap": "overlap", "overlap": 2.5}]
    faced = {}
    for facing in ("none", "strip"):
        done = prove_sheet(sheet({"neck": {"collar": 4, "facing": facing}, "closures": closed}))
        faced[facing] = {step.code: words.step(step, done.draft, "cm") for step in done.steps}
        assert "right edge" in faced[facing]["underlaps"] and "2.5 cm" in faced[facing]["underlaps"]
        assert "underlap" not in faced[facing]["neck slit"] and "collar" in faced[facing]["collar"]
    assert "neck" not in faced["none"] and "the finished neck" in faced["strip"]["collar"]
    assert "join the neck strips" in faced["strip"]["neck"]
