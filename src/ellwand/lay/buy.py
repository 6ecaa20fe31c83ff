"""From the length of a lay to the length to ask for in a shop."""

from __future__ import annotations

from typing import Final

from ellwand.model.cloth import Cloth
from ellwand.units import CM_PER, round_up

STRAIGHTENING: Final = 2.0
"""Cloth lost at each end to straighten the grain, in cm (common practice, no source)."""


def buy_length(length: float, cloth: Cloth) -> float:
    """The length (cm) to buy for a lay of ``length``, as the shop sells it: by 10 cm, or by 1/8 yard.

    Cloth that is not washed yet shrinks along the warp by its fraction: length / (1 − shrink).
    """
    unwashed = length if cloth.washed else length / (1 - cloth.shrink_warp)
    return round_up(unwashed + 2 * STRAIGHTENING, CM_PER["yd"] / 8 if cloth.unit == "in" else 10.0)
