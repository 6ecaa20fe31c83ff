"""How long stitching takes.

Stitches a minute, as counted in a sewing-machine maker's test of 1861 (quoted in Cooper, The Invention of the Sewing
Machine): by hand 30 on fine silk, 23 on fine linen, 10 on the vamps of shoes; by machine 640 on fine linen, 374 on
hat bindings.  A fine shirt of 20,548 stitches (counted in Hone's Every-Day Book, 1826) takes 14 h 53 at 23 a minute,
threading and turning included, as the same test's 14 h 26 for a man's shirt (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final

from ellwand.model.choices import Sewing
from ellwand.model.step import Step, Totals
from ellwand.model.stitch import Stitching, StitchName
from ellwand.sew.stitches import STITCHES, main_stitch, stitch_length
from ellwand.sew.thread import Range

HAND: Final[Range] = (10.0, 30.0)
"""Stitches a minute of a slow and a quick hand.  That one who is new to it sews cloth as slowly as leather was sewn is
our own figure."""
MACHINE: Final[Range] = (374.0, 640.0)
"""Stitches a minute of a slow and a quick machine."""
HANDLING: Final[Range] = (1.0, 3.0)
"""Minutes to pin, turn and end each run of the machine: our own figure."""


def minutes(name: StitchName, length: float, sewing: Sewing, runs: int = 1) -> Range:
    """Least and most for ``length`` cm of one stitch, in so many runs; at the maker's own pace where it was timed."""
    usual = _usual(name, length / stitch_length(name, sewing), runs)
    timed = sewing.timed
    if timed is None or STITCHES[name].by != sewing.by:
        return usual
    main = main_stitch(sewing)
    there = _usual(main, timed.length / stitch_length(main, sewing), 1)
    at_pace = [each * timed.minutes / usually for each, usually in zip(usual, there, strict=True)]
    return min(at_pace), max(at_pace)


def _usual(name: StitchName, stitches: float, runs: int) -> Range:
    if STITCHES[name].by == "hand":
        return stitches / HAND[1], stitches / HAND[0]
    return stitches / MACHINE[1] + runs * HANDLING[0], stitches / MACHINE[0] + runs * HANDLING[1]


def middle(each: Range) -> float:
    """Half way from the least to the most."""
    return (each[0] + each[1]) / 2


def summed(each: Iterable[Range]) -> Range:
    """All the least and all the most together."""
    pairs = list(each)
    return math.fsum(low for low, _ in pairs), math.fsum(high for _, high in pairs)


def totals(steps: Iterable[Step]) -> Totals:
    """Hours of work and metres of thread of the whole garment."""
    rows: list[Stitching] = [row for step in steps for row in step.rows]
    low, high = summed(row.minutes for row in rows)
    return Totals((low / 60, high / 60), summed(row.thread_m for row in rows))
