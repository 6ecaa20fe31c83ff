"""A line down the body where gores, splits and openings are set: a seam, or a slit cut into a panel."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.model.piece import EdgeKind

Segment = tuple[str, EdgeKind, float]
"""A stretch of an edge: its tag (gore, split, seam, opening, slit, gusset), kind and length (cm)."""
HALF_SLIT = 0.1
"""Slits are drawn 0.2 cm wide at the mouth and run to a point."""


@dataclass(frozen=True, slots=True)
class SeamLine:
    """Heights in cm from the hem: gores fill 0 … ``start``, the split is open 0 … ``split``.

    ``bases``: the widths of the flared pieces set in, from the viewer's left to right, and whether each is a
    half.  ``opening``: length left open at the top, closed by a closure; ``slit``: the neck slit above it.
    """

    place: str
    kind: EdgeKind
    top: float
    start: float = 0.0
    bases: tuple[tuple[float, bool], ...] = ()
    split: float = 0.0
    opening: float = 0.0
    slit: float = 0.0

    @property
    def filled(self) -> float:
        """How high the gores reach (cm)."""
        return self.start if self.bases else 0.0

    def segments(self) -> list[Segment]:
        """Edges from the hem up: tag, kind, length (cm)."""
        low = max(self.filled, self.split)
        out: list[Segment] = [
            ("gore", "gore seam", self.filled),
            ("split", "split", low - self.filled),
            ("seam", self.kind, self.top - low - self.opening - self.slit),
            ("opening", "opening", self.opening),
            ("slit", "neck slit", self.slit),
        ]
        return [(tag, kind, size) for tag, kind, size in out if size > 1e-6]

    def lips(self) -> list[Segment]:
        """The same for a slit cut into a panel: only what lies below its point."""
        return [segment for segment in self.segments() if segment[0] in ("gore", "split")]

    def has_lips(self) -> bool:
        """True when a panel has to be cut into for this line."""
        return bool(self.bases) or self.split > 0
