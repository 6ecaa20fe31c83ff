"""Sleeves of every kind: they assemble, or are refused in one sentence; their sizes follow closed forms.

Sources: plane geometry; bodies of the ANSUR II survey (2012); the second opinion on garment.json (independent.py).
"""

from __future__ import annotations

import itertools
import json
import math
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bodies import sample
from ellwand.choose.options.sleeve import GUSSET_SHAPES, HEADS, SLEEVE_LENGTHS, SLEEVE_PIECES, SLEEVE_SEAMS, SLEEVES
from ellwand.depict import words
from ellwand.depict.view import garment_view
from ellwand.draft import draft
from ellwand.draft.gusset import kite_of
from ellwand.draft.head import armhole_line, head_line, head_width
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import area, length
from ellwand.measure import wearer_from
from ellwand.model.draft import Draft, edge_at
from ellwand.pipeline import make, prove_sheet
from ellwand.prove import prove
from ellwand.publish.garment_json import document
from ellwand.sew import sew
from independent import faults
from proving_specimens import drafted, found
from sheets import JOAN, sheet

BODIES = [JOAN, *sample(6, seed=41)]

sleeves = st.fixed_dictionaries(
    {
        "shape": st.sampled_from(SLEEVES),
        "length": st.one_of(st.sampled_from(SLEEVE_LENGTHS), st.integers(8, 75)),
        "cuff": st.one_of(st.sampled_from(["auto", "hand", "close"]), st.integers(18, 90)),
        "gusset": st.one_of(st.sampled_from(["auto", "none"]), st.integers(4, 16)),
        "gusset_shape": st.sampled_from(GUSSET_SHAPES),
        "pieces": st.sampled_from(SLEEVE_PIECES),
        "seam": st.sampled_from(SLEEVE_SEAMS),
        "head": st.sampled_from(HEADS),
        "head_ease": st.sampled_from([0, 0, 1.5, 4]),
        "drop": st.sampled_from([0, 0, 8, 40]),
        "elbow_gore": st.sampled_from([0, 0, 4, 14]),
    }
)
trunks = st.fixed_dictionaries(
    {
        "cut": st.sampled_from(["wide panels", "shoulder panels"]),
        "shoulder": st.sampled_from(["fold", "seam"]),
        "side_panel": st.sampled_from(["auto", "whole", "halves"]),
        "centre_seam": st.sampled_from(["none", "both"]),
    }
)


@given(sleeves, trunks, st.sampled_from(BODIES))
@settings(max_examples=60, deadline=None)
def test_every_sleeve_assembles_or_is_refused_in_one_sentence(
    sleeve: dict[str, Any], body: dict[str, Any], wearer: dict[str, Any]
) -> None:
    read = sheet({"style": "tunic", "gores": [], "body": body, "sleeve": sleeve}, wearer=wearer)
    try:
        garment = prove_sheet(read)
    except CannotDraft as error:
        assert error.mend
        assert str(error).count(". ") == 0
        return
    bad = [each for each in garment.proof.findings if each.outcome == "will not work"]
    assert not [each for each in bad if each.code not in ("fits", "cuff-too-small", "over-head", "walking")]
    assert faults(json.loads(json.dumps(document(garment)))) == []
    for step in garment.steps:
        assert words.step(step, garment.draft, "cm")
    for face in ("front", "back"):
        assert garment_view(garment.draft, face).strokes  # type: ignore[arg-type]


def one(garment: dict[str, Any]) -> Draft:
    return drafted(garment)[0]


def of_kind(sewn: Draft, kind: str) -> list[float]:
    """The lengths (cm) of the seams of one kind."""
    return [length(edge_at(sewn, seam.a).points) for seam in sewn.seams if seam.kind == kind]


def cuffs(sewn: Draft) -> float:
    """All cuff edges of all parts together (cm)."""
    count = Counter(part.piece for part in sewn.parts)
    return sum(
        count[piece.id] * length(edge.points) for piece in sewn.pieces for edge in piece.edges if edge.kind == "cuff"
    )


def cloth(sewn: Draft, place: str) -> float:
    """The sewn area (cm²) of all parts of a place."""
    count = Counter(part.piece for part in sewn.parts)
    return sum(count[piece.id] * area(piece.sewn) for piece in sewn.pieces if piece.place == place)


