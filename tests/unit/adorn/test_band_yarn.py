"""What woven bands, braids and cords take of yarn: a worked example, and what makers say of braids and cords."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand import prove_sheet
from ellwand.adorn.bands.yarn import usual_ends, yarn_of
from ellwand.model.band import BandChoice
from ellwand.model.garment import Garment
from sheets import sheet

FOOT = 30.48


def _garment(bands: list[dict[str, Any]]) -> Garment:
    return prove_sheet(sheet({"bands": bands}))


def _woven(choice: BandChoice, long: float) -> Any:
    (band,) = _garment([{"at": "centre-back", "width": 1, "make": "bought"}]).draft.adornment.bands
    return yarn_of(1, choice, [replace(band, length=long - 3.0)])


def test_the_weaver_s_worked_example() -> None:
    """A band of 5 ft from warps of 7.5 ft, on 12 cards of four holes: 48 ends (malarkycrafts.com, planning and setup):
    a tenth taken up (tygartlakefiberarts.com), so that 2 ft are the loom's."""
    choice = BandChoice("hem", width=2.0, make="tablet woven", ends=48, take_up=0.1, loom_waste=2 * FOOT)
    yarn = _woven(choice, 5 * FOOT)
    assert yarn.warp == pytest.approx(7.5 * FOOT)
    assert yarn.ends == 12 * 4
    assert yarn.metres - yarn.weft == pytest.approx(48 * 7.5 * FOOT / 100)
    assert yarn.grams == pytest.approx(yarn.metres * choice.grams / 100)


def test_braids_and_cords_take_what_is_said_of_them() -> None:
    """Strands of a braid 1.5 times its length and ends (hought.com); a plied cord about 5 times (weavespindye.org)."""
    for make, times in (("braid", 1.5), ("cord", 5.0)):
        yarn = _woven(BandChoice("hem", width=0.5, make=make, loom_waste=0.0), 200.0)  # type: ignore[arg-type]
        assert yarn.warp == pytest.approx(times * 200.0)
        assert yarn.metres == pytest.approx(yarn.ends * yarn.warp / 100)


@given(width=st.floats(0.4, 8), wraps=st.floats(4, 30))
def test_the_warp_is_as_wide_as_the_band(width: float, wraps: float) -> None:
    """Half the ends side by side, each as thick as the ruler says."""
    for make, step in (("tablet woven", 4), ("inkle woven", 2)):
        ends = usual_ends(BandChoice("hem", width=width, wraps=wraps, make=make))  # type: ignore[arg-type]
        assert ends % step == 0
        assert width - 1e-6 <= ends / 2 / wraps < width + step / 2 / wraps + 1e-6


def test_both_cuffs_are_woven_in_one() -> None:
    adornment = _garment([{"at": "cuffs", "width": 2, "make": "inkle woven"}]).draft.adornment
    (yarn,) = adornment.yarns
    assert yarn.length == pytest.approx(math.fsum(band.length + 3 for band in adornment.bands))
    assert all(band.parts == () for band in adornment.bands)
