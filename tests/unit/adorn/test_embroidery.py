"""Thread of embroidery against paths traced stitch by stitch with numpy and shapely."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Point, Polygon, box

from ellwand.adorn import embroidery as work
from ellwand.adorn.embroidery import (
    COUCHED,
    FILLINGS,
    HOOPS,
    LAID,
    OUTLINES,
    TIED,
    chain,
    embroidery,
    filling_for,
    hoop,
    laid,
    outline_length,
    overlapping,
    rows_high,
    satin,
    skeins,
)
from ellwand.model.motif import Motif, Region


def path_length(spots: list[tuple[float, float, float]]) -> float:
    """Length of a thread through points in space."""
    return float(np.linalg.norm(np.diff(np.array(spots), axis=0), axis=1).sum())


def motif_of_shape(*shapes: Polygon) -> Motif:
    """Shapes as a motif, where they are."""
    regions = []
    for shape in map(shapely.orient_polygons, shapes):
        rings = [tuple((float(x), float(y)) for x, y in r.coords[:-1]) for r in (shape.exterior, *shape.interiors)]
        regions.append(Region(rings[0], tuple(rings[1:])))
    return Motif("trial", tuple(regions))


ROUND = Point(3, 3).buffer(3, quad_segs=32)
HEART = Polygon([(2, 0), (4, 2.5), (3.4, 4), (2, 3.1), (0.6, 4), (0, 2.5)])
HOLED = box(0, 0, 5, 4).difference(Point(2.5, 2).buffer(1.3))


@pytest.mark.parametrize("back", [1 / 2, 1 / 3])
@pytest.mark.parametrize("size", [0.25, 0.4])
def test_overlapping_stitches_as_the_needle_goes(size: float, back: float):
    # down at the stitch's end, back beneath the cloth, up again a share of the stitch behind, and on
    thick, count, x = 0.06, 400, 0.0
    spots = [(0.0, 0.0, 0.0)]
    for _ in range(count):
        x += size
        spots += [(x, 0.0, 0.0), (x, 0.0, -thick)]
        x -= back * size
        spots += [(x, 0.0, -thick), (x, 0.0, 0.0)]
    assert path_length(spots) / x == pytest.approx(overlapping(size, back, thick), rel=1e-9)


@pytest.mark.parametrize("loop", [0.0, 0.12])
def test_chain_as_the_needle_goes(loop: float):
    # up, round the loop and down at the same place, on beneath, up inside the loop
    size, thick, count = 0.4, 0.06, 300
    spots: list[tuple[float, float, float]] = []
    for i in range(count):
        x = i * size
        left, right = (x + size / 2, loop / 2, 0.0), (x + size / 2, -loop / 2, 0.0)
        spots += [(x, 0, 0), left, (x + size, 0, 0), right, (x, 0, 0), (x, 0, -thick), (x + size, 0, -thick)]
    spots.append((count * size, 0, 0))
    assert path_length(spots) / (count * size) == pytest.approx(chain(size, thick, loop), rel=1e-9)


def test_a_chain_without_a_bow_is_the_trades_101():
    # textile trade handbooks give 3 + 2TS for ISO 4915, 101, where S is stitches to the cm
    assert chain(0.4, 0.06, 0.0) == pytest.approx(3 + 2 * 0.06 / 0.4)


def chords(shape: Polygon, pitch: float) -> list[tuple[float, float, float]]:
    """Level threads across a shape: (left, right, y) of each."""
    x0, y0, x1, y1 = shape.bounds
    levels = np.arange(y0 + pitch / 2, y1, pitch)
    found = MultiLineString([((x0 - 1, y), (x1 + 1, y)) for y in levels]).intersection(shape)
    return [(part.bounds[0], part.bounds[2], part.bounds[1]) for part in shapely.get_parts(found)]


@pytest.mark.parametrize("shape", [ROUND, HEART, HOLED])
@pytest.mark.parametrize("pitch", LAID)
def test_fillings_traced_thread_by_thread(shape: Polygon, pitch: float):
    motif, thick = motif_of_shape(shape), 0.06
    rows = chords(shape, pitch)
    assert rows_high(motif) / pitch == pytest.approx(len(rows), abs=4)
    face = sum(b - a for a, b, _ in rows)
    back = sum(math.hypot(b - a, pitch) for a, b, _ in rows)
    traced = face + back + 2 * thick * len(rows)
    assert satin(shape.area, rows_high(motif) / pitch, pitch, thick) == pytest.approx(traced, rel=0.02)
    over = face + len(rows) * (pitch + 2 * thick)
    # couching threads lie upright
    turned = shapely.affinity.rotate(shape, 90, origin=(0, 0))
    for a, b, _ in chords(turned, COUCHED):
        ties = (b - a) / TIED
        over += (b - a) + ties * (pitch + TIED + 2 * thick)
    assert laid(shape.area, rows_high(motif) / pitch, pitch, thick) == pytest.approx(over, rel=0.03)


@given(points=st.lists(st.tuples(st.floats(0, 9), st.floats(0, 9)), min_size=3, max_size=12))
def test_height_of_rows_is_the_crossings_of_level_lines(points: list[tuple[float, float]]):
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 0.5:
        return
    _, y0, _, y1 = hull.bounds
    assert rows_high(motif_of_shape(hull)) == pytest.approx(y1 - y0)


def test_a_ring_has_two_threads_at_its_middle():
    high = rows_high(motif_of_shape(HOLED))
    assert high == pytest.approx(4 + 2 * 1.3, abs=1e-3)


def test_outline_length_is_the_rings():
    shape = ROUND.difference(Point(3, 3).buffer(1))
    motif = motif_of_shape(shape, box(8, 0, 9, 1))
    assert outline_length(motif) == pytest.approx(shape.length + 4)
    assert outline_length(motif) == pytest.approx(LineString(ROUND.exterior.coords).length + 2 * math.pi + 4, abs=0.02)


@pytest.mark.parametrize("stitch", [*OUTLINES, *FILLINGS])
def test_ranges_hold_every_size_between(stitch: work.EmbroideryStitch):
    made = embroidery(motif_of_shape(HOLED), stitch)
    for low, high in (made.thread_m, made.stitches, made.hours):
        assert 0 < low < high
    assert (made.length > 0) != (made.area > 0)
    # 10 % of waste is the least of the sewing trade
    if stitch == "stem stitch":
        assert made.thread_m[0] == pytest.approx(1.1 * made.length * (3 + 4 * 0.06 / 0.5) / 100)
        assert made.thread_m[1] == pytest.approx(1.3 * made.length * (3 + 4 * 0.06 / 0.25) / 100)
        assert made.hours == pytest.approx((made.length / 0.25 / 15 / 60, made.length / 0.125 / 5 / 60))


def test_wide_shapes_are_laid_and_narrow_ones_filled_in_satin():
    assert filling_for(motif_of_shape(box(0, 0, 9, 0.9))) == "satin stitch"
    assert filling_for(motif_of_shape(box(0, 0, 9, 1.1))) == "laid and couched work"


def test_the_hoop_clears_the_motif():
    assert hoop(motif_of_shape(ROUND)) == 10
    # 3, 4 and 5: a rectangle's corners are on a circle 10 across
    assert hoop(motif_of_shape(box(0, 0, 8, 6))) == 15
    assert hoop(motif_of_shape(box(0, 0, 40, 3))) is None
    assert list(HOOPS) == sorted(HOOPS)


def test_skeins_of_stranded_cotton():
    # 24 m, two of six strands: a third of it, one skein of 8 m; 32 m, three strands: 16 m
    assert skeins((24.0, 32.0)) == (1, 2)
