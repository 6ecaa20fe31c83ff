"""The walker's step and the hem it needs, against published step lengths and plane geometry.

Step lengths: men 76 cm (70 to 85), women 66 cm (60 to 75); heights of 160 to 170 cm give 67 to 73 cm (walking step
tables at stepstomiles.io and biologyinsights.com).  Bodies: ANSUR II 2012 (tests/data/SOURCES.md).
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Point

from bodies import rows, sample
from ellwand import prove_sheet
from ellwand.prove.moves import STEP_SHARE, sweep_needed
from sheets import sheet

PUBLISHED = {"m": (76.0, 70.0, 85.0), "f": (66.0, 60.0, 75.0)}


@pytest.mark.parametrize(("height", "step"), [(160, 67), (170, 73)])
def test_step_of_a_height(height: float, step: float) -> None:
    """Ours lies within 2.2 cm of both, and within 1 cm of them on average: the table's share rises with height."""
    assert STEP_SHARE * height == pytest.approx(step, abs=2.2)


def test_step_share_is_the_tables_own() -> None:
    assert pytest.approx((67 / 160 + 73 / 170) / 2, abs=0.005) == STEP_SHARE


@pytest.mark.parametrize("sex", ["m", "f"])
def test_steps_of_the_surveyed_lie_in_the_published_ranges(sex: str) -> None:
    usual, least, most = PUBLISHED[sex]
    steps = sorted(STEP_SHARE * float(row["stature"]) for row in rows() if row["sex"] == sex)
    assert sum(steps) / len(steps) == pytest.approx(usual, abs=3)
    inside = sum(least <= step <= most for step in steps) / len(steps)
    assert inside > 0.9


@given(st.floats(20, 45), st.floats(50, 90), st.floats(70, 95), st.floats(0, 65))
def test_the_band_round_two_legs(leg: float, step: float, crotch: float, height: float) -> None:
    """The hull of two discs, by a geometry library: its girth is what the rule asks for, where the legs are apart."""
    apart = step * (crotch - height) / crotch
    discs = [Point(x, 0).buffer(leg / (2 * math.pi), quad_segs=256) for x in (0.0, apart)]
    hull = MultiPoint([point for disc in discs for point in disc.exterior.coords]).convex_hull
    assert sweep_needed(height, crotch, step, leg) == pytest.approx(hull.length, rel=1e-3)


def test_a_hem_as_wide_as_the_rule_says_is_sound() -> None:
    """On 40 surveyed bodies, and a hem a little narrower is looked at again."""
    for body in sample(40, seed=3):
        for length in ("knee", "ankle"):
            garment = prove_sheet(
                sheet({"length": length, "gores": [{"place": "side", "start": "hip", "base": 6}]}, wearer=body)
            )
            finding = next(each for each in garment.proof.findings if each.code == "walking")
            step = STEP_SHARE * float(str(body["height"]))
            assert finding.measured is not None and finding.needed is not None
            assert finding.values["step"] == pytest.approx(step)
            assert (finding.outcome == "sound") == (finding.measured >= finding.needed - 0.01)
