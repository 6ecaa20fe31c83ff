"""A child some months later: its height keeps its place among children of its age, the rest grows in proportion.

growth.csv holds the CDC 2000 charts of height for age as L, M and S: the height at z standard deviations is
M (1 + L S z)^(1/L).
"""

from __future__ import annotations

import csv
import math
from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import Final

import numpy as np

from ellwand.measure.children import GROWN_AGE, child
from ellwand.measure.estimating import counts_as_child
from ellwand.measure.gaussian import PLACE, Array
from ellwand.model.wearer import Measure, Sex, Wearer

FURTHEST: Final = 3.0
"""The charts are used within so many standard deviations; beyond them a child grows as the one at that place."""

UNEVEN: Final = 0.25
"""Spread of what a child grows, as a part of it (our own figure: children grow in spurts)."""


def grows(wearer: Wearer) -> bool:
    """Whether the wearer is known to be under 18."""
    return wearer.age is not None and wearer.age < GROWN_AGE


def grown(wearer: Wearer, months: float) -> Wearer:
    """The wearer ``months`` later, each measurement with the spread that its growth adds; an adult stays the same.

    Height: CDC 2000.  All else by the ratio that children of the two ages and heights have in ``children.py``.
    """
    if wearer.age is None or wearer.age >= GROWN_AGE or months <= 0:
        return wearer
    age = wearer.age + months / 12
    sexes: tuple[Sex, ...] = ("female", "male") if wearer.sex is None else (wearer.sex,)
    ratios = np.mean([_ratios(sex, wearer.age, age, wearer["height"]) for sex in sexes], axis=0)
    measures = {name: _after(wearer.measures[name], float(ratios[at])) for name, at in PLACE.items()}
    arms = {hand: cm * float(ratios[PLACE["arm_length"]]) for hand, cm in wearer.arms.items()}
    is_child = counts_as_child(age, measures["height"].value)
    return replace(wearer, age=age, measures=measures, arms=arms, is_child=is_child)


def _after(measure: Measure, ratio: float) -> Measure:
    more = measure.value * (ratio - 1)
    return Measure(measure.value + more, measure.source, math.hypot(measure.sd * ratio, UNEVEN * more))


def _ratios(sex: Sex, age: float, later: float, height: float) -> Array:
    """By how much each measurement is multiplied, in the order of FIELDS; never less than 1."""
    taller = height * _growth(sex, age, later, height)
    now, then = child(sex, age, height).mean, child(sex, min(later, GROWN_AGE), taller).mean
    ratios = np.maximum(then / now, 1.0)
    ratios[PLACE["height"]] = taller / height
    return ratios


def _growth(sex: Sex, age: float, later: float, height: float) -> float:
    power, median, spread = _chart(sex, age)
    z = min(max(((height / median) ** power - 1) / (power * spread), -FURTHEST), FURTHEST)

    def at(years: float) -> float:
        power, median, spread = _chart(sex, years)
        return median * math.pow(1 + power * spread * z, 1 / power)

    return max(1.0, at(later) / at(age))


def _chart(sex: Sex, age: float) -> tuple[float, float, float]:
    """L, M (cm) and S at an age in years."""
    months, *columns = _table()[sex[0]]
    power, median, spread = (float(np.interp(12 * age, months, column)) for column in columns)
    # at a power of nought the formula has a gap
    return power if abs(power) > 1e-4 else 1e-4, median, spread


@cache
def _table() -> dict[str, Array]:
    """By the sex's first letter: months of age, L, M, S."""
    text = files(__package__).joinpath("growth.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    return {
        sex: np.array([[float(r[key]) for key in ("age_months", "L", "M", "S")] for r in rows if r["sex"] == sex]).T
        for sex in ("f", "m")
    }
