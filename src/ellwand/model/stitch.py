"""Stitches, seams and rows of stitching."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

StitchName = Literal[
    "running",
    "back stitch",
    "overcast",
    "hemming",
    "buttonhole",
    "bar",
    "lockstitch",
    "chain",
    "double chain",
    "zigzag",
    "overedge",
]


@dataclass(frozen=True, slots=True)
class Stitching:
    """Rows of one stitch: how many to the cm, cm in all, metres of thread with waste, minutes; each as (least, most).

    ``iso``: the stitch's number in ISO 4915, '' where it has none.
    """

    stitch: StitchName
    iso: str
    per_cm: float
    length: float
    thread_m: tuple[float, float]
    minutes: tuple[float, float]