@pytest.mark.parametrize(
    ("shape", "seam", "cut"), [*itertools.product(SLEEVES[1:], SLEEVE_SEAMS, ["wide", "shoulder"])]
)
def test_two_halves_are_the_sleeve_cut_along_the_top(shape: str, seam: str, cut: str) -> None:
    garment = {"body": {"cut": f"{cut} panels"}, "sleeve": {"shape": shape, "seam": seam, "gusset": "none"}}
    whole = one(garment)
    halves = one({**garment, "sleeve": {**garment["sleeve"], "pieces": "two"}})
    assert cloth(halves, "sleeve") == pytest.approx(cloth(whole, "sleeve"))
    assert cuffs(halves) == pytest.approx(cuffs(whole))
    assert len(of_kind(halves, "sleeve seam")) == 2
    if seam == "under":
        assert of_kind(halves, "sleeve seam") == pytest.approx(list(halves.dimensions.sleeve_lengths.values()))
        (piece,) = [piece for piece in halves.pieces if piece.place == "sleeve"]
        assert piece.count == 4


def test_a_sleeve_in_two_pieces_goes_on_a_narrow_cloth() -> None:
    """A cloth of 58 cm, as wide as the Bocksten loom's panels."""
    read = sheet({"style": "tunic", "body": {"cut": "shoulder panels"}}, cloth={"width": 58, "washed": True})
    sleeve = replace(read.choices.sleeve, pieces="two")
    garment = make(replace(read, choices=replace(read.choices, sleeve=sleeve)), seconds=0)
    assert garment.lays[0].length > 0


def test_a_seam_behind_the_arm_leaves_the_halves_unequal() -> None:
    garment = {"body": {"cut": "shoulder panels"}, "sleeve": {"seam": "back", "pieces": "two"}}
    sewn = one(garment)
    size = sewn.dimensions
    widths = sorted(
        sum(length(edge.points) for edge in piece.edges if edge.kind == "armhole")
        for piece in sewn.pieces
        if piece.place == "sleeve"
    )
    assert widths == pytest.approx([size.armhole, size.armhole + size.side_panel])
    codes = [step.code for step in sew(sewn)]
    assert codes.index("sleeves") < codes.index("underarm and sides") and "sleeves behind" not in codes


@pytest.mark.parametrize(
    ("garment", "where"),
    [
        ({"sleeve": {"seam": "back", "gusset": 8}}, "seam"),
        ({"sleeve": {"head": "shaped"}}, "head"),
        ({"sleeve": {"head_ease": 2}}, "head_ease"),
        ({"sleeve": {"drop": 10}}, "drop"),
        ({"sleeve": {"elbow_gore": 10, "length": "elbow"}}, "elbow_gore"),
        ({"body": {"shoulder": "seam"}, "sleeve": {"seam": "back", "head": "shaped", "gusset": "none"}}, "seam"),
        ({"sleeve": {"shape": "wide", "drop": 10, "elbow_gore": 6}}, "elbow_gore"),
    ],
)
def test_what_cannot_be_sewn_is_refused(garment: dict[str, Any], where: str) -> None:
    with pytest.raises(CannotDraft) as refused:
        one(garment)
    assert refused.value.where == f"garment.sleeve.{where}"


@given(st.floats(10, 40), st.floats(0, 3), st.floats(0, 4))
def test_a_head_is_as_long_as_its_armhole_and_ease(depth: float, hollow: float, ease: float) -> None:
    """Both drawn lengths, walked point by point."""
    along = length(armhole_line(depth, hollow)) + ease
    rise = depth / 3
    assert length(head_line(head_width(along, rise), rise)) == pytest.approx(along, abs=1e-6)
    assert min(x for x, _ in armhole_line(depth, hollow)) == pytest.approx(-hollow, abs=0.01 * hollow + 1e-9)


