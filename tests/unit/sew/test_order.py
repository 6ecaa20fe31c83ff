"""The order of sewing: whole, and nothing before what it needs."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import rows, wearer
from ellwand import BadInput, Garment, prove_sheet
from ellwand.depict import words
from ellwand.sew.thread import HAND_RATE, back_stitch, fell, hand_minutes, lockstitch, running
from sheets import sheet
from strategies import garments

people = st.integers(0, len(rows()) - 1).map(lambda i: wearer(rows()[i]))

BEFORE = [
    # (sewn first, sewn later): common practice of flat work, written down apart from the code's own table
    ("gore to gore", "gore to panel"),
    ("centre seam", "shoulder"),
    ("shoulder", "armhole"),
    ("armhole", "gusset"),
    ("gusset", "underarm seam"),
    ("gusset", "side seam"),
    ("armhole", "underarm seam"),
]


def steps_of(garment: Garment) -> dict[str, int]:
    return {seam: step.n for step in garment.steps for seam in step.seams}


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(garment=garments, person=people)
def test_every_seam_once_and_nothing_before_what_it_needs(garment: dict[str, Any], person: dict[str, object]) -> None:
    try:
        done = prove_sheet(sheet(garment, wearer=person))
    except BadInput:
        return
    steps = done.steps
    assert [step.n for step in steps] == list(range(1, len(steps) + 1))
    assert all(need < step.n for step in steps for need in step.needs)
    sewn = [seam for step in steps for seam in step.seams]
    assert sorted(sewn) == sorted(seam.id for seam in done.draft.seams)
    when = steps_of(done)
    at_side = {
        s.id
        for s in done.draft.seams
        if "gore-side-left" in s.a.part + s.b.part or "gore-side-right" in s.a.part + s.b.part
    }
    for first, later in BEFORE:
        earlier = [when[s.id] for s in done.draft.seams if s.kind == first and s.id not in at_side]
        after = [when[s.id] for s in done.draft.seams if s.kind == later]
        if earlier and after and first != "armhole":
            assert max(earlier) <= min(after), (first, later)
    for step in steps:
        assert 0 < len(words.step(step, done.draft, "in")) < 420
        assert step.thread_m >= 0 and step.minutes_hand >= 0
    assert steps[-1].code in ("hem", "closures")


def test_a_maker_can_sew_each_seam_while_it_is_open() -> None:
    """Whatever joins two parts that already hang together by a loop comes after the flat work."""
    done = prove_sheet(sheet({"style": "gored gown", "body": {"cut": "wide panels"}}))
    when = steps_of(done)
    flat = [when[s.id] for s in done.draft.seams if s.kind in ("centre seam", "shoulder")]
    closing = [when[s.id] for s in done.draft.seams if s.kind in ("side seam", "underarm seam")]
    assert max(flat) < min(closing)


@pytest.mark.parametrize(
    ("ratio", "expected"),
    [
        (lockstitch(0.010, 10), 2.2),  # published worked example: 301, T 0.010 in, 10 stitches an inch
        (back_stitch(0.005, 9), 3.09),  # published worked example: 101, T 0.005 in, 9 stitches an inch
        (running(0.0, 10), 1.0),  # no thickness: as long as the seam
        (fell(0.0, 0.3, 0.0), 1.0),  # no bite, no thickness: as long as the seam
    ],
)
def test_thread_formulas(ratio: float, expected: float) -> None:
    assert ratio == pytest.approx(expected)


def test_a_published_shirt_takes_fourteen_hours_fifty_three() -> None:
    """Hone 1826 counts 20,548 stitches in a fine shirt; at the 1861 test's 23 a minute that is 893 minutes."""
    counted = [3000, 500, 150, 1264, 1228, 63, 264, 840, 1468, 1880, 390, 2554, 3050, 1526, 843, 424, 1104]
    assert sum(counted) == 20_548
    assert hand_minutes(sum(counted) * 0.3, 0.3) == pytest.approx(893, abs=1)


def test_hand_rate() -> None:
    """23 stitches a minute: 3 mm stitches make 6.9 cm a minute, 2 mm stitches 4.6 (arithmetic)."""
    assert pytest.approx(6.9) == 0.3 * HAND_RATE
    assert 10 / hand_minutes(10, 0.2) == pytest.approx(4.6)
