"""Where the tape goes on the figure, for every measurement, in cm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from ellwand.depict.figure_landmarks import (
    ARMPIT,
    BELLY,
    BUST,
    CROTCH,
    CROWN,
    FRONT_ARM,
    HIP,
    KNEE,
    NAPE,
    SHOULDER,
    SIDE_ARM,
    WAIST,
    View,
)
from ellwand.depict.figure_outline import (
    ARM_EDGE,
    BACK_EDGE,
    FRONT_EDGE,
    HEAD_EDGE,
    INSIDE_EDGE,
    NECK_EDGE,
    TORSO_EDGE,
    across,
    at_height,
)
from ellwand.depict.smoothing import smooth
from ellwand.geometry.lines import Line, Point, mirror
from ellwand.model.drawing import Anchor

SAG: Final = 0.07
"""How far the middle of a girth hangs below its ends, as a share of its width: the ring is seen a little from above."""
TICK: Final = 1.6
"""Half the bar at the end of a length (cm)."""


@dataclass(frozen=True, slots=True)
class Tape:
    """One measurement in one view; ``at``: where its number stands, with thin ``leaders`` to what they point at.

    ``behind_arm``: the arm hangs before it.
    """

    lines: tuple[Line, ...]
    at: Point
    anchor: Anchor = "middle"
    leaders: tuple[Line, ...] = ()
    behind_arm: bool = False


def _ring(a: Point, b: Point, sag: float = SAG) -> Line:
    """The near half of a ring from ``a`` to ``b``: half an ellipse, hanging down between them."""
    deep = sag * math.dist(a, b)
    out = []
    for i in range(25):
        angle = math.pi * i / 24
        t = (1 - math.cos(angle)) / 2
        out.append((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t - deep * math.sin(angle)))
    return tuple(out)


def _ticked(line: Line) -> tuple[Line, ...]:
    """A length with a bar across each end."""
    return (line, _bar(line[0], line[1]), _bar(line[-1], line[-2]))


def _bar(end: Point, inner: Point) -> Line:
    away = math.dist(end, inner)
    dx, dy = TICK * (end[1] - inner[1]) / away, -TICK * (end[0] - inner[0]) / away
    return (end[0] - dx, end[1] - dy), (end[0] + dx, end[1] + dy)


def _round_trunk(y: float) -> Line:
    half = at_height(TORSO_EDGE, y)
    return _ring((-half, y), (half, y))


def _round_side(y: float) -> Line:
    return _ring((at_height(BACK_EDGE, y), y), (at_height(FRONT_EDGE, y), y))


def _round_left_arm(y: float, sag: float = 0.12) -> Line:
    """Round the arm at the left of the picture."""
    outer, inner = mirror(reversed(across(FRONT_ARM, y)))
    return _ring(outer, inner, sag)


def _aside(line: Line, end: int, dx: float, dy: float = 0.0) -> Tape:
    """A ring whose number stands beside its first or last point."""
    x, y = line[end]
    gap = math.copysign(0.8, dx)
    return Tape((line,), (x + dx + gap, y + dy), "start" if dx > 0 else "end", (((x, y), (x + dx, y + dy)),))


def _beside(height: float, start: float, x: float, number: float) -> Tape:
    """A height from the floor, drawn beside the figure at ``x``; a leader runs to it from the body at ``start``."""
    at: Point
    anchor: Anchor
    at, anchor = ((x + 1.2, number), "start") if x > 0 else ((x - 1.2, number), "end")
    return Tape(_ticked(((x, height), (x, 0.0))), at, anchor, (((start, height), (x, height)),))


def _level(y: float) -> Line:
    """A string or a rule level across the back."""
    half = at_height(TORSO_EDGE, y)
    return (-half, y), (half, y)


_SHOULDER_POINT: Final[Point] = (18.4, SHOULDER)
_WRIST: Final[Point] = FRONT_ARM[6][:2]
_TO_NAPE: Final[Line] = (_SHOULDER_POINT, (13.0, 140.0), (8.0, 141.6), (4.0, 144.0))
_OVER_NAPE: Final = smooth((*_TO_NAPE, (0.0, 146.6), *mirror(reversed(_TO_NAPE))))


def _front() -> dict[str, Tape]:
    arms, neck = at_height(ARM_EDGE, 130.0), at_height(NECK_EDGE, 145.0)
    low = at_height(NECK_EDGE, 142.9)
    base = smooth(((-low, 142.9), (-5.4, 140.6), (-2.6, 138.7), (2.6, 138.7), (5.4, 140.6), (low, 142.9)))
    thigh = (-at_height(TORSO_EDGE, 76.0), 76.0), (-at_height(INSIDE_EDGE, 76.0), 76.0)
    head = at_height(HEAD_EDGE, 161.5)
    return {
        "head_girth": Tape((_ring((-head, 161.5), (head, 161.5), 0.13),), (0.0, 155.8)),
        "neck_girth": _aside(_ring((-neck, 145.0), (neck, 145.0), 0.1), 0, -7.0, 4.5),
        "neck_base_girth": _aside(base, -1, 7.0, 6.0),
        "shoulder_girth": Tape((_ring((-arms, 130.0), (arms, 130.0), 0.04),), (0.0, 132.2)),
        "bust_girth": Tape((_round_trunk(BUST),), (0.0, 117.4)),
        "waist_girth": Tape((_round_trunk(WAIST),), (0.0, 108.6)),
        "belly_girth": Tape((_round_trunk(BELLY),), (0.0, 95.6)),
        "wrist_girth": _aside(_round_left_arm(_WRIST[1]), 0, -4.0, 3.0),
        "hand_girth": _aside(_round_left_arm(73.6), 0, -4.0),
        "crotch_to_floor": Tape(_ticked(((0.0, CROTCH - 0.6), (0.0, 0.0))), (0.0, -5.4)),
        "thigh_girth": Tape((_ring(*thigh),), (-9.0, 70.6)),
    }


def _side() -> dict[str, Tape]:
    def front(y: float) -> float:
        return at_height(FRONT_EDGE, y)

    def behind(y: float) -> float:
        return at_height(BACK_EDGE, y)

    nape: Point = (behind(NAPE), NAPE)
    base = smooth((nape, (-2.0, 142.6), (2.0, 140.0), (front(139.6), 139.6)))
    arm = smooth([(x, y) for x, y, _ in ((SIDE_ARM[0][0], SHOULDER, 0.0), *SIDE_ARM[1:8])])
    foot = smooth(((11.4, 5.2), (11.8, 3.0), (10.4, 0.0)))
    return {
        "height": _beside(CROWN, 0.6, 46.0, 128.0),
        "neck_girth": _aside(_ring((behind(148.2), 148.2), (front(143.6), 143.6), 0.05), -1, 6.0, 0.6),
        "neck_base_girth": _aside(base, -1, 6.5, -2.5),
        "belly_girth": replace(_aside(_round_side(BELLY), -1, 4.0), behind_arm=True),
        "hip_girth": replace(_aside(_round_side(HIP), -1, 4.0), behind_arm=True),
        "arm_length": Tape(_ticked(arm), (15.5, 116.0), "start", (((-2.6, 116.0), (14.7, 116.0)),)),
        "nape_to_floor": _beside(NAPE, nape[0], -30.0, 118.0),
        "waist_to_floor": _beside(WAIST, front(WAIST), 35.0, 74.0),
        "hip_to_floor": _beside(HIP, behind(HIP), -19.5, 60.0),
        "knee_to_floor": _beside(KNEE, front(KNEE), 24.0, 30.0),
        "foot_girth": _aside(foot, 0, 3.0, 5.0),
    }


def _back() -> dict[str, Tape]:
    upper_arm = _round_left_arm(122.0)
    calf = (at_height(INSIDE_EDGE, 35.0), 35.0), (at_height(TORSO_EDGE, 35.0), 35.0)
    return {
        "across_shoulder": Tape(_ticked(_OVER_NAPE), (14.0, 149.0), leaders=(((8.4, 141.8), (12.4, 147.2)),)),
        "upper_arm_girth": _aside(upper_arm, 0, -4.0),
        "nape_to_waist": Tape(_ticked(((1.3, NAPE), (1.3, WAIST))), (3.0, 115.0), "start", (_level(WAIST),)),
        "scye_depth": Tape(_ticked(((-1.3, NAPE), (-1.3, ARMPIT))), (-3.0, 134.0), "end", (_level(ARMPIT),)),
        "hip_girth": Tape((_round_trunk(HIP),), (0.0, 90.0)),
        "calf_girth": _aside(_ring(*calf), -1, 4.0),
    }


TAPES: Final[Mapping[View, Mapping[str, Tape]]] = MappingProxyType(
    {"front": _front(), "side": _side(), "back": _back()}
)
"""The tapes of each view by field; a field is drawn in every view where it can well be seen."""
