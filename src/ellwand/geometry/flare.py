"""Pieces that widen downward: gores, flared panels, and their halves.

A flared piece has two sewn sides of one length ``side``, a straight top ``top`` wide (nothing, for a gore)
and a lower edge that is an arc about the point in which its sides meet, so that the hem hangs level.
With half angle h, lower radius R and upper radius r:  top = 2 r sin h,  base = 2 h R,  R − r = side
(plane geometry of a ring sector).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ellwand.geometry.lines import Line, Point, arc


@dataclass(frozen=True, slots=True)
class Flare:
    """A flared piece, its point above, its lower arc passing through (0, 0)."""

    half_angle: float
    upper: float
    lower: float

    @property
    def point(self) -> Point:
        """Where the two sides meet."""
        return (0.0, self.lower)

    def hem(self, *, half: bool = False) -> Line:
        """The lower arc from left to right; ``half``: from the middle to the right."""
        start = -math.pi / 2 if half else -math.pi / 2 - self.half_angle
        return arc(self.point, self.lower, start, -math.pi / 2 + self.half_angle)

    def corner(self) -> Point:
        """The upper right corner (the point itself for a gore)."""
        return (
            self.upper * math.sin(self.half_angle),
            self.lower - self.upper * math.cos(self.half_angle),
        )


def flare(top: float, side: float, base: float) -> Flare:
    """The flared piece with a straight top, two sides and an arc below, all lengths in cm.

    Raises ValueError when the base is narrower than the top, or so wide that the sides would open past a
    straight line.
    """
    if side <= 0 or base <= 0 or top < 0 or base < top:
        raise ValueError("a flared piece needs a side, and a base at least as wide as its top")
    if top == 0:
        half = base / (2 * side)
        if half >= math.pi / 2:
            raise ValueError("the base is too wide for its side")
        return Flare(half, 0.0, side)
    if base - top < 1e-9:
        raise ValueError("straight, not flared")

    def excess(half: float) -> float:
        return 2 * half * (top / (2 * math.sin(half)) + side) - base

    low, high = 1e-9, math.pi / 2
    if excess(high) < 0:
        raise ValueError("the base is too wide for its side")
    for _ in range(200):
        middle = 0.5 * (low + high)
        if excess(middle) < 0:
            low = middle
        else:
            high = middle
    half = 0.5 * (low + high)
    upper = top / (2 * math.sin(half))
    return Flare(half, upper, upper + side)
