"""What a human body can be: bounds for each measurement, and which must be less than which.

The bounds are wide on purpose (our own, set outside the extremes of the surveys in PROVENANCE.md): they
catch slips of unit and digit, not unusual people.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final


@dataclass(frozen=True, slots=True)
class Limits:
    """Bounds in cm: the least for a child from two years, the least for an adult, the most for anyone."""

    child_least: float
    adult_least: float
    most: float

    def least(self, child: bool) -> float:
        """The least value in cm."""
        return self.child_least if child else self.adult_least


LIMITS: Final[Mapping[str, Limits]] = MappingProxyType(
    {
        "height": Limits(65, 90, 250),
        "bust_girth": Limits(34, 58, 220),
        "waist_girth": Limits(30, 48, 230),
        "belly_girth": Limits(30, 48, 240),
        "hip_girth": Limits(33, 58, 240),
        "across_shoulder": Limits(17, 24, 70),
        "arm_length": Limits(22, 30, 95),
        "upper_arm_girth": Limits(11, 15, 80),
        "wrist_girth": Limits(8, 11, 30),
        "hand_girth": Limits(10, 13, 36),
        "neck_girth": Limits(16, 22, 65),
        "neck_base_girth": Limits(20, 27, 70),
        "head_girth": Limits(43, 46, 70),
        "shoulder_girth": Limits(48, 70, 230),
        "nape_to_waist": Limits(14, 20, 65),
        "nape_to_floor": Limits(48, 70, 225),
        "waist_to_floor": Limits(35, 45, 170),
        "hip_to_floor": Limits(25, 35, 145),
        "knee_to_floor": Limits(14, 20, 85),
        "crotch_to_floor": Limits(23, 32, 135),
        "scye_depth": Limits(6, 8, 40),
        "thigh_girth": Limits(20, 32, 130),
        "calf_girth": Limits(14, 20, 80),
        "foot_girth": Limits(9, 14, 40),
    }
)

ORDER: Final[tuple[tuple[str, ...], ...]] = (
    ("knee_to_floor", "crotch_to_floor", "hip_to_floor", "waist_to_floor", "nape_to_floor", "height"),
    ("scye_depth", "nape_to_waist"),
    ("wrist_girth", "hand_girth"),
    ("neck_girth", "neck_base_girth"),
)
"""In each line every measurement is less than those after it, in any estimate.

One pair may be measured the other way round: the survey's rows hold people whose seat is fullest up to
3 cm below the crotch.
"""

MAY_SWAP: Final = ("crotch_to_floor", "hip_to_floor")
