"""How likely a list of measurements is, for the bodies that a wearer may have.

The density is that of the multivariate t with DEGREES of freedom and the survey's covariance: for p measurements at
squared Mahalanobis distance D², log f = log Γ((ν+p)/2) − log Γ(ν/2) − p/2 log((ν−2)π) − ½ log det S
− (ν+p)/2 log(1 + D²/(ν−2)) (textbook).  Its tails keep one odd, but true, measurement from making its neighbours
look odd.  Without a sex the density is the mean of both.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import Final, Protocol

import numpy as np

from ellwand.measure.children import GROWN_AGE, LEAST_AGE, child, usual_height
from ellwand.measure.estimating import DEGREES, sexes
from ellwand.measure.gaussian import PLACE, TAPE_SD, Array, Gaussian, condition
from ellwand.measure.raw import RawWearer
from ellwand.measure.survey import adult
from ellwand.model.wearer import Sex

SHORTEST, TALLEST = 40.0, 250.0
"""Children's bodies are scaled to heights (cm) between these, whatever was written."""

ELSEWHERE: Final[Mapping[str, float]] = MappingProxyType({"belly_girth": 6.0, "thigh_girth": 2.0})
"""How far (cm) a tape laid where others lay it may read from the survey's: belly and thigh are measured in several
places.  Our own figures, from the 507 people of Heinz and others (2003), whose belly reads 9 cm more (women) than the
survey's waist lets expect, sd 5.3, and whose thigh 2.8 cm less (men), sd 2.4."""

Names = tuple[str, ...]


class Bodies(Protocol):
    """The bodies that a wearer may have."""

    def log_density(self, names: Names, rows: Array) -> Array:
        """Of each row of values (cm) for ``names``; 0 when there are no names."""

    def expected(self, name: str, others: Mapping[str, float]) -> float:
        """What the other measurements (cm) let expect of one."""

    def most_to_gain(self, names: Names, row: Array) -> tuple[float, float]:
        """The most that changing one value, and changing two, could add to the log density of a row."""

    def distance(self, names: Names, row: Array) -> float:
        """The squared Mahalanobis distance of a row from the nearest body."""

    def at_other_ages(self) -> Sequence[Bodies]:
        """What they may be if a child's age was written wrongly."""


@dataclass(frozen=True, slots=True)
class Adults:
    """One body for each possible sex."""

    bodies: tuple[Gaussian, ...]

    def log_density(self, names: Names, rows: Array) -> Array:
        """See Bodies."""
        return _mean_density([_log_t(b, names, _squared(b, names, rows)) for b in self.bodies])

    def expected(self, name: str, others: Mapping[str, float]) -> float:
        """See Bodies."""
        return _expected(self.bodies, name, others)

    def most_to_gain(self, names: Names, row: Array) -> tuple[float, float]:
        """See Bodies.  Leaving out i lowers D² by uᵢ²/Kᵢᵢ, with K the inverse of S and u = K d; leaving out two,
        by the same form with their block of K."""
        before = float(self.log_density(names, row[None])[0])
        one, two = -math.inf, -math.inf
        for body in self.bodies:
            mean, inverse, _ = _held(body, names)
            off = row - mean
            u, k = inverse @ off, np.diag(inverse)
            squared = float(off @ u)
            single = u**2 / k
            cross = np.multiply.outer(k, k) - inverse**2
            np.fill_diagonal(cross, np.inf)
            pair = (np.multiply.outer(u**2, k) + np.multiply.outer(k, u**2) - 2 * np.outer(u, u) * inverse) / cross
            after = _log_t(body, names, np.maximum([squared - np.max(single), squared - np.max(pair)], 0.0))
            one, two = max(one, float(after[0]) - before), max(two, float(after[1]) - before)
        return one, two

    def distance(self, names: Names, row: Array) -> float:
        """See Bodies."""
        return min(float(_squared(body, names, row[None])[0]) for body in self.bodies)

    def at_other_ages(self) -> Sequence[Bodies]:
        """None: among adults the age is not looked at."""
        return ()


