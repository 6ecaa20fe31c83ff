"""From a lay to the shop: shrinkage as makers and records tell it, and every step reckoned backwards."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lay_specimens import cloth

from ellwand.lay.buy import buy_length, purchase
from ellwand.model.cloth import Cloth, length_on_table, width_on_table
from ellwand.units import CM_PER

YARD, INCH = CM_PER["yd"], CM_PER["in"]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # fulling at Burford, early 16th century (Victoria County History): 32 yards became 25
        (32 * YARD, 25 * YARD),
        # a handspun singles twill, fulled: 120 in became 100
        (120 * INCH, 100 * INCH),
        # a plain weave with plied weft, fulled: 27 in became 21 1/2
        (27 * INCH, 21.5 * INCH),
        # cloth for a copy of the Skjoldehamn hood, fulled: 25.94 in became 22.05
        (25.94 * INCH, 22.05 * INCH),
    ],
)
def test_what_shrank_to_the_lay_is_bought(before: float, after: float) -> None:
    raw = cloth(washed=False, shrink_warp=1 - after / before, straighten=0.0, sold_by=0.01)
    asked = purchase(after, raw)
    assert asked.length == pytest.approx(before, abs=0.01)
    assert asked.shrinkage == pytest.approx(before - after)


def test_fulling_narrows_the_cloth() -> None:
    # the same records: 25.5 in wide became 21 3/4
    raw = cloth(25.5 * INCH, washed=False, shrink_weft=1 - 21.75 / 25.5)
    assert width_on_table(raw) == pytest.approx(21.75 * INCH)


def test_shops_sell_by_ten_centimetres_or_an_eighth_of_a_yard() -> None:
    assert buy_length(240, cloth()) == 250
    assert buy_length(246, cloth()) == 250
    assert buy_length(240, cloth(washed=False, shrink_warp=0.04)) == 260
    assert buy_length(87.44, cloth(unit="in")) == pytest.approx(YARD)
    assert buy_length(87.5, cloth(unit="in")) == pytest.approx(9 * YARD / 8)


@pytest.mark.parametrize(("unit", "bought"), [(50.0, 250.0), (100.0, 300.0), (YARD / 4, 11 * YARD / 4)])
def test_or_as_the_sheet_says(unit: float, bought: float) -> None:
    assert buy_length(240, cloth(sold_by=unit)) == pytest.approx(bought)


def test_spare_is_a_part_or_a_length() -> None:
    assert purchase(200, cloth(spare=0.1)).spare == pytest.approx(20)
    assert purchase(200, cloth(spare=30.0)).spare == 30
    assert purchase(200, cloth(spare=30.0, straighten=0.0)).length == pytest.approx(230)


def test_what_is_washed_already_or_only_when_sewn_is_bought_as_it_lies() -> None:
    for kept in (cloth(washed=True, length=300.0), cloth(washed=False, wash="after", length=300.0)):
        assert purchase(200, kept).shrinkage == 0
        assert width_on_table(kept) == kept.width and length_on_table(kept) == 300


def test_the_price_is_for_a_metre_or_a_yard() -> None:
    assert purchase(246, cloth(price=12.0)).cost == pytest.approx(12 * 2.5)
    assert purchase(87.44, cloth(price=12.0, unit="in")).cost == pytest.approx(12)
    assert purchase(246, cloth()).cost is None


def test_nothing_laid_is_nothing_bought() -> None:
    assert purchase(0, cloth(price=5.0, spare=30.0)).length == 0
    assert purchase(0, cloth(price=5.0)).cost == 0


cloths = st.builds(
    Cloth,
    st.just("main"),
    st.just(150.0),
    washed=st.booleans(),
    wash=st.sampled_from(["before", "after"]),
    shrink_warp=st.floats(0, 0.5),
    straighten=st.floats(0, 10),
    spare=st.one_of(st.floats(0, 0.5), st.floats(1, 60)),
    sold_by=st.one_of(st.none(), st.floats(1, 100)),
    unit=st.sampled_from(["cm", "in"]),
)


@given(laid=st.floats(1, 2000), cloth=cloths)
def test_what_is_bought_is_enough_and_one_step_less_is_not(laid: float, cloth: Cloth) -> None:
    asked = purchase(laid, cloth)
    shrinks = not cloth.washed and cloth.wash == "before"
    spare = cloth.spare if cloth.spare >= 1 else cloth.spare * laid

    def left(bought: float) -> float:
        ready = bought * (1 - cloth.shrink_warp) if shrinks else bought
        return ready - 2 * cloth.straighten - spare

    assert left(asked.length) >= laid - 1e-3
    assert left(asked.length - asked.unit) < laid + 1e-3
    steps = asked.unit and asked.length / asked.unit
    assert steps == pytest.approx(round(steps), abs=1e-4)
    assert min(asked.straightening, asked.spare, asked.shrinkage) >= 0 and asked.rounding >= -1e-4
