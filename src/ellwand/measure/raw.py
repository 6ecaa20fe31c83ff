"""Reading what the maker wrote about a wearer: names checked, lengths in cm, slips caught."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from ellwand.errors import BadInput
from ellwand.measure.children import GROWN_AGE, LEAST_AGE
from ellwand.measure.limits import LIMITS, MAY_SWAP, ORDER
from ellwand.model.wearer import FIELDS, Sex
from ellwand.units import Unit, format_length, parse_length

ALIASES: Final[Mapping[str, str]] = {"chest_girth": "bust_girth"}
ABOUT: Final = ("name", "sex", "age", "unit")
OLDEST: Final = 120.0
LONGEST_NAME: Final = 200
UNIT_WORDS: Final[Mapping[Unit, str]] = {"cm": "centimetres", "in": "inches"}
UNIT_MARKS: Final = re.compile(r"[a-zA-Z\"'″′”’]")


@dataclass(frozen=True, slots=True)
class RawWearer:
    """What is known of a wearer before anything is estimated: ``values`` in cm by field, ``age`` in years."""

    name: str
    sex: Sex | None
    age: float | None
    unit: Unit
    values: Mapping[str, float]

    @property
    def minor(self) -> bool:
        """Whether the age is given and under 18."""
        return self.age is not None and self.age < GROWN_AGE


def read_raw(table: Mapping[str, object]) -> RawWearer:
    """A raw wearer from the sheet's ``[wearer]`` table; bare numbers are in the table's ``unit``.

    Raises BadInput: unknown or doubled keys, values that are no length or no human length, measurements that
    contradict each other, and when height or bust_girth (for a child: height) is missing.
    """
    _check_keys(table)
    unit = _unit(table.get("unit", "cm"))
    age = _age(table["age"]) if "age" in table else None
    sex = _sex(table["sex"]) if "sex" in table else None
    minor = age is not None and age < GROWN_AGE
    values = {
        ALIASES.get(key, key): _length(key, value, unit, minor) for key, value in table.items() if key not in ABOUT
    }
    _check_enough(values, minor)
    _check_order(values, unit)
    return RawWearer(_name(table.get("name", "the wearer")), sex, age, unit, values)


def _check_keys(table: Mapping[str, object]) -> None:
    known = [*ABOUT, *FIELDS, *ALIASES]
    for key in table:
        if key in known:
            continue
        near = difflib.get_close_matches(str(key).lower().replace(" ", "_"), known, n=1, cutoff=0.5)
        mend = f"the nearest is {near[0]}" if near else f"the measurements are {', '.join(FIELDS)}"
        raise BadInput(f"wearer.{str(key)[:60]}", "there is no such measurement", mend)
    for alias, name in ALIASES.items():
        if alias in table and name in table:
            raise BadInput(f"wearer.{alias}", f"is the same measurement as {name}", "give one of the two")


def _name(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise BadInput("wearer.name", f"{value!r} is not a name", "write some text, or leave it out")
    if len(value) >= LONGEST_NAME:
        raise BadInput("wearer.name", f"is {len(value)} characters long", f"keep it under {LONGEST_NAME}")
    if not value.isprintable():
        raise BadInput("wearer.name", f"{value!r} holds characters that cannot be printed", "leave them out")
    return value.strip()


def _sex(value: object) -> Sex:
    if value == "female" or value == "male":
        return value
    raise BadInput("wearer.sex", f"{_shown(value)} is not known", "write female or male, or leave it out")


def _unit(value: object) -> Unit:
    if value == "cm" or value == "in":
        return value
    raise BadInput("wearer.unit", f"{_shown(value)} is not known", 'write "cm" or "in"')


def _age(value: object) -> float:
    mend = "give the age in years"
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        raise BadInput("wearer.age", f"{_shown(value)} is not a number", mend)
    try:
        age = float(value)
    except (ValueError, OverflowError):
        raise BadInput("wearer.age", f"{_shown(value)} is not a number", mend) from None
    if not math.isfinite(age) or not 0 < age < OLDEST:
        raise BadInput("wearer.age", f"{_shown(value)} is not between 0 and {OLDEST:.0f}", mend)
    if age < LEAST_AGE:
        raise BadInput(
            "wearer.age",
            f"{_shown(value)} is too young: the data this rests on begin at {LEAST_AGE:.0f} years",
            f"cut for {LEAST_AGE:.0f} years, to grow into",
        )
    return age


def _length(key: str, value: object, unit: Unit, minor: bool) -> float:
    where = f"wearer.{key}"
    cm = parse_length(value, unit, where)
    if cm <= 0:
        raise BadInput(where, f"{_shown(value)} is not above nothing", "measure again, or leave it out")
    limits = LIMITS[ALIASES.get(key, key)]
    least = limits.least(minor)
    if least <= cm <= limits.most:
        return cm
    who = "a child" if minor else "an adult"
    bounds = f"{format_length(least, unit, mark=False)} and {format_length(limits.most, unit)}"
    size = "small" if cm < least else "large"
    bare = not isinstance(value, str) or not UNIT_MARKS.search(value)
    counted = f" for {UNIT_WORDS[unit]}" if bare else ""
    cause = _cause(key, cm, unit, minor) if bare else "measure again"
    raise BadInput(where, f"{_shown(value)} is too {size}{counted}: {who} has between {bounds}", cause)


def _cause(key: str, cm: float, unit: Unit, minor: bool) -> str:
    """The likeliest slip behind a value (cm) that no body has, and its mend."""
    limits = LIMITS[ALIASES.get(key, key)]

    def human(length: float) -> bool:
        return limits.least(minor) <= length <= limits.most

    if unit == "cm" and human(cm * 2.54):
        cause = 'if it is in inches, set unit = "in"'
    elif unit == "in" and human(cm / 2.54):
        cause = 'if it is in centimetres, set unit = "cm"'
    elif human(cm * 100) and unit == "cm":
        cause = f'if it is in metres, write "{cm:g} m"'
    elif human(cm / 10) and unit == "cm":
        cause = f'if it is in millimetres, write "{cm:g} mm"'
    elif human(cm * 10):
        cause = "a digit may be missing"
    else:
        cause = "measure again"
    if not minor and limits.child_least <= cm < limits.adult_least:
        cause += ", or give the age if the wearer is a child"
    return cause


def _check_enough(values: Mapping[str, float], minor: bool) -> None:
    if "height" not in values:
        raise BadInput("wearer.height", "is missing", "measure it without shoes, from the crown to the floor")
    if "bust_girth" not in values and not minor:
        raise BadInput(
            "wearer.bust_girth",
            "is missing",
            "measure level over the fullest part of the bust or chest, or give the age of a child",
        )


def _check_order(values: Mapping[str, float], unit: Unit) -> None:
    for chain in ORDER:
        for small, large in combinations([name for name in chain if name in values], 2):
            if values[small] >= values[large] and (small, large) != MAY_SWAP:
                raise BadInput(
                    f"wearer.{small}",
                    f"{format_length(values[small], unit)} is not less than {large}, "
                    f"{format_length(values[large], unit)}",
                    "measure both again; they may be exchanged",
                )


def _shown(value: object) -> str:
    text = f"{value:g}" if isinstance(value, float) else repr(value)
    return text if len(text) <= 40 else text[:37] + "..."
