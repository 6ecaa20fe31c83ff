"""The field in words: its blazon, and the same in plain English."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.heraldry import (
    USUAL_COUNT,
    Charge,
    Division,
    Face,
    FieldPoint,
    Ordinary,
    Partition,
    Tincture,
)

PLAIN: Final[Mapping[Tincture, str]] = {
    "or": "yellow",
    "argent": "white",
    "gules": "red",
    "azure": "blue",
    "sable": "black",
    "vert": "green",
    "purpure": "purple",
    "tenné": "orange-brown",
    "sanguine": "dark red",
}
"""What cloth of that tincture is called in a shop."""
COUNTS: Final = (
    *("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
    *("twenty-one", "twenty-two", "twenty-three", "twenty-four"),
)
"""As many as a field may be divided in."""
HATCHED: Final[Mapping[Tincture, str]] = {
    "or": "dots",
    "argent": "left white",
    "gules": "upright lines",
    "azure": "level lines",
    "sable": "upright and level lines",
    "vert": "lines that fall to the right",
    "purpure": "lines that rise to the right",
    "tenné": "level and rising lines",
    "sanguine": "rising and falling lines",
}
"""How each is drawn in black and white."""
AT: Final[Mapping[FieldPoint, str]] = {
    "dexter chief": "in dexter chief",
    "middle chief": "in chief",
    "sinister chief": "in sinister chief",
    "honour point": "at the honour point",
    "fess point": "",
    "nombril point": "at the nombril point",
    "dexter base": "in dexter base",
    "middle base": "in base",
    "sinister base": "in sinister base",
}
PLAIN_AT: Final[Mapping[FieldPoint, str]] = {
    "dexter chief": "high on the right as worn",
    "middle chief": "high in the middle",
    "sinister chief": "high on the left as worn",
    "honour point": "above the middle",
    "fess point": "in the middle",
    "nombril point": "below the middle",
    "dexter base": "low on the right as worn",
    "middle base": "low in the middle",
    "sinister base": "low on the left as worn",
}
ORDERED: Final[Mapping[int, str]] = {2: "in pale", 4: "two and two", 5: "in saltire", 6: "three, two and one"}
PLAIN_ORDERED: Final[Mapping[int, str]] = {
    2: "one above the other",
    3: "two above one",
    4: "two above two",
    5: "two, one and two",
    6: "three, two and one",
}
BETWEEN: Final[Mapping[Ordinary, tuple[int, ...]]] = {"fess": (2, 3), "chevron": (3,), "cross": (4,), "saltire": (4,)}
"""Ordinaries that lie between so many motifs, set in their usual order."""
BANDS: Final[Mapping[str, str]] = {
    "chief": "a band across the top",
    "pale": "an upright band down the middle",
    "fess": "a level band across the middle",
    "bend": "a slanting band from the right shoulder to the left foot, as worn",
    "bend sinister": "a slanting band from the left shoulder to the right foot, as worn",
    "chevron": "a band bent like a gable",
    "cross": "an upright cross from edge to edge",
    "saltire": "a slanting cross from corner to corner",
    "pile": "a wedge from the top, its point down",
    "bordure": "a border all round",
}
PARTED: Final[Mapping[Partition, str]] = {
    "per pale": "the right half {0}, the left half {1}, as worn",
    "per fess": "the upper half {0}, the lower half {1}",
    "quarterly": "in quarters: upper right and lower left {0}, the other two {1}, as worn",
    "per bend": "parted from the right shoulder to the left foot as worn: above it {0}, below it {1}",
    "per bend sinister": "parted from the left shoulder to the right foot as worn: above it {0}, below it {1}",
    "per chevron": "parted like a gable: above it {0}, below it {1}",
    "per saltire": "parted crosswise from corner to corner: top and bottom {0}, the sides {1}",
    "gyronny": "{count} wedges about the middle, {0} and {1} in turn",
    "paly": "{count} upright stripes, {0} and {1} in turn, {0} on the right as worn",
    "barry": "{count} level stripes, {0} and {1} in turn, {0} at the top",
    "bendy": "{count} stripes that slant from the right shoulder to the left foot as worn, {0} and {1} in turn",
    "chequy": "checks, {count} across, {0} and {1} in turn",
    "lozengy": "lozenges, {count} across, {0} and {1} in turn",
}
PARTED_IN_FOUR: Final[Mapping[Partition, str]] = {
    "quarterly": "in quarters, as worn: upper right {0}, upper left {1}, lower right {2}, lower left {3}",
    "per saltire": "parted from corner to corner, as worn: top {0}, right side {1}, left side {2}, bottom {3}",
}
TOLD: Final[tuple[Partition, ...]] = ("gyronny", "paly", "barry", "bendy")
"""Partitions whose number is part of the blazon where it is not the usual one."""


def blazon(division: Division | None, charges: Sequence[Charge]) -> str:
    """The arms of one face, as a manual would say them: 'Per pale gules and or, a fess sable'."""
    field = _field(division) if division else ""
    said = ", ".join([*([field] if field else []), *_charges(charges)])
    return said[:1].upper() + said[1:]


def plainly(division: Division | None, charges: Sequence[Charge]) -> str:
    """The same for who has never read a blazon."""
    parts = [_parted(division)] if division else []
    for charge in charges:
        on = f", on the {charge.on_charge}" if charge.on_charge else ""
        parts.append(f"{_plain_charge(charge)}{on}")
    said = "; ".join(parts)
    return said[:1].upper() + said[1:]


def hatching_key(draft: Draft) -> str:
    """What the hatching of the views means: 'gules (red): upright lines; or (yellow): dots'; '' without any."""
    field = draft.adornment.field
    shown = [*(field.division.tinctures if field else ()), *(charge.tincture for charge in draft.adornment.charges)]
    return "; ".join(f"{name} ({PLAIN[name]}): {HATCHED[name]}" for name in dict.fromkeys(shown))


def arms(draft: Draft) -> list[tuple[str, str, str]]:
    """(which face, blazon, plain words) of the garment; one row where front and back are alike, none without any."""
    field = draft.adornment.field
    division = field.division if field else None
    faces: tuple[Face, ...] = ("front", "back")
    own = {face: [charge for charge in draft.adornment.charges if charge.face == face] for face in faces}
    rows = [(face, blazon(division, own[face]), plainly(division, own[face])) for face in faces]
    if rows[0][1:] == rows[1][1:]:
        rows = [("front and back", *rows[0][1:])]  # type: ignore[list-item]
    return [row for row in rows if row[1]]


def _field(division: Division) -> str:
    count = f" of {COUNTS[division.count]}" if _is_told(division) else ""
    *most, last = division.tinctures
    return f"{division.by}{count} {', '.join(most)} and {last}"


def _is_told(division: Division) -> bool:
    return division.by in TOLD and division.count not in (0, USUAL_COUNT.get(division.by))


def _charges(charges: Sequence[Charge]) -> list[str]:
    """Each charge, or an ordinary together with what it lies between or carries; chiefs and bordures last."""
    last = ("chief", "bordure")
    on = {j: _carried_by(charges, j) for j in range(len(charges))}
    order = sorted(on, key=lambda i: charges[i].chosen.ordinary in last)
    out: list[str] = []
    taken = {j for j, i in on.items() if i is not None}
    for i in order:
        if i in taken:
            continue
        said, ordinary = _one(charges[i]), charges[i].chosen.ordinary
        carried = [j for j in on if on[j] == i]
        beside = next(
            (j for j in range(i + 1, len(charges)) if j not in taken and _lies_by(charges[j], ordinary)), None
        )
        if carried:
            said = f"on {said} {' and '.join(_borne(charges, j, on) for j in carried)}"
        elif beside is not None:
            taken.add(beside)
            said = f"{said} between {_one(charges[beside])}"
        out.append(said)
    return out


def _borne(charges: Sequence[Charge], j: int, on: Mapping[int, int | None]) -> str:
    """A charge that lies on another, with what lies on it in turn."""
    over = [k for k in on if on[k] == j]
    charged = f" charged with {' and '.join(_borne(charges, k, on) for k in over)}" if over else ""
    return _one(charges[j], placed=False) + charged


def _carried_by(charges: Sequence[Charge], j: int) -> int | None:
    """Which charge another lies on: the last of that name before it."""
    on = charges[j].on_charge
    return next((i for i in range(j - 1, -1, -1) if on and charges[i].name == on), None)


def _lies_by(charge: Charge, ordinary: Ordinary | None) -> bool:
    """Whether the ordinary lies between those."""
    return bool(ordinary and charge.chosen.ordinary is None and charge.chosen.number in BETWEEN.get(ordinary, ()))


def _one(charge: Charge, *, placed: bool = True) -> str:
    chosen = charge.chosen
    if chosen.ordinary:
        return f"a {chosen.ordinary} {charge.tincture}"
    if chosen.number == 1:
        at = f" {AT[chosen.place]}" if placed and AT[chosen.place] else ""
        return f"{_article(charge.name)} {charge.name} {charge.tincture}{at}"
    ordered = f" {ORDERED[chosen.number]}" if chosen.number in ORDERED else ""
    return f"{COUNTS[chosen.number]} {_plural(charge.name)} {charge.tincture}{ordered}"


def _article(name: str) -> str:
    return "an" if name[:1] in "aeiou" else "a"


def _plural(name: str) -> str:
    """'crosses couped', 'fleurs' …: the first word takes the ending."""
    first, *rest = name.split(" ")
    return " ".join([first + ("es" if first.endswith(("s", "x")) else "s"), *rest])


def _parted(division: Division) -> str:
    names = [PLAIN[tincture] for tincture in division.tinctures]
    if len(names) == 4:
        return PARTED_IN_FOUR[division.by].format(*names)
    count = division.count or USUAL_COUNT.get(division.by, 0)
    return PARTED[division.by].format(*names, count=COUNTS[count])


def _plain_charge(charge: Charge) -> str:
    chosen = charge.chosen
    colour = PLAIN[charge.tincture]
    if chosen.ordinary:
        return f"{BANDS[chosen.ordinary]}, {colour}"
    if chosen.number == 1:
        return f"{_article(colour)} {colour} {charge.name} {PLAIN_AT[chosen.place]}"
    return f"{COUNTS[chosen.number]} {colour} {_plural(charge.name)}, {PLAIN_ORDERED[chosen.number]}"
