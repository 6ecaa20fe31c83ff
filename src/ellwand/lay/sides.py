"""What an outline is like: even left and right, and straight where it may lie in a selvedge."""

from __future__ import annotations

import itertools
import math
from typing import Final

from shapely.affinity import scale
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, mirror, turn
from ellwand.lay.task import Pose
from ellwand.model.piece import Edge, Piece

UPRIGHT: Final = 1e-6
"""A line whose ends differ by no more than this across the cloth (cm) runs along it."""

MOST_OF_IT: Final = 0.5
"""A straight edge this part of the piece's length, or longer, may lie in the selvedge."""

EVEN: Final = 1e-4
"""An outline is the same left and right when it differs from its mirror image by less than this times its length."""

WITHOUT_HEM: Final = ("split", "opening", "shoulder opening")
"""Edges that are not seams and need no hem in a selvedge."""


def on_selvedge(piece: Piece, pose: Pose, past: tuple[float, float]) -> tuple[float, float]:
    """How far the pose may pass the left and the right of the cloth that can be used (cm).

    As far as ``past`` where a straight seam edge along the cloth is its outermost side, on half its length or more.
    """
    edges = [(edge, _turned(edge.points, pose)) for edge in piece.edges if _needs_no_hem(edge)]
    sewn = _turned(piece.sewn, pose)
    sides = (min(x for x, _ in sewn), max(x for x, _ in sewn))
    cut = (0.0, pose.width)

    def lies(side: int) -> bool:
        least = MOST_OF_IT * pose.height
        seams = math.fsum(_upright(points, sides[side]) for _, points in edges)
        return seams >= least and _upright((*pose.ring, pose.ring[0]), cut[side]) >= least

    return past[0] if lies(0) else 0.0, past[1] if lies(1) else 0.0


def is_even(ring: Line, holes: tuple[Line, ...] = ()) -> bool:
    """Whether an outline is its own mirror image about the upright line through its middle."""
    polygon = Polygon(ring, holes)
    left, _, right, _ = polygon.bounds
    other = scale(polygon, -1, 1, origin=((left + right) / 2, 0))
    return bool(polygon.symmetric_difference(other).area <= EVEN * polygon.length)


def _needs_no_hem(edge: Edge) -> bool:
    return edge.kind.endswith("seam") or edge.kind in WITHOUT_HEM


def _turned(line: Line, pose: Pose) -> Line:
    return turn(mirror(line) if pose.flip else line, pose.turn)


def _upright(line: Line, x: float) -> float:
    """How much of the line runs upright at ``x`` (cm)."""
    return math.fsum(
        abs(a[1] - b[1]) for a, b in itertools.pairwise(line) if abs(a[0] - x) <= UPRIGHT and abs(b[0] - x) <= UPRIGHT
    )
