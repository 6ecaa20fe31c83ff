"""[prices] and the maker's pace in a sheet."""

from __future__ import annotations

import pytest

from ellwand.choose import Sheet, read_sheet
from ellwand.errors import BadInput
from ellwand.model.choices import Timed
from sheets import JOAN, toml


def read(unit: str = "cm", **tables: object) -> Sheet:
    everything = {"wearer": {**JOAN, "unit": unit}, "cloth": {"main": {"width": 150}}, **tables}
    return read_sheet(toml(everything).encode(), lambda name: 1.0)


def test_a_sheet_without_prices_has_none() -> None:
    assert read().prices is None


def test_prices_are_by_the_metre_inside() -> None:
    table = {"currency": "€", "thread": 3.2, "lace": 0.8, "button": 0.35, "hour": 12}
    prices = read(prices=table).prices
    assert prices is not None
    assert (prices.thread, prices.lace, prices.button, prices.hour) == (pytest.approx(0.032), 0.8, 0.35, 12)
    assert (prices.currency, prices.band) == ("€", None)
    by_the_yard = read("in", prices=table).prices
    assert by_the_yard is not None
    # a yard is 0.9144 m exactly (international yard and pound agreement, 1959)
    assert by_the_yard.lace == pytest.approx(0.8 / 0.9144)
    assert by_the_yard.thread == pytest.approx(0.032 / 0.9144)
    assert by_the_yard.button == 0.35


def test_the_makers_pace_and_stitch() -> None:
    sewing = read(sewing={"stitch": 0.2, "timed": {"length": 40, "minutes": 12}}).choices.sewing
    assert (sewing.stitch, sewing.timed) == (0.2, Timed(40, 12))
    inches = read("in", sewing={"timed": {"length": 16, "minutes": 12}}).choices.sewing
    assert inches.timed == Timed(pytest.approx(40.64), 12)


@pytest.mark.parametrize(
    ("tables", "where"),
    [
        ({"prices": {"thread": -1}}, "prices.thread"),
        ({"prices": {"thread": "dear"}}, "prices.thread"),
        ({"prices": {"buttons": 1}}, "prices.buttons"),
        ({"prices": 3}, "prices"),
        ({"sewing": {"timed": {"length": 40}}}, "sewing.timed.minutes"),
        ({"sewing": {"timed": {"length": 40, "minutes": 0}}}, "sewing.timed.minutes"),
        ({"sewing": {"timed": 12}}, "sewing.timed"),
        ({"sewing": {"stitch": 5}}, "sewing.stitch"),
        ({"sewing": {"overedge_constant": 40}}, "sewing.overedge_constant"),
        ({"garment": {"closures": [{"at": "neck slit", "size": 9}]}}, "garment.closures[1].size"),
    ],
)
def test_what_is_wrong_is_named(tables: dict[str, object], where: str) -> None:
    with pytest.raises(BadInput) as refused:
        read(**tables)
    assert refused.value.where == where
    assert refused.value.problem
