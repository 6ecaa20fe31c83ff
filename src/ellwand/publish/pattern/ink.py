"""Lines as PDF drawing operators, exact to a thousandth of a millimetre."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from typing import Final

from ellwand.geometry.lines import Line
from ellwand.model.drawing import Stroke
from ellwand.publish.pens import PENS

POINTS: Final = 72 / 2.54
"""Points in a cm."""


def number(value: float) -> str:
    """A number as PDF writes it."""
    return f"{round(value, 4) + 0.0:.4f}".rstrip("0").rstrip(".")


def strokes_in(strokes: Iterable[Stroke], *, dx: float = 0.0, dy: float = 0.0, thick: float = 1.0) -> str:
    """The strokes moved by (``dx``, ``dy``) cm, unfilled; ``thick``: times their pens' widths and dashes."""
    out = ["1 J 1 j"]
    for role, group in itertools.groupby(strokes, key=lambda stroke: stroke.role):
        pen = PENS[role]
        dash = " ".join(number(n * thick) for n in pen.dash)
        out.append(f"{number(pen.width * thick)} w [{dash}] 0 d {number(pen.grey / 255)} G")
        for stroke in group:
            for line in (stroke.points, *stroke.holes):
                out.append(_path(line, dx, dy) + (" s" if stroke.closed else " S"))
    return "\n".join(out)


def _path(line: Line, dx: float, dy: float) -> str:
    spots = [f"{number((x + dx) * POINTS)} {number((y + dy) * POINTS)}" for x, y in line]
    return f"{spots[0]} m " + " ".join(f"{spot} l" for spot in spots[1:])
