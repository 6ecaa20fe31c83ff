"""From what was measured to a whole wearer: every missing measurement estimated, with its spread."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np

from ellwand.measure.children import child
from ellwand.measure.gaussian import NAMES, PLACE, Array, Gaussian, Reading, condition
from ellwand.measure.limits import LIMITS, ORDER
from ellwand.measure.raw import RawWearer
from ellwand.measure.survey import adult
from ellwand.model.wearer import Measure, Sex, Wearer

STEP: Final = 1.0
"""The least difference (cm) between estimates that must follow each other, where there is room."""

CHILD_AGE, SMALL_HEIGHT = 14.0, 140.0
"""A wearer younger than this counts as a child; so does anyone under 18 who is smaller than this (cm)."""


def estimate(raw: RawWearer) -> Wearer:
    """The whole wearer: given measurements as they are, all others conditioned on every given one.

    Adults rest on the survey in ``survey.py``, wearers under 18 on the table in ``children.py``.  When the
    sex is not given the estimate is the mixture of both, each weighted by how well it fits what was given.
    """
    readings = [_in_order(condition(body, raw.values), raw) for body in bodies(raw)]
    mean, sd = _mixture(readings)
    measures = {
        name: Measure(raw.values[name]) if name in raw.values else Measure(float(mean[at]), "estimated", float(sd[at]))
        for name, at in PLACE.items()
    }
    return Wearer(raw.name, measures, raw.sex, raw.age, raw.unit, _is_child(raw))


def sexes(raw: RawWearer) -> tuple[Sex, ...]:
    """The wearer's sex, or both when it is not given."""
    return ("female", "male") if raw.sex is None else (raw.sex,)


def bodies(raw: RawWearer) -> list[Gaussian]:
    """The bodies (cm, cm²) that the wearer may have, one for each possible sex."""
    if raw.age is not None and raw.minor:
        return [child(sex, raw.age, raw.values["height"]) for sex in sexes(raw)]
    return [adult(sex) for sex in sexes(raw)]


def _is_child(raw: RawWearer) -> bool:
    if raw.age is None or not raw.minor:
        return False
    return raw.age < CHILD_AGE or raw.values["height"] < SMALL_HEIGHT


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
    return Reading(mean, reading.sd, reading.log_likelihood)


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
