"""Lays of random and realistic pieces, checked with a transform of the test's own."""

import math
from collections import Counter
from itertools import combinations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lay_specimens import cloth, gore, half_gore, one_lay, piece, rectangle, sleeve, slit_panel, tunic
from shapely import set_precision
from shapely.geometry import Polygon

from ellwand.errors import CannotDraft
from ellwand.lay import Budget
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece


def laid(shape: Piece, at: Placement) -> Polygon:
    """The contract's placement rule, written out as matrices."""
    angle = math.radians(at.turn)
    spin = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    face = np.diag([-1.0 if at.flip else 1.0, 1.0])
    points = (spin @ face @ np.array(shape.cut).T).T + np.array([at.x, at.y])
    return set_precision(Polygon(points), 1e-6)


def assert_sound(lay: Lay, pieces: list[Piece], on: Cloth) -> None:
    known = {p.id: p for p in pieces}
    shapes = [laid(known[at.piece], at) for at in lay.placements]
    for a, b in combinations(shapes, 2):
        assert a.intersection(b).area < 0.01
    for shape in shapes:
        left, low, right, high = shape.bounds
        assert left >= on.selvedge - 1e-4
        assert right <= width_on_table(on) - on.selvedge + 1e-4
        assert low >= -1e-4
        assert high <= lay.length + 1e-4
    assert Counter(at.piece for at in lay.placements) == {p.id: p.count for p in pieces}
    assert len({at.part for at in lay.placements}) == len(lay.placements)
    assert lay.length >= lay.lower_bound - 1e-6


sizes = st.floats(4, 60).map(lambda x: round(x, 1))
outlines = st.one_of(
    st.builds(rectangle, sizes, sizes),
    st.builds(half_gore, sizes, sizes),
    st.builds(lambda base, extra: gore(base, base + extra), sizes, sizes),
    st.builds(lambda cuff, extra, long: sleeve(min(60.0, cuff + extra), cuff, long), sizes, sizes, sizes),
)


@st.composite
def sets(draw: st.DrawFn) -> list[Piece]:
    found = draw(st.lists(st.tuples(outlines, st.integers(1, 3), st.booleans()), min_size=1, max_size=5))
    return [piece(f"p{n}", cut, count, small=small) for n, (cut, count, small) in enumerate(found)]


cloths = st.builds(
    lambda width, nap, reversible, crosswise, selvedge: cloth(
        width, nap=nap, reversible=reversible, crosswise=crosswise, selvedge=selvedge
    ),
    st.sampled_from([64.0, 90.0, 151.3]),
    st.booleans(),
    st.booleans(),
    st.sampled_from(["never", "small pieces", "any"]),
    st.sampled_from([0.0, 1.0]),
)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(sets(), cloths)
def test_any_set_lies_soundly(pieces: list[Piece], on: Cloth) -> None:
    lay = one_lay(pieces, [], on)
    assert_sound(lay, pieces, on)
    for at in lay.placements:
        if on.nap:
            assert at.turn == 0
        if not on.reversible:
            assert not at.flip
        if at.turn in (90, 270):
            small = next(p.small for p in pieces if p.id == at.piece)
            assert on.crosswise == "any" or (on.crosswise == "small pieces" and small)


@settings(max_examples=4, deadline=None)
@given(sets(), st.integers(0, 1000))
def test_the_solver_lies_soundly_too(pieces: list[Piece], seed: int) -> None:
    on = cloth(90.0)
    assert_sound(one_lay(pieces, [], on, Budget(0.3, seed=seed)), pieces, on)


@pytest.mark.parametrize("width", [70.0, 90.0, 112.0, 150.0])
def test_a_tunic_on_one_sided_cloth(width: float) -> None:
    pieces, parts = tunic()
    on = cloth(width, reversible=False, selvedge=1.0, washed=False)
    lay = one_lay(pieces, parts, on)
    assert_sound(lay, pieces, on)
    assert {at.part: at.flip for at in lay.placements} == {p.id: p.mirrored for p in parts}
    cut = sum((Polygon(p.cut, p.cut_holes).area * p.count) for p in pieces)
    assert lay.use == pytest.approx(cut / (width * 0.98 * lay.length), rel=1e-9)


