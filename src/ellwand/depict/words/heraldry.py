"""Charges in words: where each is chalked and how it is sewn on; and the rule of tincture."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from ellwand.depict.words.repeats import motif_named
from ellwand.depict.words.saying import Numbers, Say
from ellwand.depict.words.step_asking import joined, listed, paired
from ellwand.geometry.lines import Line, Point, bounds, mirror
from ellwand.language import N_, _
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding
from ellwand.model.heraldry import METALS, Charge, Face
from ellwand.model.motif import Region
from ellwand.model.names import named
from ellwand.model.neckline import necklines, slit_span
from ellwand.units import Unit, format_length

COLOURS: Final = ("gules", "azure", "sable", "vert")
SHARP: Final = 25.0
"""Where an outline turns by more (degrees), there is a corner to chalk."""
TOUCH: Final = 0.01
"""Pieces nearer to each other than this (cm) touch."""
FREE: Final = 1.0
"""What a charge leaves free beside the neck (cm)."""
NEAR_NECK: Final = 1.6
"""Corners so near to the neck (cm) are not chalked one by one: there the outline follows the neck."""


def placings(draft: Draft, unit: Unit) -> list[str]:
    """Where to chalk each charge, one phrase each; charges alike on front and back share one."""
    half = draft.dimensions.panel_width / 2
    necks = necklines(draft) if draft.adornment.charges else {}
    said: dict[str, list[Face]] = {}
    for charge in draft.adornment.charges:
        said.setdefault(_placing(charge, half, _neck(draft, charge.face, necks), unit), []).append(charge.face)
    faces = len({charge.face for charge in draft.adornment.charges})
    if faces == 1:
        return list(said)
    return [f"{text} ({listed([_(ON[face]) for face in on])})" for text, on in said.items()]


ON: Final[Mapping[Face, str]] = {"front": N_("front"), "back": N_("back")}


def _neck(draft: Draft, face: Face, necks: Mapping[Face, Line]) -> list[Line]:
    """The neck of a face and its slit, as lines."""
    size, slit = draft.dimensions, draft.choices.neck.slit
    neck = necks[face]
    lines: list[Line] = [neck, mirror(neck)]
    if size.neck_slit and face == ("back" if slit == "back" else "front"):
        out = max(x for x, _ in neck)
        low, high = min(y for _, y in neck) - size.neck_slit, max(y for _, y in neck)
        lines += [((x, high), (x, low)) for x in slit_span(draft, out)]
    return lines


def _at_neck(at: Point, neck: Sequence[Line]) -> bool:
    from shapely.geometry import LineString
    from shapely.geometry import Point as Spot

    return any(LineString(line).distance(Spot(at)) < NEAR_NECK for line in neck)


def _placing(charge: Charge, half: float, neck: Sequence[Line], unit: Unit) -> str:
    """Where a charge lies: up from the hem, and from the centre line to the wearer's right or left."""
    name, tincture = motif_named(charge.name), named(charge.tincture)
    if charge.chosen.ordinary is None:
        middles = [_middle(region.ring for region in regions) for regions in _copies(charge)]
        words = N_("the {charge} {tincture}, middles {places}")
        if len(middles) == 1:
            words = N_("the {charge} {tincture}, middle {places}")
        return _(words, charge=name, tincture=tincture, places=listed(_spots(middles, charge.face, half, unit)))
    found = [_corners(region.ring) for region in charge.regions]
    kept = [[at for at in corners if not _at_neck(at, neck)] for corners in found]
    spots = [_spots(corners, charge.face, half, unit) for corners in kept if corners]
    first, *later = map(listed, spots)
    places = "; ".join([first, *(_("then {places}", places=each) for each in later)])
    return _(
        "the {charge} {tincture}, corners {places}{free}",
        charge=name,
        tincture=tincture,
        places=places,
        free=_(", {length} free at the neck", length=_near(FREE, unit)) if kept != found else "",
    )


def _copies(charge: Charge) -> list[tuple[Region, ...]]:
    """The regions of each motif; each region for itself where what lay in the way has parted some."""
    each, rest = divmod(len(charge.regions), charge.chosen.number)
    each = 1 if rest else each
    return [charge.regions[i : i + each] for i in range(0, len(charge.regions), each)]


def _spots(points: Sequence[Point], face: Face, half: float, unit: Unit) -> list[str]:
    """Points from the top down; two that lie level, as far to the right as to the left, are told together."""
    out: dict[str, None] = {}
    for x, y in sorted(points, key=lambda p: (-round(p[1], 1), p[0])):
        twin = abs(x) > 0.05 and any(abs(a + x) < 0.05 and abs(b - y) < 0.05 for a, b in points)
        # at the viewer's left of the front lies the wearer's right
        right = (x < 0) == (face == "front")
        if abs(x) < 0.05:
            where = N_("{height} up on the centre line")
        elif abs(abs(x) - half) < 0.05:
            at_edge = N_("{height} up at the right edge") if right else N_("{height} up at the left edge")
            where = N_("{height} up at both edges") if twin else at_edge
        else:
            at_hand = N_("{height} up {length} to the right") if right else N_("{height} up {length} to the left")
            where = N_("{height} up {length} to both sides") if twin else at_hand
        out[_(where, height=_near(y, unit), length=_near(abs(x), unit))] = None
    return list(out)


