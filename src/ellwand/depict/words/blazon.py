"""The field in words: its blazon, and the same in plain English."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.depict.words.blazon_words import (
    AT,
    BANDS,
    ORDERED,
    PARTED,
    PARTED_IN_FOUR,
    PARTITIONS,
    PLAIN_AT,
    PLAIN_ORDERED,
    SEVERAL,
)
from ellwand.depict.words.repeats import motif_named
from ellwand.depict.words.step_asking import listed, paired
from ellwand.language import N_, _
from ellwand.model.draft import Draft
from ellwand.model.heraldry import (
    USUAL_COUNT,
    Charge,
    Division,
    Face,
    Ordinary,
    Partition,
    Tincture,
)
from ellwand.model.names import named

PLAIN: Final[Mapping[Tincture, str]] = {
    "or": N_("yellow"),
    "argent": N_("white"),
    "gules": N_("red"),
    "azure": N_("blue"),
    "sable": N_("black"),
    "vert": N_("green"),
    "purpure": N_("purple"),
    "tenné": N_("orange-brown"),
    "sanguine": N_("dark red"),
}
"""What cloth of that tincture is called in a shop."""
COUNTS: Final = (
    "no",
    N_("one"),
    N_("two"),
    N_("three"),
    N_("four"),
    N_("five"),
    N_("six"),
    N_("seven"),
    N_("eight"),
    N_("nine"),
    N_("ten"),
    N_("eleven"),
    N_("twelve"),
    N_("thirteen"),
    N_("fourteen"),
    N_("fifteen"),
    N_("sixteen"),
    N_("seventeen"),
    N_("eighteen"),
    N_("nineteen"),
    N_("twenty"),
    N_("twenty-one"),
    N_("twenty-two"),
    N_("twenty-three"),
    N_("twenty-four"),
)
"""As many as a field may be divided in."""
HATCHED: Final[Mapping[Tincture, str]] = {
    "or": N_("dots"),
    "argent": N_("left white"),
    "gules": N_("upright lines"),
    "azure": N_("level lines"),
    "sable": N_("upright and level lines"),
    "vert": N_("lines that fall to the right"),
    "purpure": N_("lines that rise to the right"),
    "tenné": N_("level and rising lines"),
    "sanguine": N_("rising and falling lines"),
}
"""How each is drawn in black and white."""
BETWEEN: Final[Mapping[Ordinary, tuple[int, ...]]] = {"fess": (2, 3), "chevron": (3,), "cross": (4,), "saltire": (4,)}
"""Ordinaries that lie between so many motifs, set in their usual order."""
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
        said = _plain_charge(charge)
        if charge.on_charge:
            said = _("{charge}, on the {other}", charge=said, other=motif_named(charge.on_charge))
        parts.append(said)
    said = "; ".join(parts)
    return said[:1].upper() + said[1:]


def hatching_key(draft: Draft) -> str:
    """What the hatching of the views means: 'gules (red): upright lines; or (yellow): dots'; '' without any."""
    field = draft.adornment.field
    shown = [*(field.division.tinctures if field else ()), *(charge.tincture for charge in draft.adornment.charges)]
    return "; ".join(f"{named(name)} ({_(PLAIN[name])}): {_(HATCHED[name])}" for name in dict.fromkeys(shown))


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
    by, tinctures = _(PARTITIONS[division.by]), listed([named(each) for each in division.tinctures])
    if _is_told(division):
        count = _(COUNTS[division.count])
        return _("{division} of {count} {tinctures}", division=by, count=count, tinctures=tinctures)
    return _("{division} {tinctures}", division=by, tinctures=tinctures)


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
            borne = paired([_borne(charges, j, on) for j in carried])
            said = _("on {charge} {borne}", charge=said, borne=borne)
        elif beside is not None:
            taken.add(beside)
            said = _("{charge} between {others}", charge=said, others=_one(charges[beside]))
        out.append(said)
    return out


def _borne(charges: Sequence[Charge], j: int, on: Mapping[int, int | None]) -> str:
    """A charge that lies on another, with what lies on it in turn."""
    over = [k for k in on if on[k] == j]
    said = _one(charges[j], placed=False)
    if not over:
        return said
    return _("{charge} charged with {borne}", charge=said, borne=paired([_borne(charges, k, on) for k in over]))


def _carried_by(charges: Sequence[Charge], j: int) -> int | None:
    """Which charge another lies on: the last of that name before it."""
    on = charges[j].on_charge
    return next((i for i in range(j - 1, -1, -1) if on and charges[i].name == on), None)


def _lies_by(charge: Charge, ordinary: Ordinary | None) -> bool:
    """Whether the ordinary lies between those."""
    return bool(ordinary and charge.chosen.ordinary is None and charge.chosen.number in BETWEEN.get(ordinary, ()))


def _one(charge: Charge, *, placed: bool = True) -> str:
    chosen, tincture = charge.chosen, named(charge.tincture)
    if chosen.ordinary:
        return _("a {charge} {tincture}", charge=named(chosen.ordinary), tincture=tincture)
    if chosen.number == 1:
        words = N_("an {charge} {tincture}") if charge.name[:1] in VOWELS else N_("a {charge} {tincture}")
        said = _(words, charge=motif_named(charge.name), tincture=tincture)
        return f"{said} {_(AT[chosen.place])}" if placed and AT[chosen.place] else said
    said = _(
        "{count} {charges} {tincture}", count=_(COUNTS[chosen.number]), charges=_several(charge.name), tincture=tincture
    )
    return f"{said} {_(ORDERED[chosen.number])}" if chosen.number in ORDERED else said


VOWELS: Final = "aeiou"


def _several(name: str) -> str:
    """'crosses couped', 'fleurs' …: the first word takes the ending."""
    first, space, rest = name.partition(" ")
    es = first.endswith(("s", "x"))
    known = f"{first}{'es' if es else 's'}{space}{rest}"
    if known in SEVERAL:
        return _(known)
    return _(N_("{charge}es{rest}") if es else N_("{charge}s{rest}"), charge=first, rest=f"{space}{rest}")


def _parted(division: Division) -> str:
    names = [_(PLAIN[tincture]) for tincture in division.tinctures]
    said = dict(zip(("one", "two", "three", "four"), names, strict=False))
    if len(names) == 4:
        return _(PARTED_IN_FOUR[division.by], **said)
    count = division.count or USUAL_COUNT.get(division.by, 0)
    return _(PARTED[division.by], **said, count=_(COUNTS[count]))


def _plain_charge(charge: Charge) -> str:
    chosen = charge.chosen
    colour = _(PLAIN[charge.tincture])
    if chosen.ordinary:
        return f"{_(BANDS[chosen.ordinary])}, {colour}"
    if chosen.number == 1:
        words = N_("a {colour} {charge} {place}")
        if PLAIN[charge.tincture][:1] in VOWELS:
            words = N_("an {colour} {charge} {place}")
        return _(words, colour=colour, charge=motif_named(charge.name), place=_(PLAIN_AT[chosen.place]))
    return _(
        "{count} {colour} {charges}, {order}",
        count=_(COUNTS[chosen.number]),
        colour=colour,
        charges=_several(charge.name),
        order=_(PLAIN_ORDERED[chosen.number]),
    )
