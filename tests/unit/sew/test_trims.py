"""Colours, bands, motifs and charges: on the flat cloth wherever that can be, and never before what they lie on."""

from __future__ import annotations

import json
from typing import Any

import pytest

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.model.draft import Draft
from ellwand.model.garment import Garment
from ellwand.model.step import Step
from ellwand.publish.garment_json import garment_json
from making import faults
from sheets import sheet

FLAT = {"charges", "motifs", "bands flat"}


def worn(**garment: Any) -> Garment:
    done = prove_sheet(sheet({"body": {"cut": "wide panels"}, **garment}))
    assert not faults(json.loads(garment_json(done)))
    return done


def at(done: Garment) -> dict[str, Step]:
    return {step.code: step for step in done.steps}


def bands_in(done: Garment, code: str) -> set[str]:
    step = at(done).get(code)
    return {done.draft.adornment.bands[i].at for i in step.trims} if step else set()


def behind(done: Garment, code: str) -> set[str]:
    """The codes of all that a step waits for."""
    number = {step.n: step for step in done.steps}
    out: set[str] = set()
    todo = [at(done)[code]]
    while todo:
        step = todo.pop()
        more = [number[n] for n in step.needs if number[n].code not in out]
        out |= {each.code for each in more}
        todo += more
    return out


@pytest.mark.parametrize(
    ("band", "garment", "code", "after"),
    [
        # place, garment, the step it goes on in, and what is done before: common practice, written down for the test
        ("neck", {}, "bands flat", {"neck"}),
        ("cuffs", {}, "bands flat", set()),
        ("cuffs", {"sleeve": {"shape": "fitted forearm"}}, "bands round", {"cuffs"}),
        ("upper arm ring", {}, "bands flat", set()),
        ("shoulder seams", {"body": {"cut": "wide panels", "shoulder": "seam"}}, "bands flat", {"shoulders"}),
        ("armholes", {"sleeve": {"gusset": "none"}}, "bands flat", {"sleeves"}),
        ("armholes", {"sleeve": {"shape": "none"}}, "bands round", {"armhole edges"}),
        ("side seams", {}, "bands round", {"underarm and sides"}),
        ("hem", {}, "bands round", {"hem", "hang"}),
        ("skirt ring", {}, "bands round", {"underarm and sides"}),
        ("splits", {"splits": [{"place": "side"}], "gores": []}, "bands round", {"splits"}),
    ],
)
def test_each_band_goes_on_when_it_is_easiest(band: str, garment: dict[str, Any], code: str, after: set[str]) -> None:
    done = worn(bands=[{"at": band, "width": 3, **({"height": 12} if "ring" in band else {})}], **garment)
    assert bands_in(done, code) == {band} and code in at(done)
    assert after <= behind(done, code)
    closing = at(done)["underarm and sides"]
    assert (at(done)[code].n < closing.n) is (code == "bands flat")
    assert (code in behind(done, "underarm and sides")) is (code == "bands flat")
    parts = {part for each in done.draft.adornment.bands for part in each.parts}
    assert parts and parts <= set(at(done)[code].parts)


def test_in_the_round_too_the_cuffs_are_banded_before_the_sleeve_is_closed() -> None:
    done = prove_sheet(sheet({"bands": [{"at": "cuffs"}, {"at": "neck"}]}, sewing={"sleeves": "in the round"}))
    assert not faults(json.loads(garment_json(done)))
    assert bands_in(done, "bands flat") == {"cuffs", "neck"}
    assert "bands flat" in behind(done, "sleeve seams") and "sleeve seams" in behind(done, "sleeves")


