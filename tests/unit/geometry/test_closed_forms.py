"""Drawn lengths and areas against closed forms and independent libraries."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe
from shapely.geometry import LineString, Polygon

from bodies import sample
from ellwand import prove_sheet
from ellwand.geometry.flare import flare
from ellwand.geometry.lines import area, length, mirror, split
from ellwand.geometry.offset import Margin, cut_ring
from sheets import sheet

sizes = st.floats(1, 200)


def neck_rim(shape: str, ease: float) -> tuple[float, float, float]:
    """(drawn length of the neck, its width, its depth)."""
    garment = prove_sheet(sheet({"neck": {"shape": shape, "slit": "none", "ease": ease}}))
    body = garment.draft.pieces[0]
    (hole,) = body.sewn_holes
    xs, ys = zip(*hole, strict=True)
    return length((*hole, hole[0])), max(xs) - min(xs), max(ys) - min(ys)


def half_ellipse(a: float, b: float) -> float:
    """Half the perimeter of an ellipse: 2 a E(1 − (b/a)²), scipy's complete elliptic integral."""
    return float(2 * a * ellipe(1 - (b / a) ** 2))


@given(st.integers(0, 20))
def test_round_neck_is_a_half_circle_and_a_half_ellipse_of_its_target(ease: int) -> None:
    drawn, width, depth = neck_rim("round", ease)
    a = width / 2
    assert math.pi * a + half_ellipse(a, depth - a) == pytest.approx(drawn, abs=0.1)
    assert drawn == pytest.approx(56 + ease, abs=0.1)


@given(st.integers(0, 20))
def test_oval_neck_is_two_half_ellipses_of_its_target(ease: int) -> None:
    drawn, width, depth = neck_rim("oval", ease)
    a = width / 2
    assert half_ellipse(a, 2 * a / 3) + half_ellipse(a, depth - 2 * a / 3) == pytest.approx(drawn, abs=0.1)
    assert drawn == pytest.approx(56 + ease, abs=0.1)


@pytest.mark.parametrize("shape", ["rectangle", "boat"])
def test_other_necks_have_their_true_perimeter(shape: str) -> None:
    assert neck_rim(shape, 3)[0] == pytest.approx(59, abs=0.1)


@given(side=st.floats(10, 150), base=st.floats(2, 100))
def test_gore_is_a_sector(side: float, base: float) -> None:
    if base > side:
        return
    gore = flare(0, side, base)
    assert length(gore.hem()) == pytest.approx(base, rel=2e-4)
    assert all(math.dist(point, gore.point) == pytest.approx(side) for point in gore.hem())
    # sector area = base × side / 2
    assert area((*gore.hem(), gore.point)) == pytest.approx(base * side / 2, rel=1e-3)


@given(top=st.floats(3, 40), side=st.floats(40, 130), wider=st.floats(1, 60))
def test_flared_panel_keeps_its_sides_and_widths(top: float, side: float, wider: float) -> None:
    panel = flare(top, side, top + wider)
    corner, hem = panel.corner(), panel.hem()
    assert 2 * corner[0] == pytest.approx(top)
    assert math.dist(corner, hem[-1]) == pytest.approx(side)
    assert length(hem) == pytest.approx(top + wider, rel=2e-4)


@given(st.lists(st.tuples(sizes, sizes), min_size=3, max_size=9, unique=True))
def test_shoelace_against_shapely(points: list[tuple[float, float]]) -> None:
    polygon = Polygon(points)
    if polygon.is_valid:
        assert abs(area(points)) == pytest.approx(polygon.area, rel=1e-9, abs=1e-6)


@given(st.lists(st.tuples(sizes, sizes), min_size=2, max_size=9, unique=True), st.floats(0.05, 0.95))
def test_split_keeps_the_length(points: list[tuple[float, float]], share: float) -> None:
    whole = length(points)
    first, second = split(points, [share * whole])
    assert length(first) == pytest.approx(share * whole)
    assert length(first) + length(second) == pytest.approx(LineString(points).length)


@given(points=st.lists(st.tuples(sizes, sizes), min_size=1, max_size=9))
def test_mirrored_twice_is_itself(points: list[tuple[float, float]]) -> None:
    assert mirror(mirror(points)) == tuple(points)


@given(width=st.floats(5, 100), height=st.floats(5, 100), allowance=st.one_of(st.just(0.0), st.floats(0.1, 4)))
def test_cut_rectangle_against_shapely_buffer(width: float, height: float, allowance: float) -> None:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height), (0.0, 0.0)]
    ring = cut_ring([Margin((a, b), allowance) for a, b in itertools.pairwise(corners)])
    square = Polygon(corners).buffer(allowance, join_style="mitre") if allowance else Polygon(corners)
    assert Polygon(ring).symmetric_difference(square).area == pytest.approx(0, abs=1e-6)


def test_hem_of_a_tapered_sleeve_turns_back_flat() -> None:
    """Folded up at the hem, the allowance's outline falls on the side's own cut line (reflection in a line)."""
    for person in sample(10, seed=3):
        garment = prove_sheet(sheet(wearer=person))
        sleeve = next(piece for piece in garment.draft.pieces if piece.id == "sleeve")
        cuff = next(edge for edge in sleeve.edges if edge.id == "cuff")
        fold = cuff.points[0][1]
        turned = [(x, 2 * fold - y) for x, y in sleeve.cut if y < fold - 1e-6]
        assert turned
        assert Polygon(sleeve.cut).buffer(1e-3).covers(LineString(turned))
