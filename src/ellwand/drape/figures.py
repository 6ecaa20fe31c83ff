"""What a maker can measure on a cloth, as the stiffnesses that the drape reckons with."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.model.cloth import Cloth

USUAL_GRAMS: Final = 200.0
"""Where the sheet gives no weight (grams per m²): a middling linen or light wool, typical, unverified."""
USUAL_BENDING: Final = 2.2
"""Where the sheet gives no bending length (cm): typical, unverified."""
TESTED: Final = 500.0 / 5.0
"""The stretching test's pull (gf/cm): 500 g on a strip 5 cm wide."""
TAUT: Final = 400.0
"""No cloth is reckoned stiffer against stretching than this (gf/cm): stiffer ones hang no differently.  Under the
weight of a metre of a cloth of 300 g/m² it gets longer by 0.8 in 100."""
SLACK: Final = 20.0
"""None is reckoned softer (gf/cm): our own figure."""
SHEARED: Final = 0.1
"""Shearing stiffness beside the smaller of the two: our own figure."""


@dataclass(frozen=True, slots=True)
class Figures:
    """Weight (gf/cm²), stiffness along weft and warp and in shear (gf/cm), B of weft, warp and bias (gf cm)."""

    weight: float
    stretching: tuple[float, float, float]
    bending: tuple[float, float, float]


def figures_of(cloth: Cloth) -> Figures:
    """The stiffnesses of a cloth: B = weight per area × bending length³ (Peirce 1930)."""
    weight = (cloth.grams or USUAL_GRAMS) / 1e4
    warp = cloth.bends_warp or cloth.bends_weft or cloth.bends_bias or USUAL_BENDING
    weft = cloth.bends_weft or warp
    bends = weight * weft**3, weight * warp**3
    bias = weight * cloth.bends_bias**3 if cloth.bends_bias else bias_between(*bends)
    along = _taut(cloth.gives_weft), _taut(cloth.gives_warp)
    return Figures(weight, (*along, SHEARED * min(along)), (*bends, bias))


def bias_between(weft: float, warp: float) -> float:
    """B on the bias where it was not measured, as from a strip whose warp and weft bend each on their own:
    (4 / (1/√B_warp + 1/√B_weft)²): half the harmonic mean of the roots, after Cooper (J. Text. Inst. 51, 1960; from
    memory)."""
    return 4.0 / (1.0 / math.sqrt(weft) + 1.0 / math.sqrt(warp)) ** 2


def _taut(gives: float | None) -> float:
    """Stiffness against stretching (gf/cm) from the test."""
    if gives is None:
        return TAUT
    return min(TAUT, max(SLACK, TESTED / (gives / 100.0)))
