"""From what was measured to a whole wearer: every missing measurement estimated, with its spread."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Final

import numpy as np

from ellwand.measure.children import GROWN_AGE, child, usual_height
from ellwand.measure.gaussian import NAMES, PLACE, Array, Gaussian, Reading, condition
from ellwand.measure.limits import LIMITS, ORDER
from ellwand.measure.raw import RawWearer
from ellwand.measure.survey import adult
from ellwand.model.finding import Finding
from ellwand.model.wearer import Measure, Sex, Wearer

STEP: Final = 1.0
"""The least difference (cm) between estimates that must follow each other, where there is room."""

DEGREES: Final = 40.0
"""Of freedom: the survey's rows are fitted best by a multivariate t of so many, 40 for the women, 49 for the men
(our own fit by maximum likelihood, ten measurements)."""

CHILD_AGE, SMALL_HEIGHT = 14.0, 140.0
"""A wearer younger than this counts as a child; so does anyone under 18 who is smaller than this (cm)."""


def estimate(raw: RawWearer, questions: Iterable[Finding] = ()) -> Wearer:
    """The whole wearer: given measurements as they are, all others conditioned on every given one.

    What is questioned keeps its value, but nothing is estimated from it.  Adults rest on the survey in
    ``survey.py``, wearers under 18 on the table in ``children.py``.  When the sex is not given the estimate is the
    mixture of both, each weighted by how well it fits what was given.
    """
    doubted = _doubted(raw, questions)
    trusted = replace(raw, values={name: cm for name, cm in raw.values.items() if name not in doubted})
    readings = [_in_order(_widened(condition(body, trusted.values), trusted), trusted) for body in bodies(trusted)]
    mean, sd = _mixture(readings)
    measures = {
        name: Measure(raw.values[name]) if name in raw.values else Measure(float(mean[at]), "estimated", float(sd[at]))
        for name, at in PLACE.items()
    }
    return Wearer(
        raw.name, measures, raw.sex, raw.age, raw.unit, counts_as_child(raw.age, raw.values["height"]), raw.arms
    )


def _doubted(raw: RawWearer, questions: Iterable[Finding]) -> set[str]:
    """The fields that questions are about, or all where the whole list is; a child's height goes before its age."""
    out: set[str] = set()
    for each in questions:
        if each.code == "slip-list":
            return set(raw.values)
        out |= {each.subject, str(each.values.get("other", each.subject))}
    limits = LIMITS["height"]
    if raw.minor and limits.child_least <= raw.values["height"] <= limits.most:
        out -= {"height"}
    return out


def sexes(raw: RawWearer) -> tuple[Sex, ...]:
    """The wearer's sex, or both when it is not given."""
    return ("female", "male") if raw.sex is None else (raw.sex,)


def bodies(raw: RawWearer) -> list[Gaussian]:
    """The bodies (cm, cm²) that the wearer may have, one for each possible sex."""
    if raw.age is not None and raw.minor:
        return [child(sex, raw.age, raw.values.get("height", usual_height(sex, raw.age)[0])) for sex in sexes(raw)]
    return [adult(sex) for sex in sexes(raw)]


def _widened(reading: Reading, raw: RawWearer) -> Reading:
    """The further what was given lies from the people surveyed, the wider the spread of the rest.

    By the conditional multivariate t of ν degrees: with n given at squared distance D, spreads grow by
    √((ν + D) / (ν + n)); here they are never narrowed.
    """
    growth = math.sqrt(max(1.0, (DEGREES + reading.distance) / (DEGREES + len(raw.values))))
    return replace(reading, sd=reading.sd * growth)


def counts_as_child(age: float | None, height: float) -> bool:
    """Whether a wearer of that age (years, None when not known) and height (cm) is a child."""
    return age is not None and age < GROWN_AGE and (age < CHILD_AGE or height < SMALL_HEIGHT)


def _mixture(readings: list[Reading]) -> tuple[Array, Array]:
    """Mean and sd of the readings, weighted by likelihood: before anything is given all weigh alike."""
    likelihood = np.array([r.log_likelihood for r in readings])
    weight = np.exp(likelihood - likelihood.max())
    weight /= weight.sum()
    means, sds = np.array([r.mean for r in readings]), np.array([r.sd for r in readings])
    mean = weight @ means
    return mean, np.sqrt(weight @ (sds**2 + (means - mean) ** 2))


def _in_order(reading: Reading, raw: RawWearer) -> Reading:
    """The same reading, its estimates kept within human limits and in the order of the body."""
    values = {
        name: raw.values.get(name, min(max(float(reading.mean[at]), LIMITS[name].least(raw.minor)), LIMITS[name].most))
        for name, at in PLACE.items()
    }
    for chain in ORDER:
        values |= _spread_out(chain, values, raw.values)
    mean = np.array([values[name] for name in NAMES])
    return replace(reading, mean=mean)


def _spread_out(chain: tuple[str, ...], values: Mapping[str, float], given: Mapping[str, float]) -> dict[str, float]:
    """Values (cm) of the chain, rising: each run of estimates is fitted between the given ones about it."""
    moved: dict[str, float] = {}
    below = 0.0
    for i, name in enumerate(chain):
        if name in given:
            below = given[name]
            continue
        after = chain[i:]
        stop = next((k for k, later in enumerate(after) if later in given), None)
        low, high = below, float("inf")
        step = STEP
        if stop is not None:
            room = given[after[stop]] - below
            step = min(STEP, room / (stop + 1))
            high = given[after[stop]] - stop * step
        moved[name] = below = min(max(values[name], low + step), high)
    return moved
