"""A motif that repeats along a line of the garment: as chosen, and in numbers (cm)."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.model.motif import Motif
from ellwand.model.run import Run


@dataclass(frozen=True, slots=True)
class Repeat:
    """A motif along a run, at the places ``at`` (cm along it, of the motif's middle)."""

    run: Run
    motif: Motif
    at: tuple[float, ...]
