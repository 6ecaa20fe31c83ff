"""Thread: published worked examples, and every hand stitch against its thread traced from hole to hole."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.model.choices import Sewing
from ellwand.model.stitch import StitchName
from ellwand.sew.stitches import STITCHES
from ellwand.sew.thread import (
    OVEREDGE,
    STRANDS,
    WASTE,
    back_stitch,
    bar,
    buttonhole,
    double_chain,
    lockstitch,
    overedge,
    ratio,
    running,
    slanting,
    with_waste,
    zigzag,
)

Path = list[tuple[float, float, float]]
"""Holes and turns of a thread: along the seam, away from its edge or line, and up through the cloth (cm)."""


def long(path: Path) -> float:
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(path))


@pytest.mark.parametrize(
    ("thread", "expected"),
    [
        # textile trade handbooks' worked examples, in inches
        (lockstitch(0.010, 10), 2.2),
        (back_stitch(0.005, 9), 3.09),  # ISO 4915, 101, whose thread goes the same way
        (overedge(0.05, 10, 0.25, OVEREDGE[0]), 15.0),
        (overedge(0.05, 10, 0.25, OVEREDGE[1]), 17.0),  # the other handbooks' constant
    ],
)
def test_published_ratios(thread: float, expected: float) -> None:
    assert thread == pytest.approx(expected)


def test_twenty_yards_of_overedge() -> None:
    """A textile trade handbook: 20 yd of 504 seam, 15 in to the inch, are 10,800 in of thread, 274.3 m."""
    inches = 20 * 36 * overedge(0.05, 10, 0.25, 3)
    assert inches == pytest.approx(10_800)
    assert inches * 2.54 / 100 == pytest.approx(274.3, abs=0.05)


def test_a_seam_that_was_unpicked_and_measured() -> None:
    """A trade page's 401: 15 cm of seam had 19.5 cm of needle thread, so 130 cm in a metre, and 410 of looper thread;
    with 15 % for waste 621 cm.  Such a ratio asks for a seam of 1.75 mm at 4 stitches to the cm: 4 + 2 T S."""
    needle, looper = 100 * 19.5 / 15, 410
    assert needle + looper == pytest.approx(540)
    assert with_waste((540, 540))[1] == pytest.approx(6.21)
    assert double_chain(0.175, 4) == pytest.approx(5.4)


def test_waste_is_the_trades_ten_to_fifteen_per_cent() -> None:
    assert WASTE == (0.10, 0.15)
    assert with_waste((100, 200)) == pytest.approx((1.1, 2.3))


def traced_running(n: int, thick: float, pitch: float, width: float) -> Path:
    out: Path = []
    for k in range(n + 1):
        here, there = (thick, 0.0) if k % 2 else (0.0, thick)
        out += [(k * pitch, 0, here), (k * pitch, 0, there)]
    return out[1:]


def traced_back(n: int, thick: float, pitch: float, width: float) -> Path:
    """Up one stitch ahead, back on top to where the last one ended, two ahead beneath."""
    out: Path = [(0, 0, 0)]
    for k in range(n):
        out += [((k + 1) * pitch, 0, 0), ((k + 1) * pitch, 0, thick), (k * pitch, 0, thick), (k * pitch, 0, 0)]
    return out[1:]


def traced_slanting(n: int, thick: float, pitch: float, width: float) -> Path:
    """From a hole before over the edge to the next hole behind, and through."""
    out: Path = [(0, width, thick)]
    for k in range(n):
        top, next_ = (k + 0.5) * pitch, (k + 1) * pitch
        out += [(top, 0, thick), (top, 0, 0), (next_, width, 0), (next_, width, thick)]
    return out


def traced_buttonhole(n: int, thick: float, pitch: float, width: float) -> Path:
    out: Path = [(0, 0, thick)]
    for k in range(n):
        x = k * pitch
        out += [(x, width, thick), (x, width, 0), (x, 0, 0), (x, 0, thick), (x + pitch, 0, thick)]
    return out


def traced_bar(n: int, thick: float, pitch: float, width: float) -> Path:
    out: Path = [(0, 0, thick)]
    for k in range(n):
        x, next_ = k * pitch, (k + 1) * pitch
        out += [(x, width, thick), (x, width, 0), (next_, 0, 0), (next_, 0, thick)]
    return out


def traced_zigzag(n: int, thick: float, pitch: float, width: float) -> Path:
    """The needle's thread: over the cloth to the other side, half way down to the bobbin's thread and up again."""
    out: Path = []
    for k in range(n + 1):
        x, y = k * pitch, width * (k % 2)
        out += [(x, y, thick), (x, y, thick / 2), (x, y, thick)]
    return out[:-2]


TRACED: dict[StitchName, tuple[Callable[[int, float, float, float], Path], Callable[[float, float, float], float]]] = {
    "running": (traced_running, lambda thick, pitch, width: running(thick, 1 / pitch)),
    "back stitch": (traced_back, lambda thick, pitch, width: back_stitch(thick, 1 / pitch)),
    "overcast": (traced_slanting, slanting),
    "hemming": (traced_slanting, slanting),
    "buttonhole": (traced_buttonhole, buttonhole),
    "bar": (traced_bar, lambda thick, pitch, width: bar(thick, pitch, width) - STRANDS),
    "zigzag": (traced_zigzag, lambda thick, pitch, width: zigzag(thick, 1 / pitch, width) / 2),
    "lockstitch": (
        lambda n, thick, pitch, width: traced_zigzag(n, thick, pitch, 0),
        lambda thick, pitch, width: lockstitch(thick, 1 / pitch) / 2,
    ),
}
THICK, PITCH, WIDTH = st.floats(0.01, 2), st.floats(0.05, 1), st.floats(0.05, 1)


@pytest.mark.parametrize("name", TRACED)
@given(thick=THICK, pitch=PITCH, width=WIDTH)
def test_thread_is_as_long_as_its_path(name: StitchName, thick: float, pitch: float, width: float) -> None:
    """Of 400 stitches; what is missing or over at the two ends is at most a stitch."""
    trace, formula = TRACED[name]
    n = 400
    one = formula(thick, pitch, width) * pitch
    assert long(trace(n, thick, pitch, width)) == pytest.approx(n * one, abs=one + pitch)
    # between the ends it is exact
    inner = long(trace(2 * n, thick, pitch, width)) - long(trace(n, thick, pitch, width))
    assert inner == pytest.approx(n * one, rel=1e-9)


def test_every_hand_stitch_was_traced() -> None:
    assert {name for name, stitch in STITCHES.items() if stitch.by == "hand"} <= set(TRACED)
    assert set(STITCHES) == set(get_args(StitchName))


@pytest.mark.parametrize("name", STITCHES)
@given(thick=THICK, more=st.floats(0.01, 2), stitch=st.floats(0.1, 0.5), longer=st.floats(0.01, 0.5))
def test_more_cloth_and_shorter_stitches_take_more_thread(
    name: StitchName, thick: float, more: float, stitch: float, longer: float
) -> None:
    sewing = Sewing(by=STITCHES[name].by, stitch=stitch)
    low, high = ratio(name, thick, sewing)
    assert 1 <= low <= high
    assert (low < high) == (name == "overedge")
    assert ratio(name, thick + more, sewing)[0] > low
    coarser = ratio(name, thick, Sewing(by=STITCHES[name].by, stitch=stitch + longer))
    assert coarser[0] < low or (STITCHES[name].own and coarser[0] == low)


@given(constant=st.floats(3, 5))
def test_the_overedge_stitchs_constant_is_the_makers_choice(constant: float) -> None:
    sewing = Sewing(by="machine", overedge_constant=constant)
    least, most = ratio("overedge", 0.1, Sewing(by="machine"))
    low, high = ratio("overedge", 0.1, sewing)
    assert least <= low == high <= most