def test_the_same_lay_every_time() -> None:
    pieces, parts = tunic()
    lays = {one_lay(pieces, parts, cloth(112.0), Budget(seed=seed)) for seed in (0, 0, 7)}
    assert len(lays) == 1


def test_two_panels_that_fill_the_width_exactly() -> None:
    pieces = [piece("front", rectangle(61.3, 118)), piece("back", rectangle(61.3, 118))]
    for seconds in (0, 0.4):
        lay = one_lay(pieces, [], cloth(122.6), Budget(seconds, seed=1))
        assert lay.length == lay.lower_bound == 118
        assert lay.use == pytest.approx(1)


def test_half_gores_make_a_rectangle() -> None:
    """Two equal right triangles, one turned about, fill their rectangle (elementary geometry)."""
    lay = one_lay([piece("half", half_gore(30, 80), 4)], [], cloth(60.1))
    assert lay.length <= 80.1


def test_gores_lie_point_up_and_point_down() -> None:
    """Three triangles of base b side by side, the middle one turned, take 2 b of the width."""
    triangle = ((0.0, 0.0), (40.0, 0.0), (20.0, 75.0))
    lay = one_lay([piece("gore", triangle, 3)], [], cloth(80.1))
    assert lay.length <= 75.2
    assert {at.turn for at in lay.placements} == {0.0, 180.0}


def test_a_slit_is_closed_and_arcs_survive_the_solver() -> None:
    pieces = [piece("front", slit_panel(60, 110, 40), 2), piece("gore", gore(45, 75), 4)]
    on = cloth(122.0)
    assert_sound(one_lay(pieces, [], on, Budget(0.5, seed=3)), pieces, on)


def test_a_notched_piece_is_not_nested_wrongly() -> None:
    notched = ((0.0, 0.0), (60.0, 0.0), (60.0, 80.0), (40.0, 80.0), (30.0, 60.0), (20.0, 80.0), (0.0, 80.0))
    pieces = [piece("front", notched, 2), piece("bit", rectangle(8, 8), 3, small=True)]
    on = cloth(75.0)
    assert_sound(one_lay(pieces, [], on, Budget(0.5, seed=3)), pieces, on)


def test_copies_beyond_the_parts_are_numbered() -> None:
    pieces = [piece("sleeve", sleeve(50, 25, 55), 2), piece("facing", rectangle(30, 20), 2)]
    parts = [Part("sleeve-left", "sleeve"), Part("sleeve-right", "sleeve", mirrored=True)]
    lay = one_lay(pieces, parts, cloth())
    assert {at.part for at in lay.placements} == {"sleeve-left", "sleeve-right", "facing-1", "facing-2"}


def test_a_piece_wider_than_the_cloth() -> None:
    wide = [piece("body", rectangle(95, 80))]
    with pytest.raises(CannotDraft) as error:
        one_lay(wide, [], cloth(92.0, selvedge=1.0))
    assert "'body' is 95 cm wide and 90 cm can be used" in str(error.value)
    assert "crosswise" in str(error.value)
    lay = one_lay(wide, [], cloth(92.0, selvedge=1.0, crosswise="any"))
    assert lay.length == 95
    with pytest.raises(CannotDraft, match=r"shoulder panels\.$"):
        one_lay(wide, [], cloth(60.0))


def test_the_cloth_at_hand_may_be_too_short() -> None:
    pieces, parts = tunic()
    assert one_lay(pieces, parts, cloth(length=100.0)).length > 100


def test_nothing_to_lay() -> None:
    lay = one_lay([], [], cloth(), Budget(1, seed=0))
    assert (lay.length, lay.lower_bound, lay.placements) == (0, 0, ())
