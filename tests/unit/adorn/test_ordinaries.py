"""The ordinaries on a plain field, against the shares that manuals give, measured as areas and distances."""

from __future__ import annotations

import math
from typing import get_args

import pytest
from shapely import LineString, Point, Polygon, box, union_all

from ellwand.adorn.charges.ordinaries import BLUNT, USUAL, ordinary_shapes, ordinary_width
from ellwand.errors import CannotDraft
from ellwand.model.heraldry import Field, Ordinary

SHIELD = Field(half=25.0, bottom=0.0, top=60.0)
"""A field five by six, as shields are drawn."""
GOWN = Field(half=29.5, bottom=0.0, top=131.5)
FIELDS = [SHIELD, GOWN]
FINE = 1e-9
"""A chalk grid too fine to matter."""


def shape(ordinary: Ordinary, field: Field, share: float | None = None, grid: float = FINE):
    share = USUAL[ordinary][0] if share is None else share
    return union_all(ordinary_shapes(ordinary, field, ordinary_width(ordinary, field, share, grid), grid))


def whole(field: Field):
    return box(-field.half, field.bottom, field.half, field.top)


# Cussans, The Grammar of Heraldry (1866), p. 13: the chief is the upper third of the shield, the pale occupies one
# third of the field; Encyclopaedia Britannica, heraldry: the fess a third.
@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize("ordinary", ["chief", "pale", "fess"])
def test_chief_pale_and_fess_occupy_a_third_of_the_field(ordinary: Ordinary, field: Field) -> None:
    assert shape(ordinary, field).area == pytest.approx(whole(field).area / 3, rel=1e-6)


@pytest.mark.parametrize("field", FIELDS)
def test_they_lie_at_the_top_down_the_middle_and_across_it(field: Field) -> None:
    tall = field.top - field.bottom
    assert shape("chief", field).bounds == pytest.approx((-field.half, field.top - tall / 3, field.half, field.top))
    assert shape("pale", field).bounds == pytest.approx((-field.half / 3, field.bottom, field.half / 3, field.top))
    assert shape("fess", field).centroid.distance(Point(0, (field.bottom + field.top) / 2)) < 1e-6


# Cussans, p. 13: the bend crosses from the dexter chief to the sinister base; a fifth of the field, charged a third
@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize(("charged", "share"), [(0, 1 / 5), (1, 1 / 3)])
def test_a_bend_is_a_fifth_of_the_width_or_a_third_when_charged(field: Field, charged: int, share: float) -> None:
    bend = shape("bend", field, USUAL["bend"][charged])
    middle = LineString([(-field.half, field.top), (field.half, field.bottom)])
    assert USUAL["bend"][charged] == share
    # as wide as the farthest points on both sides of the line from corner to corner lie apart
    far = max(middle.distance(Point(p)) for p in bend.exterior.coords)
    assert 2 * far == pytest.approx(share * 2 * field.half, rel=1e-6)
    # the viewer's upper left is the dexter chief
    assert bend.distance(Point(-field.half, field.top)) < 1e-6
    assert bend.distance(Point(field.half, field.top)) > 1


@pytest.mark.parametrize("field", FIELDS)
def test_a_bend_sinister_is_the_bend_in_a_mirror_and_a_saltire_is_both(field: Field) -> None:
    bend, sinister = shape("bend", field), shape("bend sinister", field)
    mirrored = Polygon([(-x, y) for x, y in bend.exterior.coords])
    assert sinister.symmetric_difference(mirrored).area < 1e-6
    # Cussans, p. 15: the saltire is formed by the intersection of a bend and a bend-sinister
    assert shape("saltire", field).symmetric_difference(bend.union(sinister)).area < 1e-6


