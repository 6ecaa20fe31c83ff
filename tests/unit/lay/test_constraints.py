"""Random pieces on random cloths with every constraint there is, against a second opinion; and the plain cases."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lawful import complaints
from lay_specimens import cloth, gore, half_gore, one_lay, piece, rectangle, sleeve, tunic, with_seams
from shapely.geometry import Polygon

from ellwand.errors import CannotDraft, InternalFault
from ellwand.lay import Budget, lay_out, layout
from ellwand.lay.check import faults_in
from ellwand.lay.task import Found, Spot, Task
from ellwand.model.cloth import Cloth, Fault, Remnant, Repeat
from ellwand.model.draft import EdgeRef, Part, Seam
from ellwand.model.lay import opened
from ellwand.model.piece import Piece

sizes = st.floats(6, 45).map(lambda x: round(x, 1))
outlines = st.one_of(
    st.builds(rectangle, sizes, sizes),
    st.builds(half_gore, sizes, sizes),
    st.builds(lambda base, extra: gore(base, base + extra), sizes, sizes),
    st.builds(lambda cuff, extra, long: sleeve(min(45.0, cuff + extra), cuff, long), sizes, sizes, sizes),
)


@st.composite
def garments(draw: st.DrawFn) -> tuple[list[Piece], list[Part]]:
    """A few pieces, some of them with left and right parts."""
    pieces, parts = [], []
    for n, (cut, count, small, pair) in enumerate(
        draw(st.lists(st.tuples(outlines, st.integers(1, 3), st.booleans(), st.booleans()), min_size=1, max_size=4))
    ):
        pieces.append(with_seams(piece(f"p{n}", cut, 2 if pair else count, small=small)))
        if pair:
            parts += [Part(f"p{n}-left", f"p{n}"), Part(f"p{n}-right", f"p{n}", mirrored=True)]
    return pieces, parts


faults = st.builds(Fault, st.floats(0, 80), st.floats(0, 80), st.floats(0.2, 9), st.floats(0.2, 9))
left_overs = st.one_of(
    st.builds(Remnant, st.floats(10, 80), st.floats(10, 80)),
    st.builds(lambda w, h: Remnant(w, h, ((0.0, 0.0), (w, 0.0), (0.0, h))), st.floats(20, 80), st.floats(20, 80)),
    st.builds(
        lambda w, h: Remnant(w, h, ((0.0, 0.0), (w, 0.0), (w, h / 2), (w / 2, h / 2), (w / 2, h), (0.0, h))),
        st.floats(20, 80),
        st.floats(20, 80),
    ),
)
cloths = st.builds(
    cloth,
    st.sampled_from([64.0, 90.0, 133.7]),
    selvedge=st.sampled_from([0.0, 1.5]),
    nap=st.booleans(),
    reversible=st.booleans(),
    crosswise=st.sampled_from(["never", "small pieces", "any"]),
    fold=st.sampled_from(["flat", "lengthwise", "crosswise", "either"]),
    gap=st.sampled_from([0.0, 0.0, 0.7]),
    selvedge_edges=st.booleans(),
    faults=st.lists(faults, max_size=3).map(tuple),
    remnants=st.lists(left_overs, max_size=3).map(tuple),
    repeat=st.one_of(
        st.none(),
        st.none(),
        st.builds(
            Repeat, st.sampled_from([0.0, 4.0, 11.0]), st.sampled_from([0.0, 5.0]), st.floats(0, 4), st.floats(0, 4)
        ),
    ),
)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(garments(), cloths)
def test_any_garment_on_any_cloth(garment: tuple[list[Piece], list[Part]], on: Cloth) -> None:
    pieces, parts = garment
    lays = lay_out(pieces, parts, on)
    assert complaints(lays, pieces, parts, on) == []
    assert sum(lay.buy_length > 0 for lay in lays) <= 1


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(garments(), cloths, st.data())
def test_the_check_sees_what_is_moved(garment: tuple[list[Piece], list[Part]], on: Cloth, data: st.DataObject) -> None:
    """A part moved by some centimetres, turned or flipped: the check and the second opinion agree about it."""
    pieces, parts = garment
    lays = list(lay_out(pieces, parts, on))
    n = data.draw(st.integers(0, len(lays) - 1))
    k = data.draw(st.integers(0, len(lays[n].placements) - 1))
    one = lays[n].placements[k]
    moved = replace(
        one,
        x=one.x + data.draw(st.sampled_from([0.0, 0.0, -7.0, 3.0])),
        y=one.y + data.draw(st.sampled_from([0.0, 0.0, -11.0, 5.0])),
        flip=one.flip ^ data.draw(st.booleans()),
    )
    lays[n] = replace(lays[n], placements=(*lays[n].placements[:k], moved, *lays[n].placements[k + 1 :]))
    assert bool(faults_in(lays, pieces, on, parts)) == bool(complaints(lays, pieces, parts, on))


def test_a_gap_between_pieces() -> None:
    """Two panels of 30 with 2 cm between them want 62, and no cloth outside them."""
    pieces = [piece("panel", rectangle(30, 50), 2)]
    assert one_lay(pieces, [], cloth(62.0, gap=2.0)).length == 50
    assert one_lay(pieces, [], cloth(61.9, gap=2.0)).length == 102


def test_an_edge_in_the_selvedge() -> None:
    """Two panels of 30 lie side by side on 60 of cloth only where their seams may lie in its selvedges."""
    pieces = [with_seams(piece("panel", rectangle(30, 50), 2))]
    on = cloth(60.0, selvedge=1.0)
    assert one_lay(pieces, [], on).length == 100
    lay = one_lay(pieces, [], replace(on, selvedge_edges=True), Budget(effort=1))
    assert lay.length == 50
    assert sorted(at.selvedge for at in lay.placements) == ["left", "right"]
    # the hem of a panel is no seam, nor is a slanting side straight
    assert one_lay([piece("panel", rectangle(30, 50), 2)], [], replace(on, selvedge_edges=True)).length == 100
    slanting = [with_seams(piece("sleeve", sleeve(60, 40, 30)))]
    with pytest.raises(CannotDraft):
        one_lay(slanting, [], replace(on, selvedge_edges=True))


def test_a_fault_is_passed() -> None:
    """A hole in the middle of the cloth's first 20 cm: a panel as wide as the cloth lies above it."""
    on = cloth(60.0, faults=(Fault(28, 0, 4, 20),))
    assert one_lay([piece("panel", rectangle(60, 50))], [], on).length == 70
    assert one_lay([piece("strip", rectangle(28, 50), 2)], [], on).length == 50


