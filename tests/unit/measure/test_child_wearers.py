"""Children against children.csv (Snyder et al. 1977, UM-HSRI-77-17) and plain sense."""

from __future__ import annotations

import csv
import itertools
from functools import cache
from importlib.resources import files

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.measure import wearer_from
from ellwand.measure.children import usual_height
from ellwand.model.wearer import Sex, upper

SEXES: tuple[Sex, ...] = ("female", "male")
AS_TABULATED = {
    "chest_girth": "bust_girth",
    "hip_girth": "hip_girth",
    "head_girth": "head_girth",
    "upper_arm_girth": "upper_arm_girth",
    "wrist_girth": "wrist_girth",
}


@cache
def medians(sex: Sex, age: int) -> dict[str, float]:
    text = files("ellwand.measure").joinpath("children.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {r["field"]: float(r["p50"]) for r in rows if r["sex"] == sex[0] and r["age"] == str(age)}


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize("age", range(2, 18))
def test_a_child_of_median_height_has_the_median_measurements(sex: Sex, age: int) -> None:
    table = medians(sex, age)
    wearer = wearer_from({"sex": sex, "age": age + 0.5, "height": table["stature"]})
    for column, field in AS_TABULATED.items():
        if column in table:
            assert wearer[field] == pytest.approx(table[column], rel=0.05), field
    assert wearer.is_child == (age < 14)


@given(
    age=st.floats(2, 17.99),
    sex=st.sampled_from([*SEXES, None]),
    shape=st.floats(-4, 4),
    bust=st.none() | st.floats(-3, 4),
)
def test_every_child_is_a_whole_body(age: float, sex: Sex | None, shape: float, bust: float | None) -> None:
    mean, sd = usual_height(sex or "male", age)
    table: dict[str, object] = {"age": age, "height": mean + shape * sd}
    if sex:
        table["sex"] = sex
    if bust is not None:
        plain = wearer_from(table).measures["bust_girth"]
        table["bust_girth"] = plain.value + bust * plain.sd
    wearer = wearer_from(table)
    levels = [wearer[f"{level}_to_floor"] for level in ("knee", "crotch", "hip", "waist", "nape")]
    assert all(a < b for a, b in itertools.pairwise([0.0, *levels, wearer["height"]]))
    assert 44 < wearer["head_girth"] < 62
    assert wearer["wrist_girth"] < wearer["hand_girth"] < wearer["head_girth"]
    assert wearer["neck_base_girth"] < wearer["head_girth"]
    assert 0.4 < wearer["crotch_to_floor"] / wearer["height"] < 0.5
    assert 0.27 < wearer["arm_length"] / wearer["height"] < 0.36
    assert all(np.isfinite(m.sd) and m.sd >= 0 for m in wearer.measures.values())


def test_what_children_lack_in_the_table_is_wider_than_for_adults() -> None:
    child = wearer_from({"age": 10, "height": 140, "bust_girth": 68})
    adult = wearer_from({"height": 165, "bust_girth": 95})
    for field in ("nape_to_floor", "crotch_to_floor", "waist_to_floor", "hip_to_floor", "knee_to_floor"):
        assert child.measures[field].sd > adult.measures[field].sd, field


def test_height_goes_before_age() -> None:
    """A ten-year-old as tall as a six-year-old has a six-year-old's legs, and nearly its own head."""
    small = wearer_from({"sex": "male", "age": 10.5, "height": 118.7})
    six, ten = (wearer_from({"sex": "male", "age": a, "height": h}) for a, h in [(6.5, 118.7), (10.5, 140.7)])
    assert small["crotch_to_floor"] == pytest.approx(six["crotch_to_floor"], rel=0.02)
    assert six["head_girth"] - 0.5 < small["head_girth"] < ten["head_girth"]
    assert six["bust_girth"] < small["bust_girth"] < ten["bust_girth"]


def test_a_stout_child_is_stout_all_round() -> None:
    slim, stout = (wearer_from({"age": 10, "height": 140, "bust_girth": b}) for b in (64, 84))
    for field in ("waist_girth", "hip_girth", "upper_arm_girth", "neck_base_girth", "thigh_girth"):
        assert stout[field] > slim[field] + 2, field
    assert abs(stout["head_girth"] - slim["head_girth"]) < 2


def test_without_a_sex_the_child_lies_between() -> None:
    her, him = (wearer_from({"sex": sex, "age": 9, "height": 132}) for sex in SEXES)
    either = wearer_from({"age": 9, "height": 132})
    for field, measure in either.measures.items():
        low, high = sorted((her[field], him[field]))
        assert low - 1e-9 <= measure.value <= high + 1e-9


def test_the_head_of_a_small_child_is_nearly_grown() -> None:
    child = wearer_from({"age": 4, "height": 102})
    adult = wearer_from({"height": 165, "bust_girth": 95})
    assert child["head_girth"] > 0.88 * adult["head_girth"]
    assert upper(child.measures["head_girth"]) < 54


@pytest.mark.parametrize(
    ("age", "height", "child"), [(13.9, 170, True), (14, 170, False), (16, 139, True), (18, 130, False)]
)
def test_who_counts_as_a_child(age: float, height: float, child: bool) -> None:
    assert wearer_from({"age": age, "height": height, "bust_girth": 80}).is_child is child
