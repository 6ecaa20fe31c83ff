"""The maker's freedom in words: what is put together another way, what stops a garment, what a cloth gives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.depict.words.saying import PLACES, Numbers, Say
from ellwand.errors import InternalFault
from ellwand.model.finding import Finding
from ellwand.model.freedom import Change, Limit, Stretched
from ellwand.units import Unit, format_length

CHANGES: Final[Mapping[str, str]] = {
    "shoulder-seam": "a shoulder seam",
    "centre-seam-both": "a centre seam in front and back",
    "centre-seam-front": "a centre seam in front",
    "centre-seam-back": "a centre seam in the back",
    "gores-halves": "the gores at the {where} in halves",
    "gores-whole": "the gores at the {where} whole",
    "gores-pieced": "the tips of the gores at the {where} pieced on",
    "side-panels-in-two": "side panels in two halves",
    "sleeves-in-two": "sleeves in two halves",
    "gussets-in-two": "gussets of two triangles",
    "panels-pieced": "nothing cut wider than {cm}, the rest pieced on in strips",
}
SHEET: Final[Mapping[str, str]] = {
    "shoulder-seam": 'body.shoulder = "seam"',
    "centre-seam-both": 'body.centre_seam = "both"',
    "centre-seam-front": 'body.centre_seam = "front"',
    "centre-seam-back": 'body.centre_seam = "back"',
    "gores-halves": 'make = "halves" for the gores at the {where}',
    "gores-whole": 'make = "whole" for the gores at the {where}',
    "gores-pieced": 'make = "pieced" for the gores at the {where}',
    "side-panels-in-two": 'body.side_panel = "halves"',
    "sleeves-in-two": 'sleeve.pieces = "two"',
    "gussets-in-two": 'sleeve.gusset_shape = "triangles"',
    "panels-pieced": 'body.pieced = "{cm}"',
}
LIMITS: Final[Mapping[Limit, str]] = {
    "cloth": "more would take more cloth than there is",
    "range": "the sheet allows no more",
    "floor": "it reaches the floor",
    "draft": "more cannot be cut so, or would not prove sound",
    "count": "no more are counted",
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
    where = PLACES.get(change.where, change.where)
    return table[change.code].format(where=where, cm=format_length(change.cm, unit))


def put_together(changes: Sequence[Change]) -> str:
    """The changes as one value of a finding."""
    return " ".join(f"{change.code}:{change.where}:{change.cm:g}" for change in changes)


def _together(f: Finding, n: Numbers) -> str:
    changes = []
    for each in n.text("changes").split():
        code, where, cm = each.split(":")
        changes.append(Change(code, where, float(cm)))
    how = changes_said(changes, n.unit)
    saved = (f.needed or 0.0) - (f.measured or 0.0)
    return (
        f"Put together to save cloth, as the sheet leaves open: {how}: {n.cm(saved)} less, the same garment when sewn."
    )


FREEDOM_WHY: Final[Mapping[str, Say]] = {"put-together": _together}


def stretched_said(found: Stretched, unit: Unit) -> list[str]:
    """What the cloth gives: a sentence, what is used and left, what limits it, how near that is to what can be had."""

    def cm(value: float) -> str:
        return format_length(value, unit)

    if found.aim == "most":
        count, most = round(found.value), round(found.most)
        gives = f"The most: {count} of them." if count > 1 else "The most: one of them."
        margin = f"No lay could give more than {most}." if most > count else "No lay could give more."
    elif found.aim == "longest":
        gives = f"The longest: {cm(found.value)} from the shoulder line to the hem."
        over = found.most - found.value
        margin = f"No lay could give more than {cm(over)} more." if over > 0.05 else "No lay could give more."
    else:
        bases = ", ".join(f"{PLACES.get(where, where)} {cm(base)}" for where, base in found.bases)
        gives = f"The fullest: {cm(found.value)} round the hem (gores at the {bases})."
        over = found.most - found.value
        margin = f"No lay could give more than {cm(over)} more." if over > 0.05 else "No lay could give more."
    lines = [gives, f"It takes {cm(found.used)} of the {cm(found.at_hand)} on the table; {cm(found.left)} is left."]
    why = LIMITS[found.limit]
    if found.limit == "cloth" and found.next_needs > found.at_hand:
        why = f"the next larger takes {cm(found.next_needs)}"
    lines.append(f"What limits it: {why}. {margin if found.limit == 'cloth' else ''}".rstrip())
    if found.changes:
        lines.append(f"It is put together with {changes_said(found.changes, unit)}.")
    return lines
