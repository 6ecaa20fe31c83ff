"""What is put on a garment once it is drafted: bands, repeated motifs, the division of its field, charges."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.model.band import Band, Yarn
from ellwand.model.heraldry import Charge, DividedField
from ellwand.model.repeat import Repeat


@dataclass(frozen=True, slots=True)
class Adornment:
    """All that is put on; nothing by default.  ``yarns``: what is taken for bands that the maker weaves or braids."""

    bands: tuple[Band, ...] = ()
    repeats: tuple[Repeat, ...] = ()
    field: DividedField | None = None
    charges: tuple[Charge, ...] = ()
    yarns: tuple[Yarn, ...] = ()


UNADORNED: Final = Adornment()
"""Nothing at all."""