@pytest.mark.parametrize("ease", [0.0, 3.0])
@pytest.mark.parametrize("cut", ["wide panels", "shoulder panels"])
def test_the_seams_of_a_shaped_head_carry_its_ease(cut: str, ease: float) -> None:
    sewn = one({"body": {"cut": cut, "shoulder": "seam"}, "sleeve": {"head": "shaped", "head_ease": ease}})
    heads = [seam for seam in sewn.seams if seam.kind == "armhole" and "low" not in seam.a.edge + seam.b.edge]
    heads = [seam for seam in heads if "top" not in seam.a.edge]
    assert [seam.ease for seam in heads] == [ease / 2] * 4
    for seam in heads:
        a, b = (length(edge_at(sewn, ref).points) for ref in (seam.a, seam.b))
        assert a - b == pytest.approx(ease / 2, abs=1e-6)


def test_a_dropped_cuff_is_longer_under_the_arm_and_longer_round() -> None:
    level, dropped = (one({"sleeve": {"shape": "wide", "drop": drop, "gusset": "none"}}) for drop in (0, 20))
    size = dropped.dimensions
    # the cuff's two slants are hypotenuses over half the cuff and the drop
    assert cuffs(dropped) == pytest.approx(4 * math.hypot(size.cuff / 2, 20))
    flare = (size.cuff - size.sleeve_top) / 2
    long = size.sleeve_lengths["left"]
    assert of_kind(level, "underarm seam") == pytest.approx([math.hypot(long, flare)] * 2)
    assert of_kind(dropped, "underarm seam") == pytest.approx([math.hypot(long + 20, flare)] * 2)


@pytest.mark.parametrize("shape", ["tapered", "fitted forearm", "straight"])
def test_an_elbow_gore_widens_the_cuff_by_its_base(shape: str) -> None:
    plain, gored = (one({"sleeve": {"shape": shape, "elbow_gore": base, "cuff": "hand"}}) for base in (0, 9))
    assert cuffs(gored) == pytest.approx(cuffs(plain) + 2 * 9, abs=0.01)
    assert len(of_kind(gored, "sleeve gore")) == 4
    assert len({round(cm, 6) for cm in of_kind(gored, "sleeve gore")}) == 1


def test_a_gore_lets_a_close_cuff_pass_the_hand_unopened() -> None:
    garment = {"sleeve": {"shape": "fitted forearm", "elbow_gore": 9}}
    assert one(garment).dimensions.cuff_opening == 0
    assert found(garment)["cuff:cuffs"].outcome == "sound"


@given(st.sampled_from(GUSSET_SHAPES), st.floats(2, 20))
def test_gussets_follow_their_closed_forms(shape: str, side: float) -> None:
    """A kite with right angles where its unlike sides meet: area ab, diagonals √(a² + b²) and 2ab / √(a² + b²)."""
    kite = kite_of(shape, side)  # type: ignore[arg-type]
    assert kite.area == pytest.approx(kite.fold * kite.breadth / 2)
    sewn = one({"sleeve": {"gusset": round(side * 2) / 2, "gusset_shape": shape}})
    cut = kite_of(shape, sewn.dimensions.gusset)  # type: ignore[arg-type]
    assert cloth(sewn, "gusset") == pytest.approx(2 * cut.area)
    assert sorted(of_kind(sewn, "gusset")) == pytest.approx(sorted([cut.body, cut.sleeve] * 4))


def test_triangles_make_the_same_shell_as_the_square() -> None:
    square, triangles = (one({"sleeve": {"gusset_shape": shape}}) for shape in ("square", "triangles"))
    assert cloth(triangles, "gusset") == pytest.approx(cloth(square, "gusset"))
    shells = [prove(sewn, wearer_from(sheet().wearer)).shell for sewn in (square, triangles)]
    assert shells[0].euler == shells[1].euler
    assert sorted(rim.length for rim in shells[0].rims) == pytest.approx(sorted(rim.length for rim in shells[1].rims))
    assert of_kind(triangles, "gusset seam") == pytest.approx([triangles.dimensions.gusset * math.sqrt(2)] * 2)


def test_arms_that_differ_share_a_gusset_and_a_side_seam() -> None:
    read = sheet({"gores": []}, wearer={**JOAN, "left_arm_length": 52, "right_arm_length": 58})
    sewn = draft(read.choices, wearer_from(read.wearer))
    assert len([piece for piece in sewn.pieces if piece.place == "gusset"]) == 1
    assert sewn.dimensions.sleeve_lengths["left"] < sewn.dimensions.sleeve_lengths["right"]