def test_a_left_over_is_used_where_it_spares_cloth() -> None:
    pieces = [piece("panel", rectangle(60, 50), 2), piece("bit", rectangle(10, 10))]
    on = cloth(60.0)
    spared = lay_out(pieces, [], replace(on, remnants=(Remnant(10, 10), Remnant(65, 55))))
    assert [(lay.remnant, lay.length) for lay in spared] == [(1, 10), (2, 55), (0, 50)]
    assert [lay.buy_length > 0 for lay in spared] == [False, False, True]
    # a bit beside a panel that is as long anyway spares nothing
    beside = [piece("panel", rectangle(50, 50)), piece("bit", rectangle(10, 10))]
    (alone,) = lay_out(beside, [], replace(on, remnants=(Remnant(10, 10),)))
    assert (alone.remnant, len(alone.placements)) == (0, 2)
    (all_of_it,) = lay_out(beside, [], replace(on, remnants=(Remnant(60, 50),)))
    assert (all_of_it.remnant, all_of_it.buy_length) == (1, 0)


def test_a_left_over_with_an_outline() -> None:
    """Half a rectangle holds half a gore, and no panel."""
    half = Remnant(30, 80, ((0.0, 0.0), (30.0, 0.0), (0.0, 80.0)))
    (used, _) = lay_out(
        [piece("half", half_gore(30, 80)), piece("p", rectangle(60, 9))], [], cloth(60.0, remnants=(half,))
    )
    assert used.remnant == 1
    assert used.outline == half.outline
    (alone,) = lay_out([piece("panel", rectangle(30, 60))], [], cloth(60.0, remnants=(half,)))
    assert alone.remnant == 0


def test_a_lengthwise_fold() -> None:
    """Sleeves two at once, a panel with its middle on the fold, and what is neither from the single layer."""
    lopsided = ((0.0, 0.0), (30.0, 0.0), (20.0, 40.0), (0.0, 40.0))
    pieces = [
        piece("body", rectangle(60, 100)),
        piece("sleeve", sleeve(40, 25, 55), 2),
        piece("odd", lopsided),
    ]
    parts = [
        Part("body", "body"),
        Part("sleeve-left", "sleeve"),
        Part("sleeve-right", "sleeve", mirrored=True),
        Part("odd", "odd"),
    ]
    on = cloth(140.0, fold="lengthwise", reversible=False)
    lays = lay_out(pieces, parts, on)
    assert [(lay.fold, lay.start, lay.length) for lay in lays] == [("lengthwise", 0, 100), ("flat", 100, 40)]
    at = {one.part: one for one in lays[0].placements}
    assert (at["body"].on_fold, at["body"].layers) == (True, 1)
    assert (at["sleeve-left"].layers, at["sleeve-left"].partner) == (2, "sleeve-right")
    assert complaints(lays, pieces, parts, on) == []
    flat = opened(lays[0])
    assert {one.part for one in flat.placements} == {"body", "sleeve-left", "sleeve-right"}
    assert faults_in((flat, lays[1]), pieces, on, parts) == []


