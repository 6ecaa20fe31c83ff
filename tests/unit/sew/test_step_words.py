"""Every step in words: short, in the maker's unit, and true of the garment at hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from ellwand.depict import words
from ellwand.model.choices import Finish, SewnBy
from ellwand.model.draft import Draft
from ellwand.sew import sew
from ellwand.sew.order import NEEDS
from ellwand.units import Unit
from proving_specimens import drafted, wide_sample

FINISHES: tuple[Finish, ...] = ("plain", "run and fell", "french", "overcast")


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
        here = sewn(draft, FINISHES[i % 4], "hand" if i % 3 else "machine")
        for unit in ("cm", "in"):
            for code, text in said(here, unit).items():
                met.add(code)
                assert 0 < len(text) < 320, (code, len(text))
                assert text[0].isupper() and text.endswith(".") and "  " not in text
                assert " cm" not in text if unit == "in" else " in)" not in text
    assert met == set(NEEDS)


def test_a_sleeve_is_sewn_round_the_whole_of_its_top() -> None:
    draft = gown(body={"cut": "wide panels"}, sleeve={"shape": "tapered"})
    text = said(draft)["sleeves"]
    assert f"({draft.dimensions.sleeve_top:g} cm each)" in text
    assert "laid flat" in text or "lies flat" in text


@pytest.mark.parametrize(("by", "stitch"), [("hand", True), ("machine", False)])
def test_strained_seams_are_back_stitched_by_hand(by: SewnBy, stitch: bool) -> None:
    text = said(sewn(gown(body={"cut": "wide panels"}), "run and fell", by))
    assert ("back stitch" in text["sleeves"]) is ("back stitch" in text["gussets"]) is stitch


@pytest.mark.parametrize(
    ("finish", "told"),
    [
        ("run and fell", "Fell toward the gusset."),
        ("french", "Press toward the gusset."),
        ("plain", "there."),
        ("overcast", "there."),
    ],
)
def test_each_seam_says_which_way_it_folds_unless_it_is_opened(finish: Finish, told: str) -> None:
    text = said(sewn(gown(body={"cut": "wide panels"}), finish))
    assert text["gussets"].endswith(told)
    assert ("wrong sides together" in text["mark"]) is (finish == "french")
    assert not any("right sides together" in text[code] for code in text if code not in ("mark", "neck slit"))


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
    panel = said(gown(body=body, splits=[{"place": "centre-front"}]))["splits"]
    assert "Face" in panel and "hem them" not in panel
    seam = said(gown(body=body, splits=[{"place": "side"}]))
    assert "Face" not in seam["splits"] and "hem them" in seam["splits"]
    assert "top of the split" in seam["underarm and sides"]
    both = said(gown(body=body, splits=[{"place": "side"}, {"place": "centre-back"}]))["splits"]
    assert "Face" in both and "hem them" in both
    open_front = said(gown(body=body, closures=[{"at": "centre-front"}]))
    assert "open front" in open_front["splits"] and "top of each split" not in open_front["splits"]
    assert open_front["closures"].startswith("Centre-front: ")


def test_gores_that_are_whole_are_not_called_halves() -> None:
    row = [{"place": "centre-front", "base": 20, "make": "whole"}] * 2
    body = {"cut": "wide panels", "centre_seam": "front"}
    assert "half" not in said(gown(body=body, gores=row))["halves"]
    pair = [{"place": "centre-front", "base": 40, "make": "halves"}]
    assert "half gores" in said(gown(body=body, gores=pair))["halves"]
