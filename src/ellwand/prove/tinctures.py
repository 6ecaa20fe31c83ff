"""The rule of tincture: no metal on metal, no colour on colour.  A hint only.

The rule: any manual of heraldry.  Exempt, from memory: partitions, which lie side by side; furs; and what lies on metal
and colour at once, which offends against neither.  The stains, tenné and sanguine, count as colours.
"""

from __future__ import annotations

from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding
from ellwand.model.heraldry import METALS, Charge


def tinctures(draft: Draft, cloth: Cloth) -> tuple[Finding, ...]:
    """A finding for each charge whose ground has a tincture; one for both faces where it lies on the same there.

    ``cloth``: the main one, which an undivided field is of.
    """
    plain = () if draft.adornment.field or not cloth.tincture else (cloth.tincture,)
    found: list[Finding] = []
    seen: set[tuple[int, frozenset[str]]] = set()
    names: dict[str, int] = {}
    for charge in draft.adornment.charges:
        upon = charge.upon or plain
        key = (draft.choices.charges.index(charge.chosen), frozenset(upon))
        if upon and key not in seen:
            seen.add(key)
            names[charge.name] = n = names.get(charge.name, 0) + 1
            found.append(_judged(charge, upon, charge.name.replace(" ", "-") + (f"-{n}" if n > 1 else "")))
    return tuple(found)


def _judged(charge: Charge, upon: tuple[str, ...], subject: str) -> Finding:
    """'look again' where it is lost on its own tincture, or where all beneath it is of its own kind."""
    metal = charge.tincture in METALS
    alike = all((tincture in METALS) == metal for tincture in upon)
    values: dict[str, float | str] = {
        "charge": charge.name,
        "tincture": charge.tincture,
        "kind": "metal" if metal else "colour",
        "upon": " and ".join(upon),
        "on": charge.on_charge,
        "both": "both" if len({tincture in METALS for tincture in upon}) == 2 else "",
    }
    if charge.tincture in upon:
        return Finding("tincture-lost", subject, "look again", unit="", values=values)
    return Finding("tincture-rule", subject, "look again" if alike else "sound", unit="", values=values)
