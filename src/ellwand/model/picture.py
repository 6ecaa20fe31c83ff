"""A picture of somebody dressed: what was marked on it, what was answered about it, and what can be read from both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ellwand.geometry.lines import Point


@dataclass(frozen=True, slots=True)
class Marks:
    """``points`` by what they mark, in the picture's own units, x to the right, y downward.

    ``spread``: how far off each mark may lie, one standard deviation, in the same units.  ``lean``: how far the figure
    leans to the picture's right, ``stoop``: how far the trunk is bent forward (degrees).  ``answers`` by question.
    """

    points: Mapping[str, Point]
    spread: Mapping[str, float]
    lean: float = 0.0
    stoop: float = 0.0
    answers: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Reading:
    """One thing read from the marks for this wearer: its middle value, and the range that holds it 9 times in 10.

    In cm, but for ``what`` in SHARES, which are shares or counts.
    """

    what: str
    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Reason:
    """What speaks for a structure or against it: a question and its answer, or a reading and its value.

    ``weight``: how much likelier the structure is for it than the average one (a factor's natural logarithm).
    """

    about: str
    said: str
    weight: float


@dataclass(frozen=True, slots=True)
class Offer:
    """One structure that would look like this: its name, how likely among all, why, and the sheet's [garment]."""

    structure: str
    share: float
    reasons: tuple[Reason, ...]
    garment: Mapping[str, Any]
