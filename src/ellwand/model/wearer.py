"""The wearer: measurements under ISO 8559-1 terms, in centimetres, each with where it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from ellwand.units import Unit

Sex = Literal["female", "male"]
Source = Literal["measured", "estimated"]

Hand = Literal["left", "right"]
HANDS: Final[tuple[Hand, ...]] = ("left", "right")
"""The wearer's."""
ARM_FIELDS: Final[Mapping[Hand, str]] = {hand: f"{hand}_arm_length" for hand in HANDS}
"""What an arm measured on its own is called, where one is longer."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One measurement in cm; ``sd`` is its standard deviation, 0 when measured."""

    value: float
    source: Source = "measured"
    sd: float = 0.0


@dataclass(frozen=True, slots=True)
class Wearer:
    """One person. ``measures`` holds every field of FIELDS; ``unit`` is what they read.

    ``arms``: the length (cm) of an arm that was measured on its own; the other is as in ``measures``.
    """

    name: str
    measures: Mapping[str, Measure]
    sex: Sex | None = None
    age: float | None = None
    unit: Unit = "cm"
    is_child: bool = False
    arms: Mapping[Hand, float] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        """The value of one measurement in cm."""
        return self.measures[name].value

    def arm(self, hand: Hand) -> float:
        """The length (cm) of one arm."""
        return self.arms.get(hand, self["arm_length"])


def upper(measure: Measure) -> float:
    """What the measurement (cm) stays below 95 times in 100: itself when measured.

    The 95th percentile of a Gaussian lies 1.645 standard deviations above its mean.
    """
    return measure.value + 1.645 * measure.sd
