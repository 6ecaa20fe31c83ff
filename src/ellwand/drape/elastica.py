"""A strip that droops over an edge: the heavy elastica, and the bending length from any droop.

With s in lengths of the strip, θ the slope below level and L, c the overhang and the bending length,

    θ'' = −(L/c)³ (1 − s) cos θ,   θ(0) = 0,  θ'(1) = 0

(Bickley, Phil. Mag. 17, 1934; c³ = bending stiffness over weight per area, Peirce, J. Text. Inst. 21, 1930).  The droop
is the angle below level of the straight line from the edge to the tip; at 41.5° the overhang is twice the bending
length.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from ellwand.errors import BadInput
from ellwand.language import _

STEPS: Final = 400
STANDARD: Final = 41.5
"""The droop (degrees) of the standard test (BS 3356; ISO 9073-7)."""
LEAST: Final = 2.0
MOST: Final = 80.0
"""Droops (degrees) that tell a bending length."""


def droop(overhang: float, bending_length: float) -> float:
    """The angle (degrees) below level from the edge to the tip of a strip."""
    load = (overhang / bending_length) ** 3
    low, high = 0.0, math.pi / 2
    # the slope at the tip, shot back to the edge, where it must be level
    for _turn in range(60):
        tip = (low + high) / 2
        slope, _x, _y = _shot(load, tip)
        if slope > 0:
            high = tip
        else:
            low = tip
    _slope, x, y = _shot(load, (low + high) / 2)
    return math.degrees(math.atan2(y, x))


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
    low, high = 0.1, 20.0
    for _turn in range(60):
        share = math.sqrt(low * high)
        if droop(1.0, share) > angle:
            low = share
        else:
            high = share
    return overhang * math.sqrt(low * high)


def _shot(load: float, tip: float) -> tuple[float, float, float]:
    """From the tip back to the edge (Runge and Kutta's fourth order): the slope there, and how far off the tip lies."""
    h = 1.0 / STEPS
    state = np.array([tip, 0.0, 0.0, 0.0])

    def change(t: float, at: np.ndarray) -> np.ndarray:
        # t: how far from the tip; the bend grows by the weight of what hangs beyond
        return np.array([-at[1], load * t * math.cos(at[0]), math.cos(at[0]), math.sin(at[0])])

    for n in range(STEPS):
        t = n * h
        a = change(t, state)
        b = change(t + h / 2, state + h / 2 * a)
        c = change(t + h / 2, state + h / 2 * b)
        d = change(t + h, state + h * c)
        state = state + h / 6 * (a + 2 * b + 2 * c + d)
        if state[0] < -math.pi:
            break
    return float(state[0]), float(state[2]), float(state[3])
