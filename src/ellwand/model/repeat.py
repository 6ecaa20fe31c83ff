"""A motif that repeats along a line of the garment: as chosen, and in numbers (cm)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from ellwand.geometry.lines import Line, Point, backwards
from ellwand.model.motif import Motif, motif_area, placed_line
from ellwand.model.run import Run

RepeatBy = Literal["stencil", "block", "embroidery", "appliqué"]
REPEATED_BY: Final[tuple[RepeatBy, ...]] = ("stencil", "block", "embroidery", "appliqué")
MOTIFS: Final = (
    *("roundel", "lozenge", "chevron", "key", "vine-scroll", "knot", "fleuron", "saltire", "pellets"),
    *("key corner", "leaf corner", "pellet"),
)
"""The motifs that ship with the tool; the last ones are meant for corners."""
PLACES: Final = (
    *("neck", "cuffs", "hem", "skirt ring", "arm ring", "upper arm ring", "centre-front", "centre-back"),
    *("neck slit", "splits", "armholes", "face", "edges", "waist"),
)
"""Lines of a garment that motifs can go along."""
RINGS: Final = ("skirt ring", "arm ring", "upper arm ring")
"""Those that need a height."""


@dataclass(frozen=True, slots=True)
class RepeatChoice:
    """A motif as it is asked for (cm); ``size`` is its width along the line, ``gap`` None for the motif's usual one.

    ``drawn``: the maker's own motif, read from the file called ``motif``; None: one of ours.
    ``height``: of a ring round skirt or arm; ``inset``: from the edge to the motif.
    """

    motif: str
    along: str
    height: float | None = None
    size: tuple[float, float] = (5.0, 7.0)
    gap: tuple[float, float] | None = None
    inset: float = 1.0
    by: RepeatBy = "stencil"
    colour: str = ""
    clear_of_seams: bool = False
    mirrored: bool = False
    corners: bool = True
    drawn: Motif | None = None


@dataclass(frozen=True, slots=True)
class Placement:
    """One motif on one part: its middle at ``point`` of the part's piece, as Motif's lines are placed by
    ``placed_line``; ``at``: how far along the run (cm).

    A motif that crosses a seam has a placement on either side of it, of which one has ``again``.
    """

    part: str
    at: float
    point: Point
    angle: float
    mirrored: bool
    corner: bool = False
    again: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A part of the run that is filled evenly: motifs from ``first`` on, ``pitch`` apart; all cm along the run.

    ``begin`` and ``end``: where it begins and ends; ``gap``: between two motifs.
    """

    begin: float
    end: float
    first: float
    pitch: float
    count: int
    gap: float


@dataclass(frozen=True, slots=True)
class Repeat:
    """A motif along a run, at the places ``at`` (cm along it, of the motif's middle, rising), corners not among them.

    ``corner``: what stands at the run's corners, or None; ``overlap``: how far motifs that join lie over each other
    on the inner side of a bend, at most (cm); ``upright``: the line runs down, and they stand above each other.
    """

    chosen: RepeatChoice
    run: Run
    motif: Motif
    at: tuple[float, ...]
    rows: tuple[Row, ...]
    placements: tuple[Placement, ...]
    corner: Motif | None = None
    overlap: float = 0.0
    upright: bool = False

    @property
    def size(self) -> float:
        """How much of the run a motif takes (cm): its width, or its height where it stands upright on a line down."""
        return self.motif.size[1] if self.upright else self.motif.size[0]

    @property
    def joins(self) -> bool:
        """Whether the motifs touch."""
        return all(row.gap < 1e-6 for row in self.rows)

    @property
    def count(self) -> int:
        """How many motifs, those at corners too."""
        return sum(not placement.again for placement in self.placements)

    @property
    def painted(self) -> float:
        """What all motifs cover (cm²)."""
        corners = sum(placement.corner and not placement.again for placement in self.placements)
        own = (self.count - corners) * motif_area(self.motif)
        return own + (corners * motif_area(self.corner) if self.corner else 0.0)


def motif_rings(repeat: Repeat, placement: Placement) -> tuple[tuple[Line, tuple[Line, ...]], ...]:
    """The motif's regions where they lie on the part's piece: (ring counter-clockwise, holes clockwise) of each."""
    motif = repeat.corner if placement.corner and repeat.corner else repeat.motif
    width, height = motif.size
    middle = (width / 2, height / 2)

    def there(line: Line) -> Line:
        moved = placed_line(line, middle, placement.point, placement.angle, placement.mirrored)
        return backwards(moved) if placement.mirrored else moved

    return tuple((there(region.ring), tuple(there(hole) for hole in region.holes)) for region in motif.regions)
