"""A pieced garment is the garment: the same surface, the same openings, the same cloth.

Source of the counting: Euler characteristic 2 − n of a sphere with n holes; areas by the shoelace formula.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import rows, wearer
from ellwand.draft import pieced_to_fit
from ellwand.draft.cutline import Cut
from ellwand.draft.on_width import NARROWEST
from ellwand.draft.piecing import cut_outline, pieced
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import area, bounds
from ellwand.model.draft import Draft, whole_part
from ellwand.model.piece import Piece
from ellwand.model.wearer import Wearer
from ellwand.prove import prove
from ellwand.prove.assembles import assembles
from ellwand.prove.pieced import prove_pieced
from ellwand.prove.sewn import sewn_up
from ellwand.prove.shell import shell_of
from proving_specimens import drafted, wide_sample

MORE: tuple[dict[str, Any], ...] = (
    {
        "gores": [{"place": "side", "start": 40, "base": 30}, {"place": "side", "start": "waist", "base": 40}],
        "body": {"back_longer": 8},
    },
    {
        "gores": [{"place": "centre-front", "start": "hip", "base": 50, "top": 6, "hem": "straight"}],
        "body": {"centre_seam": "both", "shoulder": "seam", "shoulder_slope": 3},
    },
    {"gores": [{"place": "side", "start": "hip", "base": 50, "make": "pieced"}]},
    {"sleeve": {"shape": "tapered", "gusset": 12}, "gores": [{"place": "side", "start": "hip", "base": 50}]},
)


@cache
def specimens() -> tuple[tuple[Draft, Wearer], ...]:
    return (*wide_sample(60)[::2], *(drafted(garment) for garment in MORE))


def cloth_in(draft: Draft) -> float:
    return math.fsum(
        piece.count * (area(piece.sewn) + math.fsum(area(hole) for hole in piece.sewn_holes)) for piece in draft.pieces
    )


def rims(draft: Draft) -> list[tuple[tuple[str, ...], float]]:
    return sorted((rim.opens_to, round(rim.length, 4)) for rim in shell_of(draft).rims)


def shell_pieces(draft: Draft) -> list[Piece]:
    return [piece for piece in draft.pieces if piece.kind == "shell"]


def same_garment(before: Draft, after: Draft, person: Wearer) -> None:
    assert rims(after) == rims(before)
    assert shell_of(after).euler == shell_of(before).euler
    assert shell_of(after).components == 1
    assert cloth_in(after) == pytest.approx(cloth_in(before), rel=1e-9)
    assert [f for f in assembles(sewn_up(after, person)) if f.outcome != "sound"] == []
    for names in (
        [piece.id for piece in after.pieces],
        [piece.name for piece in after.pieces],
        [part.id for part in after.parts],
        [seam.id for seam in after.seams],
        *([edge.id for edge in piece.edges] for piece in after.pieces),
    ):
        assert len(names) == len(set(names))
    for piece in after.pieces:
        x, y, _, _ = bounds(piece.cut)
        assert (x, y) == pytest.approx((0, 0), abs=1e-9)


@settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(st.data())
def test_cut_anywhere_it_is_the_same_garment(data: st.DataObject) -> None:
    draft, person = data.draw(st.sampled_from(specimens()))
    after = draft
    for _ in range(data.draw(st.integers(1, 3))):
        piece = data.draw(st.sampled_from(shell_pieces(after)))
        axis = data.draw(st.sampled_from(("x", "y")))
        low_x, low_y, high_x, high_y = bounds(piece.sewn)
        low, high = (low_x, high_x) if axis == "x" else (low_y, high_y)
        at = low + (high - low) * data.draw(st.floats(0.01, 0.99))
        cut = Cut(axis, at, data.draw(st.sampled_from(("low", "high"))), "strip")
        try:
            after = pieced(after, piece.id, cut)
        except CannotDraft as refused:
            assert str(refused).endswith(".") and "\n" not in str(refused)
    same_garment(draft, after, person)


def test_cut_outlines_are_made_as_for_other_pieces() -> None:
    for draft, _ in specimens():
        for piece in shell_pieces(draft):
            inner = {edge.id for hole in piece.sewn_holes for edge in piece.edges if edge.points[0] in hole}
            ring = [edge for edge in piece.edges if edge.id not in inner]
            again = cut_outline(ring)
            assert len(again) == len(piece.cut)
            assert all(math.dist(a, b) < 1e-6 for a, b in zip(again, piece.cut, strict=True))


def test_a_strip_down_the_side() -> None:
    """59 cm of panel, 10 cm off: 49 and 10, both with an allowance more at the new seam; shoulder seams in two."""
    draft, person = drafted({"body": {"shoulder": "seam"}, "sleeve": {"shape": "none"}})
    front = next(piece for piece in draft.pieces if piece.id == "front")
    _, _, high, _ = bounds(front.sewn)
    after = pieced(draft, "front", Cut("x", high - 10, "high", "strip"))
    pieces = {piece.id: piece for piece in after.pieces}
    assert {"front", "front-strip", "back"} <= set(pieces)
    assert pieces["front-strip"].name == "front strip"
    whole, low, strip = (bounds(p.cut)[2] for p in (front, pieces["front"], pieces["front-strip"]))
    assert strip == pytest.approx(10 + 2 * 1.5) and low == pytest.approx(whole - 10)
    shoulders = [seam for seam in after.seams if seam.kind == "shoulder"]
    assert len(shoulders) == len([seam for seam in draft.seams if seam.kind == "shoulder"]) + 1
    assert [seam.kind for seam in after.seams].count("piecing seam") == 1
    same_garment(draft, after, person)


def test_alike_parts_stay_alike() -> None:
    """One side gore cut: both are, and each panel's edge comes in two at the same height."""
    draft, person = drafted({"length": "ankle", "gores": [{"place": "side", "start": 60, "base": 50, "make": "whole"}]})
    gore = next(piece for piece in draft.pieces if "gore" in piece.id)
    after = pieced(draft, gore.id, Cut("y", bounds(gore.sewn)[1] + 40, "high", "tip"))
    assert [part.id for part in after.parts if part.id.endswith("tip")] == ["gore-side-left-tip", "gore-side-right-tip"]
    assert {whole_part(part.id) for part in after.parts} == {part.id for part in draft.parts}
    body = next(piece for piece in after.pieces if piece.id == "body")
    assert len([edge for edge in body.edges if edge.kind == "gore seam"]) == 8
    same_garment(draft, after, person)


