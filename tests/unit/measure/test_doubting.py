"""Improbable measurements are named with their likely cause.  People: rows of ANSUR II (public)."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from test_estimating import people

from ellwand.measure import Doubt, RawWearer, doubts, read_raw, wearer_from

WOMAN: Mapping[str, object] = {"sex": "female", "height": 164, "bust_girth": 96}


@pytest.mark.parametrize(
    ("more", "field", "cause"),
    [
        ({"crotch_to_floor": 33}, "crotch_to_floor", "it may be in inches"),
        ({"nape_to_floor": 104.6}, "nape_to_floor", "a digit may have slipped"),
        ({"nape_to_waist": 61}, "nape_to_waist", "it does not go with the other measurements"),
        (
            {"upper_arm_girth": 65, "thigh_girth": 33},
            "upper_arm_girth",
            "it may be exchanged with thigh_girth",
        ),
        ({"waist_girth": 103, "hip_girth": 80}, "hip_girth", "it may be exchanged with waist_girth"),
    ],
)
def test_one_slip_is_one_doubt(more: Mapping[str, object], field: str, cause: str) -> None:
    found = doubts(read_raw({**WOMAN, **more}))
    assert [(d.field, d.cause) for d in found] == [(field, cause)]
    assert found[0].repair


def test_inches_are_told_from_centimetres() -> None:
    raw = read_raw({"height": 65, "bust_girth": 38, "calf_girth": 14.5, "crotch_to_floor": 31, "unit": "in"})
    assert doubts(raw) == ()
    slip = {**raw.values, "wrist_girth": 2.54 * 11.5}
    found = doubts(RawWearer("x", None, None, "in", slip))
    assert [d.field for d in found] == ["wrist_girth"]


def test_centimetres_among_inches_are_named() -> None:
    raw = read_raw({"height": 65, "bust_girth": 38, "foot_girth": 9, "knee_to_floor": 18, "unit": "in"})
    slip = RawWearer("x", None, None, "in", {**raw.values, "upper_arm_girth": 30 * 2.54})
    assert doubts(slip) == (Doubt("upper_arm_girth", "it may be in centimetres", 'write "30 cm"'),)


def test_two_slips_are_two_doubts() -> None:
    found = doubts(read_raw({**WOMAN, "nape_to_floor": 104.6, "head_girth": 69}))
    assert {d.field for d in found} == {"nape_to_floor", "head_girth"}


def test_a_child_of_another_age_is_asked_about() -> None:
    (found,) = doubts(read_raw({"age": 14, "height": 110, "sex": "male"}))
    assert (found.field, found.cause) == ("height", "at 14 years a child is about 160.4 cm tall")


def test_real_people_are_hardly_ever_doubted() -> None:
    asked = sum(bool(doubts(RawWearer("x", sex, None, "cm", values))) for sex, values in people())
    assert len(people()) == 122
    assert asked <= 1


@pytest.mark.parametrize("table", [WOMAN, {"height": 182, "bust_girth": 130}, {"age": 7, "height": 121}])
def test_a_wearer_never_doubts_its_own_estimates(table: Mapping[str, object]) -> None:
    wearer = wearer_from(table)
    values = {name: measure.value for name, measure in wearer.measures.items()}
    assert doubts(RawWearer("x", wearer.sex, wearer.age, "cm", values)) == ()
