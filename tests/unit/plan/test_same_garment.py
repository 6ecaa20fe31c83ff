"""What counts as the same garment, and that every structure that is offered is one."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from shapely.geometry import Polygon

from ellwand.model.freedom import Tried
from ellwand.pipeline import prove_sheet
from ellwand.plan.same import same, sewn
from ellwand.plan.structures import alternatives, best_structure, what_if
from sheets import sheet

OPEN = {
    "body": {"shoulder": "either", "pieced": "freely"},
    "sleeve": {"gusset_shape": "either"},
}


def test_net_area_is_that_of_all_sewn_outlines() -> None:
    """By shapely, part by part; facings are no part of the garment."""
    garment = prove_sheet(sheet({"neck": {"facing": "shaped"}}))
    piece = {each.id: each for each in garment.draft.pieces}
    areas = [Polygon(piece[p.piece].sewn, piece[p.piece].sewn_holes).area for p in garment.draft.parts]
    assert sewn(garment).area == pytest.approx(math.fsum(areas), rel=1e-9)


def test_the_same_with_a_shoulder_seam_half_gores_two_sleeves_and_triangles() -> None:
    plain = sewn(prove_sheet(sheet({})))
    for other in (
        {"body": {"shoulder": "seam"}},
        {"gores": [{"place": "side", "base": [30, 70], "make": "halves"}]},
        {"sleeve": {"pieces": "two"}},
        {"sleeve": {"gusset_shape": "triangles"}},
        {"body": {"pieced": 50}},
        {"body": {"centre_seam": "both"}},
    ):
        assert same(plain, sewn(prove_sheet(sheet(other)))), other


@pytest.mark.parametrize(
    "other",
    [
        {"length": 96.5},
        {"body": {"ease": 16}},
        {"gores": [{"place": "side", "base": 48}]},
        {"sleeve": {"length": "elbow"}},
        {"sleeve": {"gusset": "none"}},
    ],
)
def test_another_garment_is_told_apart(other: dict[str, object]) -> None:
    assert not same(sewn(prove_sheet(sheet({}))), sewn(prove_sheet(sheet(other))))


def test_alternatives_are_what_was_left_open_the_plainest_first() -> None:
    ways = list(alternatives(sheet({"sleeve": {"pieces": "one"}, "gores": [{"place": "side", "make": "either"}]})))
    assert [[change.code for change in way.changes] for way in ways] == [[], ["gores-halves"]]
    settled = {"sleeve": {"pieces": "one"}, "gores": [{"place": "side", "make": "whole"}]}
    assert [way.changes for way in alternatives(sheet(settled))] == [()]


def test_nothing_is_open_of_garments_of_their_own_cut() -> None:
    assert len(list(alternatives(sheet({"style": "coif"})))) == 1


@pytest.fixture(scope="module")
def narrow() -> tuple[Tried, ...]:
    return best_structure(sheet(OPEN, cloth={"width": 90}), most=10)


def test_every_structure_tried_is_the_same_garment(narrow: tuple[Tried, ...]) -> None:
    plain = prove_sheet(sheet(OPEN, cloth={"width": 90}))
    assert len(narrow) > 2
    for each in narrow:
        assert same(sewn(plain), sewn(each.garment)), each.way.changes
        assert not any(f.outcome == "will not work" for f in each.garment.proof.findings)


def test_freedom_saves_cloth_on_a_narrow_cloth(narrow: tuple[Tried, ...]) -> None:
    plain = next(each for each in narrow if not each.way.changes)
    assert narrow[0].length < 0.9 * plain.length


def test_the_same_structures_every_time(narrow: tuple[Tried, ...]) -> None:
    again = best_structure(sheet(OPEN, cloth={"width": 90}), most=10)
    assert [(each.way.changes, each.length) for each in again] == [(each.way.changes, each.length) for each in narrow]


def test_what_if_finds_the_shoulder_seam() -> None:
    """On 150 cm the body in one length alone sets the lay: 197 cm of it, with a seam half of that and what is left."""
    settled = {"sleeve": {"pieces": "one"}, "gores": [{"place": "side", "base": 50, "make": "whole"}]}
    advice = what_if(sheet(settled))
    assert "shoulder-seam" in {change.code for each in advice for change in each.way.changes}
    assert all(len(each.way.changes) == 1 and each.length < 197 for each in advice)


def test_open_choices_draft_the_plainest_garment() -> None:
    """Nothing changes in the draft for what is left open."""
    opened = sheet({"body": {"shoulder": "either", "centre_seam": "either"}, "sleeve": {"gusset_shape": "either"}})
    plain = prove_sheet(sheet({}))
    assert prove_sheet(opened).draft.pieces == plain.draft.pieces
    assert prove_sheet(opened).choices == plain.choices


def test_an_open_shoulder_is_a_seam_where_one_is_needed() -> None:
    sloped = prove_sheet(sheet({"body": {"shoulder": "either", "shoulder_slope": 3}}))
    assert sloped.choices.body.shoulder == "seam"


def test_a_width_given_is_the_widest_that_is_cut() -> None:
    garment = prove_sheet(sheet({"body": {"pieced": 40}}))
    for piece in garment.draft.pieces:
        xs = [x for x, _ in piece.cut]
        assert max(xs) - min(xs) <= 40 + 1e-6
    assert len(garment.draft.pieces) > len(prove_sheet(sheet({})).draft.pieces)


def test_too_narrow_a_cloth_is_pieced_first() -> None:
    tried = best_structure(sheet({}, cloth={"width": 60}), most=6)
    assert tried
    reference = prove_sheet(sheet({}))
    assert all(same(sewn(reference), sewn(each.garment)) for each in tried)


def test_sewn_is_told_apart_by_its_girths() -> None:
    one = sewn(prove_sheet(sheet({})))
    (at, girth), *others = one.girths
    assert not same(one, replace(one, girths=((at, girth + 1), *others)))
