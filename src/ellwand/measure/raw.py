"""Reading what the maker wrote about a wearer: names checked, lengths in cm, what no body has refused."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import combinations
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.measure.children import GROWN_AGE, LEAST_AGE
from ellwand.measure.heading import heading
from ellwand.measure.limits import LIMITS, MAY_SWAP, ORDER
from ellwand.model.measurement import FIELDS
from ellwand.model.wearer import ARM_FIELDS, Hand, Sex
from ellwand.units import Unit, format_length, parse_length, states_unit

ALIASES: Final[Mapping[str, str]] = {"chest_girth": "bust_girth"}
ABOUT: Final = ("name", "sex", "age", "unit", "confirmed")
ARMS: Final[Mapping[str, Hand]] = {name: hand for hand, name in ARM_FIELDS.items()}
"""Where one arm is longer."""
OLDEST: Final = 120.0
LONGEST_NAME: Final = 200
JOINERS: Final = {0x200C: None, 0x200D: None}
"""Signs of many scripts that join or part letters and are not seen themselves (ZWNJ, ZWJ)."""
LONGEST_TAPE: Final = 3000.0
"""No one measures more than this (cm), whatever the slip."""
BEYOND: Final = 1.5
"""A body outside human limits, once confirmed, is drafted for up to this factor beyond them (our own figure)."""
TRULY_SO: Final = N_('{cause}; a body that is truly so is kept with confirmed = ["{name}"]')
BEYOND_LIMITS: Final[Mapping[tuple[bool, bool], str]] = {
    (True, True): N_("{cm} is too small: a child has between {least} and {most}"),
    (True, False): N_("{cm} is too small: an adult has between {least} and {most}"),
    (False, True): N_("{cm} is too large: a child has between {least} and {most}"),
    (False, False): N_("{cm} is too large: an adult has between {least} and {most}"),
}
"""What is said of a value by whether it is below the least, and whether the wearer is a child."""


@dataclass(frozen=True, slots=True)
class RawWearer:
    """What is known of a wearer before anything is estimated: ``values`` in cm by field, ``age`` in years.

    ``confirmed``: fields of which the maker said 'yes, that is right'.  ``arms``: an arm measured on its own (cm).
    """

    name: str
    sex: Sex | None
    age: float | None
    unit: Unit
    values: Mapping[str, float]
    confirmed: frozenset[str] = frozenset()
    arms: Mapping[Hand, float] = field(default_factory=dict)

    @property
    def minor(self) -> bool:
        """Whether the age is given and under 18."""
        return self.age is not None and self.age < GROWN_AGE


def read_raw(table: Mapping[str, object]) -> RawWearer:
    """A raw wearer from the sheet's ``[wearer]`` table; bare numbers are in the table's ``unit``.

    Keys may be worded otherwise ('Chest (in)'), as in a list of people.  A value may be improbable, even impossible:
    that is asked about by ``doubts``, refused by ``check_human``.
    Raises BadInput: unknown or doubled keys, values that are no length, and when height or bust_girth (for a
    child: height) is missing.
    """
    table = in_our_words(table)
    _check_keys(table)
    unit = _unit(table.get("unit", "cm"))
    age = _age(table["age"]) if "age" in table else None
    sex = _sex(table["sex"]) if "sex" in table else None
    lengths = {ALIASES.get(key, key): _length(key, value, unit) for key, value in table.items() if key not in ABOUT}
    arms = {hand: lengths[key] for key, hand in ARMS.items() if key in lengths}
    values = {name: cm for name, cm in lengths.items() if name not in ARMS}
    if arms and "arm_length" not in values:
        values["arm_length"] = math.fsum(arms.values()) / len(arms)
    confirmed = _confirmed(table.get("confirmed", []))
    raw = RawWearer(_name(table.get("name", _("the wearer"))), sex, age, unit, values, confirmed, arms)
    _check_enough(values, raw.minor)
    return raw


def check_human(raw: RawWearer) -> None:
    """Refuse a body that cannot be cut for.

    Raises BadInput: a value that no human has and that was not confirmed, or levels in an order no body has.
    """
    for name, cm in raw.values.items():
        _check_limits(name, cm, raw)
    for hand, cm in raw.arms.items():
        _check_limits("arm_length", cm, raw, ARM_FIELDS[hand])
    _check_order(raw.values, raw.unit)


def in_our_words(table: Mapping[str, object]) -> dict[str, object]:
    """The table under our keys; a unit in a key goes to its value, unless that has its own.

    Raises BadInput where two keys mean the same.
    """
    known = (*ABOUT, *FIELDS, *ALIASES, *ARMS)
    out: dict[str, object] = {}
    for key, value in table.items():
        meant = None if key in known else heading(str(key))
        name = meant.field if meant and meant.field in known else key
        if name in out:
            raise BadInput(
                f"wearer.{str(key)[:60]}", _("is the same measurement as {name}", name=name), _("give one of the two")
            )
        has_unit = isinstance(value, str) and states_unit(value)
        unit = meant.unit if meant and meant.is_length and not has_unit else None
        out[name] = value if unit is None else f"{value} {unit}"
    return out


def _check_keys(table: Mapping[str, object]) -> None:
    known = [*ABOUT, *FIELDS, *ALIASES, *ARMS]
    for key in table:
        if key in known:
            continue
        near = difflib.get_close_matches(str(key).lower().replace(" ", "_"), known, n=1, cutoff=0.5)
        mend = (
            _("the nearest is {name}", name=near[0])
            if near
            else _("the measurements are {names}", names=", ".join(FIELDS))
        )
        raise BadInput(f"wearer.{str(key)[:60]}", _("there is no such measurement"), mend)
    for alias, name in ALIASES.items():
        if alias in table and name in table:
            raise BadInput(
                f"wearer.{alias}", _("is the same measurement as {name}", name=name), _("give one of the two")
            )


def _name(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise BadInput("wearer.name", _("{value!r} is not a name", value=value), _("write some text, or leave it out"))
    if len(value) >= LONGEST_NAME:
        raise BadInput(
            "wearer.name",
            _("is {count} characters long", count=len(value)),
            _("keep it under {most}", most=LONGEST_NAME),
        )
    if not value.translate(JOINERS).isprintable():
        raise BadInput(
            "wearer.name", _("{value!r} holds characters that cannot be printed", value=value), _("leave them out")
        )
    return value.strip()


def _sex(value: object) -> Sex:
    if value == "female" or value == "male":
        return value
    raise BadInput(
        "wearer.sex", _("{shown} is not known", shown=_shown(value)), _("write female or male, or leave it out")
    )


def _unit(value: object) -> Unit:
    if value == "cm" or value == "in":
        return value
    raise BadInput("wearer.unit", _("{shown} is not known", shown=_shown(value)), _('write "cm" or "in"'))


def _age(value: object) -> float:
    mend = _("give the age in years")
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        raise BadInput("wearer.age", _("{shown} is not a number", shown=_shown(value)), mend)
    try:
        age = float(value)
    except (ValueError, OverflowError):
        raise BadInput("wearer.age", _("{shown} is not a number", shown=_shown(value)), mend) from None
    if not math.isfinite(age) or not 0 < age < OLDEST:
        raise BadInput(
            "wearer.age", _("{shown} is not between 0 and {most:.0f}", shown=_shown(value), most=OLDEST), mend
        )
    if age < LEAST_AGE:
        raise BadInput(
            "wearer.age",
            _(
                "{shown} is too young: the data this rests on begin at {age:.0f} years",
                shown=_shown(value),
                age=LEAST_AGE,
            ),
            _("cut for {age:.0f} years, to grow into", age=LEAST_AGE),
        )
    return age


def _length(key: str, value: object, unit: Unit) -> float:
    where = f"wearer.{key}"
    cm = parse_length(value, unit, where)
    if cm <= 0:
        raise BadInput(
            where, _("{shown} is not above nothing", shown=_shown(value)), _("measure again, or leave it out")
        )
    if cm > LONGEST_TAPE:
        raise BadInput(
            where, _("{shown} is longer than any tape", shown=_shown(value)), _("measure again, or leave it out")
        )
    return cm


def _confirmed(value: object) -> frozenset[str]:
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, (list, tuple)):
        raise BadInput(
            "wearer.confirmed", _("{shown} is not a list", shown=_shown(value)), _('write it as in ["waist_girth"]')
        )
    for name in names:
        if name not in (*FIELDS, *ALIASES, *ARMS):
            raise BadInput(
                "wearer.confirmed",
                _("{shown} is no measurement", shown=_shown(name)),
                _("name some of {names}", names=", ".join(FIELDS)),
            )
    return frozenset(ALIASES.get(name, name) for name in names)


def _check_limits(name: str, cm: float, raw: RawWearer, key: str | None = None) -> None:
    limits, key = LIMITS[name], key or name
    least, most = limits.least(raw.minor), limits.most
    if name in raw.confirmed or key in raw.confirmed:
        least, most = least / BEYOND, most * BEYOND
    if least <= cm <= most:
        return
    raise BadInput(
        f"wearer.{key}",
        _(
            BEYOND_LIMITS[cm < least, raw.minor],
            cm=format_length(cm, raw.unit),
            least=format_length(least, raw.unit, mark=False),
            most=format_length(most, raw.unit),
        ),
        _cause(name, cm, raw.unit, raw.minor),
    )


def _cause(name: str, cm: float, unit: Unit, minor: bool) -> str:
    """The likeliest slip behind a value (cm) that no body has, and its mend."""
    limits = LIMITS[name]

    def human(length: float) -> bool:
        return limits.least(minor) <= length <= limits.most

    if unit == "cm" and human(cm * 2.54):
        cause = _('if it is in inches, write "{cm:g} in", or set unit = "in"', cm=cm)
    elif unit == "in" and human(cm / 2.54):
        cause = _('if it is in centimetres, write "{inches:g} cm", or set unit = "cm"', inches=cm / 2.54)
    elif human(cm * 100) and unit == "cm":
        cause = _('if it is in metres, write "{cm:g} m"', cm=cm)
    elif human(cm / 10) and unit == "cm":
        cause = _('if it is in millimetres, write "{cm:g} mm"', cm=cm)
    elif human(cm * 10):
        cause = _("a digit may be missing")
    else:
        cause = _("measure again")
    if not minor and limits.child_least <= cm < limits.adult_least:
        cause = _("{cause}, or give the age if the wearer is a child", cause=cause)
    return _(TRULY_SO, cause=cause, name=name)


def _check_enough(values: Mapping[str, float], minor: bool) -> None:
    if "height" not in values:
        raise BadInput("wearer.height", _("is missing"), _("measure it without shoes, from the crown to the floor"))
    if "bust_girth" not in values and not minor:
        raise BadInput(
            "wearer.bust_girth",
            _("is missing"),
            _("measure level over the fullest part of the bust or chest, or give the age of a child"),
        )


def _check_order(values: Mapping[str, float], unit: Unit) -> None:
    for chain in ORDER:
        for small, large in combinations([name for name in chain if name in values], 2):
            if values[small] >= values[large] and (small, large) != MAY_SWAP:
                raise BadInput(
                    f"wearer.{small}",
                    _(
                        "{cm} is not less than {large}, {other}",
                        cm=format_length(values[small], unit),
                        large=large,
                        other=format_length(values[large], unit),
                    ),
                    _("measure both again; they may be exchanged"),
                )


def _shown(value: object) -> str:
    text = f"{value:g}" if isinstance(value, float) else repr(value)
    return text if len(text) <= 40 else text[:37] + "..."
