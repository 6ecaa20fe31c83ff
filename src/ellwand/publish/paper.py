"""Sheets of paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.units import Unit


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper with its margin (cm)."""

    width: float
    height: float
    margin: float = 1.2

    @property
    def room(self) -> float:
        """Width between the margins."""
        return self.width - 2 * self.margin


A4: Final = Paper(21.0, 29.7)
LETTER: Final = Paper(21.59, 27.94)


def paper_for(unit: Unit) -> Paper:
    """A4, or Letter for who reads inches."""
    return LETTER if unit == "in" else A4
