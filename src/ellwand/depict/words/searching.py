"""What is told of a search while it runs and afterwards: how short its lay is, by whom, and what that rests on."""

from __future__ import annotations

import re
from typing import Final

from ellwand.language import N_, _
from ellwand.units import Unit, decimal, format_length

FINDERS: Final = frozenset(
    {N_("rows"), N_("search"), N_("exact"), N_("torn"), N_("left-over"), N_("polished")},
)
"""Who finds lays, and how; solvers that we did not make keep their own names."""
BOUNDS: Final = frozenset(
    {
        N_("area"),
        N_("longest piece"),
        N_("pieces too wide to lie side by side"),
        N_("how many pieces lie side by side"),
        N_("what fits beside the widest pieces"),
        N_("every arrangement of the pieces tried"),
    }
)
"""What a bound of a lay rests on."""
LARGEST_TRIED: Final = re.compile(r"every arrangement of the (\d+) largest pieces tried")


def by_whom(engine: str) -> str:
    """Who found a lay: the names of engines, parted by commas."""
    return ", ".join(_(name) if name in FINDERS else name for name in engine.split(", "))


def reckoned_from(bound: str) -> str:
    """What the shortest possible length of a lay is reckoned from."""
    if tried := LARGEST_TRIED.fullmatch(bound):
        return _("every arrangement of the {count} largest pieces tried", count=tried[1])
    return _(bound) if bound in BOUNDS else bound


def found_said(after: float, length: float, engine: str, cloth: str, unit: Unit) -> str:
    """A shorter lay, ``after`` so many seconds; ``cloth`` is the cloth's name where there are several, else ''."""
    told = {"after": decimal(after, 1), "length": format_length(length, unit), "engine": by_whom(engine)}
    if cloth:
        return _("{after} s: {length}, by {engine}, for the {cloth} cloth", cloth=cloth, **told)
    return _("{after} s: {length}, by {engine}", **told)
