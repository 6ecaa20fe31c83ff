"""Numbers and names as they are said."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from ellwand.model.finding import Finding
from ellwand.units import CM_PER, Unit, format_length, round_up


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
        return f"{(value or 0.0) / CM_PER[self.unit]:.2f} {self.unit}"

    def less(self, value: float) -> str:
        """A length in cm, rounded down to half centimetres or quarter inches."""
        return format_length(-round_up(-value, 0.5 if self.unit == "cm" else 0.635), self.unit)

    def more(self, value: float) -> str:
        """A length in cm, rounded up to half centimetres or quarter inches, so that it is always enough."""
        return format_length(round_up(value, 0.5 if self.unit == "cm" else 0.635), self.unit)


Say = Callable[[Finding, Numbers], str]
"""A template: one finding in words."""

PLACES = {
    "side": "sides",
    "centre-front": "centre front",
    "centre-back": "centre back",
    "side-front": "front panel seams",
    "side-back": "back panel seams",
    "panel-front": "front panels",
    "panel-back": "back panels",
}
"""Where gores and splits are, after 'at the'."""


def place(name: str) -> str:
    """A place, after 'at the'."""
    return PLACES.get(name, name.replace("-", " "))
