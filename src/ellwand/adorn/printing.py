"""Printing: the block and its cutting, the order of the prints, and how much paint they take."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import shapely

from ellwand.adorn.stencils.stencil import motif_shape, thin
from ellwand.geometry.lines import Line, mirror, shift
from ellwand.model.motif import Motif, Region
from ellwand.model.repeat import Repeat
from ellwand.model.stencil import Weak

OUNCE: Final = 29.5735
"""Millilitres in a US fluid ounce."""
FOOT: Final = 30.48
COVER: Final = (OUNCE / (2 * FOOT**2), OUNCE / FOOT**2)
"""Millilitres of paint to a cm²: makers of craft acrylics claim one ounce for 1 to 2 square feet, 160 to 320 ml/m²;
how much the cloth drinks makes it a range only."""
BLOCK_MARGIN: Final = 0.5
"""Block about the motif (cm), cut away low: common practice, no source."""
LEAST_LINE: Final = 0.1
"""Lino and close-grained wood hold a raised line of 1 mm, and print a cut of 1 mm clean: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Block:
    """A block as it is cut, mirrored (cm): what of ``size`` stays raised, and where a line or a cut is too narrow."""

    name: str
    raised: tuple[Region, ...]
    size: tuple[float, float]
    block: Line
    weak: tuple[Weak, ...]


@dataclass(frozen=True, slots=True)
class PrintPlan:
    """Rounds of prints, each the numbers (from 1, along the line) of those that are printed before the next round.

    ``first``: where the middle of the first one sits, and ``step``: from each to the next, where they are even (cm);
    ``reach``: how far the tool reaches to either side of a print's middle, so that it would touch a wet neighbour.
    """

    rounds: tuple[tuple[int, ...], ...]
    first: float
    step: float | None
    reach: float


def mirrored(motif: Motif) -> Motif:
    """The motif left to right, where it was."""
    wide = motif.size[0]

    def flip(line: Line) -> Line:
        return tuple(reversed(shift(mirror(line), wide, 0.0)))

    return Motif(
        motif.name, tuple(Region(flip(each.ring), tuple(flip(hole) for hole in each.holes)) for each in motif.regions)
    )


def block(motif: Motif) -> Block:
    """The motif's block, mirrored left to right: it prints the right way round."""
    wide, high = motif.size
    raised = mirrored(motif)
    m = BLOCK_MARGIN
    outline: Line = ((-m, -m), (wide + m, -m), (wide + m, high + m), (-m, high + m))
    shape = motif_shape(raised)
    ground = shapely.Polygon(outline).difference(shape)
    weak = (*thin("window", shape, LEAST_LINE), *thin("card", ground, LEAST_LINE))
    return Block(motif.name, raised.regions, (wide + 2 * m, high + 2 * m), outline, weak)


def paint(area: float) -> tuple[float, float]:
    """Millilitres of fabric paint for ``area`` cm² once over: (least, most), by the makers' claims."""
    return area * COVER[0], area * COVER[1]


def print_plan(repeat: Repeat, reach: float) -> PrintPlan:
    """The order of the prints, so that card or block never lies on a wet one.

    ``reach``: from the middle of the tool to its edge along the line (cm).  In each round, in order along the line,
    no print is nearer to another than the tool reaches; the prints of a round dry before the next round.
    """
    at = sorted({placement.at for placement in repeat.placements if not placement.again}) or list(repeat.at)
    around = repeat.run.length if repeat.run.closed else math.inf
    steps = [b - a for a, b in itertools.pairwise(at)]
    even = bool(steps) and max(steps) - min(steps) < 0.05
    rounds = _rounds(at, reach + repeat.size / 2, around)
    return PrintPlan(rounds, at[0], sum(steps) / len(steps) if even else None, reach)


def _rounds(at: Sequence[float], near: float, around: float) -> tuple[tuple[int, ...], ...]:
    """Numbers of the prints in rounds in which no two are nearer than ``near``: each print joins the first it can."""
    rounds: list[list[int]] = []
    for i, spot in enumerate(at):
        for each in rounds:
            apart = (abs(spot - at[k]) for k in each)
            if all(min(gap, around - gap) >= near - 1e-9 for gap in apart):
                each.append(i)
                break
        else:
            rounds.append([i])
    return tuple(tuple(i + 1 for i in each) for each in rounds)
