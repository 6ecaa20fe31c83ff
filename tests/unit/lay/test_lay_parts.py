"""Bounds, what to buy, the check, hulls and settling: closed forms."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lay_specimens import NECK, cloth, gore, half_gore, one_lay, piece, rectangle, slit_panel, tunic
from shapely.geometry import MultiPoint, Polygon
from shapely.ops import unary_union

from ellwand.errors import InternalFault
from ellwand.lay.bounds import lower_bound
from ellwand.lay.buy import buy_length
from ellwand.lay.check import faults_of
from ellwand.lay.hulls import convex_parts, fewer_corners, hull
from ellwand.lay.settle import settle
from ellwand.lay.shapes import closed_outline, shapes_of
from ellwand.lay.task import Ground, Spot, length_of
from ellwand.model.draft import Part


def test_bound_by_area() -> None:
    pieces = [piece("a", rectangle(30, 40), 10, holes=()), piece("b", half_gore(20, 60), 4)]
    length, why = lower_bound(pieces, cloth(150.0))
    assert (round(length, 6), why) == (round((10 * 1200 + 4 * 600) / 150, 6), "area")


def test_holes_are_not_counted() -> None:
    """A neck hole could hold a gusset: a bound that counted it would not be one."""
    body = piece("body", rectangle(65, 240), 30, holes=(NECK,))
    length, why = lower_bound([body], cloth(650.0))
    assert why == "area"
    assert length == pytest.approx(30 * Polygon(body.cut, [NECK]).area / 650)


def test_bound_by_the_longest_piece() -> None:
    assert lower_bound([piece("a", rectangle(30, 240))], cloth(150.0)) == (240, "longest piece")


def test_bound_by_pieces_too_wide() -> None:
    length, why = lower_bound([piece("a", rectangle(80, 100), 3)], cloth(150.0))
    assert (round(length, 3), why) == (300, "pieces too wide to lie side by side")


def test_a_gore_is_too_wide_only_near_its_base() -> None:
    """Two triangles of base 80 interlock on cloth 121 wide: only chords above 60.5 exclude each other."""
    triangle = ((0.0, 0.0), (80.0, 0.0), (40.0, 90.0))
    pieces, on = [piece("a", triangle, 2)], cloth(121.0)
    lay = one_lay(pieces, [], on)
    assert lay.length <= 90.2
    assert lay.lower_bound == 90


def test_buying() -> None:
    """Shrinking length / (1 − s), 2 cm at either end, then the shop's step."""
    assert buy_length(240, cloth()) == 250
    assert buy_length(240, cloth(washed=False, shrink_warp=0.04)) == 260
    assert buy_length(246, cloth()) == 250
    assert buy_length(87.44, cloth(unit="in")) == pytest.approx(91.44)
    assert buy_length(87.5, cloth(unit="in")) == pytest.approx(9 * 91.44 / 8)


def test_the_check_finds_each_fault() -> None:
    pieces, parts = tunic()
    on = cloth(reversible=False)
    lay = one_lay(pieces, parts, on)
    assert faults_of(lay, pieces, on, parts) == []

    def with_first(**changes: object) -> list[str]:
        first = replace(lay.placements[0], **changes)  # type: ignore[arg-type]
        return faults_of(replace(lay, placements=(first, *lay.placements[1:])), pieces, on, parts)

    first = lay.placements[0]
    assert any("overlap" in f for f in with_first(x=lay.placements[1].x, y=lay.placements[1].y))
    assert any("selvedge" in f for f in with_first(x=-500.0))
    assert any("ends of the cloth" in f for f in with_first(y=first.y + 500))
    assert any("grain" in f for f in with_first(turn=90.0))
    assert any("wrong face" in f for f in with_first(flip=not first.flip))
    assert any("more than once" in f for f in with_first(part=lay.placements[1].part))
    assert any("unknown" in f for f in with_first(piece="hat"))
    assert any("times, not" in f for f in faults_of(replace(lay, placements=()), pieces, on))
    turned = replace(first, turn=180.0)
    nap = faults_of(replace(lay, placements=(turned, *lay.placements[1:])), pieces, replace(on, nap=True))
    assert any("against the nap" in f for f in nap)


def test_more_parts_than_cut() -> None:
    with pytest.raises(InternalFault):
        shapes_of([piece("a", rectangle(5, 5))], [Part("a1", "a"), Part("a2", "a")], cloth())


def test_a_slit_closes_and_the_rest_stays() -> None:
    closed = Polygon(closed_outline(slit_panel(60, 110, 40)))
    assert closed.symmetric_difference(Polygon(rectangle(60, 110))).area < 1e-6


points = st.tuples(st.integers(-50, 50), st.integers(-50, 50)).map(lambda p: (float(p[0]), float(p[1])))


@given(st.lists(points, min_size=3, max_size=30))
def test_hull_is_shapely_hull(found: list[tuple[float, float]]) -> None:
    theirs = MultiPoint(found).convex_hull
    if theirs.geom_type == "Polygon":
        assert Polygon(hull(found)).equals(theirs)


@given(st.floats(10, 60), st.floats(1.0, 2.0), st.sampled_from([0.02, 0.1, 0.5]))
def test_fewer_corners_stay_around_and_near(base: float, stretch: float, slack: float) -> None:
    ring = hull(gore(base, base * stretch))
    fewer = Polygon(fewer_corners(ring, slack))
    if slack >= 0.1:
        assert len(fewer.exterior.coords) < len(ring)
    assert Polygon(ring).difference(fewer).area < 1e-6
    assert fewer.hausdorff_distance(Polygon(ring)) < 8 * slack
    assert fewer.bounds == pytest.approx(Polygon(ring).bounds, abs=1e-6)


def test_convex_parts_cover_a_scooped_panel() -> None:
    scoop = [(30 + 12 * math.cos(a), 80 - 12 * math.sin(a)) for a in [k * math.pi / 9 for k in range(10)]]
    ring = ((0.0, 0.0), (60.0, 0.0), (60.0, 80.0), *scoop, (0.0, 80.0))
    parts = [Polygon(part) for part in convex_parts(ring)]
    assert sum(p.area for p in parts) == pytest.approx(Polygon(ring).area)
    assert unary_union(parts).symmetric_difference(Polygon(ring)).area < 1e-6
    assert all(p.area == pytest.approx(p.convex_hull.area) for p in parts)


def test_settling_parts_and_pulls_together() -> None:
    """Two boxes that overlap by a hair, and one that hangs loose: closed form 20 + 30."""
    shapes = shapes_of([piece("a", rectangle(50, 20), 2), piece("b", rectangle(100, 30))], [], cloth(100.0))
    loose = [Spot(s, s.poses[0], x, y) for s, x, y in zip(shapes, (0, 49.99, 0), (0, 0.01, 27), strict=True)]
    settled = settle(loose, Ground(100.0))
    assert settled is not None
    assert length_of(settled) == pytest.approx(50, abs=1e-6)
    assert settled[1].x == pytest.approx(50, abs=1e-6)


def test_settling_says_when_it_cannot() -> None:
    shapes = shapes_of([piece("a", rectangle(60, 500), 2)], [], cloth(100.0))
    assert settle([Spot(s, s.poses[0], 20.0 * n, 0.0) for n, s in enumerate(shapes)], Ground(100.0)) is None
