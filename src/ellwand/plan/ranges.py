"""What was given as a range, and the choices with numbers in its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ellwand.model.choices import Choices, Span
from ellwand.units import round_near

LENGTH = "garment.length"


@dataclass(frozen=True, slots=True)
class Range:
    """One ranged choice, as the sheet names it (cm)."""

    path: str
    span: Span

    def at(self, share: float, grid: float) -> float:
        """The length at a share of the range, on the chalk grid."""
        return round_near(self.span.low + (self.span.high - self.span.low) * share, grid)


def ranges_of(choices: Choices) -> tuple[Range, ...]:
    """The garment's length and its gores' bases, as far as they are ranges."""
    out = [Range(LENGTH, choices.length)] if isinstance(choices.length, Span) else []
    out += [Range(base_path(i), gore.base) for i, gore in enumerate(choices.gores) if isinstance(gore.base, Span)]
    return tuple(out)


def base_path(i: int) -> str:
    """How the sheet names the base of a gore; gores count from 1."""
    return f"garment.gores[{i + 1}].base"


def settled(choices: Choices, numbers: Mapping[str, float]) -> Choices:
    """The choices with those lengths (cm) written into them."""
    gores = tuple(replace(gore, base=numbers.get(base_path(i), gore.base)) for i, gore in enumerate(choices.gores))
    return replace(choices, length=numbers.get(LENGTH, choices.length), gores=gores)
