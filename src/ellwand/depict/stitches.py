"""The stitches of a whole garment, as rows of text."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.language import N_, _, decimal_mark
from ellwand.model.garment import Garment
from ellwand.model.stitch import StitchName
from ellwand.sew.rows import merged
from ellwand.units import CM_PER, Unit, decimal, format_length

HEAD: Final = (N_("stitch"), "ISO 4915", N_("stitches"), N_("length"), N_("thread"), N_("time"))

STITCH_NAMES: Final[Mapping[StitchName, str]] = {
    "running": N_("running"),
    "back stitch": N_("back stitch"),
    "overcast": N_("overcast"),
    "hemming": N_("hemming"),
    "buttonhole": N_("buttonhole"),
    "bar": N_("bar"),
    "lockstitch": N_("lockstitch"),
    "chain": N_("chain"),
    "double chain": N_("double chain"),
    "zigzag": N_("zigzag"),
    "overedge": N_("overedge"),
}


def stitch_rows(garment: Garment) -> tuple[tuple[str, ...], ...]:
    """Under HEAD: each stitch with its number, how close it is, how far it goes, and its thread and time as ranges."""
    unit = garment.wearer.unit
    return tuple(
        (
            _(STITCH_NAMES[row.stitch]),
            row.iso or "–",
            _close(row.per_cm * CM_PER[unit], unit),
            format_length(row.length, unit),
            _range(row.thread_m, "m"),
            _range(row.minutes, "min") if row.minutes[1] < 60 else _range(_hours(row.minutes), "h"),
        )
        for row in merged(row for step in garment.steps for row in step.rows)
    )


def _close(stitches: float, unit: Unit) -> str:
    count = f"{stitches:.2g}".replace(".", decimal_mark())
    return _("{count} to the inch", count=count) if unit == "in" else _("{count} to the cm", count=count)


def _hours(minutes: tuple[float, float]) -> tuple[float, float]:
    return minutes[0] / 60, minutes[1] / 60


def _range(each: tuple[float, float], unit: str) -> str:
    low, high = (decimal(value, 1) for value in each)
    return f"{low} {unit}" if low == high else _("{low} to {high}", low=low, high=f"{high} {unit}")
