"""A shaped sleeve head and the hollowed armhole that it is sewn into.

The armhole is hollowed toward the body, most a quarter of the way up from the armpit; the head rises in an S, a raised
cosine, and is as wide as makes its drawn length that of the armhole plus the ease (solved to a thousandth of a
millimetre).
"""

from __future__ import annotations

import math
from typing import Final

from scipy.optimize import brentq

from ellwand.geometry.lines import Line, length

STEPS: Final = 32
HOLLOW_SHARE: Final = 1 / 12
"""The armhole is hollowed by this share of its depth: common practice, no source."""
CAP_SHARE: Final = 1 / 3
"""The head rises by this share of the armhole's depth: common practice, no source."""


def armhole_line(depth: float, hollow: float) -> Line:
    """The edge of a left panel from the armpit (0, 0) up to the shoulder (0, depth), ``hollow`` cm inward at most.

    x = −hollow · 256/27 · t (1 − t)³, which is greatest at t = 1/4 and runs straight into the shoulder.
    """
    if not hollow:
        return ((0.0, 0.0), (0.0, depth))
    ts = [i / STEPS for i in range(STEPS + 1)]
    return tuple((-hollow * 256 / 27 * t * (1 - t) ** 3 if 0 < t < 1 else 0.0, depth * t) for t in ts)


def head_line(width: float, rise: float) -> Line:
    """Half a head from the underarm (width, 0) to the crown (0, rise)."""
    if not rise:
        return ((width, 0.0), (0.0, 0.0))
    ts = [i / STEPS for i in range(STEPS + 1)]
    return tuple((width * (1 - t), rise * (1 - math.cos(math.pi * t)) / 2) for t in ts)


def head_width(along: float, rise: float) -> float:
    """Half the width (cm) of a head whose half is ``along`` cm long and rises ``rise`` cm."""
    return float(brentq(lambda width: length(head_line(width, rise)) - along, 0.01, along, xtol=1e-9))
