"""A cloth torn into blocks: the tears in their order, and what is left to cut with scissors."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ellwand.geometry.lines import Line, Point
from ellwand.model.lay import Lay

Way = Literal["across", "along"]


@dataclass(frozen=True, slots=True)
class Tear:
    """One tear, right across what is torn (cm).

    ``distance`` is measured on the piece ``of`` that is torn: from its end nearest the cut end where the tear goes
    across, from its left edge where it goes along.  That part comes off as ``gives``; ``leaves`` is the other.
    A name is '' where the part is waste.  ``start`` and ``end`` are points of the whole cloth, as in the lay.
    """

    n: int
    of: str
    way: Way
    distance: float
    gives: str
    leaves: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Block:
    """A torn rectangle that is torn no further: its lower left corner on the whole cloth (cm), and its parts."""

    name: str
    x: float
    y: float
    width: float
    height: float
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScissorCut:
    """A line to cut in a block, in cm from the block's lower left corner."""

    block: str
    points: Line


@dataclass(frozen=True, slots=True)
class TearPlan:
    """The lay, the tears that make its blocks, and the cuts within them, each in the order of work."""

    lay: Lay
    tears: tuple[Tear, ...]
    blocks: tuple[Block, ...]
    cuts: tuple[ScissorCut, ...]


WHOLE = "cloth"
"""What the first tear is made in."""
REST = "rest of the cloth"
"""What is left beyond the lay."""
LAY = "lay"
"""What the lengths are torn from."""
SELVEDGES = ("left selvedge", "right selvedge")
"""The strips that are torn off first."""