@pytest.mark.parametrize(
    ("axis", "share", "said"),
    [("x", 0.5, "through the neck"), ("y", 0.5, "through the neck"), ("x", 1.2, "miss"), ("x", 0.001, "corner")],
)
def test_refused(axis: Any, share: float, said: str) -> None:
    draft, _ = drafted({})
    body = next(piece for piece in draft.pieces if piece.id == "body")
    low_x, low_y, high_x, high_y = bounds(body.sewn)
    low, high = (low_x, high_x) if axis == "x" else (low_y, high_y)
    with pytest.raises(CannotDraft, match=said):
        pieced(draft, "body", Cut(axis, low + (high - low) * share, "high", "strip"))


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(
    cut=st.sampled_from(("wide panels", "shoulder panels")),
    shoulder=st.sampled_from(("fold", "seam")),
    seam=st.sampled_from(("none", "both")),
    place=st.sampled_from(("side", "centre-back")),
    base=st.integers(10, 90),
    make=st.sampled_from(("whole", "halves", "pieced")),
    row=st.integers(0, len(rows()) - 1),
    width=st.integers(34, 90),
    length=st.sampled_from((None, 120.0, 200.0)),
)
def test_every_garment_comes_onto_a_narrow_cloth(
    cut: str, shoulder: str, seam: str, place: str, base: int, make: str, row: int, width: int, length: float | None
) -> None:
    garment = {
        "body": {"cut": cut, "shoulder": shoulder, "centre_seam": seam},
        "gores": [{"place": place, "start": "hip", "base": base, "make": make}],
        "sleeve": {"shape": "tapered"},
    }
    try:
        draft, person = drafted(garment, wearer(rows()[row]))
        after = pieced_to_fit(draft, width, length)
    except CannotDraft as refused:
        assert str(refused).endswith(".") and "\n" not in str(refused)
        return
    for piece in shell_pieces(after):
        _, _, across, along = bounds(piece.cut)
        assert across <= width + 1e-6 and (length is None or along <= length + 1e-6)
    told = [note for note in after.notes if note.code == "pieced"]
    assert len(told) == len(after.pieces) - len(draft.pieces)
    assert all(float(note.values["size"]) >= NARROWEST - 1e-6 for note in told)
    same_garment(draft, after, person)
    before, now = prove(draft, person), prove_pieced(prove(draft, person), after, person)
    assert len(now.findings) == len(before.findings) + len(told)
    assert now.girths == before.girths


def test_never_means_never() -> None:
    draft, _ = drafted({"body": {"pieced": "never"}})
    assert pieced_to_fit(draft, 40) is draft


def test_what_fits_stays_whole() -> None:
    draft, _ = drafted({})
    assert pieced_to_fit(draft, 150) is draft
