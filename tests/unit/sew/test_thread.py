"""Thread and time: published worked examples and closed forms."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.model.choices import Finish
from ellwand.sew.thread import (
    HAND_RATE,
    ROWS,
    WASTE,
    back_stitch,
    edge_thread,
    fell,
    hand_minutes,
    lockstitch,
    machine_minutes,
    running,
    seam_thread,
)


@pytest.mark.parametrize(
    ("ratio", "expected"),
    [
        (lockstitch(0.010, 10), 2.2),  # published worked example: 301, T 0.010 in, 10 stitches an inch
        (back_stitch(0.005, 9), 3.09),  # published worked example: 101, T 0.005 in, 9 stitches an inch
        (running(0.0, 10), 1.0),  # no thickness: as long as the seam
        (fell(0.0, 0.3, 0.0), 1.0),  # no bite, no thickness: as long as the seam
        (fell(0.1, 0.6, 0.4), (2 * 0.5 + 0.2) / 0.6),  # a 3-4-5 triangle on each side
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
    """23 stitches a minute: 3 mm stitches make 6.9 cm a minute (4.1 m an hour), 2 mm 4.6 (arithmetic)."""
    assert pytest.approx(6.9) == 0.3 * HAND_RATE
    assert 0.6 / hand_minutes(1) == pytest.approx(4.1, abs=0.05)
    assert 10 / hand_minutes(10, 0.2) == pytest.approx(4.6)


def test_a_machine_spends_its_time_on_handling() -> None:
    """1 m at 600 stitches a minute of 2.5 mm: 40 seconds of sewing (arithmetic), whatever the pinning takes."""
    assert machine_minutes(100, 0) == pytest.approx(40 / 60)
    assert machine_minutes(100, 2) - machine_minutes(100, 1) == pytest.approx(machine_minutes(0, 1))


def test_rows_of_each_finish_by_machine() -> None:
    """One lockstitched row, a second for the fell or the French seam, and one on each allowance: 1, 2, 2, 3."""
    one = seam_thread(100, "side seam", "plain", "machine")
    rows: dict[Finish, int] = {"plain": 1, "run and fell": 2, "french": 2, "overcast": 3}
    assert set(rows) == set(ROWS)
    for finish, count in rows.items():
        assert seam_thread(100, "side seam", finish, "machine") == pytest.approx(count * one)
    assert edge_thread(100, "machine") == pytest.approx(one)


def test_waste_is_within_the_trades_ten_to_fifteen_per_cent() -> None:
    assert 0.10 <= WASTE <= 0.15


@given(cm=st.floats(1, 1000), finish=st.sampled_from(sorted(ROWS)), by=st.sampled_from(["hand", "machine"]))
def test_thread_grows_with_the_seam_and_strain_never_takes_less(cm: float, finish: str, by: str) -> None:
    plain, stressed = (seam_thread(cm, kind, finish, by) for kind in ("side seam", "gusset"))
    assert stressed >= plain >= cm / 100
    assert (stressed > plain) == (by == "hand")
    assert seam_thread(2 * cm, "side seam", finish, by) == pytest.approx(2 * plain)
    assert math.isfinite(plain)