# Cussans, p. 15: two bars a fifth of the width of the shield, from the dexter and sinister bases, meeting at fess point
@pytest.mark.parametrize("field", FIELDS)
def test_a_chevrons_bars_are_a_fifth_wide_and_meet_at_the_fess_point(field: Field) -> None:
    chevron = shape("chevron", field)
    middle = (field.bottom + field.top) / 2
    bar = LineString([(-field.half, field.bottom), (0, middle)])
    # across the bar half way up, square to it
    (ax, ay), (bx, by) = bar.coords
    at = bar.interpolate(0.5, normalized=True)
    dx, dy = (bx - ax) / bar.length, (by - ay) / bar.length
    across = LineString([(at.x - 40 * dy, at.y + 40 * dx), (at.x + 40 * dy, at.y - 40 * dx)])
    left = chevron.intersection(box(-field.half, field.bottom, 0, field.top))
    assert left.intersection(across).length == pytest.approx(2 * field.half / 5, rel=1e-6)
    on_axis = chevron.intersection(LineString([(0, field.bottom), (0, field.top)]))
    assert on_axis.centroid.y == pytest.approx(middle)


# Encyclopaedia Britannica, heraldry: the arms of a plain cross a fifth
@pytest.mark.parametrize("field", FIELDS)
def test_a_crosss_arms_are_a_fifth_of_the_width(field: Field) -> None:
    cross, arm = shape("cross", field), 2 * field.half / 5
    tall, wide = field.top - field.bottom, 2 * field.half
    assert cross.area == pytest.approx(arm * (tall + wide) - arm**2, rel=1e-6)
    assert cross.intersection(LineString([(-field.half, 1.0), (field.half, 1.0)])).length == pytest.approx(arm)


@pytest.mark.parametrize("field", FIELDS)
def test_a_pile_points_down_from_the_top(field: Field) -> None:
    pile, top = shape("pile", field), 2 * field.half / 3
    assert pile.area == pytest.approx((top + BLUNT) / 2 * (field.top - field.bottom), rel=1e-6)
    assert pile.centroid.y > (field.top + field.bottom) / 2


@pytest.mark.parametrize("field", FIELDS)
def test_a_bordure_leaves_a_field_like_its_own_and_comes_in_four_mitred_strips(field: Field) -> None:
    width = ordinary_width("bordure", field, 0.1, FINE)
    strips = ordinary_shapes("bordure", field, width, FINE)
    inner = box(-field.half + width, field.bottom + width, field.half - width, field.top - width)
    assert union_all(strips).symmetric_difference(whole(field).difference(inner)).area < 1e-6
    assert len(strips) == 4
    assert math.fsum(strip.area for strip in strips) == pytest.approx(union_all(strips).area)


@pytest.mark.parametrize("ordinary", get_args(Ordinary))
@pytest.mark.parametrize("share", [0.05, 0.2, 1 / 3, 0.5])
def test_no_ordinary_leaves_the_field(ordinary: Ordinary, share: float) -> None:
    found = shape(ordinary, GOWN, share)
    assert found.is_valid
    assert whole(GOWN).buffer(1e-9).covers(found)


def test_a_bordure_that_would_cover_its_field_is_refused() -> None:
    with pytest.raises(CannotDraft, match="leaves nothing of the field"):
        ordinary_shapes("bordure", GOWN, 0.51 * 2 * GOWN.half, FINE)


@pytest.mark.parametrize("grid", [0.5, 0.635])
@pytest.mark.parametrize("ordinary", ["chief", "pale", "fess", "cross"])
def test_level_and_upright_edges_lie_on_the_chalk_grid(ordinary: Ordinary, grid: float) -> None:
    found = shape(ordinary, GOWN, grid=grid)
    xs = {x for x, _ in found.exterior.coords if abs(x) < GOWN.half - 1e-9}
    # a chief's lower edge is measured from the shoulders
    ys = {GOWN.top - y if ordinary == "chief" else y for _, y in found.exterior.coords}
    for value in [*xs, *(y for y in ys if y not in (0.0, GOWN.top))]:
        assert value / grid == pytest.approx(round(value / grid), abs=1e-6)
