"""How the cloth is turned aside in the picture by what is set into it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ellwand.geometry.lines import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Turn = tuple[float, float]
"""(height below which it turns the cloth (cm), by how much (radians))."""


def hung(x: float, y: float, turns: Sequence[Turn]) -> Point:
    """A point of the flat cloth as it lies: its line hangs straight down from above, and is turned at each height.

    ``turns`` from the highest down.
    """
    if not turns or y >= turns[0][0]:
        return x, y
    high, angle = turns[0][0], 0.0
    px, py = x, high
    for i, (_, turn) in enumerate(turns):
        angle += turn
        low = max(y, turns[i + 1][0]) if i + 1 < len(turns) else y
        run = high - low
        px += run * math.sin(angle)
        py -= run * math.cos(angle)
        high = low
        if low <= y:
            break
    return px, py


def highest_first(turns: Sequence[Turn]) -> list[Turn]:
    """In the order that ``hung`` wants."""
    return sorted(turns, key=lambda each: -each[0])


@dataclass(frozen=True, slots=True)
class Bend:
    """From a point of the flat body to where it lies in the picture.

    ``turns``: on the right half, (x of a place, the point its gores fan out from, how far they turn what lies outside).
    """

    turns: tuple[tuple[float, float, float], ...]

    @property
    def high(self) -> float:
        """Above this height everything lies as it is (cm)."""
        return max((top for _, top, turn in self.turns if turn), default=-math.inf)

    def within(self, x: float) -> list[Turn]:
        """What turns a line at that distance from the centre, from the highest down."""
        return highest_first([(top, turn) for at, top, turn in self.turns if at < abs(x) - 1e-6 and turn])

    def __call__(self, point: Point) -> Point:
        """The point as it lies."""
        x, y = point
        right, low = hung(abs(x), y, self.within(x))
        return math.copysign(right, x), low

    def many(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Many points at once, in rows."""
        import numpy as np

        out = points.copy()
        ats = sorted(at for at, _, turn in self.turns if turn)
        if not ats:
            return out
        x, y = np.abs(points[:, 0]), points[:, 1]
        inside = np.searchsorted(np.array(ats), x - 1e-6)
        for count in range(1, len(ats) + 1):
            at = (inside == count) & (y < self.high)
            turns = self.within(ats[count - 1] + 1e-3)
            across, down, angle = np.zeros(int(at.sum())), np.zeros(int(at.sum())), 0.0
            for i, (high, turn) in enumerate(turns):
                angle += turn
                low = np.maximum(y[at], turns[i + 1][0]) if i + 1 < len(turns) else y[at]
                run = np.maximum(high - low, 0.0)
                across += run * math.sin(angle)
                down += run * math.cos(angle)
            below = y[at] < turns[0][0]
            moved_x, moved_y = x[at] + across, np.where(below, turns[0][0] - down, y[at])
            out[at] = np.column_stack([np.copysign(moved_x, points[at, 0]), moved_y])
        return out
