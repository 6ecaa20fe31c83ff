"""Lettering that keeps clear: labels are tried in several places and take the first free one."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from ellwand.geometry.lines import Point
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


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle in drawing cm."""

    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: Box) -> bool:
        """True when the two overlap."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def corners(self) -> tuple[Point, ...]:
        """Its four corners, counter-clockwise."""
        return ((self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1))


def box_of(label: Label, scale: float) -> Box:
    """The box a label covers, in drawing cm, when drawn at ``scale`` (paper cm per drawing cm)."""
    width = text_width(label.text, label.size) / scale
    height = 1.1 * label.size * CM_PER_POINT / scale
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    c, s = math.cos(math.radians(label.turn)), math.sin(math.radians(label.turn))
    points = [
        (label.at[0] + x * c - y * s, label.at[1] + x * s + y * c)
        for x in (left, left + width)
        for y in (-height / 2, height / 2)
    ]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


@dataclass
class Lettering:
    """The labels of one drawing while it is being made."""

    scale: float
    labels: list[Label] = field(default_factory=list)
    taken: list[Box] = field(default_factory=list)

    def put(self, label: Label) -> None:
        """Write it, free or not."""
        self.labels.append(label)
        self.taken.append(box_of(label, self.scale))

    def keep_clear(self, boxes: Iterable[Box]) -> None:
        """Let nothing be written here."""
        self.taken.extend(boxes)

    def free(self, label: Label) -> bool:
        """True when nothing is in its way."""
        box = box_of(label, self.scale)
        return not any(box.meets(other) for other in self.taken)

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


def moved(label: Label, dx: float, dy: float) -> Label:
    """The label moved by (dx, dy)."""
    return replace(label, at=(label.at[0] + dx, label.at[1] + dy))
