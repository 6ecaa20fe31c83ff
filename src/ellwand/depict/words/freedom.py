"""The maker's freedom in words: what is put together another way, what stops a garment, what a cloth gives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, place
from ellwand.errors import InternalFault
from ellwand.language import N_, _
from ellwand.model.finding import Finding
from ellwand.model.freedom import Change, Limit, Stretched
from ellwand.units import Unit, format_length

CHANGES: Final[Mapping[str, str]] = {
    "shoulder-seam": N_("a shoulder seam"),
    "centre-seam-both": N_("a centre seam in front and back"),
    "centre-seam-front": N_("a centre seam in front"),
    "centre-seam-back": N_("a centre seam in the back"),
    "gores-halves": N_("the gores at the {where} in halves"),
    "gores-whole": N_("the gores at the {where} whole"),
    "gores-pieced": N_("the tips of the gores at the {where} pieced on"),
    "side-panels-in-two": N_("side panels in two halves"),
    "sleeves-in-two": N_("sleeves in two halves"),
    "gussets-in-two": N_("gussets of two triangles"),
    "panels-pieced": N_("nothing cut wider than {cm}, the rest pieced on in strips"),
}
SHEET: Final[Mapping[str, str]] = {
    "shoulder-seam": 'body.shoulder = "seam"',
    "centre-seam-both": 'body.centre_seam = "both"',
    "centre-seam-front": 'body.centre_seam = "front"',
    "centre-seam-back": 'body.centre_seam = "back"',
    "gores-halves": N_('make = "halves" for the gores at the {where}'),
    "gores-whole": N_('make = "whole" for the gores at the {where}'),
    "gores-pieced": N_('make = "pieced" for the gores at the {where}'),
    "side-panels-in-two": 'body.side_panel = "halves"',
    "sleeves-in-two": 'sleeve.pieces = "two"',
    "gussets-in-two": 'sleeve.gusset_shape = "triangles"',
    "panels-pieced": 'body.pieced = "{cm}"',
}
LIMITS: Final[Mapping[Limit, str]] = {
    "cloth": N_("more would take more cloth than there is"),
    "range": N_("the sheet allows no more"),
    "floor": N_("it reaches the floor"),
    "draft": N_("more cannot be cut so, or would not prove sound"),
    "count": N_("no more are counted"),
}


def changes_said(changes: Sequence[Change], unit: Unit) -> str:
    """What is put together another way: 'a shoulder seam; sleeves in two halves'; '' where nothing is."""
    return "; ".join(_said(CHANGES, change, unit) for change in changes)


def to_write(changes: Sequence[Change], unit: Unit) -> str:
    """How the sheet asks for it."""
    return ", ".join(_said(SHEET, change, unit) for change in changes)


def _said(table: Mapping[str, str], change: Change, unit: Unit) -> str:
    if change.code not in table:
        raise InternalFault(f"no words for {change.code}")
    return _(table[change.code], where=place(change.where), cm=format_length(change.cm, unit))


def put_together(changes: Sequence[Change]) -> str:
    """The changes as one value of a finding."""
    return " ".join(f"{change.code}:{change.where}:{change.cm:g}" for change in changes)


def _together(f: Finding, n: Numbers) -> str:
    changes = []
    for each in n.text("changes").split():
        code, where, cm = each.split(":")
        changes.append(Change(code, where, float(cm)))
    return _(
        "Put together to save cloth, as the sheet leaves open: {how}: {saved} less, the same garment when sewn.",
        how=changes_said(changes, n.unit),
        saved=n.cm((f.needed or 0.0) - (f.measured or 0.0)),
    )


FREEDOM_WHY: Final[Mapping[str, Say]] = {"put-together": _together}


def stretched_said(found: Stretched, unit: Unit) -> list[str]:
    """What the cloth gives: a sentence, what is used and left, what limits it, how near that is to what can be had."""

    def cm(value: float) -> str:
        return format_length(value, unit)

    margin, over = _("No lay could give more."), found.most - found.value
    if found.aim == "most":
        count, most = round(found.value), round(found.most)
        gives = _("The most: {count} of them.", count=count) if count > 1 else _("The most: one of them.")
        if most > count:
            margin = _("No lay could give more than {most}.", most=most)
    elif found.aim == "longest":
        gives = _("The longest: {length} from the shoulder line to the hem.", length=cm(found.value))
    else:
        bases = ", ".join(f"{place(where)} {cm(base)}" for where, base in found.bases)
        gives = _("The fullest: {sweep} round the hem (gores at the {bases}).", sweep=cm(found.value), bases=bases)
    if found.aim != "most" and over > 0.05:
        margin = _("No lay could give more than {over} more.", over=cm(over))
    lines = [
        gives,
        _(
            "It takes {used} of the {at_hand} on the table; {left} is left.",
            used=cm(found.used),
            at_hand=cm(found.at_hand),
            left=cm(found.left),
        ),
    ]
    why = _(LIMITS[found.limit])
    if found.limit == "cloth" and found.next_needs > found.at_hand:
        why = _("the next larger takes {length}", length=cm(found.next_needs))
    limited = _("What limits it: {why}.", why=why)
    lines.append(f"{limited} {margin}" if found.limit == "cloth" else limited)
    if found.changes:
        lines.append(_("It is put together with {changes}.", changes=changes_said(found.changes, unit)))
    return lines
