"""The lays against the cloth at hand, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.model.finding import Finding

FLAT_BECAUSE: Final[Mapping[str, str]] = {
    "stripes": "stripes and checks are matched on a single layer",
    "nap": "it would turn the nap of the upper layer the wrong way",
    "faults": "where they fall under it is known only when the lay is done",
    "narrow": "nothing can be cut double at half the size of the cloth",
}

MOST_MOVES: Final = 4
"""So many places are told at most."""


def _fault(f: Finding, n: Numbers) -> str:
    where = f"The fault {n.of('x')} from the left selvedge, {n.of('y')} from the cut end, falls"
    return f"{where} between the pieces." if f.outcome == "sound" else f"{where} into {n.text('part')}."


def _left_overs(f: Finding, n: Numbers) -> str:
    used, count = round(n.number("used")), round(n.number("count"))
    if used == count:
        return "The left-over piece is used." if count == 1 else "All the left-over pieces are used."
    return f"{used} of the {count} left-over pieces {'is' if used == 1 else 'are'} used; more would not save cloth."


def _unused(f: Finding, n: Numbers) -> str:
    if n.text("why") == "stripes":
        return "The left-over pieces are not used: where the stripes lie on them is not known."
    return "The left-over pieces are not used: no part that fits on them makes the lay shorter."


def _table(f: Finding, n: Numbers) -> str:
    table, count = n.cm(f.measured), round(n.number("moves"))
    if not count:
        return f"The lay fits on the table of {table}."
    at = [n.of(f"move{k + 1}") for k in range(count)]
    if count > MOST_MOVES:
        at = [*at[: MOST_MOVES - 1], "so on"]
    places = ", ".join(at[:-1]) + " and " + at[-1] if count > 1 else at[0]
    moved = f"On a table of {table} the cloth is moved along at {places}"
    if f.outcome == "sound":
        return f"{moved}; no piece lies across."
    return f"{moved}; {n.text('part')} lies across."


def _stripes(f: Finding, n: Numbers) -> str:
    met, asked = round(n.number("met")), round(n.number("asked"))
    if f.outcome == "sound":
        return f"The pattern meets at all {asked} straight seams along the grain."
    return f"The pattern meets at {met} of {asked} straight seams along the grain; not between {n.text('seam')}."


def _washed_sewn(f: Finding, n: Numbers) -> str:
    warp, weft = f"{n.number('warp'):.0%}", f"{n.number('weft'):.0%}"
    said = (
        f"The {f.subject} cloth is washed only when it is sewn: it then shrinks by {warp} in length and {weft} in"
        f" width, and the {n.text('piece')} becomes {n.of('shorter')} shorter"
    )
    if f.measured is None:
        return f"{said}."
    if f.outcome == "will not work":
        return f"{said}; at the {n.text('at')} it is then {n.cm(-f.measured)} too narrow for the body."
    return f"{said}; at the {n.text('at')} {n.cm(f.measured)} of ease are left."


ON_CLOTH_WHY: Final[Mapping[str, Say]] = {
    "cloth-enough": lambda f, n: (
        f"The lay takes {n.cm(f.needed)} of the {n.cm(f.measured)} of {f.subject} cloth at hand."
        if f.outcome == "sound"
        else f"The lay takes {n.cm(f.needed)}, more than the {n.cm(f.measured)} of {f.subject} cloth at hand."
    ),
    "cloth-fault": _fault,
    "cloth-laid-flat": lambda f, n: (
        f"A {n.text('asked')} fold was asked for, but the cloth is laid flat: {FLAT_BECAUSE[n.text('why')]}."
    ),
    "cloth-remnants-used": _left_overs,
    "cloth-remnants-unused": _unused,
    "cloth-not-needed": lambda f, n: f"The {f.subject} cloth is for {n.text('for')}; this garment has none.",
    "cloth-table": _table,
    "cloth-stripes": _stripes,
    "cloth-washed-sewn": _washed_sewn,
}

ON_CLOTH_MEND: Final[Mapping[str, Say]] = {
    "cloth-enough": lambda f, n: "Shorten or narrow the garment, or get more cloth.",
    "cloth-fault": lambda f, n: "Move or turn that piece by hand, or patch the fault.",
    "cloth-laid-flat": lambda f, n: "Lay the cloth flat and cut each piece singly.",
    "cloth-remnants-unused": lambda f, n: "Cut small pieces from them by hand if you like.",
    "cloth-not-needed": lambda f, n: "Leave that cloth out of the sheet.",
    "cloth-table": lambda f, n: "Cut it as far as the table reaches and the rest after the move, or on the floor.",
    "cloth-washed-sewn": lambda f, n: "Wash the cloth before it is cut.",
    "cloth-stripes": lambda f, n: "Choose panels of equal width, or a length that the repeat divides.",
}
