"""The wedge of the droop test at full size: a strip that sinks to its slope hangs over by twice its bending length."""

from __future__ import annotations

import math
from typing import Final

from ellwand.model.drawing import Drawing, Label, Stroke

DEEP: Final = 11.0
"""How high the wedge is (cm)."""


def wedge(degrees: float) -> Drawing:
    """A wedge whose slope lies so far below level, its level edge with centimetres; in cm."""
    wide = DEEP / math.tan(math.radians(degrees))
    strokes = [
        Stroke("cut", ((-1.5, DEEP), (0.0, DEEP), (wide, 0.0), (-1.5, 0.0)), True),
        Stroke("dimension", ((0.0, DEEP), (wide, DEEP))),
        Stroke("dimension", ((0.0, 0.0), (0.0, DEEP))),
    ]
    labels = [Label("note", f"{degrees:g}°", (2.6, DEEP - 1.0))]
    for n in range(math.floor(wide) + 1):
        strokes.append(Stroke("dimension", ((float(n), DEEP), (float(n), DEEP + (0.5 if n % 5 else 0.9)))))
        if n % 5 == 0:
            labels.append(Label("number", str(n), (float(n), DEEP + 1.3)))
    return Drawing(tuple(strokes), tuple(labels))
