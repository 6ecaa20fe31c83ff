"""What the sweep draws: the ranges of numbers, how many of each list, and which options go together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from ellwand.choose.form.applies import APPLIES, PANELS, chosen_in
from ellwand.choose.styles import STYLES
from ellwand.model.heraldry import LEVELLED, USUAL_COUNT
from ellwand.model.others import KINDS

RANGES: Final[Mapping[str, tuple[float, float]]] = {
    # lengths in cm on a body 170 tall; less on a shorter one
    "garment.length": (70, 150),
    "garment.blouse": (4, 25),
    "garment.belt": (70, 110),
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
    "cloth.bends_warp": (0.8, 5),
    "cloth.bends_weft": (0.8, 5),
    "cloth.bends_bias": (0.8, 5),
    "cloth.gives_warp": (0.2, 20),
    "cloth.gives_weft": (0.2, 20),
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


def make_sense(garment: dict[str, Any], height: float) -> None:
    """Take out what means nothing beside the rest, and bring gores and splits within the garment's length."""
    if garment.get("length") == "hip":
        garment["gores"] = []
    for gore in garment.get("gores", []):
        if gore["place"] in ("side-front", "side-back") and not PANELS(chosen_in(garment)):
            gore["place"] = "side"
    for key, place in (("splits", "place"), ("closures", "at"), ("bands", "at")):
        if key in garment:
            garment[key] = list({entry[place]: entry for entry in garment[key]}.values())
    for path, applies in APPLIES.items():
        first, _, name = path.partition(".")
        below = garment.get(first)
        if isinstance(below, list):
            for entry in tuple(below):
                if applies(chosen_in(garment, first, entry)):
                    continue
                if name:
                    entry.pop(name, None)
                else:
                    below.remove(entry)
            continue
        table, key = (below or {}, name) if name else (garment, first)
        if key in table and not applies(chosen_in(garment)):
            del table[key]
    cuff = garment.get("sleeve", {}).get("cuff", "auto")
    if chosen_in(garment)("sleeve.shape") == "wide" and cuff.endswith(" cm"):
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


SHARES: Final = {"hip": 0.5, "mid-thigh": 0.37, "knee": 0.28, "mid-calf": 0.16, "ankle": 0.045, "floor": 0.01}
"""Landmarks as shares of height; nape 0.86, waist 0.62: about, only to draw few that are refused."""


def _within_the_length(garment: dict[str, Any], height: float) -> None:
    length = chosen_in(garment)("length")
    hem = SHARES[length] * height if isinstance(length, str) and length in SHARES else 0.86 * height - _middle(length)
    waist, hip = 0.6 * height - hem, 0.5 * height - hem
    least = {"waist": 14.0, "hip": 24.0}
    gores = []
    for gore in chosen_in(garment)("gores"):
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
