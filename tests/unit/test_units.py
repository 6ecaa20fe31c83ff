"""Lengths as people write them. One inch is 2.54 cm exactly (international agreement of 1959)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.errors import BadInput
from ellwand.units import format_inches, format_length, parse_length, round_near, round_up


@pytest.mark.parametrize(
    ("text", "cm"),
    [
        ("34 1/2 in", 87.63),
        ('34.5"', 87.63),
        ("34½ in", 87.63),
        ("34-1/2 in", 87.63),
        ("5 ft 6 in", 167.64),
        ("5'6\"", 167.64),
        ("1,68 m", 168.0),
        ("2.5 m", 250.0),
        ("3 yd", 274.32),
        ("875 mm", 87.5),
        ("87.5", 87.5),
        ("34 1⁄2 in", 87.63),
        ("5 ft 6", 167.64),
        ("5′6″", 167.64),
        ("1 m 68", 168.0),
        ("168 cms", 168.0),
        ("168 centimeters", 168.0),
    ],
)
def test_written_lengths(text: str, cm: float) -> None:
    assert parse_length(text) == pytest.approx(cm)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "-3",
        "abc",
        "3 ells",
        "1e9",
        "nan",
        "3 in 4 ft",
        "3 in 4",
        "5'7\",38",
        "1/0",
        "5 5",
        True,
        None,
        [],
        float("inf"),
        "1/" + "9" * 5000,
    ],
)
def test_what_is_no_length_is_refused(text: object) -> None:
    with pytest.raises(BadInput) as refused:
        parse_length(text, where="here")
    assert str(refused.value).startswith("here: ")


@given(st.fractions(min_value=0, max_value=200, max_denominator=8))
def test_inches_read_back(inches: Fraction) -> None:
    if inches.denominator in (1, 2, 4, 8):
        assert parse_length(format_inches(float(inches) * 2.54), "in") == pytest.approx(float(inches) * 2.54, abs=1e-6)


@given(st.floats(0, 500))
def test_centimetres_read_back(cm: float) -> None:
    assert parse_length(format_length(cm)) == pytest.approx(cm, abs=0.051)


@given(st.floats(0, 500), st.sampled_from([0.1, 0.5, 0.635, 1.0]))
def test_rounding_up_never_shrinks_and_near_stays_near(value: float, grid: float) -> None:
    assert -1e-5 <= round_up(value, grid) - value <= grid + 1e-5
    assert abs(round_near(value, grid) - value) <= grid / 2 + 1e-5
