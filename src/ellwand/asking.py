"""Which measurements a garment asks for: those that change what is cut when they change."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from ellwand.choose import Sheet, read_sheet
from ellwand.choose.styles import STYLES
from ellwand.draft import draft
from ellwand.errors import CannotDraft
from ellwand.measure import wearer_from
from ellwand.model.draft import Draft
from ellwand.model.measurement import FIELDS, MEASUREMENTS
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
    wearer = wearer_from(sheet.wearer)
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


def by_style() -> str:
    """docs/asked.md as text: what each style asks for, on a usual body."""
    asked = {style: asked_for(read_sheet(_usual(style), lambda _: 0.0)) for style in STYLES}
    rows = [
        f"| {about.label} | " + " | ".join("●" if name in asked[style] else "" for style in STYLES) + " |"
        for name, about in MEASUREMENTS.items()
    ]
    return "\n".join(
        [
            "# What each garment asks for",
            "",
            "Dots: the measurement decides the size of some piece. Found by drafting each style with one measurement"
            " changed at a time, on a usual body; other choices may ask for more or less, and `ellwand form SHEET`"
            " stars what one garment needs. Without a dot it is still used by the checks, or to estimate the others.",
            "",
            "This page is generated: `python -m ellwand.asking > docs/asked.md`.",
            "",
            "| measurement | " + " | ".join(STYLES) + " |",
            "|---|" + ":-:|" * len(STYLES),
            *rows,
            "",
        ]
    )


def _usual(style: str) -> bytes:
    wearer = "wearer = {height = 168, bust_girth = 96, head_girth = 57}"
    return f'{wearer}\ngarment = {{style = "{style}"}}\ncloth.main = {{width = 150}}\n'.encode()


if __name__ == "__main__":
    print(by_style(), end="")
