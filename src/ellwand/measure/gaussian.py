"""What some measurements of a body say about the others, when all go together as a joint Gaussian.

The formulas are the textbook ones for the conditional Gaussian: with S the covariance and d = given − mean,
mean' = mean + S[:, g] S[g, g]⁻¹ d and var' = diag S − diag(S[:, g] S[g, g]⁻¹ S[g, :]).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from ellwand.model.measurement import FIELDS

Array = npt.NDArray[np.float64]

NAMES: Final = FIELDS
PLACE: Final[Mapping[str, int]] = {name: i for i, name in enumerate(NAMES)}

TAPE_SD: Final = 0.3
"""How far (cm) two readings by one tape differ: keeps odd combinations from being over-read.
Common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Gaussian:
    """Mean (cm) and covariance (cm²) of the measurements, in the order of FIELDS."""

    mean: Array
    covariance: Array


@dataclass(frozen=True, slots=True, eq=False)
class Reading:
    """Mean and sd (cm) of every measurement once some are given, how likely those were, and how far from the
    middle they lie together (squared Mahalanobis distance)."""

    mean: Array
    sd: Array
    log_likelihood: float
    distance: float


def condition(body: Gaussian, given: Mapping[str, float]) -> Reading:
    """Every measurement, from the ``given`` ones (cm), which keep their values with sd 0."""
    at = [PLACE[name] for name in given]
    if not at:
        return Reading(body.mean, np.sqrt(np.diag(body.covariance)), 0.0, 0.0)
    values = np.fromiter(given.values(), dtype=float, count=len(at))
    across = body.covariance[at]
    within = across[:, at] + TAPE_SD**2 * np.eye(len(at))
    off = values - body.mean[at]
    solved = np.linalg.solve(within, np.column_stack([across, off]))
    gain, pull = solved[:, :-1], solved[:, -1]
    mean = body.mean + across.T @ pull
    variance = np.diag(body.covariance) - np.sum(across * gain, axis=0)
    sd = np.sqrt(np.maximum(variance, 0.0))
    mean[at], sd[at] = values, 0.0
    distance = float(off @ pull)
    return Reading(mean, sd, -0.5 * (distance + float(np.linalg.slogdet(within)[1])), distance)
