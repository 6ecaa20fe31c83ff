"""The lays against the cloth at hand, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, level, part, percent
from ellwand.language import N_, _, plural
from ellwand.model.finding import Finding
from ellwand.model.names import named

FLAT_BECAUSE: Final[Mapping[str, str]] = {
    "stripes": N_("stripes and checks are matched on a single layer"),
    "nap": N_("it would turn the nap of the upper layer the wrong way"),
    "faults": N_("where they fall under it is known only when the lay is done"),
    "narrow": N_("nothing can be cut double at half the size of the cloth"),
}
CUT_FROM: Final = frozenset(
    {N_("body"), N_("gores"), N_("sleeves"), N_("gussets"), N_("facings"), N_("collar"), N_("bands")}
)
"""What a cloth can be for."""
MOST_MOVES: Final = 4
"""So many places are told at most."""


def _enough(f: Finding, n: Numbers) -> str:
    told = {"length": n.cm(f.needed), "at_hand": n.cm(f.measured), "cloth": f.subject}
    if f.outcome == "sound":
        return _("The lay takes {length} of the {at_hand} of {cloth} cloth at hand.", **told)
    return _("The lay takes {length}, more than the {at_hand} of {cloth} cloth at hand.", **told)


def _fault(f: Finding, n: Numbers) -> str:
    told = {"x": n.of("x"), "y": n.of("y")}
    if f.outcome == "sound":
        return _("The fault {x} from the left selvedge, {y} from the cut end, falls between the pieces.", **told)
    return _(
        "The fault {x} from the left selvedge, {y} from the cut end, falls into {part}.",
        part=part(n.text("part")),
        **told,
    )


def _flat(f: Finding, n: Numbers) -> str:
    why = _(FLAT_BECAUSE[n.text("why")])
    if n.text("asked") == "lengthwise":
        return _("A lengthwise fold was asked for, but the cloth is laid flat: {why}.", why=why)
    return _("A crosswise fold was asked for, but the cloth is laid flat: {why}.", why=why)


def _left_overs(f: Finding, n: Numbers) -> str:
    used, count = round(n.number("used")), round(n.number("count"))
    if used == count:
        return _("The left-over piece is used.") if count == 1 else _("All the left-over pieces are used.")
    return plural(
        "{n} of the {count} left-over pieces is used; more would not save cloth.",
        "{n} of the {count} left-over pieces are used; more would not save cloth.",
        used,
        count=count,
    )


def _unused(f: Finding, n: Numbers) -> str:
    if n.text("why") == "stripes":
        return _("The left-over pieces are not used: where the stripes lie on them is not known.")
    return _("The left-over pieces are not used: no part that fits on them makes the lay shorter.")


def _not_needed(f: Finding, n: Numbers) -> str:
    if n.text("for") == "whatever has no cloth of its own":
        return _("The {cloth} cloth is for whatever has no cloth of its own; this garment has none.", cloth=f.subject)
    kinds = [_(kind) if kind in CUT_FROM else kind for kind in n.text("for").split(" and ")]
    said = kinds[0]
    for kind in kinds[1:]:
        said = _("{one} and {other}", one=said, other=kind)
    return _("The {cloth} cloth is for {what}; this garment has none.", cloth=f.subject, what=said)


def _table(f: Finding, n: Numbers) -> str:
    table, count = n.cm(f.measured), round(n.number("moves"))
    if not count:
        return _("The lay fits on the table of {table}.", table=table)
    at = [n.of(f"move{k + 1}") for k in range(count)]
    if count > MOST_MOVES:
        at = [*at[: MOST_MOVES - 1], _("so on")]
    places = _("{one} and {other}", one=", ".join(at[:-1]), other=at[-1]) if count > 1 else at[0]
    if f.outcome == "sound":
        return _(
            "On a table of {table} the cloth is moved along at {places}; no piece lies across.",
            table=table,
            places=places,
        )
    return _(
        "On a table of {table} the cloth is moved along at {places}; {part} lies across.",
        table=table,
        places=places,
        part=part(n.text("part")),
    )


def _stripes(f: Finding, n: Numbers) -> str:
    met, asked = round(n.number("met")), round(n.number("asked"))
    if f.outcome == "sound":
        return _("The pattern meets at all {count} straight seams along the grain.", count=asked)
    one, _and, other = n.text("seam").partition(" and ")
    return _(
        "The pattern meets at {met} of {count} straight seams along the grain; not between {one} and {other}.",
        met=met,
        count=asked,
        one=part(one),
        other=part(other),
    )


def _washed_sewn(f: Finding, n: Numbers) -> str:
    said = _(
        "The {cloth} cloth is washed only when it is sewn: it then shrinks by {warp} in length and {weft} in width, and"
        " the {piece} becomes {shorter} shorter",
        cloth=f.subject,
        warp=percent(n.number("warp")),
        weft=percent(n.number("weft")),
        piece=named(n.text("piece")),
        shorter=n.of("shorter"),
    )
    if f.measured is None:
        return f"{said}."
    where = level(n.text("at"))
    if f.outcome == "will not work":
        return _(
            "{first}; at the {where} it is then {much} too narrow for the body.",
            first=said,
            where=where,
            much=n.cm(-f.measured),
        )
    return _("{first}; at the {where} {much} of ease are left.", first=said, where=where, much=n.cm(f.measured))


ON_CLOTH_WHY: Final[Mapping[str, Say]] = {
    "cloth-enough": _enough,
    "cloth-fault": _fault,
    "cloth-laid-flat": _flat,
    "cloth-remnants-used": _left_overs,
    "cloth-remnants-unused": _unused,
    "cloth-not-needed": _not_needed,
    "cloth-table": _table,
    "cloth-stripes": _stripes,
    "cloth-washed-sewn": _washed_sewn,
}

ON_CLOTH_MEND: Final[Mapping[str, Say]] = {
    "cloth-enough": lambda f, n: _("Shorten or narrow the garment, or get more cloth."),
    "cloth-fault": lambda f, n: _("Move or turn that piece by hand, or patch the fault."),
    "cloth-laid-flat": lambda f, n: _("Lay the cloth flat and cut each piece singly."),
    "cloth-remnants-unused": lambda f, n: _("Cut small pieces from them by hand if you like."),
    "cloth-not-needed": lambda f, n: _("Leave that cloth out of the sheet."),
    "cloth-table": lambda f, n: _("Cut it as far as the table reaches and the rest after the move, or on the floor."),
    "cloth-washed-sewn": lambda f, n: _("Wash the cloth before it is cut."),
    "cloth-stripes": lambda f, n: _("Choose panels of equal width, or a length that the repeat divides."),
}
