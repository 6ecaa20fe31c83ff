"""Bands along the edges, seams and rings of a garment: as chosen, and in numbers (cm)."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.model.run import Run


@dataclass(frozen=True, slots=True)
class Band:
    """One band as it goes on: along ``run``, ``width`` wide."""

    run: Run
    width: float
