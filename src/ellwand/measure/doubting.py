"""Measurements that are possible but improbable given the others, each with its likeliest cause."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from ellwand.measure.children import usual_height
from ellwand.measure.estimating import bodies, sexes
from ellwand.measure.gaussian import PLACE, TAPE_SD, Gaussian
from ellwand.measure.raw import RawWearer
from ellwand.units import CM_PER, Unit, format_length

IMPROBABLE: Final = 4.5
"""Standard deviations from what the other measurements say, before we ask (our own figure)."""

PROBABLE: Final = 2.5
"""A mended value within so many standard deviations explains the slip (our own figure)."""

UNLIKE: Final = "it does not go with the other measurements"


@dataclass(frozen=True, slots=True)
class Doubt:
    """One measurement to look at again; a person truly so shaped may keep it."""

    field: str
    cause: str
    repair: str


@dataclass(frozen=True, slots=True)
class _Off:
    """What the others make of one measurement (cm): expected value, its sd, and how many sd it is off."""

    expected: float
    sd: float
    z: float


def doubts(raw: RawWearer) -> tuple[Doubt, ...]:
    """The improbable measurements of a wearer, worst first.

    Each is held against what all the others say of it.  One wrong value makes its neighbours look odd too,
    but never odder than itself (Cauchy and Schwarz), so the worst is named and left out and the rest looked
    at again.  Without a sex, the sex that fits better is meant.
    """
    found = _height_for_age(raw)
    left = dict(raw.values)
    while len(left) > 1:
        off = _held_against_best(left, raw)
        if _worst(off) < IMPROBABLE:
            break
        about_worst = [name for name in left if abs(off[name].z) > 0.95 * _worst(off)]
        named = [_named(name, left, off[name], raw) for name in about_worst]
        doubt, left = next((n for n in named if n[0].cause != UNLIKE), named[-1])
        found.append(doubt)
    return tuple(found)


def _worst(off: Mapping[str, _Off]) -> float:
    return max(abs(o.z) for o in off.values())


def _height_for_age(raw: RawWearer) -> list[Doubt]:
    if raw.age is None or not raw.minor:
        return []
    usual = [usual_height(sex, raw.age) for sex in sexes(raw)]
    if min(abs(raw.values["height"] - mean) / sd for mean, sd in usual) < IMPROBABLE:
        return []
    tall = format_length(sum(mean for mean, _ in usual) / len(usual), raw.unit)
    cause = f"at {raw.age:g} years a child is about {tall} tall"
    return [Doubt("height", cause, "look at age and height again; keep them if they are right")]


def _held_against(body: Gaussian, values: Mapping[str, float]) -> dict[str, _Off]:
    """Each value against all others at once, from the inverse covariance K and the differences d:
    residual (K d)ᵢ / Kᵢᵢ with variance 1 / Kᵢᵢ, the textbook leave-one-out formula."""
    at = [PLACE[name] for name in values]
    inverse = np.linalg.inv(body.covariance[np.ix_(at, at)] + TAPE_SD**2 * np.eye(len(at)))
    residual = inverse @ (np.array(list(values.values())) - body.mean[at]) / np.diag(inverse)
    sd = 1 / np.sqrt(np.diag(inverse))
    return {
        name: _Off(value - float(residual[i]), float(sd[i]), float(residual[i] / sd[i]))
        for i, (name, value) in enumerate(values.items())
    }


def _held_against_best(values: Mapping[str, float], raw: RawWearer) -> dict[str, _Off]:
    return min((_held_against(body, values) for body in bodies(raw)), key=_worst)


def _named(name: str, values: Mapping[str, float], off: _Off, raw: RawWearer) -> tuple[Doubt, dict[str, float]]:
    """The doubt with the first cause that explains it, and the values to go on with."""
    value = values[name]
    rest = {k: v for k, v in values.items() if k != name}

    def fits(length: float) -> bool:
        return abs(length - off.expected) < PROBABLE * off.sd

    other: Unit = "in" if raw.unit == "cm" else "cm"
    if fits(value * CM_PER[other] / CM_PER[raw.unit]):
        word = {"in": "inches", "cm": "centimetres"}[other]
        return Doubt(name, f"it may be in {word}", f'write "{value / CM_PER[raw.unit]:g} {other}"'), rest
    for partner in rest:
        exchanged = {**values, name: values[partner], partner: value}
        if _worst(_held_against_best(exchanged, raw)) < PROBABLE:
            return Doubt(name, f"it may be exchanged with {partner}", "look at both again"), exchanged
    for slipped in _digit_slips(value, raw.unit):
        if fits(slipped):
            repair = f"measure again; it may be {format_length(slipped, raw.unit)}"
            return Doubt(name, "a digit may have slipped", repair), rest
    about = f"about {format_length(off.expected, raw.unit)} was to be expected"
    return Doubt(name, UNLIKE, f"measure again, or keep it if it is right; {about}"), rest


def _digit_slips(cm: float, unit: Unit) -> list[float]:
    """The lengths (cm) meant when two neighbouring digits are exchanged, or the hundred is lost or added."""
    scale = CM_PER[unit]
    number = cm / scale
    whole = str(int(number))
    exchanged = [int(whole[:i] + whole[i + 1] + whole[i] + whole[i + 2 :]) for i in range(len(whole) - 1)]
    meant = [n + number - int(number) for n in exchanged] + [number + 100, number - 100]
    return [n * scale for n in meant if n > 0]
