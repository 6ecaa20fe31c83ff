"""What the small drafts share: outlines walked edge by edge, and lengths by landmark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ellwand.draft.blank import Run
from ellwand.draft.size import heights_above_floor
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.piece import EdgeKind
from ellwand.model.wearer import Wearer
from ellwand.units import round_near


@dataclass(frozen=True, slots=True)
class Leg:
    """One edge of an outline: its name, kind and allowance (cm), and where it goes from where the last one ended."""

    id: str
    kind: EdgeKind
    to: tuple[Point, ...]
    allowance: float
    turned: bool = False


def walk(start: Point, legs: Sequence[Leg]) -> tuple[Run, ...]:
    """The outline counter-clockwise from ``start``; edges without length are left out."""
    at, out = start, []
    for leg in legs:
        points: Line = (at, *leg.to)
        at = points[-1]
        if length(points) > 1e-6:
            out.append(Run(leg.id, leg.kind, points, leg.allowance, leg.turned))
    return tuple(out)


def down_to(wearer: Wearer, top: str, chosen: str | float, grid: float) -> float:
    """A length (cm) from the measured height ``top`` down to a landmark, or as chosen; on the chalk grid."""
    if isinstance(chosen, float):
        return round_near(chosen, grid)
    return round_near(wearer[top] - heights_above_floor(wearer)[chosen], grid)
