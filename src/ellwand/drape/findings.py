"""What the hanging garment tells: findings for the proof."""

from __future__ import annotations

from typing import Final

from ellwand.model.finding import Finding, Outcome
from ellwand.model.mesh import Hang

LEVEL: Final = 3.0
"""A hem that differs by no more than this (cm) all round is taken for level: our own figure."""
CLEAR: Final = 2.0
"""Nearer to the floor than this (cm) in front it is stepped on: our own figure."""
AHEAD: Final = 60.0
"""In front is what lies within so many degrees of straight ahead."""
PULLED: Final = 0.03
"""Cloth stretched by more than this share along a thread pulls: our own figure."""


def hang_findings(hung: Hang) -> tuple[Finding, ...]:
    """Its hem, whether it trips, its folds, what hangs over a belt, where it pulls."""
    read = hung.readings
    out: list[Finding] = []
    if heights := read.hem.heights:
        low, high = min(heights), max(heights)
        level: Outcome = "sound" if high - low <= LEVEL else "look again"
        values: dict[str, float | str] = {"low": low, "high": high, "folds": float(read.folds)}
        out.append(Finding("hang-hem", "hem", level, high - low, LEVEL, values=values))
        front = [
            height for way, height in zip(read.hem.directions, heights, strict=True) if min(way, 360.0 - way) <= AHEAD
        ]
        if front and min(front) < CLEAR:
            out.append(Finding("hang-trips", "hem", "look again", min(front), CLEAR))
    if read.over_belt > 0:
        out.append(Finding("hang-belt", "body", "sound", read.over_belt))
    if read.pull > PULLED:
        out.append(Finding("hang-pulls", read.pulls, "look again", 100 * read.pull, 100 * PULLED, unit=""))
    return tuple(out)
