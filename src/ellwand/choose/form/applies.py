"""When an option means something beside the others, so that a form shows no more than that."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from ellwand.choose.form.described import table_in
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.styles import STYLES

Chosen = Callable[[str], Any]
"""What the garment has of an option, given or by its style or usually; or what it is made of beside that entry."""


def _is(path: str, *words: Any) -> Callable[[Chosen], bool]:
    return lambda chosen: chosen(path) in words


def _is_not(path: str, *words: Any) -> Callable[[Chosen], bool]:
    return lambda chosen: chosen(path) not in words


def _all(*conditions: Callable[[Chosen], bool]) -> Callable[[Chosen], bool]:
    return lambda chosen: all(condition(chosen) for condition in conditions)


def _in_a_seam(chosen: Chosen) -> bool:
    """Whether the gore stands in a slot between two straight panels, and alone."""
    place, seam = chosen("gores.place"), chosen("body.centre_seam")
    alone = sum(gore["place"] == place for gore in chosen("gores")) == 1
    return bool(alone) and bool(
        place == "side" or (place.startswith("centre") and seam in ("both", place.removeprefix("centre-")))
    )


def _slit(chosen: Chosen) -> bool:
    return bool(chosen("neck.slit") not in ("none", "auto") or chosen("neck.shape") == "keyhole")


def _closes(chosen: Chosen) -> bool:
    """Whether there is something for the closure to close."""
    may: dict[Any, bool] = {
        "cuffs": SLEEVED(chosen),
        "neck slit": _slit(chosen),
        "shoulder": chosen("neck.opening") != "none",
        "centre-front": not any(split["place"] == "centre-front" for split in chosen("splits")),
    }
    return may.get(chosen("closures.at"), True)


def _banded(chosen: Chosen) -> bool:
    """Whether the place of the band is there, and its ring has a height."""
    at = chosen("bands.at")
    if at.endswith("ring") and chosen("bands.height") is None:
        return False
    may: dict[Any, bool] = {
        "neck slit": _slit(chosen),
        "cuffs": SLEEVED(chosen),
        "arm ring": SLEEVED(chosen),
        "upper arm ring": SLEEVED(chosen),
        "splits": bool(chosen("splits")),
        "shoulder seams": chosen("body.shoulder") == "seam",
        "gore seams": bool(chosen("gores")),
        "hem": all(gore.get("hem", "arc") == "arc" for gore in chosen("gores")),
        "side seams": PANELS(chosen) or all(gore["place"] != "side" for gore in chosen("gores")),
    }
    return may.get(at, at not in ("face", "edges", "waist"))


SLEEVED: Final = _is_not("sleeve.shape", "none")
PANELS: Final = _is("body.cut", "shoulder panels")
SHAPED: Final = _all(SLEEVED, lambda chosen: PANELS(chosen) or chosen("body.shoulder") == "seam")
APPLIES: Final[Mapping[str, Callable[[Chosen], bool]]] = {
    "charges": _is_not("charges.ordinary", None),
    "train": _is("length", "floor"),
    "body.flare": PANELS,
    "body.side_panel": PANELS,
    "body.shoulder_slope": _is("body.shoulder", "seam"),
    "neck.back": _is("neck.shape", "V"),
    "neck.slit": _is_not("neck.shape", "keyhole"),
    "neck.opening": _all(_is("body.shoulder", "seam"), lambda chosen: not _slit(chosen)),
    "neck.back_drop": _is_not("neck.shape", "square"),
    "neck.collar": _is("neck.shape", "round", "oval", "keyhole"),
    "neck.facing_width": _is_not("neck.facing", "none"),
    "sleeve.length": SLEEVED,
    "sleeve.cuff": _all(SLEEVED, _is_not("sleeve.shape", "straight")),
    "sleeve.gusset": SLEEVED,
    "sleeve.gusset_shape": SLEEVED,
    "sleeve.pieces": SLEEVED,
    "sleeve.seam": _all(SLEEVED, _is("sleeve.gusset", "none")),
    "sleeve.head": SHAPED,
    "sleeve.head_ease": _all(SHAPED, _is("sleeve.head", "shaped")),
    "sleeve.drop": _all(_is("sleeve.shape", "wide"), _is("growth", None)),
    "sleeve.elbow_gore": _all(
        SLEEVED, _is("sleeve.length", "wrist", "over-hand"), _is("growth", None), _is("sleeve.drop", 0.0)
    ),
    "gores.top": _in_a_seam,
    "closures.lap": _is_not("closures.by", "lacing"),
    "closures.size": _is("closures.by", "buttons", "loops"),
    "closures.buttons": _is("closures.by", "buttons"),
    "closures.to": _is("closures.at", "centre-front", "centre-back"),
    "closures": _closes,
    "bands.ends": _is_not("bands.make", "cloth", "bought"),
    "bands.turned": _is("bands.make", "cloth"),
    "bands.cut": _is("bands.make", "cloth"),
    "bands.corners": lambda chosen: chosen("bands.at") == "neck" and chosen("neck.shape") in ("rectangle", "square"),
    "bands.width": _is_not("bands.make", "cord"),
    "bands": _banded,
}
"""When an option, or an entry of a list, means something."""


def chosen_in(garment: Mapping[str, Any], of: str = "", entry: Mapping[str, Any] | None = None) -> Chosen:
    """Looks up what the [garment] table, its style or the default has of an option; ``entry``: of the list ``of``."""
    style = STYLES[garment.get("style", "tunic")]

    def chosen(path: str) -> Any:
        first, _, name = path.partition(".")
        fields = GarmentTable.model_fields
        if not name:
            return garment.get(first, style.get(first, fields[first].default))
        below = table_in(fields[first])
        assert below is not None
        usual = below.model_fields[name].default
        if first == of and entry is not None:
            return entry.get(name, usual)
        return garment.get(first, {}).get(name, style.get(first, {}).get(name, usual))

    return chosen
