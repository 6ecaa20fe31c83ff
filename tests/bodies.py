"""Real bodies: rows of the public survey as sheets' wearers.

Source: ANSUR II 2012, NATICK/TR-15/007 (public release), tests/data/ansur2.csv.gz.
"""

from __future__ import annotations

import csv
import gzip
import random
from functools import cache
from pathlib import Path

DATA = Path(__file__).parent / "data" / "ansur2.csv.gz"
DIRECT = {
    "height": "stature",
    "bust_girth": "chest_girth",
    "hip_girth": "hip_girth",
    "head_girth": "head_girth",
    "neck_base_girth": "neck_base_girth",
    "wrist_girth": "wrist_girth",
    "thigh_girth": "thigh_girth",
    "calf_girth": "calf_girth",
    "nape_to_floor": "cervicale_height",
    "crotch_to_floor": "crotch_height",
    "knee_to_floor": "knee_height",
}
"""Our fields that the survey measures as a maker does."""


@cache
def rows() -> tuple[dict[str, str], ...]:
    """Every row of the survey."""
    with gzip.open(DATA, "rt", newline="") as file:
        return tuple(csv.DictReader(file))


def sample(count: int, seed: int) -> list[dict[str, object]]:
    """Wearers' tables of ``count`` rows, the same for the same seed."""
    return [wearer(row) for row in random.Random(seed).sample(rows(), count)]


def wearer(row: dict[str, str]) -> dict[str, object]:
    """One row as the [wearer] table a maker would write."""
    table: dict[str, object] = {"sex": {"f": "female", "m": "male"}[row["sex"]]}
    return table | {field: float(row[column]) for field, column in DIRECT.items()}
