"""Numbers and names as they are said."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from ellwand.language import N_, SOURCE, _, language
from ellwand.model.finding import Finding
from ellwand.model.names import named
from ellwand.units import CM_PER, HALVES, Unit, decimal, format_length, round_up


@dataclass(frozen=True, slots=True)
class Numbers:
    """The values of a finding, said in one unit."""

    values: Mapping[str, float | str]
    unit: Unit

    def of(self, name: str) -> str:
        """A length among the values."""
        return self.cm(self.number(name))

    def number(self, name: str) -> float:
        """A number among the values."""
        return float(self.values[name])

    def text(self, name: str) -> str:
        """A word among the values."""
        return str(self.values[name])

    def cm(self, value: float | None) -> str:
        """A length in cm, said."""
        return format_length(value or 0.0, self.unit)

    def fine(self, value: float | None) -> str:
        """A length in cm, said to hundredths, where a millimetre matters."""
        return f"{decimal((value or 0.0) / CM_PER[self.unit], 2)} {self.unit}"

    def count(self, name: str) -> str:
        """A number among the values, said without places."""
        return decimal(self.number(name))

    def less(self, value: float) -> str:
        """A length in cm, rounded down to half centimetres or quarter inches."""
        return format_length(-round_up(-value, HALVES[self.unit]), self.unit)

    def more(self, value: float) -> str:
        """A length in cm, rounded up to half centimetres or quarter inches, so that it is always enough."""
        return format_length(round_up(value, HALVES[self.unit]), self.unit)


Say = Callable[[Finding, Numbers], str]
"""A template: one finding in words."""

PLACES: Final[Mapping[str, str]] = {
    "side": N_("sides"),
    "centre-front": N_("centre front"),
    "centre-back": N_("centre back"),
    "side-front": N_("front panel seams"),
    "side-back": N_("back panel seams"),
    "panel-front": N_("front panels"),
    "panel-back": N_("back panels"),
}
"""Where gores and splits are, after 'at the'."""
LEVELS: Final = frozenset(
    {
        N_("bust"),
        N_("waist"),
        N_("belly"),
        N_("hip"),
        N_("crotch"),
        N_("mid-thigh"),
        N_("thigh"),
        N_("knee"),
        N_("mid-calf"),
        N_("ankle"),
        N_("floor"),
        N_("upper arm"),
        N_("biceps"),
    }
)
"""Levels of the body, after 'at the'."""


def place(name: str) -> str:
    """A place, after 'at the'."""
    return _(PLACES[name]) if name in PLACES else named(name.replace("-", " "))


def level(name: str) -> str:
    """A level of the body or an edge of the garment, after 'at the'."""
    return _(name) if name in LEVELS else named(name)


def part(name: str) -> str:
    """A part of the garment by the name it has in a lay, which is English inside."""
    return name if language() == SOURCE else named(name.replace("-", " "))


def percent(share: float, places: int = 0) -> str:
    """A share of 1 in hundredths."""
    return _("{share}%", share=decimal(100 * share, places))
