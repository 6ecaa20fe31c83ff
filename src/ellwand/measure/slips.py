"""The slips that people make in a list of measurements, each with what was meant instead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations
from types import MappingProxyType
from typing import Final, Literal

from ellwand.model.measurement import MEASUREMENTS
from ellwand.units import CM_PER, Unit

COST: Final[Mapping[str, float]] = MappingProxyType(
    {
        "list": 4.0,
        "unit": 6.0,
        "marked unit": 8.0,
        "decimal": 6.5,
        "lost digit": 9.0,
        "exchanged": 6.0,
        "exchanged kinds": 8.5,
        "digits": 7.0,
        "ten or hundred": 9.5,
        "unlike": 6.5,
        "age": 6.5,
        "kept": 3.0,
    }
)
"""−log of how often each slip happens: the log density must rise by more before it is asked about (our own figures,
tuned so that fewer than one in a hundred of those surveyed is asked anything)."""

Written = Literal["in", "cm", "mm", "m"]
OTHER_UNITS: Final[tuple[Written, ...]] = ("in", "cm", "mm", "m")


@dataclass(frozen=True, slots=True)
class Slip:
    """``meant``: the fields it touches, with what would be right (cm), None where nothing is known.

    ``values`` fill in the words; ``cost`` is how unusual such a slip is (COST).
    """

    code: str
    subject: str
    meant: Mapping[str, float | None]
    cost: float
    values: Mapping[str, float | str] = field(default_factory=dict)


def slips(values: Mapping[str, float], unit: Unit) -> Iterator[Slip]:
    """Every slip that may have made one of the ``values`` (cm), or exchanged two, in a list in ``unit``."""
    for name, cm in values.items():
        yield Slip("slip-unlike", name, {name: None}, COST["unlike"])
        yield from _of_unit(name, cm, unit)
        yield from _of_decimal(name, cm, unit)
        yield from _of_digits(name, cm, unit)
    for (one, cm), (two, other) in combinations(values.items(), 2):
        if cm != other:
            alike = MEASUREMENTS[one].kind == MEASUREMENTS[two].kind
            cost = COST["exchanged" if alike else "exchanged kinds"]
            yield Slip("slip-exchanged", one, {one: other, two: cm}, cost, {"other": two, "other_cm": other})


def list_slips(values: Mapping[str, float], unit: Unit) -> Iterator[Slip]:
    """The whole list (cm) in another unit."""
    if len(values) < 2:
        return
    first = next(iter(values))
    for other in OTHER_UNITS:
        meant = {name: _in_unit(cm, unit, other) for name, cm in values.items()}
        about: dict[str, float | str] = {
            "unit": other,
            "field": first,
            "number": round(meant[first] / CM_PER[other], 3),
            "set": unit,
        }
        yield Slip("slip-list", "unit", meant, COST["list"], about)


def kept(name: str, cm: float) -> Slip:
    """A value that was in the right unit when the list was not."""
    return Slip("kept", name, {name: cm}, COST["kept"])


def as_written(cm: float, unit: Unit) -> float:
    """The bare number as it stands in the list."""
    return round(cm / CM_PER[unit], 4)


def _in_unit(cm: float, unit: Unit, other: Written) -> float:
    """What a length of a list in ``unit`` is (cm) if its number was meant in another unit.

    Inches are taken for centimetres, and the reverse, whatever the list is in: a single value may carry its own mark.
    """
    if other in ("in", "cm"):
        return cm * CM_PER["in"] if other == "in" else cm / CM_PER["in"]
    return as_written(cm, unit) * CM_PER[other]


def _of_unit(name: str, cm: float, unit: Unit) -> Iterator[Slip]:
    for other in OTHER_UNITS:
        if (unit, other) == ("cm", "mm"):
            continue  # the same as the decimal point one place off, which is likelier
        meant = _in_unit(cm, unit, other)
        about: dict[str, float | str] = {"unit": other, "number": round(meant / CM_PER[other], 3)}
        cost = COST["marked unit" if other == unit else "unit"]
        yield Slip("slip-unit", name, {name: meant}, cost, about)


def _of_decimal(name: str, cm: float, unit: Unit) -> Iterator[Slip]:
    """The point one place off, or the last digit lost."""
    for scale in (10.0, 0.1):
        yield Slip("slip-decimal", name, {name: cm * scale}, COST["decimal"])
    number = as_written(cm, unit)
    if number == int(number):
        for last in range(1, 10):
            meant = (10 * number + last) * CM_PER[unit]
            yield Slip("slip-decimal", name, {name: meant}, COST["lost digit"])


def _of_digits(name: str, cm: float, unit: Unit) -> Iterator[Slip]:
    """Two neighbouring digits exchanged, a ten or a hundred too many or too few."""
    number = as_written(cm, unit)
    whole, rest = str(int(number)), number - int(number)
    turned = {int(whole[:i] + whole[i + 1] + whole[i] + whole[i + 2 :]) for i in range(len(whole) - 1)}
    for other in sorted(turned - {0, int(number)}):
        yield Slip("slip-digits", name, {name: (other + rest) * CM_PER[unit]}, COST["digits"])
    for meant in (number + more for more in (10, -10, 100, -100)):
        if meant > 0 and int(meant) not in turned:
            yield Slip("slip-digits", name, {name: meant * CM_PER[unit]}, COST["ten or hundred"])
    if number >= 1:  # the nought in front was not written: 06 for 60
        meant = float(f"{whole[0]}0{whole[1:]}") + rest
        yield Slip("slip-digits", name, {name: meant * CM_PER[unit]}, COST["lost digit"])
