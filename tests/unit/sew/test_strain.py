"""Where strain is: each place worked out from the garment's own numbers, and held when what meets there is sewn."""

from __future__ import annotations

import math
from typing import Any

import pytest

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.model.garment import Garment
from ellwand.model.step import Reinforcement
from sheets import sheet


def made(sewing: dict[str, Any] | None = None, **garment: Any) -> Garment:
    return prove_sheet(sheet({"body": {"cut": "wide panels"}, "gores": [], **garment}, sewing=sewing))


def held(done: Garment, code: str) -> tuple[Reinforcement, ...]:
    return next(step.reinforce for step in done.steps if step.code == code)


def hem(done: Garment, part: str) -> float:
    """The level of the front's hem in the coordinates of the body."""
    piece = next(p for p in done.draft.pieces if p.id == next(q.piece for q in done.draft.parts if q.id == part))
    return piece.levels[0].base_y


def test_the_end_of_a_neck_slit_lies_its_length_below_the_neck() -> None:
    done = made()
    (end,) = held(done, "neck slit")
    body = next(piece for piece in done.draft.pieces if piece.id == end.part)
    neck = min(y for edge in body.edges if edge.kind == "neck" for _, y in edge.points)
    middle = (min(x for x, _ in body.sewn) + max(x for x, _ in body.sewn)) / 2
    assert end.at == pytest.approx((middle, neck - done.draft.dimensions.neck_slit)) and end.by == "bar"


def test_gores_in_slits_are_held_at_their_points_and_say_so() -> None:
    done = made(gores=[{"place": "panel-front", "start": 30, "base": 30}, {"place": "side", "start": 30, "base": 30}])
    in_slits = held(done, "gores in slits")
    assert {each.part.split("-")[-1] for each in in_slits} == {"left", "right"} and len(in_slits) == 2
    level = hem(done, "body") + 30
    slits = {
        e.points[1] for p in done.draft.pieces for e in p.edges if "panel-front" in e.id and e.id.endswith("left-gore")
    }
    assert all(y == pytest.approx(level) for _, y in slits)
    # a side's gore is held when its second edge is sewn, not when its first is
    assert held(done, "gores") == ()
    at_sides = [each for each in held(done, "underarm and sides") if each.part.startswith("gore")]
    assert len(at_sides) == 2
    for each in (*in_slits, *at_sides):
        gore = next(
            p for p in done.draft.pieces if p.id == next(q.piece for q in done.draft.parts if q.id == each.part)
        )
        assert each.at == max(gore.sewn, key=lambda point: point[1])
    for step in done.steps:
        bars = any(each.by == "bar" for each in step.reinforce)
        text = words.step(step, done.draft, "cm")
        assert ("bar" in text) is bars, text


def test_splits_end_at_their_height_in_a_seam_and_in_a_panel() -> None:
    done = made(splits=[{"place": "side", "height": 25}, {"place": "centre-back", "height": 35}])
    (panel,) = held(done, "split slits")
    tops = held(done, "splits")
    assert len(tops) == 2
    front, back = next(piece for piece in done.draft.pieces if piece.id == "body").levels
    # a body in one: its back half lies the other way up
    assert back.base_y - panel.at[1] == pytest.approx(35)
    for each in tops:
        assert pytest.approx(25) in (each.at[1] - front.base_y, back.base_y - each.at[1])


@pytest.mark.parametrize("shape", ["square", "diamond", "triangles"])
def test_all_four_corners_of_each_gusset_are_held_once(shape: str) -> None:
    for gussets in ("in the corner", "on the sleeve", "on the body"):
        for sleeves in ("flat", "in the round"):
            done = made({"gussets": gussets, "sleeves": sleeves}, sleeve={"gusset_shape": shape})
            corners = [each for step in done.steps for each in step.reinforce if each.part.startswith("gusset-left")]
            assert len(corners) == 4 and {each.by for each in corners} == {"bar"}
            assert not any(each.by == "back stitches" for step in done.steps for each in step.reinforce)


def test_armpits_without_a_gusset_are_held_by_back_stitches() -> None:
    done = made(sleeve={"gusset": "none"})
    pits = held(done, "underarm and sides")
    assert [each.by for each in pits] == ["back stitches"] * 2
    assert "back stitches on the spot" in words.step(
        next(step for step in done.steps if step.code == "underarm and sides"), done.draft, "cm"
    )


def test_the_end_of_a_cuff_opening_lies_its_length_above_the_cuff() -> None:
    done = made(sleeve={"shape": "fitted forearm"})
    ends = held(done, "cuffs")
    assert {each.part for each in ends} == {"sleeve-left", "sleeve-right"}
    sleeve = next(piece for piece in done.draft.pieces if piece.id == "sleeve")
    opening = next(edge for edge in sleeve.edges if edge.kind == "opening")
    assert {each.at for each in ends} <= {p for e in sleeve.edges if e.kind == "opening" for p in e.points}
    (ax, ay), (bx, by) = opening.points[0], opening.points[-1]
    assert ends[0].at[1] == pytest.approx(max(ay, by))
    # measured down the middle of the sleeve
    assert abs(by - ay) == pytest.approx(done.draft.dimensions.cuff_opening, abs=1.0) and math.dist((ax, ay), (bx, by))
