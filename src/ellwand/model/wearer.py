"""The wearer: measurements under ISO 8559-1 terms, in centimetres, each with where it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final, Literal

from ellwand.units import Unit

Sex = Literal["female", "male"]
Source = Literal["measured", "estimated"]

FIELDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "height": "without shoes, from the crown to the floor",
        "bust_girth": "level, over the fullest part of the bust or chest",
        "waist_girth": "at the natural waist",
        "hip_girth": "over the fullest part of the hip",
        "across_shoulder": "between the shoulder points, over the back of the neck base",
        "arm_length": "shoulder point, over the slightly bent elbow, to the wrist bone",
        "upper_arm_girth": "round the upper arm, half way down",
        "wrist_girth": "over the wrist bone",
        "hand_girth": "round the knuckles with the thumb tucked in",
        "neck_base_girth": "over the nape bone and the pit of the neck",
        "head_girth": "level, over the brow ridge",
        "shoulder_girth": "round both upper arms, hanging, at the widest",
        "nape_to_waist": "down the back, from the nape bone to the natural waist",
        "nape_to_floor": "from the nape bone to the floor",
        "waist_to_floor": "from the natural waist to the floor",
        "hip_to_floor": "from the fullest part of the hip to the floor",
        "knee_to_floor": "from the middle of the knee cap to the floor",
        "crotch_to_floor": "from the crotch to the floor",
        "scye_depth": "down the back, from the nape bone to the level of the armpits",
        "thigh_girth": "just below the seat",
        "calf_girth": "round the fullest part of the calf",
        "foot_girth": "round the ball of the foot",
    }
)
"""Every measurement and how it is taken."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One measurement in cm; ``sd`` is its standard deviation, 0 when measured."""

    value: float
    source: Source = "measured"
    sd: float = 0.0


@dataclass(frozen=True, slots=True)
class Wearer:
    """One person. ``measures`` holds every field of FIELDS; ``unit`` is what they read."""

    name: str
    measures: Mapping[str, Measure]
    sex: Sex | None = None
    age: float | None = None
    unit: Unit = "cm"
    is_child: bool = field(default=False)

    def __getitem__(self, name: str) -> float:
        """The value of one measurement in cm."""
        return self.measures[name].value


def upper(measure: Measure) -> float:
    """What the measurement (cm) stays below 95 times in 100: itself when measured.

    The 95th percentile of a Gaussian lies 1.645 standard deviations above its mean.
    """
    return measure.value + 1.645 * measure.sd
