"""What a maker can measure on a cloth, as the stiffnesses that the drape reckons with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.model.cloth import Cloth

USUAL_GRAMS: Final = 200.0
"""Where the sheet gives no weight (grams per m²): a middling linen or light wool, typical, unverified."""
USUAL_BENDING: Final = 2.2
"""Where the sheet gives no bending length (cm): typical, unverified."""
TAUT: Final = 400.0
"""Stiffness against stretching (gf/cm): stiffer cloth hangs no differently; under the weight of a metre of a cloth of
300 g/m² it stretches by 0.8 in 100."""
SHEARED: Final = 0.1
"""Shearing stiffness beside that: our own figure."""


@dataclass(frozen=True, slots=True)
class Figures:
    """Weight (gf/cm²), stiffness along weft and warp and in shear (gf/cm), B of weft, warp and bias (gf cm)."""

    weight: float
    stretching: tuple[float, float, float]
    bending: tuple[float, float, float]


def figures_of(cloth: Cloth) -> Figures:
    """The stiffnesses of a cloth: B = weight per area × bending length³ (Peirce 1930)."""
    weight = (cloth.grams or USUAL_GRAMS) / 1e4
    stiff = weight * USUAL_BENDING**3
    return Figures(weight, (TAUT, TAUT, SHEARED * TAUT), (stiff, stiff, stiff))
