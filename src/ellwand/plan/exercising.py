"""Exercises in reading pictures: known garments on known bodies, drawn as pictures, so that the answer is known."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from ellwand.choose import read_tables
from ellwand.depict.posed import posed
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.picture.structures import STRUCTURES
from ellwand.pipeline import prove_sheet

MOST: Final = 9999
HEADS: Final = (6.0, 9.0)
"""Artists draw a figure so many heads high."""
SLEEVES: Final = ("tapered", "straight", "wide")
NAMES: Final = ("knee", "mid-calf", "ankle", "floor")


@dataclass(frozen=True, slots=True)
class Exercise:
    """A figure drawn from a garment: its ``structure`` by name, and what there is to be read (cm)."""

    number: int
    structure: str
    garment: Garment
    drawing: Drawing
    true: Mapping[str, float]


def exercise(number: int, wearer: Mapping[str, Any]) -> Exercise:
    """The same figure for the same number.

    Raises BadInput where there is none of that number.
    """
    if not 1 <= number <= MOST:
        raise BadInput("exercise", _("there is no such exercise"), _("give a number from 1 to {most}", most=MOST))
    draw = random.Random(number)
    structure = draw.choice(sorted(STRUCTURES))
    table = {**STRUCTURES[structure].garment, "length": draw.choice(NAMES)}
    if structure != "riding":
        table["sleeve"] = {"shape": draw.choice(SLEEVES)}
    tables = {"wearer": dict(wearer), "garment": table, "cloth": {"main": {"width": "150 cm"}}}
    garment = prove_sheet(read_tables(tables, lambda name: 0.0))
    sized, body = garment.draft.dimensions, garment.wearer
    hem = next(each for each in garment.proof.girths if each.at == "hem")
    true = {
        "length": sized.length,
        "hem": body["nape_to_floor"] - sized.length,
        "sweep": hem.garment,
    }
    return Exercise(number, structure, garment, posed(garment.draft, body, draw.uniform(*HEADS)), true)
