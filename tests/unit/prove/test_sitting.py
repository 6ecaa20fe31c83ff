"""Sitting: what the rule asks for, against the survey and modern ease, and that its mend is true."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bodies import rows
from ellwand.depict import words
from ellwand.prove.sitting import SEAT_BREADTH, SEAT_GROWS, knees_apart, seated_girth
from proving_specimens import found

SEATED_BREADTH = 38.573
"""Mean hip breadth of all seated, ANSUR II (cm), as summed up in public; the rows here hold the standing one."""


def mean(column: str) -> float:
    return sum(float(row[column]) for row in rows()) / len(rows())


def ellipse(one: float, other: float) -> float:
    """Girth of an ellipse of two diameters (Ramanujan's second formula)."""
    a, b = one / 2, other / 2
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


def test_a_seat_grows_as_an_ellipse_that_becomes_broader() -> None:
    girth, breadth = mean("hip_girth"), mean("hip_breadth")
    deep, shallow = 60.0, 5.0
    for _ in range(60):
        depth = (deep + shallow) / 2
        deep, shallow = (deep, depth) if ellipse(breadth, depth) < girth else (depth, shallow)
    assert ellipse(SEATED_BREADTH, depth) / girth - 1 == pytest.approx(SEAT_GROWS, abs=0.001)
    assert SEATED_BREADTH / girth == pytest.approx(SEAT_BREADTH, abs=0.001)


def test_modern_hip_ease_is_what_sitting_takes() -> None:
    """Modern wearing ease at the hip is 2 to 2 3/4 in (a costume course's table), here on hips of 36 to 44 in."""
    for hip in (92, 102, 112):
        assert 2 * 2.54 <= seated_girth(hip) - hip <= 2.75 * 2.54


def test_knees_together_are_the_band_round_two_legs_and_apart_it_grows_by_twice_the_way() -> None:
    assert knees_apart(0, math.pi) == pytest.approx(2 + math.pi)
    assert knees_apart(200, 40) - knees_apart(100, 40) == pytest.approx(2 * 100 * SEAT_BREADTH)


@given(st.integers(0, 8), st.sampled_from(["wide panels", "shoulder panels"]), st.sampled_from(["knee", "ankle"]))
def test_the_mend_is_enough(ease: int, cut: str, length: str) -> None:
    def judged(amount: float) -> dict[str, object]:
        body = {"cut": cut, "ease": amount}
        return {k: f for k, f in found({"length": length, "body": body}).items() if f.code == "sitting"}

    for key, finding in judged(ease).items():
        if finding.outcome != "sound":  # type: ignore[attr-defined]
            told = re.search(r"Add ([\d.]+) cm", words.mend(finding, "cm"))  # type: ignore[arg-type]
            assert told
            assert judged(ease + float(told.group(1)))[key].outcome == "sound"  # type: ignore[attr-defined]


def test_a_close_garment_is_looked_at_and_a_roomy_or_open_one_is_sound() -> None:
    assert found({"body": {"ease": 4}})["sitting:seat"].outcome == "look again"
    assert found({"body": {"ease": 20}, "length": "ankle"})["sitting:knees"].outcome == "sound"
    opened = found({"length": "ankle", "body": {"ease": 4}, "closures": [{"at": "centre-front"}]})
    assert opened["sitting-open:seat"].outcome == opened["sitting-open:knees"].outcome == "sound"
    split = found({"length": "ankle", "body": {"ease": 4}, "splits": [{"place": "side", "height": "knee"}]})
    assert split["sitting:seat"].outcome == "look again"
    assert split["sitting-open:knees"].outcome == "sound"
    assert not [key for key in found({"length": "hip", "body": {"ease": 4}}) if key.startswith("sitting:knees")]
