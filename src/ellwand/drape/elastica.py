"""A strip that droops over an edge: the heavy elastica, and the bending length from any droop.

With t the way from the tip in bending lengths c and θ the slope below level,

    θ'' = t cos θ,   θ'(0) = 0,   θ = 0 at the edge, t = L/c

(Bickley, Phil. Mag. 17, 1934; c³ = bending stiffness over weight per area, Peirce, J. Text. Inst. 21, 1930).  Each
slope of the tip belongs to one overhang L.  The droop is the angle below level of the straight line from the edge to
the tip; at 41.5° the overhang is twice the bending length.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import _

STEP: Final = 0.02
"""Of t."""
STANDARD: Final = 41.5
"""The droop (degrees) of the standard test (BS 3356; ISO 9073-7)."""
LEAST: Final = 2.0
MOST: Final = 80.0
"""Droops (degrees) that tell a bending length."""


def droop(overhang: float, bending_length: float) -> float:
    """The angle (degrees) below level from the edge to the tip of a strip."""
    ratio = overhang / bending_length
    return _strip(_tip(lambda tip: _strip(tip)[0] - ratio))[1]


def bending_length(overhang: float, angle: float) -> float:
    """The bending length (cm) of a strip of which ``overhang`` (cm) droops by ``angle`` (degrees).

    Raises BadInput for an angle that tells nothing.
    """
    if not LEAST <= angle <= MOST:
        raise BadInput(
            "--angle",
            _("{angle:g} degrees tell no bending length", angle=angle),
            _("let the strip droop by {least:g} to {most:g} degrees", least=LEAST, most=MOST),
        )
    return overhang / _strip(_tip(lambda tip: _strip(tip)[1] - angle))[0]


def _tip(off: Callable[[float], float]) -> float:
    """The slope of the tip (radians) at which something that grows with it is 0."""
    low, high = 1e-6, math.pi / 2 - 1e-9
    for _turn in range(50):
        tip = (low + high) / 2
        if off(tip) < 0:
            low = tip
        else:
            high = tip
    return (low + high) / 2


def _strip(tip: float) -> tuple[float, float]:
    """(overhang over bending length, droop in degrees) of the strip whose tip slopes so much; by Runge and Kutta."""
    t, slope, bend, x, y = 0.0, tip, 0.0, 0.0, 0.0
    while True:
        after = _step(t, slope, bend, x, y, STEP)
        if after[0] <= 0:
            break
        slope, bend, x, y = after
        t += STEP
    low, high = 0.0, STEP
    for _turn in range(40):
        part = (low + high) / 2
        if _step(t, slope, bend, x, y, part)[0] > 0:
            low = part
        else:
            high = part
    _slope, _bend, x, y = _step(t, slope, bend, x, y, low)
    return t + low, math.degrees(math.atan2(y, x))


def _step(t: float, slope: float, bend: float, x: float, y: float, h: float) -> tuple[float, float, float, float]:
    """``bend`` is how fast the slope falls with t."""
    s1, b1 = -bend, t * math.cos(slope)
    at = slope + h / 2 * s1
    s2, b2 = -(bend + h / 2 * b1), (t + h / 2) * math.cos(at)
    at2 = slope + h / 2 * s2
    s3, b3 = -(bend + h / 2 * b2), (t + h / 2) * math.cos(at2)
    at3 = slope + h * s3
    s4, b4 = -(bend + h * b3), (t + h) * math.cos(at3)
    across = math.cos(slope) + 2 * math.cos(at) + 2 * math.cos(at2) + math.cos(at3)
    down = math.sin(slope) + 2 * math.sin(at) + 2 * math.sin(at2) + math.sin(at3)
    return (
        slope + h / 6 * (s1 + 2 * s2 + 2 * s3 + s4),
        bend + h / 6 * (b1 + 2 * b2 + 2 * b3 + b4),
        x + h / 6 * across,
        y + h / 6 * down,
    )
