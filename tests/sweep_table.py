"""What the sweep draws: the ranges of numbers, how many of each list, and which options go together."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.reference import _inner
from ellwand.choose.styles import STYLES
from ellwand.model.heraldry import LEVELLED, USUAL_COUNT
from ellwand.model.others import KINDS

RANGES: Final[Mapping[str, tuple[float, float]]] = {
    # lengths in cm on a body 170 tall; less on a shorter one
    "garment.length": (70, 150),
    "garment.blouse": (4, 25),
    "garment.train": (5, 60),
    "garment.over.thickness_mm": (0.5, 12),
    "garment.growth.months": (3, 36),
    "garment.body.ease": (2, 40),
    "garment.body.flare": (5, 60),
    "garment.body.pieced": (30, 70),
    "garment.body.back_longer": (2, 20),
    "garment.body.shoulder_slope": (1, 5),
    "garment.gores.start": (20, 95),
    "garment.gores.base": (8, 80),
    "garment.gores.top": (2, 8),
    "garment.sleeve.length": (15, 70),
    "garment.sleeve.cuff": (22, 38),
    "garment.sleeve.gusset": (4, 16),
    "garment.sleeve.head_ease": (0.5, 4),
    "garment.sleeve.drop": (5, 50),
    "garment.sleeve.elbow_gore": (6, 22),
    "garment.neck.ease": (0, 20),
    "garment.neck.front_drop": (7, 13),
    "garment.neck.back_drop": (1.5, 5),
    "garment.neck.facing_width": (3, 8),
    "garment.neck.collar": (2, 8),
    "garment.splits.height": (8, 70),
    "garment.closures.spacing": (1, 12),
    "garment.closures.overlap": (1, 6),
    "garment.closures.size": (0.6, 1.5),
    "garment.bands.height": (4, 14),
    "garment.bands.width": (0.5, 5),
    "garment.bands.turned": (0, 1.5),
    "garment.bands.ends": (4, 120),
    "garment.bands.wraps": (4, 20),
    "garment.bands.grams": (5, 100),
    "garment.bands.take_up": (0, 1),
    "garment.bands.loom_waste": (0, 100),
    "garment.date": (900, 1500),
    "garment.division.count": (3, 12),
    "garment.division.at": (20, 90),
    "garment.charges.width": (0.05, 0.5),
    "garment.charges.size": (0.05, 0.3),
    "garment.charges.number": (1, 6),
    "garment.hood.cape": (8, 40),
    "garment.hood.gore": (10, 45),
    "garment.hood.ease": (0, 10),
    "garment.hood.liripipe": (10, 120),
    "garment.hood.liripipe_width": (3, 8),
    "garment.cloak.length": (50, 140),
    "garment.cloak.width": (120, 350),
    "garment.coif.ease": (0, 5),
    "garment.apron.length": (35, 95),
    "garment.apron.width": (40, 180),
    "garment.breeches.length": (50, 95),
    "garment.breeches.ease": (6, 40),
    "garment.breeches.gusset": (6, 18),
    "garment.breeches.hem": (38, 70),
    "sewing.allowance": (0.7, 2.5),
    "sewing.hem": (1, 6),
    "sewing.chalk": (0.1, 1.3),
    "sewing.stitch": (0.1, 0.6),
    "sewing.overedge_constant": (3, 5),
    "sewing.timed.length": (20, 200),
    "sewing.timed.minutes": (3, 60),
    "cloth.width": (60, 180),
    "cloth.selvedge": (0, 2),
    "cloth.shrink_warp": (0, 0.1),
    "cloth.shrink_weft": (0, 0.05),
    "cloth.grams": (80, 600),
    "cloth.sold_by": (5, 100),
    "cloth.straighten": (0, 5),
    "cloth.spare": (1, 60),
    "cloth.thickness_mm": (0.2, 4),
    "cloth.gap": (0, 1.5),
    "cloth.table": (100, 300),
    "cloth.repeat.across": (1, 20),
    "cloth.repeat.along": (1, 20),
    "cloth.repeat.x": (0, 20),
    "cloth.repeat.y": (0, 20),
}
"""From the least to the most that is drawn of every number."""

LEFT_OUT: Final = frozenset(
    {"garment.region", "cloth.unit", "cloth.length", "cloth.price", "cloth.faults", "cloth.pieces", "cloth.remnants"}
    | {"garment.charges.motif", "garment.division.tinctures", "cloth.tincture", "garment.repeats"}
    | {"garment.bands.colour"}
    | {"sewing.large_type"}
)
"""What has no bearing on draft and proof."""
STYLE_WORDS: Final = (*(style for style in STYLES if style not in KINDS), *KINDS)
SEVERAL: Final[Mapping[str, tuple[int, int]]] = {
    "garment.gores": (0, 6),
    "garment.splits": (0, 2),
    "garment.closures": (0, 2),
    "garment.over": (0, 2),
    "garment.charges": (0, 2),
    "garment.bands": (0, 2),
}
"""How many of each list."""

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
    return alone and (
        place == "side" or (place.startswith("centre") and seam in ("both", place.removeprefix("centre-")))
    )


def _slit(chosen: Chosen) -> bool:
    return chosen("neck.slit") not in ("none", "auto") or chosen("neck.shape") == "keyhole"


def _closes(chosen: Chosen) -> bool:
    """Whether there is something for the closure to close."""
    return {
        "cuffs": SLEEVED(chosen),
        "neck slit": _slit(chosen),
        "shoulder": chosen("neck.opening") != "none",
        "centre-front": not any(split["place"] == "centre-front" for split in chosen("splits")),
    }.get(chosen("closures.at"), True)


def _banded(chosen: Chosen) -> bool:
    """Whether the place of the band is there, and its ring has a height."""
    at = chosen("bands.at")
    if at.endswith("ring") and chosen("bands.height") is None:
        return False
    return {
        "neck slit": _slit(chosen),
        "cuffs": SLEEVED(chosen),
        "arm ring": SLEEVED(chosen),
        "upper arm ring": SLEEVED(chosen),
        "splits": bool(chosen("splits")),
        "shoulder seams": chosen("body.shoulder") == "seam",
        "gore seams": bool(chosen("gores")),
        "hem": all(gore.get("hem", "arc") == "arc" for gore in chosen("gores")),
        "side seams": PANELS(chosen) or all(gore["place"] != "side" for gore in chosen("gores")),
    }.get(at, at not in ("face", "edges", "waist"))


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
"""When an option, or an entry of a list, means something; of ten garments one is drawn without asking."""


def make_sense(garment: dict[str, Any], height: float) -> None:
    """Take out what means nothing beside the rest, and bring gores and splits within the garment's length."""
    if garment.get("length") == "hip":
        garment["gores"] = []
    for gore in garment.get("gores", []):
        if gore["place"] in ("side-front", "side-back") and not PANELS(_chosen(garment)):
            gore["place"] = "side"
    for key, place in (("splits", "place"), ("closures", "at"), ("bands", "at")):
        if key in garment:
            garment[key] = list({entry[place]: entry for entry in garment[key]}.values())
    for path, applies in APPLIES.items():
        first, _, name = path.partition(".")
        below = garment.get(first)
        if isinstance(below, list):
            for entry in tuple(below):
                if applies(_chosen(garment, first, entry)):
                    continue
                if name:
                    entry.pop(name, None)
                else:
                    below.remove(entry)
            continue
        table, key = (below or {}, name) if name else (garment, first)
        if key in table and not applies(_chosen(garment)):
            del table[key]
    cuff = garment.get("sleeve", {}).get("cuff", "auto")
    if _chosen(garment)("sleeve.shape") == "wide" and cuff.endswith(" cm"):
        garment["sleeve"]["cuff"] = f"{2.5 * _middle(cuff):.1f} cm"
    _within_the_length(garment, height)