def _near(cm: float, unit: Unit) -> str:
    return format_length(round(cm, 1) if unit == "cm" else cm, unit)


def _middle(rings: Iterable[Line]) -> Point:
    x0, y0, x1, y1 = bounds(point for ring in rings for point in ring)
    return (x0 + x1) / 2, (y0 + y1) / 2


def _turns(ring: Line) -> list[tuple[Point, float]]:
    """The points of a ring with how far it turns there (degrees), below 0 where a counter-clockwise ring is hollow."""
    out = []
    for (ax, ay), at, (cx, cy) in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        ux, uy, vx, vy = at[0] - ax, at[1] - ay, cx - at[0], cy - at[1]
        out.append((at, math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))))
    return out


def _corners(ring: Line) -> list[Point]:
    return [at for at, turn in _turns(ring) if abs(turn) > SHARP]


def _meet(charge: Charge) -> bool:
    """Whether some of a charge's pieces lie beside each other without a gap."""
    from shapely import STRtree
    from shapely.geometry import Polygon

    shapes = [Polygon(region.ring) for region in charge.regions]
    first, second = STRtree(shapes).query(shapes, predicate="dwithin", distance=TOUCH)
    return any(i < j for i, j in zip(first, second, strict=True))


def sewing_on(draft: Draft, unit: Unit) -> str:
    """The step that sews the charges on, while front and back still lie flat."""
    charges = draft.adornment.charges
    rings = [ring for charge in charges for region in charge.regions for ring in (region.ring, *region.holes)]
    turns = [turn for ring in rings for _, turn in _turns(ring)]
    caught = any(charge.caught for charge in charges)
    press = _("Press their allowances under along the stitching line")
    press += _(", but not where an end goes into a seam") if caught else ""
    press += _("; fold sharp corners in first, then both sides over them") if max(turns) > SHARP else ""
    press += _("; clip hollow corners and curves almost to the line") if min(turns) < -0.1 else ""
    how = [_("what lies on another charge after that one")] if any(charge.on_charge for charge in charges) else []
    how += [_("pieces of one charge edge to edge")] if any(map(_meet, charges)) else []
    return joined(
        _("Chalk on the right side, up from the finished hem, right and left as worn:"),
        f"{'; '.join(placings(draft, unit))}.",
        f"{press}.",
        _(
            "Pin each from its middle outward{how} and hem it down all round, taking the pins out as you go.",
            how=f" ({'; '.join(how)})" if how else "",
        ),
        _("Baste the ends at the edges: the seams there catch them.") if caught else "",
    )


# --- the rule of tincture ---------------------------------------------------------------------------------


def _upon(n: Numbers) -> str:
    charge, tincture = motif_named(n.text("charge")), named(n.text("tincture"))
    beneath = paired([named(each) for each in n.text("upon").split(" and ")])
    if other := motif_named(n.text("on")):
        words = N_("The {charge} {tincture} lies on the {other} {beneath}")
        return _(words, charge=charge, tincture=tincture, other=other, beneath=beneath)
    return _("The {charge} {tincture} lies on a field of {beneath}", charge=charge, tincture=tincture, beneath=beneath)


def _rule(f: Finding, n: Numbers) -> str:
    metal = n.text("kind") == "metal"
    if f.outcome != "sound":
        rule = (
            _("metal on metal, which heralds avoid, as it is hard to tell from afar. A hint only.")
            if metal
            else _("colour on colour, which heralds avoid, as it is hard to tell from afar. A hint only.")
        )
    elif n.text("both"):
        rule = (
            _("metal on metal and colour at once, which is allowed.")
            if metal
            else _("colour on metal and colour at once, which is allowed.")
        )
    else:
        rule = _("metal on colour.") if metal else _("colour on metal.")
    return f"{_upon(n)}: {rule}"


def _lost(f: Finding, n: Numbers) -> str:
    if n.text("upon") == n.text("tincture"):
        return _("{what}, and cannot be seen there.", what=_upon(n))
    return _("{what}, and cannot be seen where both are alike.", what=_upon(n))


def _mended(f: Finding, n: Numbers) -> str:
    beneath = n.text("upon").split(" and ")
    metal = n.text("kind") != "metal"
    good = [f'tincture = "{name}"' for name in (METALS if metal else COLOURS) if name not in beneath]
    if not good:
        return _("Choose another tincture for it or for the field.")
    keys = _("{one} or {other}", one=good[0], other=good[1].removeprefix("tincture = ")) if len(good) > 1 else good[0]
    if metal:
        return _("Choose a metal for it, as {keys}.", keys=keys)
    return _("Choose a colour for it, as {keys}.", keys=keys)


TINCTURE_WHY: Final[Mapping[str, Say]] = {"tincture-rule": _rule, "tincture-lost": _lost}
TINCTURE_MEND: Final[Mapping[str, Say]] = {"tincture-rule": _mended, "tincture-lost": _mended}
