"""Questions about improbable measurements in words: why each is asked, and what would do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.model.finding import Finding
from ellwand.model.measurement import MEASUREMENTS

UNITS: Final[Mapping[str, str]] = {"in": "inches", "cm": "centimetres", "mm": "millimetres", "m": "metres"}

SMALL: Final = 10.0
"""Below this (cm) hundredths are said: they may be where the slip is."""


def _label(field: str) -> str:
    return MEASUREMENTS[field].label


def _written(f: Finding, n: Numbers) -> str:
    label = _label(f.subject)
    small = n.unit == "cm" and (f.measured or 0.0) < SMALL
    return f"{label[0].upper()}{label[1:]}, {n.fine(f.measured) if small else n.cm(f.measured)}"


def _or_confirm(*fields: str) -> str:
    what = "it if it is right" if len(fields) == 1 else "both if they are right"
    names = ", ".join(f'"{field}"' for field in fields)
    return f"or confirm {what}: confirmed = [{names}]."


def _probably(f: Finding, n: Numbers) -> str:
    return f"The {_label(f.subject)} is probably {n.cm(f.needed)}: measure again, {_or_confirm(f.subject)}"


def _order(f: Finding, n: Numbers) -> str:
    small, large = _label(n.text("small")), _label(n.text("large"))
    return f"On every body {small} is less than {large}; here they are {n.of('small_cm')} and {n.of('large_cm')}."


def _arms(f: Finding, n: Numbers) -> str:
    much = n.cm(abs(n.number("left") - n.number("right")))
    return f"The arms differ by {much}: the left is {n.of('left')} long, the right {n.of('right')}."


def _list_mend(f: Finding, n: Numbers) -> str:
    unit = n.text("unit")
    if unit in ("cm", "in") and unit != n.text("set"):
        return f'Write unit = "{unit}", or confirm the measurements that are right.'
    example = f'{n.text("field")} = "{n.number("number"):g} {unit}"'
    return f"Write each number with its unit, such as {example}, or confirm the measurements that are right."


def _exchanged_mend(f: Finding, n: Numbers) -> str:
    other = n.text("other")
    return (
        f"Measure both again: {f.subject} is probably {n.cm(f.needed)} and {other} {n.cm(f.measured)};"
        f" {_or_confirm(f.subject, other)}"
    )


def _unlike_mend(f: Finding, n: Numbers) -> str:
    child = "If this is a child, give the age. " if n.text("child") else ""
    return f"{child}Measure {f.subject} again, {_or_confirm(f.subject)}"


SLIP_WHY: Final[Mapping[str, Say]] = {
    "slip-unit": lambda f, n: (
        f"{_written(f, n)}, does not go with the other measurements: it seems to be in {UNITS[n.text('unit')]}."
    ),
    "slip-list": lambda f, n: (
        f"These are the measurements of no one, unless the whole list is in {UNITS[n.text('unit')]}."
    ),
    "slip-exchanged": lambda f, n: (
        f"{_written(f, n)}, seems to be swapped with {_label(n.text('other'))}, {n.of('other_cm')}."
    ),
    "slip-digits": lambda f, n: (
        f"{_written(f, n)}, does not go with the other measurements: its digits may be swapped or wrong."
    ),
    "slip-decimal": lambda f, n: (
        f"{_written(f, n)}, does not go with the other measurements: its decimal point may have slipped, or a digit"
        " was lost or added."
    ),
    "slip-order": _order,
    "slip-arms": _arms,
    "slip-age": lambda f, n: (
        f"At {n.number('age'):g} years a child is about {n.cm(f.needed)} tall; the height given is {n.cm(f.measured)}."
    ),
    "slip-unlike": lambda f, n: (
        f"{_written(f, n)}, does not go with the other measurements: about {n.cm(f.needed)} was to be expected."
    ),
}

SLIP_MEND: Final[Mapping[str, Say]] = {
    "slip-unit": lambda f, n: (
        f'For {f.subject} write "{n.number("number"):g} {n.text("unit")}" ({n.cm(f.needed)}), {_or_confirm(f.subject)}'
    ),
    "slip-list": _list_mend,
    "slip-exchanged": _exchanged_mend,
    "slip-digits": _probably,
    "slip-decimal": _probably,
    "slip-order": lambda f, n: f"Measure {n.text('small')} and {n.text('large')} again.",
    "slip-arms": lambda f, n: 'Measure both arms again, or confirm them if they are right: confirmed = ["arm_length"].',
    "slip-age": lambda f, n: f"Look at age and height again, {_or_confirm('height')}",
    "slip-unlike": _unlike_mend,
}
