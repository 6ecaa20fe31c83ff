"""From a picture to choices: the structures that would look like it, each drafted for this wearer, as sheets."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from ellwand.choose import Sheet
from ellwand.errors import BadInput
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.picture import Marks, Offer, Reading
from ellwand.picture import offers, read
from ellwand.pipeline import prove_sheet, read_wearer
from ellwand.units import Unit

KEPT: Final = ("layer", "over", "date", "region", "take")
"""What of the sheet's own [garment] stays whatever the picture shows."""


@dataclass(frozen=True, slots=True)
class Offered:
    """One structure drafted: the sheet's tables, and the garment, or why it cannot be drafted so."""

    offer: Offer
    tables: Mapping[str, Any]
    garment: Garment | None
    refused: str = ""

    @property
    def evidence(self) -> tuple[Finding, ...]:
        """What is known of its choices at the sheet's date and place."""
        found = self.garment.proof.findings if self.garment else ()
        return tuple(each for each in found if each.code.startswith("period"))


@dataclass(frozen=True, slots=True)
class Pictured:
    """Everything that a picture tells for one wearer."""

    marks: Marks
    unit: Unit
    readings: tuple[Reading, ...]
    offered: tuple[Offered, ...]


ReadSheet = Callable[[Mapping[str, Any]], Sheet]
"""From a sheet's tables to the sheet."""


def pictured(marks: Marks, tables: Mapping[str, Any], read_sheet: ReadSheet, unit: Unit | None = None) -> Pictured:
    """The readings of the marks for the wearer of a sheet, and the structures drafted on its cloth.

    ``tables``: of the sheet, as ``read_sheet`` reads them.  Raises BadInput with one sentence.
    """
    wearer, _questions = read_wearer(read_sheet(tables), unit)
    readings = read(marks, wearer)
    found = offers(marks, readings, wearer)
    offered = tuple(_offered(offer, sheet_for(offer, tables, marks, readings), read_sheet, unit) for offer in found)
    return Pictured(marks, wearer.unit, readings, offered)


def _offered(offer: Offer, tables: Mapping[str, Any], read_sheet: ReadSheet, unit: Unit | None) -> Offered:
    try:
        return Offered(offer, tables, prove_sheet(read_sheet(tables), unit=unit))
    except BadInput as error:
        return Offered(offer, tables, None, str(error))


def sheet_for(offer: Offer, tables: Mapping[str, Any], marks: Marks, readings: Sequence[Reading]) -> dict[str, Any]:
    """The sheet's tables with the structure's garment, and [picture]: the marks, what was read, and why."""
    own = tables.get("garment")
    kept = {key: own[key] for key in KEPT if key in own} if isinstance(own, dict) else {}
    inches = isinstance(tables.get("wearer"), dict) and tables["wearer"].get("unit") == "in"
    garment = {**(_in_cm(offer.garment) if inches else offer.garment), **kept}
    picture: dict[str, Any] = {
        "structure": offer.structure,
        "likely": round(offer.share, 2),
        "points": {name: [round(x, 2), round(y, 2)] for name, (x, y) in marks.points.items()},
        "spreads": {name: round(value, 2) for name, value in marks.spread.items()},
        "read": {
            each.what: {"value": round(each.value, 2), "low": round(each.low, 2), "high": round(each.high, 2)}
            for each in readings
        },
        "reasons": {each.about: {"said": each.said, "weight": round(each.weight, 2)} for each in offer.reasons},
    }
    for key in ("lean", "stoop"):
        if value := getattr(marks, key):
            picture[key] = value
    if marks.answers:
        picture["answers"] = dict(marks.answers)
    return {**{key: value for key, value in tables.items() if key != "picture"}, "garment": garment, "picture": picture}


def _in_cm(value: Any) -> Any:
    """Numbers with their unit, for a sheet whose numbers are inches."""
    if isinstance(value, float):
        return f"{value:g} cm"
    if isinstance(value, Mapping):
        return {key: _in_cm(each) for key, each in value.items()}
    return [_in_cm(each) for each in value] if isinstance(value, list) else value