def of_two_tinctures(division: dict[str, Any]) -> None:
    """A division that can be read: which tinctures has no bearing on the pieces, stripes and gyrons are even."""
    by = division["by"]
    division["tinctures"] = ["gules", "or"]
    if by not in USUAL_COUNT:
        division.pop("count", None)
    if by not in LEVELLED:
        division.pop("at", None)
    if "count" in division and by not in ("chequy", "lozengy"):
        division["count"] += division["count"] % 2


def _chosen(garment: Mapping[str, Any], of: str = "", entry: Mapping[str, Any] | None = None) -> Chosen:
    style = STYLES[garment.get("style", "tunic")]

    def chosen(path: str) -> Any:
        first, _, name = path.partition(".")
        fields = GarmentTable.model_fields
        if not name:
            return garment.get(first, style.get(first, fields[first].default))
        below = _inner(fields[first])
        assert below is not None
        usual = below.model_fields[name].default
        if first == of and entry is not None:
            return entry.get(name, usual)
        return garment.get(first, {}).get(name, style.get(first, {}).get(name, usual))

    return chosen


SHARES: Final = {"hip": 0.5, "mid-thigh": 0.37, "knee": 0.28, "mid-calf": 0.16, "ankle": 0.045, "floor": 0.01}
"""Landmarks as shares of height; nape 0.86, waist 0.62: about, only to draw few that are refused."""


def _within_the_length(garment: dict[str, Any], height: float) -> None:
    length = _chosen(garment)("length")
    hem = SHARES[length] * height if isinstance(length, str) and length in SHARES else 0.86 * height - _middle(length)
    waist, hip = 0.6 * height - hem, 0.5 * height - hem
    least = {"waist": 14.0, "hip": 24.0}
    gores = []
    for gore in _chosen(garment)("gores"):
        start = gore.get("start", "hip")
        rise = {"waist": waist, "hip": hip}.get(start) or min(_middle(start), waist)
        if rise < least.get(start, 10.0):
            continue
        gore = dict(gore)
        if start not in least:
            gore["start"] = f"{rise:.1f} cm"
        base = gore.get("base", 40)
        if not isinstance(base, (list, tuple)):
            gore["base"] = f"{min(_middle(base), 1.2 * rise):.1f} cm"
        elif _middle(base[0]) > 1.2 * rise:
            gore["base"] = f"{1.2 * rise:.1f} cm"
        gores.append(gore)
    splits = garment.get("splits", [])
    opened = [split["place"] for split in splits] + [closure["at"] for closure in garment.get("closures", [])]
    garment["gores"] = gores
    for gore in gores:
        if gore["place"] in opened:
            gore["make"] = "halves"
    for split in splits:
        rise = {"hip": hip, "crotch": hip - 0.05 * height, "knee": 0.28 * height - hem}.get(split.get("height", "hip"))
        if rise is not None and rise < 5:
            split["height"] = "8.0 cm"


def _middle(length: Any) -> float:
    """Of a length or a range, in cm."""
    if isinstance(length, (list, tuple)):
        return (_middle(length[0]) + _middle(length[1])) / 2
    return float(str(length).removesuffix(" cm"))
