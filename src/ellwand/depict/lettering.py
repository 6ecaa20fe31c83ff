"""Lettering that keeps clear: labels are tried in several places and take the first free one."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field

from shapely import Polygon, box, intersects

from ellwand.model.drawing import Label

CM_PER_POINT = 2.54 / 72
"""A typographic point on paper in cm."""


def text_width(text: str, size: float) -> float:
    """About how wide a text is on paper, in cm; East Asian signs are as wide as they are high."""
    ems = sum(0.98 if unicodedata.east_asian_width(c) in "WF" else 0.49 if c != " " else 0.22 for c in text)
    return ems * size * CM_PER_POINT


def shortened(text: str, most: int) -> str:
    """The text, cut with an ellipsis when it has more than ``most`` signs."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def shape_of(label: Label, scale: float, air: float = 0.0) -> Polygon:
    """The rectangle a label covers, in drawing cm, when drawn at ``scale`` (paper cm per drawing cm).

    ``air``: so much wider and higher on every side (drawing cm).
    """
    width = text_width(label.text, label.size) * (1.08 if label.role == "name" else 1.0) / scale
    high = 0.6 * label.size * CM_PER_POINT / scale + air
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    right = left + width + air
    left -= air
    at_x, at_y = label.at
    if not label.turn:
        return box(at_x + left, at_y - high, at_x + right, at_y + high)
    c, s = math.cos(math.radians(label.turn)), math.sin(math.radians(label.turn))
    corners = ((left, -high), (right, -high), (right, high), (left, high))
    return Polygon([(at_x + x * c - y * s, at_y + x * s + y * c) for x, y in corners])


@dataclass
class Lettering:
    """The labels of one drawing while it is being made."""

    scale: float
    labels: list[Label] = field(default_factory=list)
    taken: list[Polygon] = field(default_factory=list)

    def put(self, label: Label) -> None:
        """Write it, free or not."""
        self.labels.append(label)
        self.taken.append(shape_of(label, self.scale))

    def free(self, label: Label) -> bool:
        """True when nothing is in its way."""
        return self.clear(shape_of(label, self.scale))

    def clear(self, shape: Polygon) -> bool:
        """True when nothing is written there."""
        return not self.taken or not intersects(self.taken, shape).any()

    def first_free(self, candidates: Iterable[Label]) -> bool:
        """Write the first candidate that is free; False when none is."""
        for label in candidates:
            if self.free(label):
                self.put(label)
                return True
        return False


def readable(turn: float) -> float:
    """The same direction, never upside down: −90 < turn ≤ 90."""
    turn = turn % 180
    return turn - 180 if turn > 90.5 else turn
