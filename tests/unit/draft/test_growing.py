"""A child's garment with room to grow.

Sources: CDC growth charts 2000 (Series 11, No. 246; tests/data/growth_lms.csv) for the heights to come; closed forms
for what is taken up.
"""

from __future__ import annotations

import csv
import itertools
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from ellwand.draft import draft, draft_to_grow
from ellwand.errors import BadInput
from ellwand.measure import grown, wearer_from
from ellwand.measure.children import usual_height
from ellwand.model.choices import Growth
from ellwand.model.wearer import HANDS, Sex
from ellwand.pipeline import prove_sheet
from proving_specimens import CHILD, growing_sample
from sheets import sheet

GROWTH_CHARTS = Path(__file__).parents[2] / "data" / "growth_lms.csv"


def medians(sex: Sex) -> dict[int, float]:
    """Median height (cm) by month of age."""
    with GROWTH_CHARTS.open(encoding="utf-8") as lines:
        rows = [row for row in csv.DictReader(lines) if row["source"] == "CDC2000" and row["sex"] == sex[0]]
    return {int(row["age_months"]): float(row["M"]) for row in rows}


@pytest.mark.parametrize("sex", ["female", "male"])
def test_a_child_of_median_height_stays_one(sex: Sex) -> None:
    chart = medians(sex)
    for (month, now), (later, then) in itertools.combinations(chart.items(), 2):
        if 24 <= month < 18 * 12 and later - month <= 36:
            child = wearer_from({"sex": sex, "age": month / 12, "height": now})
            assert grown(child, later - month)["height"] == pytest.approx(then, abs=0.05)


@given(
    age=st.floats(2, 17.9),
    sex=st.sampled_from(["female", "male", None]),
    shape=st.floats(-4, 4),
    months=st.tuples(st.floats(0, 36), st.floats(0, 36)),
)
def test_no_one_shrinks(age: float, sex: Sex | None, shape: float, months: tuple[float, float]) -> None:
    mean, sd = usual_height(sex or "female", age)
    table: dict[str, object] = {"age": age, "height": mean + shape * sd} | ({"sex": sex} if sex else {})
    child = wearer_from(table)
    sooner, later = (grown(child, month) for month in sorted(months))
    for name in child.measures:
        assert child[name] <= sooner[name] + 1e-9
        assert sooner[name] <= later[name] + 0.3, name


def test_an_adult_does_not_grow() -> None:
    joan = wearer_from({"height": 164, "bust_girth": 96, "age": 30})
    assert grown(joan, 24) is joan
    with pytest.raises(BadInput, match="only a child"):
        draft_to_grow(sheet().choices, Growth(), joan, grown(joan, 12))


@pytest.mark.parametrize("by", ["deep hem", "tucks"])
def test_what_is_taken_up_is_the_difference_between_now_and_then(by: str) -> None:
    read = sheet({"gores": [], "growth": {"months": 24, "by": by}}, wearer=CHILD)
    garment = prove_sheet(read)
    now = draft(read.choices, garment.wearer).dimensions
    spare, size = garment.draft.taken_up, garment.draft.dimensions
    assert spare is not None and spare.by == by
    assert size.length - spare.body == pytest.approx(now.length)
    for hand in HANDS:
        assert size.sleeve_lengths[hand] - spare.sleeves[hand] == pytest.approx(now.sleeve_lengths[hand])
    assert spare.body > 4 and spare.sleeves["left"] > 2
    assert size.body_girth > now.body_girth


def test_numbers_grow_with_the_body() -> None:
    """A length of 80 cm chosen now is let down to 80 times the growth of the way from nape to floor."""
    read = sheet({"length": 80, "sleeve": {"length": 30.0}, "growth": {"months": 24}}, wearer=CHILD)
    garment = prove_sheet(read)
    later = grown(garment.wearer, 24)
    taller = later["nape_to_floor"] / garment.wearer["nape_to_floor"]
    assert garment.draft.dimensions.length == pytest.approx(80 * taller, abs=0.25)
    assert garment.draft.taken_up is not None
    assert garment.draft.taken_up.body == pytest.approx(80 * taller - 80, abs=0.25)


