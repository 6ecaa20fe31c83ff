"""Stencils of drawings whose islands and bridges are known beforehand, and of the house's own motifs."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra
from scipy.spatial import cKDTree
from shapely import LineString, MultiPolygon, Point, Polygon, affinity, box, get_parts
from shapely.geometry.base import BaseGeometry

from ellwand.adorn.motifs import OWN, motif
from ellwand.adorn.stencils.stencil import BRIDGE, MARGIN, motif_shape, stencil
from ellwand.errors import CannotDraft
from ellwand.model.motif import Motif, Region
from ellwand.model.stencil import Stencil


def as_motif(shape: BaseGeometry) -> Motif:
    """A shape as a motif, where it is."""
    regions = []
    for part in get_parts(shapely.orient_polygons(shape)):
        rings = [tuple((float(x), float(y)) for x, y in r.coords[:-1]) for r in (part.exterior, *part.interiors)]
        regions.append(Region(rings[0], tuple(rings[1:])))
    return Motif("trial", tuple(regions))


def ring(outer: float, inner: float) -> Polygon:
    """A ring about (10, 10)."""
    return Point(10, 10).buffer(outer, quad_segs=32).difference(Point(10, 10).buffer(inner, quad_segs=32))


def card_of(made: Stencil) -> BaseGeometry:
    """What is left of the card."""
    return Polygon(made.card).difference(shapely.union_all([Polygon(window) for window in made.windows]))


def test_a_disc_needs_no_bridge():
    made = stencil(as_motif(Point(3, 3).buffer(3)))
    assert (made.islands, made.bridges, len(made.windows)) == (0, (), 1)
    assert made.taken == pytest.approx(0, abs=1e-9)
    assert made.size == pytest.approx((6 + 2 * MARGIN, 6 + 2 * MARGIN))


def test_a_ring_has_two_opposite_bridges_as_short_as_it_is_thick():
    made = stencil(as_motif(ring(4, 3)))
    assert made.islands == 1
    first, second = made.bridges
    assert first.across == pytest.approx(1.0, abs=0.02)
    assert second.across == pytest.approx(1.0, abs=0.02)
    ways = [math.atan2(b.a[1] + b.b[1] - 20, b.a[0] + b.b[0] - 20) for b in made.bridges]
    assert math.cos(ways[0] - ways[1]) == pytest.approx(-1, abs=0.01)
    # a bridge takes its width times the ring's thickness
    assert made.taken == pytest.approx(first.width + second.width, rel=0.03)
    assert len(made.windows) == 2


def test_a_small_island_hangs_by_one_bridge_and_a_large_one_by_stouter_ones():
    small, large = stencil(as_motif(ring(1.2, 0.5))), stencil(as_motif(ring(7, 6)))
    assert len(small.bridges) == 1
    assert small.bridges[0].width == BRIDGE
    assert len(large.bridges) == 4
    assert all(bridge.width > 1.3 * BRIDGE for bridge in large.bridges)


def test_islands_in_islands_are_each_held_from_outside():
    target = shapely.union_all([ring(6, 5.2), ring(4.2, 3.4), ring(2.4, 1.6), Point(10, 10).buffer(0.8)])
    made = stencil(as_motif(target))
    assert made.islands == 3
    card = card_of(made)
    for outer, inner in ((6, 5.2), (4.2, 3.4), (2.4, 1.6)):
        middle = LineString([*Point(10, 10).buffer((outer + inner) / 2, quad_segs=64).exterior.coords])
        crossings = get_parts(middle.intersection(card))
        merged = shapely.line_merge(shapely.multilinestrings(list(crossings)))
        assert len(get_parts(merged)) >= 2


def test_squares_that_touch_at_corners_shut_in_the_card_between_them():
    chequer = MultiPolygon([box(i, j, i + 1, j + 1) for i in range(5) for j in range(5) if (i + j) % 2 == 0])
    made = stencil(as_motif(chequer))
    # of the twelve empty squares four are shut in on all sides, and eight open to the card at one side
    assert made.islands == 4
    assert len(get_parts(card_of(made))) == 1


def test_a_neck_of_card_is_widened():
    # a bay of card joined to the rest by a gap of 1 mm
    bay = box(0, 0, 4, 4).difference(box(1, 1, 3, 3)).difference(box(1.95, 3, 2.05, 4))
    made = stencil(as_motif(bay), 0.4)
    assert made.islands == 0
    (bridge,) = made.bridges
    assert bridge.width == 0.4
    gap = Polygon(made.card).difference(shapely.union_all([Polygon(window) for window in made.windows]))
    across = gap.intersection(LineString([(1, 3.5), (3, 3.5)]))
    assert across.length >= 0.4 - 1e-6
    assert made.taken == pytest.approx(0.3, abs=0.05)


def test_bridges_keep_off_corners():
    frame = box(0, 0, 8, 8).difference(box(1, 1, 7, 7))
    made = stencil(as_motif(frame))
    corners = shapely.MultiPoint([(x, y) for x in (0, 8) for y in (0, 8)])
    for bridge in made.bridges:
        assert LineString([bridge.a, bridge.b]).distance(corners) > 2
    # on its point, the middle lines run into the corners
    tips = Polygon([(4, 0), (8, 5), (4, 10), (0, 5)])
    inner = affinity.scale(tips, 0.7, 0.7)
    made = stencil(as_motif(tips.difference(inner)))
    assert len(made.bridges) == 2
    corners = shapely.MultiPoint([*tips.exterior.coords, *inner.exterior.coords])
    for bridge in made.bridges:
        assert LineString([bridge.a, bridge.b]).distance(corners) > 0.8


def test_bridges_do_not_cross():
    for name in OWN:
        made = stencil(motif(name, 9.0))
        lines = [LineString([bridge.a, bridge.b]) for bridge in made.bridges if bridge.across]
        for i, one in enumerate(lines):
            assert not any(one.crosses(other) for other in lines[i + 1 :])


@pytest.mark.parametrize(("wide", "high", "shift"), [(5.0, 3.0, 0.0), (5.0, 3.0, 0.9), (4.0, 4.5, 0.5)])
def test_one_bridge_takes_hardly_more_than_the_best_of_all(wide: float, high: float, shift: float):
    blot = affinity.scale(Point(0, 0).buffer(1, quad_segs=24), wide, high)
    island = affinity.translate(Point(0, 0).buffer(0.45, quad_segs=16), shift, shift)
    made = stencil(as_motif(affinity.translate(blot.difference(island), wide, high)))
    (bridge,) = made.bridges
    # every straight strip from the island's middle outward, by a degree at a time
    strips = [
        LineString([(shift, shift), (shift + 20 * math.cos(a), shift + 20 * math.sin(a))]).buffer(
            bridge.width / 2, cap_style="flat"
        )
        for a in np.radians(np.arange(360))
    ]
    best = min(strip.intersection(blot.difference(island)).area for strip in strips)
    assert best * 0.95 < made.taken < best * 1.15


@pytest.mark.parametrize("name", OWN)
@pytest.mark.parametrize("size", [3.0, 6.0, 15.0])
def test_our_own_motifs_make_cards_of_one_piece(name: str, size: float):
    own = motif(name, size)
    made = stencil(own, step=size + 1)
    assert len(get_parts(card_of(made))) == 1
    asked = motif_shape(own)
    cut = shapely.union_all([Polygon(window) for window in made.windows])
    # but for specks of card under a square of 1 mm, which no knife can leave
    specks = [part for part in get_parts(Polygon(made.card).difference(asked)) if part.area < 0.01]
    assert cut.difference(shapely.union_all([asked, *specks])).area < 1e-6
    assert cut.area > (0.6 if size > 5 else 0.3) * asked.area
    assert made.area == pytest.approx(cut.area)


def test_marks_set_the_next_print_a_step_on():
    own = motif("roundel", 6.0)
    made = stencil(own, step=8.5)
    left, right, upper_left, upper_right = made.marks
    for a, b in ((left, right), (upper_left, upper_right)):
        assert (b[0] - a[0], b[1] - a[1]) == pytest.approx((8.5, 0.0))
    assert left[1] < 0 < own.size[1] < upper_left[1]
    assert all(card_of(made).contains(Point(mark).buffer(0.5)) for mark in made.marks)


def test_too_far_on_there_are_no_marks_and_the_card_stays_small():
    made = stencil(motif("roundel", 6.0), step=40.0)
    assert made.marks == ()
    assert made.size[0] == pytest.approx(6 + 2 * MARGIN)
    assert stencil(motif("roundel", 6.0)).marks == ()


def test_thin_places_are_named():
    spike = Polygon([(0, 0), (6, 0), (6, 4), (0, 4)]).difference(box(2.9, 1, 3.1, 4))
    (weak,) = stencil(as_motif(spike)).weak
    assert (weak.what, round(weak.width, 2)) == ("card", 0.2)
    stem = Point(1, 1).buffer(1).union(box(2, 0.95, 5, 1.05)).union(box(1, 0.95, 3, 1.05))
    (weak,) = stencil(as_motif(stem)).weak
    assert (weak.what, round(weak.width, 2)) == ("window", 0.1)


def farthest(card: BaseGeometry, motif_size: tuple[float, float]) -> float:
    """How far any place of a card is from what lies outside the motif, from dot to dot along the card (cm)."""
    wide, high = motif_size
    step = 0.15
    xs, ys = np.arange(-1.0, wide + 1.0, step), np.arange(-1.0, high + 1.0, step)
    spots = np.array([(x, y) for x in xs for y in ys])
    shapely.prepare(card)
    on = spots[shapely.contains_xy(card, spots)]
    pairs = cKDTree(on).query_pairs(1.5 * step, output_type="ndarray")
    lines = shapely.linestrings(on[pairs])
    kept = shapely.covers(card, lines)
    pairs, long = pairs[kept], shapely.length(lines)[kept]
    ways = coo_array((long, (pairs[:, 0], pairs[:, 1])), shape=(len(on), len(on))).tocsr()
    outside = np.flatnonzero((on[:, 0] < 0) | (on[:, 1] < 0) | (on[:, 0] > wide) | (on[:, 1] > high))
    return float(dijkstra(ways, directed=False, indices=outside, min_only=True).max())


def test_a_long_tongue_of_card_is_tied():
    # the card winds into a key as a tongue that hangs by its root only
    key = motif("key", 9.0)
    made = stencil(key)
    assert made.islands == 0
    assert sum(bridge.across > 1 for bridge in made.bridges) >= 2
    before = Polygon(made.card).difference(motif_shape(key))
    assert farthest(before, key.size) > 15
    assert farthest(card_of(made), key.size) < 8


def test_short_tongues_are_left_alone():
    comb = box(0, 0, 5, 4).difference(shapely.union_all([box(x, 1, x + 0.6, 5) for x in (0.7, 2.2, 3.7)]))
    assert stencil(as_motif(comb)).bridges == ()


def test_a_motif_smaller_than_its_bridges_is_refused():
    with pytest.raises(CannotDraft, match="so small that its bridges would cover most of it"):
        stencil(as_motif(Point(1, 1).buffer(0.16).difference(Point(1, 1).buffer(0.12))), 0.5)
    flat = Motif("line", (Region(((0.0, 0.0), (1.0, 0.0), (2.0, 0.0))),))
    with pytest.raises(CannotDraft, match="nothing to be painted"):
        stencil(flat)
