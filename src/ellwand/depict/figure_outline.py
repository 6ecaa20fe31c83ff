"""The outlines of the figure, smooth curves led by its landmarks, in cm."""

from __future__ import annotations

import itertools
import math
from typing import Final

from ellwand.depict.figure_landmarks import (
    BEHIND,
    FACE,
    FAINT,
    FRONT,
    FRONT_ARM,
    FRONT_TIP,
    HEAD,
    INSIDE,
    NECK,
    SHOULDER,
    SIDE,
    SIDE_ARM,
    SIDE_TIP,
    THUMB,
    Axis,
    View,
)
from ellwand.depict.smoothing import STEPS, smooth
from ellwand.geometry.lines import Line, Point, backwards, chain, mirror


def across(axis: Axis, y: float) -> tuple[Point, Point]:
    """The two ends of a line square across a limb, where its middle is at height ``y`` (cm).

    Raises ValueError for a height that the limb does not reach.
    """
    for (x0, y0, h0), (x1, y1, h1) in itertools.pairwise(axis):
        if y1 <= y <= y0:
            t = (y0 - y) / (y0 - y1)
            x, half = x0 + (x1 - x0) * t, h0 + (h1 - h0) * t
            nx, ny = _normal((x0, y0), (x1, y1))
            return (x - nx * half, y - ny * half), (x + nx * half, y + ny * half)
    raise ValueError(f"the limb does not reach {y}")


def at_height(edge: Line, y: float) -> float:
    """Where an edge first reaches height ``y``, as x (cm).

    Raises ValueError when it does not.
    """
    for a, b in itertools.pairwise(edge):
        if min(a[1], b[1]) <= y <= max(a[1], b[1]) and a[1] != b[1]:
            return a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1])
    raise ValueError(f"the edge does not reach {y}")


def _normal(a: Point, b: Point) -> Point:
    """Square to a line that runs down; it points to the right."""
    length = math.dist(a, b)
    return (a[1] - b[1]) / length, (b[0] - a[0]) / length


def _edges(axis: Axis) -> tuple[Line, Line]:
    """The left and the right edge of a limb, both from above."""
    left, right = [], []
    for i, (x, y, half) in enumerate(axis):
        before, after = axis[max(0, i - 1)], axis[min(len(axis) - 1, i + 1)]
        nx, ny = _normal(before[:2], after[:2])
        left.append((x - nx * half, y - ny * half))
        right.append((x + nx * half, y + ny * half))
    return tuple(left), tuple(right)


def _front_arm() -> Line:
    """From the shoulder down the outer edge, round the hand with its thumb, and up to the armpit."""
    inner, outer = _edges(FRONT_ARM)
    shoulder = (NECK[-1], (20.4, 139.0), (23.2, 136.0))
    return smooth((*shoulder, *outer, FRONT_TIP, inner[-1], *THUMB, *backwards(inner[1:7]), SIDE[0]))


def _side_arm() -> Line:
    """All round, from the top of the shoulder."""
    back, front = _edges(SIDE_ARM)
    top = (SIDE_ARM[0][0], SHOULDER + 0.6)
    ring = smooth((back[0], top, *front, SIDE_TIP, *backwards(back), top, front[0]))
    return ring[STEPS : -STEPS - 1]


TORSO_EDGE: Final = smooth(SIDE)
"""The right side of the body from the armpit to the floor, from the front."""
INSIDE_EDGE: Final = smooth(INSIDE)
"""The inside of the right leg from the floor to the crotch, from the front."""
HEAD_EDGE: Final = smooth(HEAD)
NECK_EDGE: Final = smooth(NECK)
ARM_EDGE: Final = _front_arm()
"""The right arm from the shoulder round the hand to the armpit, from the front."""
FRONT_EDGE: Final = chain([smooth(FACE), smooth(FRONT)])
"""Down the front, from the side."""
BACK_EDGE: Final = smooth(BEHIND)
"""From the heel up behind, from the side."""


def outlines(view: View) -> tuple[Line, ...]:
    """The closed outlines (cm) of a view, those behind first."""
    if view == "side":
        return (FRONT_EDGE + BACK_EDGE[:-1], _side_arm())
    right = chain([HEAD_EDGE, NECK_EDGE, ARM_EDGE, TORSO_EDGE, smooth((SIDE[-1], INSIDE[0])), INSIDE_EDGE])
    return (right + backwards(mirror(right[1:-1])),)


def inner_lines(view: View) -> tuple[Line, ...]:
    """The few faint lines (cm) that tell front from back."""
    return tuple(smooth(line) for line in FAINT[view])