def test_the_chalk_lines_lie_on_the_pieces_at_their_height() -> None:
    for made, _ in growing_sample():
        spare = made.taken_up
        assert spare is not None
        for piece in made.pieces:
            lines = [guide for guide in piece.guides if guide.name != "shoulder fold"]
            if piece.place == "gusset":
                assert not lines
                continue
            amount = spare.body if piece.place == "body" else spare.sleeves["left"]
            wanted = {amount} if spare.by == "deep hem" else {5.0, 5.0 + amount}
            hems = [LineString(edge.points) for edge in piece.edges if edge.kind in ("hem", "cuff")]
            found = set()
            for guide in lines:
                line = LineString(guide.points)
                assert Polygon(piece.sewn, piece.sewn_holes).buffer(1e-6).covers(line)
                found.add(min(wanted, key=lambda w: abs(w - min(line.distance(hem) for hem in hems))))
                assert min(abs(w - min(line.distance(hem) for hem in hems)) for w in wanted) < 0.05
            assert found == wanted, piece.id


def test_it_lasts_as_long_as_was_asked() -> None:
    for months in (6, 12, 24):
        garment = prove_sheet(sheet({"gores": [], "growth": {"months": months}}, wearer=CHILD))
        (lasting,) = (f for f in garment.proof.findings if f.code == "lasts")
        assert lasting.measured is not None and lasting.measured >= months


def test_more_growth_never_lasts_less() -> None:
    def until(months: int | None) -> float:
        growth = {"growth": {"months": months}} if months else {}
        garment = prove_sheet(sheet({"gores": [], "body": {"ease": 10}, **growth}, wearer=CHILD))
        (lasting,) = (f for f in garment.proof.findings if f.code == "lasts")
        assert lasting.measured is not None
        return lasting.measured

    spans = [until(months) for months in (None, 6, 12, 18, 24)]
    assert spans == sorted(spans)
    assert spans[0] < 24


def test_adults_are_not_told_how_long_it_lasts() -> None:
    assert all(f.code != "lasts" for f in prove_sheet(sheet()).proof.findings)


def test_arms_that_differ_give_sleeves_that_differ() -> None:
    wearer = {"sex": "female", "height": 164, "bust_girth": 96, "left_arm_length": 52, "right_arm_length": 58}
    garment = prove_sheet(sheet({"sleeve": {"length": "wrist"}}, wearer=wearer))
    pieces = {part.id: part.piece for part in garment.draft.parts}
    size = garment.draft.dimensions
    assert pieces["sleeve-left"] != pieces["sleeve-right"]
    assert size.sleeve_lengths["right"] - size.sleeve_lengths["left"] == pytest.approx(6, abs=0.5)
    names = {piece.id: piece.name for piece in garment.draft.pieces}
    assert {names[pieces["sleeve-left"]], names[pieces["sleeve-right"]]} == {"left sleeve", "right sleeve"}
    alike = prove_sheet(sheet(wearer={**wearer, "left_arm_length": 58}))
    assert sum(piece.place == "sleeve" for piece in alike.draft.pieces) == 1
    same = replace(alike.wearer, arms={})
    assert draft(alike.choices, same).pieces == alike.draft.pieces


def test_a_belly_larger_than_the_bust_decides_the_body() -> None:
    plain = prove_sheet(sheet()).draft.dimensions.body_girth
    carrying = prove_sheet(
        sheet(wearer={"sex": "female", "height": 164, "bust_girth": 96, "belly_girth": 118, "head_girth": 56})
    )
    assert carrying.draft.dimensions.body_girth == pytest.approx(118 + 14, abs=1)
    assert carrying.draft.dimensions.body_girth > plain
