"""Questions about improbable measurements in words: why each is asked, and what would do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say
from ellwand.language import N_, _, decimal_mark
from ellwand.model.finding import Finding
from ellwand.model.measurement import MEASUREMENTS

UNITS: Final[Mapping[str, str]] = {
    "in": N_("inches"),
    "cm": N_("centimetres"),
    "mm": N_("millimetres"),
    "m": N_("metres"),
}

SMALL: Final = 10.0
"""Below this (cm) hundredths are said: they may be where the slip is."""


def _label(field: str) -> str:
    return _(MEASUREMENTS[field].label)


def _written(f: Finding, n: Numbers) -> dict[str, str]:
    """The measurement that is asked about, and how long it was said to be."""
    label = _label(f.subject)
    small = n.unit == "cm" and (f.measured or 0.0) < SMALL
    return {
        "label": f"{label[0].upper()}{label[1:]}",
        "given": n.fine(f.measured) if small else n.cm(f.measured),
    }


def _or_confirm(*fields: str) -> str:
    names = ", ".join(f'"{field}"' for field in fields)
    key = f"confirmed = [{names}]"
    if len(fields) == 1:
        return _("or confirm it if it is right: {key}.", key=key)
    return _("or confirm both if they are right: {key}.", key=key)


def _probably(f: Finding, n: Numbers) -> str:
    return _(
        "The {label} is probably {length}: measure again, {confirm}",
        label=_label(f.subject),
        length=n.cm(f.needed),
        confirm=_or_confirm(f.subject),
    )


def _unit(f: Finding, n: Numbers) -> str:
    return _(
        "{label}, {given}, does not go with the other measurements: it seems to be in {unit}.",
        unit=_(UNITS[n.text("unit")]),
        **_written(f, n),
    )


def _list(f: Finding, n: Numbers) -> str:
    return _("These are the measurements of no one, unless the whole list is in {unit}.", unit=_(UNITS[n.text("unit")]))


def _exchanged(f: Finding, n: Numbers) -> str:
    return _(
        "{label}, {given}, seems to be swapped with {other}, {length}.",
        other=_label(n.text("other")),
        length=n.of("other_cm"),
        **_written(f, n),
    )


def _digits(f: Finding, n: Numbers) -> str:
    return _(
        "{label}, {given}, does not go with the other measurements: its digits may be swapped or wrong.",
        **_written(f, n),
    )


def _decimal(f: Finding, n: Numbers) -> str:
    return _(
        "{label}, {given}, does not go with the other measurements: its decimal point may have slipped, or a digit was"
        " lost or added.",
        **_written(f, n),
    )


def _order(f: Finding, n: Numbers) -> str:
    return _(
        "On every body {small} is less than {large}; here they are {one} and {other}.",
        small=_label(n.text("small")),
        large=_label(n.text("large")),
        one=n.of("small_cm"),
        other=n.of("large_cm"),
    )


def _arms(f: Finding, n: Numbers) -> str:
    return _(
        "The arms differ by {much}: the left is {left} long, the right {right}.",
        much=n.cm(abs(n.number("left") - n.number("right"))),
        left=n.of("left"),
        right=n.of("right"),
    )


def _age(f: Finding, n: Numbers) -> str:
    return _(
        "At {years} years a child is about {length} tall; the height given is {given}.",
        years=f"{n.number('age'):g}".replace(".", decimal_mark()),
        length=n.cm(f.needed),
        given=n.cm(f.measured),
    )


def _unlike(f: Finding, n: Numbers) -> str:
    return _(
        "{label}, {given}, does not go with the other measurements: about {length} was to be expected.",
        length=n.cm(f.needed),
        **_written(f, n),
    )


def _unit_mend(f: Finding, n: Numbers) -> str:
    return _(
        "For {field} write {text} ({length}), {confirm}",
        field=f.subject,
        text=f'"{n.number("number"):g} {n.text("unit")}"',
        length=n.cm(f.needed),
        confirm=_or_confirm(f.subject),
    )


def _list_mend(f: Finding, n: Numbers) -> str:
    unit = n.text("unit")
    if unit in ("cm", "in") and unit != n.text("set"):
        return _("Write {key}, or confirm the measurements that are right.", key=f'unit = "{unit}"')
    return _(
        "Write each number with its unit, such as {example}, or confirm the measurements that are right.",
        example=f'{n.text("field")} = "{n.number("number"):g} {unit}"',
    )


def _exchanged_mend(f: Finding, n: Numbers) -> str:
    other = n.text("other")
    return _(
        "Measure both again: {field} is probably {length} and {other} {given}; {confirm}",
        field=f.subject,
        length=n.cm(f.needed),
        other=other,
        given=n.cm(f.measured),
        confirm=_or_confirm(f.subject, other),
    )


def _order_mend(f: Finding, n: Numbers) -> str:
    return _("Measure {one} and {other} again.", one=n.text("small"), other=n.text("large"))


def _arms_mend(f: Finding, n: Numbers) -> str:
    return _(
        "Measure both arms again, or confirm them if they are right: {key}.",
        key='confirmed = ["arm_length"]',
    )


def _unlike_mend(f: Finding, n: Numbers) -> str:
    told = {"field": f.subject, "confirm": _or_confirm(f.subject)}
    if n.text("child"):
        return _("If this is a child, give the age. Measure {field} again, {confirm}", **told)
    return _("Measure {field} again, {confirm}", **told)


SLIP_WHY: Final[Mapping[str, Say]] = {
    "slip-unit": _unit,
    "slip-list": _list,
    "slip-exchanged": _exchanged,
    "slip-digits": _digits,
    "slip-decimal": _decimal,
    "slip-order": _order,
    "slip-arms": _arms,
    "slip-age": _age,
    "slip-unlike": _unlike,
}

SLIP_MEND: Final[Mapping[str, Say]] = {
    "slip-unit": _unit_mend,
    "slip-list": _list_mend,
    "slip-exchanged": _exchanged_mend,
    "slip-digits": _probably,
    "slip-decimal": _probably,
    "slip-order": _order_mend,
    "slip-arms": _arms_mend,
    "slip-age": lambda f, n: _("Look at age and height again, {confirm}", confirm=_or_confirm("height")),
    "slip-unlike": _unlike_mend,
}