def test_a_crosswise_fold() -> None:
    """A body that is the same front and back lies over the fold; with a nap nothing does."""
    pieces = [piece("body", rectangle(60, 200)), piece("sleeve", sleeve(40, 25, 55), 2)]
    on = cloth(100.0, fold="crosswise")
    (lay,) = lay_out(pieces, [], on)
    assert (lay.fold, lay.length) == ("crosswise", 200)
    assert {one.part: one.on_fold for one in lay.placements} == {"body-1": True, "sleeve-1": False}
    assert complaints((lay,), pieces, [], on) == []
    assert faults_in((opened(lay),), pieces, on) == []
    (napped,) = lay_out(pieces, [], replace(on, nap=True))
    assert napped.fold == "flat"


def test_a_folded_lay_opens_to_the_same_cloth() -> None:
    pieces, parts = tunic()
    for fold in ("lengthwise", "crosswise"):
        on = cloth(150.0, fold=fold, reversible=False)
        lays = lay_out(pieces, parts, on)
        assert complaints(lays, pieces, parts, on) == []
        area = sum(Polygon(p.cut, p.cut_holes).area * p.count for p in pieces)
        assert sum(lay.use * lay.width * lay.length for lay in lays) == pytest.approx(area)


def test_stripes_run_on_over_straight_seams() -> None:
    """A panel of 31 and side panels of 12 on stripes every 5: at each seam the same place of the stripe."""
    pieces = [with_seams(piece("front", rectangle(31, 60))), with_seams(piece("side", rectangle(12, 50), 2))]
    parts = [Part("front", "front"), Part("side-left", "side"), Part("side-right", "side", mirrored=True)]
    # each side of a piece is an edge, counted from below, counter-clockwise
    seams = [
        Seam("right", EdgeRef("front", "e1"), EdgeRef("side-left", "e3"), "side seam", "plain"),
        Seam("left", EdgeRef("front", "e3"), EdgeRef("side-right", "e3"), "side seam", "plain"),
    ]
    on = cloth(90.0, repeat=Repeat(5, 8, 2, 1), crosswise="never")
    (lay,) = lay_out(pieces, parts, on, seams=seams)
    assert complaints((lay,), pieces, parts, on) == []
    at = {one.part: one for one in lay.placements}

    def beside(x: float, step: float, first: float) -> float:
        return abs((x - first + step / 2) % step - step / 2)

    def where(part: str, x: float, y: float) -> tuple[float, float]:
        one = at[part]
        x = -x if one.flip else x
        x, y = (-x, -y) if one.turn == 180 else (x, y)
        return beside(one.x + x, 5, 2), beside(one.y + y, 8, 1)

    assert where("front", 31, 0) == pytest.approx(where("side-left", 0, 0), abs=1e-4)
    assert where("front", 0, 60)[0] == pytest.approx(where("side-right", 0, 50)[0], abs=1e-4)
    assert where("front", 15.5, 0) == pytest.approx((0, 0), abs=1e-4)


def test_a_search_that_goes_wrong_is_not_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    """An engine that heaps everything up in a corner: the check sees it, and the instant lay is answered."""
    pieces, parts = tunic()
    true = layout.best

    def wrong(task: Task, budget: Budget, *rest: Any, **more: Any) -> Found:
        if not budget.effort:
            return true(task, budget, *rest, **more)
        return Found(tuple(Spot(shape, shape.poses[0], 0.0, 0.0) for shape in task.shapes), 240.0, "wrong")

    monkeypatch.setattr(layout, "best", wrong)
    assert lay_out(pieces, parts, cloth(), Budget(effort=1)) == lay_out(pieces, parts, cloth())
    monkeypatch.setattr(layout, "best", lambda task, budget, *_, **__: wrong(task, Budget(effort=1)))
    with pytest.raises(InternalFault, match="overlap"):
        lay_out(pieces, parts, cloth(), Budget(effort=1))


def test_a_panel_too_wide_for_its_place_on_the_stripes() -> None:
    """58 of 60 cm leave 2: its middle cannot lie on a stripe every 20 from 5, so it lies in the middle of the cloth."""
    on = cloth(60.0, repeat=Repeat(20, 8, 5, 1))
    lay = one_lay([with_seams(piece("panel", rectangle(58, 50), 2))], [], on)
    assert {at.x if at.turn == 0 else at.x - 58 for at in lay.placements} == {1}
    # the hem is the piece's own y = 0, whichever way up it lies
    assert {(at.y - 1) % 8 for at in lay.placements} == {0}
