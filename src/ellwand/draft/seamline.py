"""A line down the body where gores, splits and openings are set: a seam, or a slit cut into a panel."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from ellwand.model.choices import GoreHem
from ellwand.model.piece import EdgeKind

Segment = tuple[str, EdgeKind, float]
"""A stretch of an edge: its tag (gore, split, seam, opening, slit, gusset), kind and length (cm)."""
HALF_SLIT = 0.1
"""Slits are drawn 0.2 cm wide at the mouth and run to a point."""


@dataclass(frozen=True, slots=True)
class Wedge:
    """One flared piece of a gore, whole or a half (cm): its height above the hem and its width along it.

    ``top``: the width of a blunt upper end; ``tip``: cut as a piece of its own.
    """

    start: float
    base: float
    half: bool = False
    top: float = 0.0
    hem: GoreHem = "arc"
    tip: bool = False


@dataclass(frozen=True, slots=True)
class SeamLine:
    """Heights in cm from the hem: gores fill 0 … ``filled``, the split is open 0 … ``split``.

    ``wedges``: what is set in, from the viewer's left to right.  ``opening``: length left open at the top, closed by
    a closure; ``slit``: the neck slit above it.  ``dip``: how far the hem lies lower here than at the side seams; the
    lowest edge is so much longer.
    """

    place: str
    kind: EdgeKind
    top: float
    wedges: tuple[Wedge, ...] = ()
    split: float = 0.0
    opening: float = 0.0
    slit: float = 0.0
    dip: float = 0.0

    @property
    def filled(self) -> float:
        """How high the gores reach (cm)."""
        return max((wedge.start for wedge in self.wedges), default=0.0)

    @property
    def slot(self) -> float:
        """Half the width of the gores' blunt upper ends (cm): so far each panel stands back below them."""
        return sum(wedge.top for wedge in self.wedges) / 2

    def rises(self) -> list[Segment]:
        """The stretches between the gores' points, from the hem up."""
        heights = sorted({wedge.start for wedge in self.wedges})
        return [
            ("gore" if i == 0 else f"gore-{i + 1}", "gore seam", high - low)
            for i, (low, high) in enumerate(itertools.pairwise([0.0, *heights]))
        ]

    def segments(self) -> list[Segment]:
        """Edges from the hem up: tag, kind, length (cm)."""
        low = max(self.filled, self.split)
        out: list[Segment] = [
            *self.rises(),
            ("slot", "gore seam", self.slot),
            ("split", "split", low - self.filled),
            ("seam", self.kind, self.top - low - self.opening - self.slit),
            ("opening", "opening", self.opening),
            ("slit", "neck slit", self.slit),
        ]
        return lowered([segment for segment in out if segment[2] > 1e-6], self.dip)

    def lips(self) -> list[Segment]:
        """The same for a slit cut into a panel: only what lies below its point."""
        return [segment for segment in self.segments() if segment[1] in ("gore seam", "split")]

    def has_lips(self) -> bool:
        """True when a panel has to be cut into for this line."""
        return bool(self.wedges) or self.split > 0


def lowered(segments: list[Segment], dip: float) -> list[Segment]:
    """The segments with the lowest one longer by ``dip``."""
    (tag, kind, size), *rest = segments
    return [(tag, kind, size + dip), *rest]
