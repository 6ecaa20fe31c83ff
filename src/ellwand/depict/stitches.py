"""The stitches of a whole garment, as rows of text."""

from __future__ import annotations

from typing import Final

from ellwand.model.garment import Garment
from ellwand.sew.rows import merged
from ellwand.units import CM_PER, format_length

HEAD: Final = ("stitch", "ISO 4915", "stitches", "length", "thread", "time")


def stitch_rows(garment: Garment) -> tuple[tuple[str, ...], ...]:
    """Under HEAD: each stitch with its number, how close it is, how far it goes, and its thread and time as ranges."""
    unit = garment.wearer.unit
    per = "to the inch" if unit == "in" else "to the cm"
    return tuple(
        (
            row.stitch,
            row.iso or "–",
            f"{row.per_cm * CM_PER[unit]:.2g} {per}",
            format_length(row.length, unit),
            _range(row.thread_m, "m"),
            _range(row.minutes, "min") if row.minutes[1] < 60 else _range(_hours(row.minutes), "h"),
        )
        for row in merged(row for step in garment.steps for row in step.rows)
    )


def _hours(minutes: tuple[float, float]) -> tuple[float, float]:
    return minutes[0] / 60, minutes[1] / 60


def _range(each: tuple[float, float], unit: str) -> str:
    low, high = (f"{value:.1f}" for value in each)
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"
