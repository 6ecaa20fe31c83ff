"""How to measure, in words: the reference page, and what is easily mixed up."""

from __future__ import annotations

import re
from typing import Final

from ellwand.depict.figure import number
from ellwand.language import _
from ellwand.model.measurement import MEASUREMENTS, Support
from ellwand.units import Unit, format_inches

SURE: Final[dict[Support, str]] = {
    "A": "surest",
    "B": "less sure",
    "memory": "from memory",
    "": "",
}
NBSP: Final = "\u00a0"
_CENTIMETRES: Final = re.compile(r"(\d+)(?: (?:to|bis) (\d+))? cm\b")


def in_unit(text: str, unit: Unit) -> str:
    r"""The text with its whole centimetres told in ``unit``, in inches to the nearest half.

    >>> in_unit("higher and smaller, by about 4 cm", "in").replace("\u00a0", " ")
    'higher and smaller, by about 1 1/2 in'
    """
    if unit == "cm":
        return text

    def inches(found: re.Match[str]) -> str:
        said = [format_inches(float(n), 2).replace(" ", NBSP) for n in found.groups() if n]
        told = said[0] if len(said) == 1 else _("{low} to {high}", low=said[0], high=said[1])
        return f"{told}{NBSP}in"

    return _CENTIMETRES.sub(inches, text)


def mixed_up() -> tuple[tuple[str, str, str], ...]:
    """Each pair of fields that is easily mixed up, once: the field, what it is not, and how to tell."""
    pairs: dict[frozenset[str], tuple[str, str, str]] = {}
    for field, measurement in MEASUREMENTS.items():
        for other in measurement.mistaken_for:
            pairs.setdefault(frozenset((field, other)), (field, other, measurement.mind or measurement.how))
    return tuple(pairs.values())


def reference() -> str:
    """docs/measuring.md as text."""
    parts = [
        "# How to measure",
        "Every measurement has one number, on the figures, on the measuring form and here. Height and bust or chest"
        " must be taken. The head decides whether the neck goes on, so take it too. The rest may be left out and is"
        " then estimated; what is measured always goes before what is estimated.",
        "![Where the tape goes: a figure from the front, from the side and from behind](measuring.svg)",
        "The tape lies snug, not tight. Take everything twice. Ask before you touch. Keep what you write private, and"
        " destroy it when the garment is done.",
        "The terms and clauses are those of ISO 8559-1:2017, *Size designation of clothes, Part 1: Anthropometric"
        " definitions for body measurement*. We have not seen the standard's own text. We know its terms and clause"
        " numbers only from what others print of it, and say of each how sure it is. Where none is given, we found"
        " none.",
        "This page is generated: `python -m ellwand.depict.measuring > docs/measuring.md`; its picture:"
        " `python -m ellwand.publish.figures > docs/measuring.svg`.",
    ]
    parts += [_entry(field) for field in MEASUREMENTS]
    return "\n\n".join(parts) + "\n"


def _entry(field: str) -> str:
    measurement = MEASUREMENTS[field]
    lines = [f"- In the sheet: `{field}`", f"- How: {measurement.how}."]
    if measurement.mind:
        lines.append(f"- Mind: {measurement.mind}.")
    if measurement.mistaken_for:
        lines.append(f"- Not to be mixed up with: {' and '.join(_named(other) for other in measurement.mistaken_for)}.")
    if measurement.term:
        clause = f", clause {measurement.clause} ({SURE[measurement.clause_support]})" if measurement.clause else ""
        lines.append(f"- ISO term: {measurement.term}{clause or ', clause not known'}.")
    return f"## {_named(field)}\n\n" + "\n".join(lines)


def _named(field: str) -> str:
    return f"{number(field)} {MEASUREMENTS[field].label}"


if __name__ == "__main__":
    print(reference(), end="")