@dataclass(frozen=True, slots=True)
class Children:
    """A child's body grows with its height, and its height goes with its age (years)."""

    sexes: tuple[Sex, ...]
    age: float

    def log_density(self, names: Names, rows: Array) -> Array:
        """See Bodies.  The density of the height at its age, times that of the rest at this height."""
        return _mean_density([self._for_sex(sex, names, rows) for sex in self.sexes])

    def expected(self, name: str, others: Mapping[str, float]) -> float:
        """See Bodies."""
        if name == "height":
            return sum(usual_height(sex, self.age)[0] for sex in self.sexes) / len(self.sexes)
        return _expected([self._body(sex, others.get("height")) for sex in self.sexes], name, others)

    def most_to_gain(self, names: Names, row: Array) -> tuple[float, float]:
        """See Bodies.  No short cut is known."""
        return math.inf, math.inf

    def distance(self, names: Names, row: Array) -> float:
        """See Bodies."""
        return min(float(self._from_body(sex, names, row[None])[1][0]) for sex in self.sexes)

    def at_other_ages(self) -> Sequence[Bodies]:
        """At every year below GROWN_AGE."""
        return [Children(self.sexes, age) for age in np.arange(LEAST_AGE, GROWN_AGE).tolist()]

    def _for_sex(self, sex: Sex, names: Names, rows: Array) -> Array:
        if "height" not in names:
            return self._at_one_height(sex, names, rows)
        density = np.zeros(len(rows))
        heights = rows[:, names.index("height")]
        for height in np.unique(heights):
            density[heights == height] = self._at_one_height(sex, names, rows[heights == height])
        return density

    def _at_one_height(self, sex: Sex, names: Names, rows: Array) -> Array:
        body, squared = self._from_body(sex, names, rows)
        return _log_t(body, names, squared)

    def _from_body(self, sex: Sex, names: Names, rows: Array) -> tuple[Gaussian, Array]:
        """The body for rows of one height, and their distance from it and from the height of their age."""
        if "height" not in names:
            body = self._body(sex, None)
            return body, _squared(body, names, rows)
        at = names.index("height")
        height = float(rows[0, at])
        usual, sd = usual_height(sex, self.age)
        body = self._body(sex, height)
        fixed = rows.copy()
        fixed[:, at] = body.mean[PLACE["height"]]
        return body, _squared(body, names, fixed) + ((height - usual) / sd) ** 2

    def _body(self, sex: Sex, height: float | None) -> Gaussian:
        height = usual_height(sex, self.age)[0] if height is None else height
        return _child(sex, self.age, min(max(height, SHORTEST), TALLEST))


def bodies_of(raw: RawWearer) -> Bodies:
    """The bodies that a wearer may have, by sex and age."""
    if raw.age is not None and raw.minor:
        return Children(sexes(raw), raw.age)
    return Adults(tuple(adult(sex) for sex in sexes(raw)))


def _expected(bodies: Sequence[Gaussian], name: str, others: Mapping[str, float]) -> float:
    readings = [condition(body, others) for body in bodies]
    return float(max(readings, key=lambda r: r.log_likelihood).mean[PLACE[name]])


_FREE: Final = DEGREES - 2


def _log_t(body: Gaussian, names: Names, squared: Array) -> Array:
    p = len(names)
    level = math.lgamma((DEGREES + p) / 2) - math.lgamma(DEGREES / 2) - p / 2 * math.log(_FREE * math.pi)
    return level - _held(body, names)[2] / 2 - (DEGREES + p) / 2 * np.log1p(squared / _FREE)


def _mean_density(logs: Sequence[Array]) -> Array:
    highest = np.max(logs, axis=0)
    return highest + np.log(np.mean(np.exp(np.array(logs) - highest), axis=0))


def _squared(body: Gaussian, names: Names, rows: Array) -> Array:
    """The squared Mahalanobis distance of each row."""
    mean, inverse, _ = _held(body, names)
    off = rows - mean
    squared: Array = np.einsum("ij,ij->i", off @ inverse, off)
    return squared


@lru_cache(maxsize=1024)
def _held(body: Gaussian, names: Names) -> tuple[Array, Array, float]:
    """Mean, inverse covariance and log of its determinant, the tape's own spread included."""
    at = [PLACE[name] for name in names]
    spread = np.array([TAPE_SD**2 + ELSEWHERE.get(name, 0.0) ** 2 for name in names])
    covariance = body.covariance[np.ix_(at, at)] + np.diag(spread)
    return body.mean[at], np.linalg.inv(covariance), float(np.linalg.slogdet(covariance)[1])


@lru_cache(maxsize=256)
def _child(sex: Sex, age: float, height: float) -> Gaussian:
    return child(sex, age, height)
