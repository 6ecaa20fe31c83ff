"""The droop test: the exact strip and its inverse."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.drape.elastica import bending_length, droop
from ellwand.errors import BadInput


def test_the_standard_droop_is_at_twice_the_bending_length() -> None:
    # BS 3356: 41.5° is chosen so that the bending length is half the overhang
    assert bending_length(10.0, 41.5) == pytest.approx(5.0, rel=3e-4)


@pytest.mark.parametrize(("ratio", "over"), [(2.0, 0.019), (2.71, 0.048)])
def test_peirces_formula_is_off_by_what_is_known(ratio: float, over: float) -> None:
    # c = L (cos ½θ / 8 tan θ)^⅓ (Peirce, J. Text. Inst. 21, 1930), made for small droops
    angle = math.radians(droop(ratio, 1.0))
    peirce = ratio * (math.cos(angle / 2) / (8 * math.tan(angle))) ** (1 / 3)
    assert peirce == pytest.approx(1 + over, abs=1e-3)


@given(length=st.floats(2, 30), ratio=st.floats(0.9, 3.5))
def test_the_bending_length_comes_back_from_the_droop(length: float, ratio: float) -> None:
    assert bending_length(length, droop(length, length / ratio)) == pytest.approx(length / ratio, rel=1e-6)


@pytest.mark.parametrize("angle", [0.0, 1.0, 89.0])
def test_angles_that_tell_nothing_are_refused(angle: float) -> None:
    with pytest.raises(BadInput, match="bending length"):
        bending_length(10.0, angle)
