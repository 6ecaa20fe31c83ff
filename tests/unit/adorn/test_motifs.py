"""Our own motifs: true closed regions, of the size that is asked, that join where they should."""

from __future__ import annotations

import math

import pytest
from shapely import LineString, Polygon, affinity, union_all

from ellwand.adorn.motifs import OWN, corner_for, motif
from ellwand.errors import BadInput
from ellwand.model.motif import Motif, motif_area, placed_line, sized
from ellwand.model.repeat import MOTIFS


def shape(drawn: Motif) -> Polygon:
    return union_all([Polygon(region.ring, region.holes) for region in drawn.regions])


def test_the_sheet_names_them_all() -> None:
    assert set(MOTIFS) == set(OWN)
    assert all(not own.corner or own.corner in OWN for own in OWN.values())


@pytest.mark.parametrize("name", MOTIFS)
@pytest.mark.parametrize("size", [1.0, 3.0, 12.0])
def test_closed_regions_of_the_size_that_is_asked(name: str, size: float) -> None:
    drawn = motif(name, size)
    assert drawn.size[0] == pytest.approx(size)
    assert 0.3 * size < drawn.size[1] < 1.5 * size
    whole = 0.0
    for region in drawn.regions:
        part = Polygon(region.ring, region.holes)
        assert part.is_valid and part.exterior.is_ccw
        assert not any(Polygon(hole).exterior.is_ccw for hole in region.holes)
        assert part.area > 1e-3 * size * size, "a crumb nobody can cut out"
        whole += part.area
    # regions do not overlap, and begin at (0, 0)
    assert shape(drawn).area == pytest.approx(whole) == pytest.approx(motif_area(drawn))
    assert shape(drawn).bounds[:2] == pytest.approx((0, 0), abs=1e-9)


@pytest.mark.parametrize("name", MOTIFS)
def test_twice_as_wide_is_four_times_the_paint(name: str) -> None:
    assert motif_area(sized(motif(name, 3.0), 6.0)) == pytest.approx(4 * motif_area(motif(name, 3.0)))


def test_areas_that_are_known() -> None:
    """From ruler and compass: the key is drawn on squares, the roundel's ring is a difference of two circles."""
    assert motif_area(motif("key", 7.0)) == pytest.approx(28)
    assert motif_area(motif("key corner", 7.0)) == pytest.approx(49 - 25 + 9 - 1)
    assert motif_area(motif("pellet", 2.0)) == pytest.approx(math.pi, rel=2e-3)
    ring = max(motif("roundel", 10.0).regions, key=lambda region: len(region.holes))
    assert Polygon(ring.ring, ring.holes).area == pytest.approx(math.pi * (25 - 4.35**2), rel=2e-3)


@pytest.mark.parametrize("name", [name for name in MOTIFS if OWN[name].joins])
def test_what_joins_runs_on_into_its_neighbour(name: str) -> None:
    drawn = shape(motif(name, 6.0))
    ends = []
    for x in (1e-4, 6.0 - 1e-4):
        cut = drawn.intersection(LineString([(x, -1), (x, 20)]))
        ends.append([part.bounds[1::2] for part in getattr(cut, "geoms", [cut])])
    assert ends[0] and ends[0] == [pytest.approx(each, abs=2e-2) for each in ends[1]]


def test_the_vine_meets_its_mirror_image_without_a_kink() -> None:
    """Its stem is level at both ends: a hair inside, its upper side has the same height as at the end."""
    drawn = shape(motif("vine-scroll", 6.0))
    tops = [drawn.intersection(LineString([(x, -1), (x, 9)])).bounds[3] for x in (1e-3, 0.08)]
    assert tops[0] == pytest.approx(tops[1], abs=0.03)


@pytest.mark.parametrize("name", MOTIFS)
def test_corner_motifs_fit_the_square_between_two_rows(name: str) -> None:
    corner = corner_for(name, 4.0)
    assert corner is None or max(corner.size) == pytest.approx(4.0)


def test_placing_is_a_mirroring_a_turn_and_a_shift() -> None:
    """Against a general-purpose library's affine maps."""
    drawn = motif("fleuron", 5.0)
    middle = (2.5, drawn.size[1] / 2)
    for mirrored in (False, True):
        line = placed_line(drawn.regions[0].ring, middle, (10.0, 20.0), 30.0, mirrored)
        moved = affinity.translate(LineString(drawn.regions[0].ring), -middle[0], -middle[1])
        turned = affinity.rotate(affinity.scale(moved, -1 if mirrored else 1, 1, origin=(0, 0)), 30, origin=(0, 0))
        there = affinity.translate(turned, 10, 20)
        assert [xy for point in line for xy in point] == pytest.approx([xy for p in there.coords for xy in p])


def test_an_unknown_name_is_refused() -> None:
    with pytest.raises(BadInput, match="none of our motifs"):
        motif("gryphon", 5.0)
