"""A garment hung in a process of its own: views all round, what is found, and the file for viewers in space."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from ellwand.depict.hang import turning
from ellwand.depict.words import mend, why
from ellwand.pipeline import hung, prove_sheet
from ellwand.publish.hang import hang_csv, hang_glb
from ellwand.publish.png import png
from ellwand.web.work.at_once import sheet_of

STEPS: Final = 24
HIGH: Final = 560
"""Views all round, and how high each is (pixels)."""


@dataclass(frozen=True, slots=True)
class Hung:
    """``views`` as PNG, from before and then round by the wearer's left; what was found, each with its mend."""

    views: tuple[bytes, ...]
    found: tuple[tuple[str, str, str], ...]
    glb: bytes
    csv: bytes


def hung_of(tables: Mapping[str, Any], tell: Callable[[str, Any], None]) -> Hung:
    """The garment of a sheet's tables as it hangs.

    Raises BadInput with one sentence.
    """
    garment = hung(prove_sheet(sheet_of(tables)), progress=lambda text: tell("said", text))
    assert garment.hang is not None
    unit = garment.wearer.unit
    return Hung(
        views=tuple(png(view) for view in turning(garment, garment.hang, STEPS, HIGH)),
        found=tuple(
            (each.outcome, why(each, unit), mend(each, unit) if each.outcome != "sound" else "")
            for each in garment.proof.findings
            if each.code.startswith("hang")
        ),
        glb=hang_glb(garment, garment.hang),
        csv=hang_csv(garment, garment.hang).encode(),
    )
