"""What the proof finds, and that it gets no worse when the maker gives more."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bodies import sample
from ellwand.choose.styles import STYLES
from ellwand.depict import words
from ellwand.draft import draft as make_draft
from ellwand.model.finding import Finding
from ellwand.model.wearer import Measure
from ellwand.prove import cautions, prove
from ellwand.prove.goes_on import neck_passes
from proving_specimens import RANK, drafted, found, wide_sample
from sheets import JOAN

HEAD = Measure(57.0)


@pytest.mark.parametrize(
    ("around", "outcome"),
    [
        (70.5 + 9, "sound"),  # Herjolfsnes 39: neck hole and slit
        (79 + 36, "sound"),  # Herjolfsnes 43
        (82, "sound"),  # Bocksten, without a slit
        (59.1, "sound"),  # a circle of 5.5 in with a slit of 3 in, said to pass most heads
        (38, "will not work"),  # a close neck without a slit
        (38 + 2 * 10.5, "sound"),
        (57.5, "look again"),
    ],
)
def test_necks_of_finds_pass_a_head_of_57(around: float, outcome: str) -> None:
    """Norlund, Buried Norsemen at Herjolfsnes (1924); Nockert (1997); a hood find gives the head of 57."""
    assert neck_passes(around, HEAD).outcome == outcome


@given(st.floats(20, 70), st.floats(0, 40), st.floats(0, 10), st.floats(50, 62), st.sampled_from([0.0, 1.4]))
def test_a_longer_slit_never_makes_going_on_worse(
    around: float, slit: float, more: float, head: float, sd: float
) -> None:
    measure = Measure(head, "estimated" if sd else "measured", sd)
    short, long = (neck_passes(around + 2 * each, measure) for each in (slit, slit + more))
    assert RANK[long.outcome] <= RANK[short.outcome]


@given(
    st.integers(0, 30),
    st.integers(0, 15),
    st.sampled_from(["wide panels", "shoulder panels"]),
    st.sampled_from(["knee", "hip", "ankle"]),
    st.sampled_from(["skin", "outer"]),
)
def test_more_ease_never_fits_worse(ease: int, more: int, cut: str, length: str, layer: str) -> None:
    def judged(amount: int) -> dict[str, int]:
        garment = {"layer": layer, "length": length, "body": {"cut": cut, "ease": amount}, "sleeve": {"shape": "none"}}
        return {key: RANK[each.outcome] for key, each in found(garment).items() if each.code.startswith("fits")}

    tight, loose = judged(ease), judged(ease + more)
    assert {key.split(":")[1] for key in tight} == {key.split(":")[1] for key in loose}
    assert max(loose.values()) <= max(tight.values())
    assert all(loose[key] <= rank for key, rank in tight.items() if key in loose)


def test_every_draft_of_a_wide_sample_assembles_and_names_each_check_once() -> None:
    for draft, wearer in wide_sample():
        findings = prove(draft, wearer).findings
        ids = [(each.code, each.subject) for each in findings]
        assert len(ids) == len(set(ids))
        bad = [each for each in findings if each.outcome == "will not work"]
        assert not [e for e in bad if e.code in ("surface", "one-piece", "openings", "seam-kind", "outline-gap")]


@pytest.mark.parametrize("style", STYLES)
def test_real_bodies_get_a_garment_that_works(style: str) -> None:
    """Twenty rows of a public survey (ANSUR II 2012): a style as it comes goes on, fits and lets them walk."""
    for body in sample(20, seed=11):
        failed = [key for key, each in found({"style": style}, body).items() if each.outcome == "will not work"]
        assert not failed, (body, failed)


def test_an_estimated_head_is_asked_for() -> None:
    wearer = {key: value for key, value in JOAN.items() if key != "head_girth"}
    finding = found({}, wearer)["neck-by-estimate:neck"]
    assert finding.outcome == "look again"
    assert finding.values["sd"] > 0
    assert "Measure the head" in words.mend(finding, "cm")
    opened = found({"closures": [{"at": "centre-front"}]}, wearer)
    assert opened["neck-opens:neck"].outcome == "sound"
    assert "neck-by-estimate:neck" not in opened


def test_a_hobbled_walker_is_freed_by_the_mend() -> None:
    narrow = {"length": "ankle", "gores": [], "splits": []}
    finding = found(narrow)["walking:hem"]
    assert finding.outcome != "sound"
    more = float(re.search(r"hem ([\d.]+) cm wider", words.mend(finding, "cm")).group(1))  # type: ignore[union-attr]
    gored = {**narrow, "gores": [{"place": "side", "start": "hip", "base": more / 2 + 0.5, "make": "whole"}]}
    assert found(gored)["walking:hem"].outcome == "sound"
    assert found({**narrow, "splits": [{"place": "side", "height": "hip"}]})["walking-split:hem"].outcome == "sound"


@given(st.integers(0, 8), st.sampled_from(["wide panels", "shoulder panels"]), st.sampled_from(["skin", "armour"]))
def test_the_mend_for_too_little_ease_is_enough(ease: int, cut: str, layer: str) -> None:
    def judged(amount: float) -> dict[str, Finding]:
        all_ = found({"layer": layer, "body": {"cut": cut, "ease": amount}})
        return {key: each for key, each in all_.items() if each.code in ("fits", "over-head")}

    for key, finding in judged(ease).items():
        if finding.outcome != "sound" and finding.subject != "biceps":
            told = re.search(r"Add ([\d.]+) cm", words.mend(finding, "cm"))
            assert told, key
            assert judged(ease + float(told.group(1)))[key].outcome == "sound"


def test_a_gusset_mends_reaching() -> None:
    bare = {"sleeve": {"shape": "tapered", "gusset": "none"}}
    finding = found(bare, {**JOAN, "upper_arm_girth": 32})["reaching:arms"]
    assert finding.outcome == "look again"
    mended = found({"sleeve": {"shape": "tapered", "gusset": "auto"}}, {**JOAN, "upper_arm_girth": 32})
    assert mended["reaching:arms"].outcome == "sound"


def test_gores_in_a_slit_are_easier_in_a_seam() -> None:
    garment = {"gores": [{"place": "centre-front", "start": "hip", "base": 30, "make": "whole"}]}
    assert found(garment)["gore-in-slit:centre-front"].outcome == "look again"
    seamed = found({**garment, "body": {"centre_seam": "both"}})
    assert "gore-in-slit:centre-front" not in seamed
    assert seamed["gore-room:centre-front"].outcome == "sound"


def test_layers_beneath_take_room() -> None:
    """2π × 10 mm = 6.3 cm (a circle grown by a thickness)."""
    plain, wearer = drafted({"body": {"ease": 2}})
    draft = make_draft(replace(plain.choices, beneath_mm=10.0), wearer)
    finding = next(f for f in prove(draft, wearer).findings if (f.code, f.subject) == ("fits", "hip"))
    assert finding.values["beneath"] == pytest.approx(6.283, abs=0.001)
    assert finding.values["ease"] == pytest.approx(2, abs=1.1)


def test_a_train_is_looked_at_again() -> None:
    assert found({"length": 160})["hem-clears:hem"].outcome == "look again"
    assert found({"length": "floor"})["hem-clears:hem"].outcome == "sound"


def test_a_wide_neck_slips_off() -> None:
    findings = found({"neck": {"shape": "round", "slit": "none", "ease": 40}})
    assert findings["neck-width:neck"].outcome == "look again"
    assert "keyhole" in words.mend(findings["neck-width:neck"], "cm")
    mended = found({"neck": {"shape": "keyhole", "slit": "centre"}})
    assert mended["neck-width:neck"].outcome == mended["shoulder-strip:shoulder"].outcome == "sound"


def codes(garment: dict[str, object], wearer: dict[str, object] | None = None) -> set[str]:
    return {each.code for each in cautions(*drafted(garment, wearer))}


def test_cautions_come_only_when_called_for() -> None:
    assert codes({"length": "hip", "gores": [], "sleeve": {"shape": "none"}}) == set()
    assert codes({"length": "floor", "sleeve": {"shape": "wide"}}) >= {"low-hem", "wide-sleeve", "riding"}
    assert "riding" not in codes({"length": "floor", "splits": [{"place": "side", "height": "hip"}]})
    assert "bias-hangs" in codes({"gores": [{"place": "side", "start": "hip", "base": 20, "make": "whole"}]})


def test_children_and_cords() -> None:
    """EN 14682: no cord at a young child's neck; to 7 years or 134 cm young, below 14 a child."""
    tied = {"neck": {"shape": "keyhole"}, "closures": [{"at": "neck slit", "by": "ties"}]}
    assert "child-neck-cord" in codes(tied, {"age": 5, "height": 110})
    assert "child-neck-ends" in codes(tied, {"age": 11, "height": 145})
    assert not {"child-neck-cord", "child-neck-ends"} & codes(tied)
    pinned = {"neck": {"shape": "keyhole"}, "closures": [{"at": "neck slit", "by": "pins"}]}
    assert {"small-parts", "pins"} <= codes(pinned, {"age": 2, "height": 88})
    looped = {"neck": {"shape": "keyhole"}, "closures": [{"at": "neck slit", "by": "loops"}]}
    assert "small-parts" in codes(looped, {"age": 2, "height": 88})
    assert "child-needles" in codes(looped, {"age": 8, "height": 128}) and "child-needles" not in codes(looped)
