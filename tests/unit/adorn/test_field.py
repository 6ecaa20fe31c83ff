"""The divided field as plain geometry, against the manuals' rules written out as they are read.

Lines of partition, the number of pieces and where the first tincture lies: Fox-Davies, A Complete Guide to Heraldry
(1909), chapters on the lines of partition and the field; Cussans, The Handbook of Heraldry (barry, paly and bendy of
six, gyronny of eight where no number is said).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point as Place
from shapely import Polygon
from shapely.ops import unary_union

from ellwand.adorn.division.field import lines, patches, tincture_at
from ellwand.model.heraldry import IN_FOUR, USUAL_COUNT, Division, Field, Partition, Tincture

FIELD = Field(30.0, 0.0, 120.0)
BOTH: tuple[Tincture, ...] = ("gules", "or")
FOUR: tuple[Tincture, ...] = ("gules", "or", "azure", "argent")
EVERY = get_args(Partition)

# dexter is x < 0; the bend falls from the dexter chief to the sinister base; 0 for the first tincture, 1 for the other
RULES: dict[str, Callable[[float, float], int]] = {
    "per pale": lambda x, y: 0 if x < 0 else 1,
    "per fess": lambda x, y: 0 if y > 60 else 1,
    "quarterly": lambda x, y: 0 if (x < 0) == (y > 60) else 1,
    "per bend": lambda x, y: 0 if y > 60 - 2 * x else 1,
    "per bend sinister": lambda x, y: 0 if y > 60 + 2 * x else 1,
    # the diagonals of this field rise 2 cm a cm
    "per saltire": lambda x, y: 0 if abs(y - 60) > 2 * abs(x) else 1,
    # the point at two thirds of the height, the feet at a sixth
    "per chevron": lambda x, y: 0 if y > 80 - 2 * abs(x) else 1,
    "paly": lambda x, y: int((x + 30) // 10) % 2,
    "barry": lambda x, y: int((120 - y) // 20) % 2,
    # from the sinister chief corner down to the dexter base one, in six
    "bendy": lambda x, y: int(((30 - x) / 60 + (120 - y) / 120) * 3) % 2,
    "chequy": lambda x, y: (int((x + 30) // 10) + int((120 - y) // 10)) % 2,
    "gyronny": lambda x, y: int((math.degrees(math.atan2(-2 * x, y - 60)) % 360) // 45) % 2,
}


@pytest.mark.parametrize("by", RULES)
@given(x=st.floats(-29.9, 29.9), y=st.floats(0.1, 119.9))
def test_each_point_lies_in_a_patch_of_the_tincture_that_the_rule_gives_it(by: Partition, x: float, y: float) -> None:
    division = Division(by, BOTH)
    here = [patch for patch in patches(division, FIELD) if Polygon(patch.ring).buffer(-1e-6).contains(Place(x, y))]
    if here:
        assert [patch.tincture for patch in here] == [BOTH[RULES[by](x, y)]]
        assert tincture_at(division, FIELD, (x, y)) == here[0].tincture
    else:
        assert min(Polygon(patch.ring).exterior.distance(Place(x, y)) for patch in patches(division, FIELD)) < 1e-5


@pytest.mark.parametrize("by", EVERY)
@given(half=st.floats(15, 60), top=st.floats(50, 170), count=st.sampled_from([0, 4, 6, 8, 10]))
def test_the_patches_cover_the_field_once(by: Partition, half: float, top: float, count: int) -> None:
    field = Field(half, 0.0, top)
    found = [Polygon(p.ring) for p in patches(Division(by, BOTH, count if by in USUAL_COUNT else 0), field)]
    assert all(shape.exterior.is_ccw for shape in found)
    assert math.isclose(sum(shape.area for shape in found), 2 * half * top, rel_tol=1e-9)
    assert math.isclose(unary_union(found).area, 2 * half * top, rel_tol=1e-9)


@pytest.mark.parametrize("by", EVERY)
def test_two_tinctures_that_touch_along_a_line_differ(by: Partition) -> None:
    found = [(Polygon(patch.ring), patch.tincture) for patch in patches(Division(by, BOTH), FIELD)]
    for n, (one, first) in enumerate(found):
        for other, second in found[:n]:
            if one.intersection(other).length > 1e-6:
                assert first != second


def test_pieces_are_even_and_as_many_as_the_manuals_say() -> None:
    counts = {"gyronny": 8, "paly": 6, "barry": 6, "bendy": 6}
    assert {by: len(patches(Division(by, BOTH), FIELD)) for by in counts} == counts  # type: ignore[arg-type]
    # chequy: squares, three rows or more
    assert len(patches(Division("chequy", BOTH), FIELD)) == 6 * 12
    assert len(patches(Division("chequy", BOTH, 4), Field(40.0, 0.0, 50.0))) == 4 * 3


@pytest.mark.parametrize("by", ["per pale", "quarterly", "per bend sinister", "paly", "barry", "chequy", "per fess"])
def test_the_first_tincture_lies_in_the_dexter_chief(by: Partition) -> None:
    assert tincture_at(Division(by, BOTH), FIELD, (-29.9, 119.9)) == "gules"


def test_four_tinctures_lie_in_the_order_of_the_quarters() -> None:
    at = {
        "quarterly": [(-9, 100), (9, 100), (-9, 20), (9, 20)],
        "per saltire": [(0, 100), (-20, 60), (20, 60), (0, 20)],
    }
    for by in IN_FOUR:
        assert tuple(tincture_at(Division(by, FOUR), FIELD, place) for place in at[by]) == FOUR


@pytest.mark.parametrize("by", EVERY)
def test_dividing_lines_run_from_edge_to_edge(by: Partition) -> None:
    for line in lines(Division(by, BOTH), FIELD):
        for x, y in (line[0], line[-1]):
            assert min(30 - abs(x), y, 120 - y) == pytest.approx(0, abs=1e-9)


def test_a_level_line_lies_where_it_was_asked() -> None:
    division = replace(Division("per fess", BOTH), at=45.0)
    assert [round(Polygon(patch.ring).area) for patch in patches(division, FIELD)] == [60 * 75, 60 * 45]
    point = lines(replace(division, by="per chevron"), FIELD)[0][1]
    assert point == (0.0, 45.0)
