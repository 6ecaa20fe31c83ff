"""Which measurements a garment asks for: those that change what is cut when they change."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from ellwand.choose import Sheet
from ellwand.draft import draft
from ellwand.errors import CannotDraft
from ellwand.measure import check_human, estimate, read_raw
from ellwand.model.draft import Draft
from ellwand.model.measurement import FIELDS
from ellwand.model.wearer import Wearer

ALWAYS: Final = ("height", "bust_girth")
"""What every body is estimated from."""
LARGER: Final = (0.9, 0.95, 1.05, 1.1)
"""A measurement that changes nothing when it is so much smaller or larger is not asked for."""
SAME: Final = 0.05


def asked_for(sheet: Sheet) -> tuple[str, ...]:
    """The fields that decide the size of some piece of this garment on this wearer, in the order of FIELDS, and height
    and bust.

    Found by changing one measurement at a time and drafting anew; what only the checks look at is not among them.
    Raises BadInput (CannotDraft among it) as drafting does.
    """
    raw = read_raw(sheet.wearer)
    check_human(raw)
    wearer = estimate(raw)
    usual = draft(sheet.choices, wearer)
    return tuple(
        name
        for name in FIELDS
        if name in ALWAYS or any(_differ(usual, other) for other in _others(sheet, wearer, name))
    )


def _others(sheet: Sheet, wearer: Wearer, name: str) -> Iterator[Draft | None]:
    """The garment on bodies that differ in one measurement; None where it cannot be drafted."""
    for factor in LARGER:
        moved = replace(wearer.measures[name], value=wearer[name] * factor)
        body = replace(wearer, measures={**wearer.measures, name: moved})
        try:
            yield draft(sheet.choices, body)
        except CannotDraft:
            yield None


def _differ(one: Draft, other: Draft | None) -> bool:
    """Whether the two are cut differently anywhere (by SAME cm or more)."""
    if other is None:
        return True
    a, b = (
        [xy for piece in each.pieces for ring in (piece.cut, *piece.cut_holes) for point in ring for xy in point]
        for each in (one, other)
    )
    return len(a) != len(b) or any(abs(x - y) > SAME for x, y in zip(a, b, strict=True))
