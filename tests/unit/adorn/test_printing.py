"""Blocks, the order of prints and the paint they take."""

from __future__ import annotations

import itertools

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon, affinity, box

from ellwand.adorn.motifs import OWN, motif
from ellwand.adorn.printing import LEAST_LINE, block, paint, print_plan
from ellwand.adorn.stencils.stencil import motif_shape
from ellwand.model.motif import Motif, Region
from ellwand.model.repeat import Placement, Repeat, RepeatChoice
from ellwand.model.run import Run, Stretch


def row(at: list[float], around: float, *, closed: bool, size: float = 4.0) -> Repeat:
    """A row of roundels at these places."""
    run = Run("hem", (Stretch("front", "hem", ((0.0, 0.0), (around, 0.0)), "left"),), closed)
    placements = tuple(Placement("front", spot, (spot, 0.0), 0.0, False) for spot in at)
    return Repeat(RepeatChoice("roundel", "hem"), run, motif("roundel", size), tuple(at), (), placements)


@pytest.mark.parametrize("name", OWN)
def test_a_print_of_the_block_is_the_motif(name: str):
    own = motif(name, 6.0)
    made = block(own)
    raised = shapely.union_all([Polygon(region.ring, region.holes) for region in made.raised])
    printed = affinity.scale(raised, xfact=-1, origin=(own.size[0] / 2, 0))
    assert printed.symmetric_difference(motif_shape(own)).area < 1e-9
    assert Polygon(made.block).contains(raised)
    assert made.size == pytest.approx((own.size[0] + 1, own.size[1] + 1))
    for region in made.raised:
        assert shapely.LinearRing(region.ring).is_ccw
        assert not any(shapely.LinearRing(hole).is_ccw for hole in region.holes)


def test_lines_narrower_than_the_block_holds_are_named():
    stem = box(0, 0, LEAST_LINE / 2, 4.5).union(Point(0, 5).buffer(1))
    ring = tuple((float(x), float(y)) for x, y in shapely.orient_polygons(stem).exterior.coords[:-1])
    (weak,) = block(Motif("stem", (Region(ring),))).weak
    assert weak.what == "window"
    assert weak.width == pytest.approx(LEAST_LINE / 2, abs=0.01)
    gap = Motif("gap", tuple(Region(tuple(box(x, 0, x + 2, 3).exterior.coords)[:-1]) for x in (0, 2.05)))
    assert [each.what for each in block(gap).weak] == ["card"]


@given(
    gaps=st.lists(st.floats(2.0, 12.0), min_size=2, max_size=20),
    reach=st.floats(2.5, 10.0),
    closed=st.booleans(),
)
def test_no_tool_lies_on_a_wet_print(gaps: list[float], reach: float, closed: bool):
    at = list(itertools.accumulate(gaps))
    around = at[-1] + 3.0
    made = row(at, around, closed=closed)
    plan = print_plan(made, reach)
    assert sorted(n for each in plan.rounds for n in each) == list(range(1, len(at) + 1))
    for each in plan.rounds:
        for a, b in itertools.permutations(each, 2):
            # the tool on one print, the other print's own width, on a line that may close
            copies = (-around, 0.0, around) if closed else (0.0,)
            for away in copies:
                tool = box(at[a - 1] - reach, 0, at[a - 1] + reach, 1)
                wet = box(at[b - 1] + away - 2.0, 0, at[b - 1] + away + 2.0, 1)
                assert tool.intersection(wet).area < 1e-6
    for later in range(1, len(plan.rounds)):
        # a later round is needed: its first print is too near to one in every round before
        first = plan.rounds[later][0]
        for before in plan.rounds[:later]:
            near = (abs(at[first - 1] - at[n - 1]) for n in before)
            assert any((min(gap, around - gap) if closed else gap) < reach + 2.0 for gap in near)


def test_every_second_one_first():
    made = row([6.0 * i for i in range(7)], 42.0, closed=True)
    # seven round a hem: the seventh is the first one's neighbour too
    assert print_plan(made, 5.0).rounds == ((1, 3, 5), (2, 4, 6), (7,))
    assert print_plan(row([6.0 * i for i in range(6)], 36.0, closed=True), 5.0).rounds == ((1, 3, 5), (2, 4, 6))
    plan = print_plan(made, 3.0)
    assert plan.rounds == (tuple(range(1, 8)),)
    assert plan.step == pytest.approx(6.0)


@pytest.mark.parametrize("name", ["roundel", "vine-scroll", "pellets"])
def test_paint_by_area(name: str):
    shape = motif_shape(motif(name, 8.0))
    low, high = paint(shape.area)
    # two US fluid ounces (59.147 ml) cover 2 to 4 square feet (929.03 cm² each) by the makers' claims
    assert high == pytest.approx(shape.area * 59.147 / (2 * 929.03), rel=1e-4)
    assert low == pytest.approx(shape.area * 59.147 / (4 * 929.03), rel=1e-4)
    assert 155 < low / shape.area * 1e4 < 165
    assert 315 < high / shape.area * 1e4 < 325


def test_painted_counts_every_motif_once():
    made = row([5.0, 15.0, 25.0], 30.0, closed=True)
    low, _ = paint(made.painted)
    assert low == pytest.approx(3 * motif_shape(made.motif).area * 59.147 / (4 * 929.03), rel=1e-4)
