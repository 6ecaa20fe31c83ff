"""Adults: the measurements of a survey of 6,068 people, turned into ours.

A measurement is a sum of survey columns times weights, plus an offset in cm for each sex, plus a spread
(cm, standard deviation) for what the survey cannot tell.  Sums of Gaussians stay Gaussian, so the joint
Gaussian of the columns (survey.json) gives that of our measurements.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Final

import numpy as np

from ellwand.measure.gaussian import NAMES, Array, Gaussian
from ellwand.model.wearer import Sex


@dataclass(frozen=True, slots=True)
class Translation:
    """How survey columns become one of our measurements; offsets and spread in cm."""

    columns: Mapping[str, float]
    female: float = 0.0
    male: float = 0.0
    spread: float = 0.0


def _same(column: str, female: float = 0.0, male: float = 0.0, spread: float = 0.0) -> Translation:
    return Translation(MappingProxyType({column: 1.0}), female, male, spread)


def _sum(spread: float, **columns: float) -> Translation:
    return Translation(MappingProxyType(columns), spread=spread)


TRANSLATIONS: Final[Mapping[str, Translation]] = MappingProxyType(
    {
        "height": _same("stature"),
        "bust_girth": _same("chest_girth"),
        # The survey's tape lay at the navel.  Against the natural waist that reads about 6 cm more on young
        # women (sd 2.5), and 1.4 less to 3 more on men: we take off 4 and 1, since the difference shrinks on
        # the fuller bodies of the survey.  Offsets weakly supported, hence the spread.
        "waist_girth": _same("waist_girth_omphalion", -4.0, -1.0, spread=2.5),
        "belly_girth": _same("waist_girth_omphalion"),
        "hip_girth": _same("hip_girth"),
        # The tape runs from each shoulder point up to the nape: √(half breadth² + drop²) a side, to first
        # order about the survey's means (cos 0.945, sin 0.33).  That the back's roundness adds little more is
        # our assumption.
        "across_shoulder": _sum(1.0, biacromial_breadth=0.945, cervicale_height=0.66, acromial_height=-0.66),
        # The survey's length is straight, with the arm hanging: upper and lower arm add up to 1.0 cm more.
        "arm_length": _same("shoulder_to_wrist", 1.0, 1.0, spread=0.5),
        # The survey's arm is flexed; how much less it is at rest is common practice, no source.
        "upper_arm_girth": _same("upper_arm_girth_flexed", -1.0, -1.5, spread=0.7),
        "wrist_girth": _same("wrist_girth"),
        # With the thumb tucked in: 1.07 times the girth round the knuckles in the median, 1.16 at the 95th
        # percentile, from rigid-ring data; (1.16 − 1.07) × 20 cm / 1.645 = 1.1 cm of spread.
        "hand_girth": _sum(1.1, hand_girth=1.07),
        # The survey's tape lay at or just below the larynx, taken as equal.
        "neck_girth": _same("neck_girth"),
        "neck_base_girth": _same("neck_base_girth"),
        "head_girth": _same("head_girth"),
        "shoulder_girth": _same("shoulder_girth"),
        # The natural waist (half way between lowest rib and hip bone) is above the navel by 4.6 cm on women
        # and 3.5 cm on men.
        "nape_to_waist": _same("waist_back_length_omphalion", -4.6, -3.5, spread=1.0),
        "nape_to_floor": _same("cervicale_height"),
        "waist_to_floor": _same("waist_height_omphalion", 4.6, 3.5, spread=1.0),
        "hip_to_floor": _same("buttock_height"),
        "knee_to_floor": _same("knee_height"),
        "crotch_to_floor": _same("crotch_height"),
        # Straight down; a tape over the shoulder blades reads a little more.
        "scye_depth": _sum(0.5, cervicale_height=1.0, axilla_height=-1.0),
        "thigh_girth": _same("thigh_girth"),
        "calf_girth": _same("calf_girth"),
        "foot_girth": _same("ball_of_foot_girth"),
    }
)


def translate(columns: Sequence[str], mean: Array, covariance: Array, sex: Sex) -> Gaussian:
    """The Gaussian of our measurements from that of survey ``columns`` (cm, cm²)."""
    weights = np.zeros((len(NAMES), len(columns)))
    offset, spread = np.zeros(len(NAMES)), np.zeros(len(NAMES))
    for row, name in enumerate(NAMES):
        translation = TRANSLATIONS[name]
        for column, weight in translation.columns.items():
            weights[row, columns.index(column)] = weight
        offset[row] = translation.female if sex == "female" else translation.male
        spread[row] = translation.spread
    return Gaussian(weights @ mean + offset, weights @ covariance @ weights.T + np.diag(spread**2))


@cache
def adult(sex: Sex) -> Gaussian:
    """Mean and covariance of our measurements (cm, cm²) among the survey's adults."""
    columns, mean, covariance = _columns(sex)
    return translate(columns, mean, covariance, sex)


def column_mean(sex: Sex, column: str) -> float:
    """The survey's mean (cm) of one of its own columns."""
    columns, mean, _ = _columns(sex)
    return float(mean[columns.index(column)])


@cache
def _columns(sex: Sex) -> tuple[tuple[str, ...], Array, Array]:
    stored = json.loads(files(__package__).joinpath("survey.json").read_text(encoding="utf-8"))
    group = stored[sex[0]]
    sd = np.array(group["sd"])
    correlation = np.eye(len(sd))
    for row, entries in enumerate(group["corr_lower"], start=1):
        correlation[row, :row] = correlation[:row, row] = entries
    return tuple(stored["fields"]), np.array(group["mean"]), correlation * np.outer(sd, sd)