def test_motifs_wait_for_the_seams_they_cross_and_for_a_hem_that_has_to_hang() -> None:
    neck = worn(repeats=[{"motif": "lozenge", "along": "neck"}], body={"cut": "wide panels", "shoulder": "seam"})
    assert "shoulders" in behind(neck, "motifs") and "motifs" in behind(neck, "underarm and sides")
    clear = worn(gores=[], repeats=[{"motif": "lozenge", "along": "neck slit"}])
    assert "motifs" in behind(clear, "underarm and sides")
    hung = worn(repeats=[{"motif": "lozenge", "along": "hem", "clear_of_seams": True}])
    assert {"hang", "hem"} <= behind(hung, "motifs round")
    over = worn(gores=[], repeats=[{"motif": "lozenge", "along": "hem"}])
    repeat = over.draft.adornment.repeats[0]
    # the sides lie a quarter and three quarters of the way round, and a motif on each
    sides = [repeat.run.length / 4, 3 * repeat.run.length / 4]
    assert all(min(abs(side - at) for at in repeat.at) < repeat.size / 2 for side in sides)
    assert "underarm and sides" in behind(over, "motifs round")


def test_charges_go_on_once_what_they_cross_is_joined() -> None:
    done = worn(
        body={"cut": "wide panels", "centre_seam": "both", "shoulder": "seam"},
        charges=[{"ordinary": "fess", "tincture": "or"}],
    )
    assert "centre seams" in behind(done, "charges") and "charges" in behind(done, "underarm and sides")
    assert at(done)["charges"].n < at(done)["shoulders"].n
    charge = done.draft.adornment.charges[0]
    assert set(charge.parts) <= set(at(done)["charges"].parts)
    assert {"front-left", "front-right"} <= set(at(done)["charges"].parts)
    assert not {"back-left", "back-right"} & set(at(done)["charges"].parts)


def test_the_colours_of_a_piece_are_joined_before_all_else() -> None:
    done = worn(division={"by": "per fess", "tinctures": ["or", "gules"]})
    first = next(step for step in done.steps if step.seams)
    assert first.code == "divisions"
    kinds = {seam.kind for seam in done.draft.seams if seam.id in first.seams}
    assert kinds == {"division seam"}
    sewn = [step for step in done.steps if step.seams and step is not first]
    assert all("divisions" in behind(done, step.code) for step in sewn)


def test_what_is_pieced_is_pieced_before_its_colours_meet() -> None:
    done = prove_sheet(
        sheet({"body": {"pieced": "40 cm"}, "division": {"by": "per fess", "tinctures": ["or", "gules"]}})
    )
    assert not faults(json.loads(garment_json(done)))
    assert "piecing" in behind(done, "divisions")


def test_every_step_of_what_adorns_has_words() -> None:
    done = worn(
        division={"by": "per pale", "tinctures": ["or", "gules"]},
        bands=[{"at": "neck"}, {"at": "hem"}, {"at": "side seams"}],
        repeats=[
            {"motif": "lozenge", "along": "cuffs", "by": by} for by in ("stencil", "block", "embroidery", "appliqué")
        ]
        + [{"motif": "lozenge", "along": "hem"}],
        charges=[{"ordinary": "fess", "tincture": "argent"}],
    )
    assert FLAT | {"divisions", "bands round", "motifs round"} <= set(at(done))
    for step in done.steps:
        for unit in ("cm", "in"):
            text = words.step(step, done.draft, unit)
            assert text[0].isupper() and text.endswith(".") and "  " not in text and "{" not in text
    text = {step.code: words.step(step, done.draft, "cm") for step in done.steps}
    assert "the neck" in text["bands flat"] and "sleeve" not in text["bands flat"]
    assert "the hem and the side seams" in text["bands round"]
    for way in ("paint", "Stamp", "Embroider", "Sew"):
        assert way in text["motifs"], text["motifs"]


def test_nothing_that_is_sewn_on_is_forgotten_or_told_twice() -> None:
    drafts: list[tuple[Draft, tuple[Step, ...]]] = []
    for garment in (
        {"neck": {"facing": "shaped"}, "closures": [{"at": "cuffs", "lap": "overlap"}]},
        {"neck": {"facing": "strip", "collar": 3}, "splits": [{"place": "centre-back", "facing": "strip"}]},
        {"neck": {"facing": "strip"}, "splits": [{"place": "side", "facing": "strip"}], "bands": [{"at": "hem"}]},
    ):
        done = worn(**garment)
        drafts.append((done.draft, done.steps))
    for draft, steps in drafts:
        assert draft.applied
        for part in draft.applied:
            assert [part.id in step.parts for step in steps].count(True) == 1
