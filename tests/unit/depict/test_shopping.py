"""What to buy, in words."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache

import pytest

from ellwand.depict.shopping import bill, purchase_steps, purchases, shopping_rows
from ellwand.lay.buy import purchase
from ellwand.model.cost import Prices
from ellwand.model.garment import Garment
from ellwand.pipeline import make
from ellwand.publish.garment_json import garment_json
from sheets import sheet


@cache
def made() -> Garment:
    return make(sheet({"style": "shift"}, cloth={"price": 10, "sold_by": 50, "spare": 0.1}), seconds=0)


def on(garment: Garment, **changes: object) -> Garment:
    return replace(garment, cloths=(replace(garment.cloths[0], **changes),))  # type: ignore[arg-type]


def test_every_step_is_told_and_they_add_up() -> None:
    garment = made()
    ((cloth, asked),) = purchases(garment.lays, garment.cloths)
    steps = purchase_steps(asked, cloth, "cm")
    assert sum(cm for _, cm in steps) == pytest.approx(asked.length)
    assert asked.length % 50 == pytest.approx(0)
    text = dict(shopping_rows(garment))["cloth"]
    for said in (
        "for the lay",
        "to straighten",
        "to spare",
        "washing takes off (4%)",
        "sold by 50 cm",
        "Wash it first",
    ):
        assert said in text


def test_the_price_is_told_by_the_metre_or_the_yard() -> None:
    garment = made()
    asked = purchase(garment.lays[0].length, garment.cloths[0])
    assert dict(shopping_rows(garment))["price"] == f"{asked.length / 10:.2f} (10 a metre)."
    assert dict(shopping_rows(on(garment, unit="in")))["price"].endswith("(10 a yard).")


def test_cloth_at_hand_is_not_rounded() -> None:
    text = dict(shopping_rows(on(made(), length=400.0)))["cloth"]
    assert "of the 400 cm at hand" in text and "sold by" not in text


def test_cloth_that_is_not_washed_before_it_is_cut() -> None:
    assert "washed already" in dict(shopping_rows(on(made(), washed=True)))["cloth"]
    assert "cut unwashed" in dict(shopping_rows(on(made(), wash="after")))["cloth"]


def test_left_overs_are_taken_and_only_the_rest_is_bought() -> None:
    garment = made()
    left = replace(garment.lays[0], remnant=1, width=60.0, length=95.0)
    rows = dict(shopping_rows(replace(garment, lays=(left, *garment.lays))))
    assert rows["cloth left over"] == "take no. 1 (60 cm × 95 cm); nothing to buy."
    assert rows["cloth"] == dict(shopping_rows(garment))["cloth"]
    assert "cloth" not in dict(shopping_rows(replace(garment, lays=(left,))))


def test_both_parts_of_a_folded_cloth_are_bought_together() -> None:
    garment = made()
    lay = garment.lays[0]
    ((_, asked),) = purchases((lay, replace(lay, start=lay.length)), garment.cloths)
    assert asked.laid == pytest.approx(2 * lay.length)


def test_several_cloths_are_named() -> None:
    garment = made()
    lining = replace(garment.cloths[0], name="lining")
    lays = (*garment.lays, replace(garment.lays[0], cloth="lining"))
    rows = dict(shopping_rows(replace(garment, cloths=(*garment.cloths, lining), lays=lays)))
    assert {"main cloth", "lining cloth", "price of main", "price of lining"} <= set(rows)


def test_garment_json_says_the_same() -> None:
    garment = made()
    ((cloth, asked),) = purchases(garment.lays, garment.cloths)
    (told,) = json.loads(garment_json(garment))["shopping"]
    assert told["cloth"] == cloth.name and told["cost"] == pytest.approx(asked.cost)
    added = sum(told[step] for step in ("laid", "straightening", "spare", "shrinkage", "rounding"))
    assert told["length"] == pytest.approx(added, abs=1e-3) and added == pytest.approx(asked.length, abs=1e-3)


def test_the_bill_is_told_with_what_has_no_price() -> None:
    garment = replace(made(), prices=Prices("€", thread=0.03, hour=10))
    rows, bill_ = dict(shopping_rows(garment)), bill(garment)
    assert "price" not in rows
    assert rows["cost"].startswith(f"{bill_.total:.2f} €: cloth {bill_.lines[0].total:.2f}, thread")
    low, high = bill_.hours
    assert rows["work"].startswith(f"worth {10 * low:.0f} to {10 * high:.0f} €, at about")
    assert json.loads(garment_json(garment))["costs"]["total"] == bill_.total
    bare = dict(shopping_rows(replace(on(garment, price=None), prices=Prices(thread=0.03))))
    assert bare["cost"].endswith("Without a price: cloth.") and "work" not in bare
    assert "costs" not in json.loads(garment_json(made()))
