"""Children of two to seventeen: means and spreads by age, the way they go together as among adults.

children.csv gives what was measured on children.  A child's own height is trusted before its age.  What the
table lacks is taken by proportion from adults, and its spread is widened.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import groupby
from types import MappingProxyType
from typing import Final

import numpy as np

from ellwand.measure.gaussian import NAMES, PLACE, Array, Gaussian
from ellwand.measure.survey import adult, column_mean
from ellwand.model.wearer import Sex

LEAST_AGE: Final = 2.0
GROWN_AGE: Final = 18.0
"""From here on a wearer is estimated as an adult."""

BONE, FLESH, HEAD = 1.0, 0.8, 0.2
"""A child k times as tall as the mean of its age is this power of k as large: breadths of bone, girths, head.

HEAD is the slope of log head girth on log height from 2 to 17 in children.csv; that of the girths is 0.94
across ages, and less among children of one age (our own figure).
"""

BY_PROPORTION: Final = 0.03
"""Further spread, as a part of the value, of what is taken from adult proportions (our own figure)."""


@dataclass(frozen=True, slots=True)
class Like:
    """A measurement read off the table's ``column``, scaled by the survey's ``adult`` column if given."""

    column: str
    power: float
    adult: str | None = None


LIKE: Final[Mapping[str, Like]] = MappingProxyType(
    {
        "bust_girth": Like("chest_girth", FLESH),
        "waist_girth": Like("waist_girth_umbilicus", FLESH, "waist_girth_omphalion"),
        "belly_girth": Like("waist_girth_umbilicus", FLESH),
        "hip_girth": Like("hip_girth", FLESH),
        "across_shoulder": Like("biacromial_breadth", BONE, "biacromial_breadth"),
        "upper_arm_girth": Like("upper_arm_girth", FLESH),
        "wrist_girth": Like("wrist_girth", FLESH),
        "hand_girth": Like("hand_breadth", BONE, "hand_breadth"),
        "neck_girth": Like("neck_girth", FLESH),
        "neck_base_girth": Like("neck_girth", FLESH, "neck_girth"),
        "head_girth": Like("head_girth", HEAD),
        "shoulder_girth": Like("bideltoid_breadth", FLESH, "bideltoid_breadth"),
        "thigh_girth": Like("hip_girth", FLESH, "hip_girth"),
        "calf_girth": Like("hip_girth", FLESH, "hip_girth"),
        "foot_girth": Like("foot_length", BONE, "foot_length"),
    }
)

LENGTHS: Final = (
    "arm_length",
    "nape_to_waist",
    "nape_to_floor",
    "waist_to_floor",
    "hip_to_floor",
    "knee_to_floor",
    "crotch_to_floor",
    "scye_depth",
)
"""Below the nape a child is taken as a small adult; above it, head and neck are as tall as the head is large.

Checked against what is known of children's proportions: at two years that puts the crotch at 0.43 to 0.44 of
the height, at six at 0.46, among adults at 0.48.
"""


def child(sex: Sex, age: float, height: float) -> Gaussian:
    """Mean and covariance (cm, cm²) of a child's measurements at ``age`` (years) and ``height`` (cm)."""
    grown = adult(sex)
    grown_sd = np.sqrt(np.diag(grown.covariance))
    mean, sd, extra = np.zeros(len(NAMES)), np.zeros(len(NAMES)), np.zeros(len(NAMES))
    usual, usual_sd = usual_height(sex, age)
    taller = height / usual
    mean[PLACE["height"]], sd[PLACE["height"]] = height, usual_sd * taller
    for name, like in LIKE.items():
        row = PLACE[name]
        value, spread = _at(sex, like.column, age)
        scale = math.pow(taller, like.power)
        if like.adult is not None:
            scale *= float(grown.mean[row]) / column_mean(sex, like.adult)
            extra[row] = BY_PROPORTION * value * scale
        mean[row], sd[row] = value * scale, spread * scale
    head, nape, top = PLACE["head_girth"], PLACE["nape_to_floor"], PLACE["height"]
    above_nape = (grown.mean[top] - grown.mean[nape]) * mean[head] / grown.mean[head]
    small = (height - above_nape) / grown.mean[nape]
    for name in LENGTHS:
        row = PLACE[name]
        mean[row], sd[row] = grown.mean[row] * small, grown_sd[row] * small
        extra[row] = BY_PROPORTION * mean[row]
    correlation = grown.covariance / np.outer(grown_sd, grown_sd)
    return Gaussian(mean, correlation * np.outer(sd, sd) + np.diag(extra**2))


def usual_height(sex: Sex, age: float) -> tuple[float, float]:
    """Mean and sd (cm) of children's height at ``age`` (years)."""
    return _at(sex, "stature", age)


def _at(sex: Sex, column: str, age: float) -> tuple[float, float]:
    """Mean and sd (cm) at an age; before the first year tabulated, on along the first slope of the mean."""
    ages, means, sds = _table()[sex, column]
    mean = float(np.interp(age, ages, means))
    if age < ages[0]:
        mean += float((means[1] - means[0]) / (ages[1] - ages[0]) * (age - ages[0]))
    return mean, float(np.interp(age, ages, sds))


@cache
def _table() -> Mapping[tuple[Sex, str], tuple[Array, Array, Array]]:
    """Ages, means and sds by sex and column.  A row stands for a completed year of age, so its middle is half
    a year on."""
    sexes: dict[str, Sex] = {"f": "female", "m": "male"}
    text = files(__package__).joinpath("children.csv").read_text(encoding="utf-8")
    rows = sorted(csv.DictReader(text.splitlines()), key=lambda r: (r["sex"], r["field"], int(r["age"])))
    table: dict[tuple[Sex, str], tuple[Array, Array, Array]] = {}
    for (sex, column), group in groupby(rows, key=lambda r: (r["sex"], r["field"])):
        numbers = np.array([[int(r["age"]) + 0.5, float(r["mean"]), float(r["sd"])] for r in group]).T
        table[sexes[sex], column] = (numbers[0], numbers[1], numbers[2])
    return table
