"""Rigid motions of parts on paper, and the parts they lay."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from ellwand.geometry.lines import Line, Point, mirror
from ellwand.model.draft import Draft, Part
from ellwand.model.piece import Piece, edge_of

if TYPE_CHECKING:
    from shapely import Geometry, MultiPolygon, Polygon


@dataclass(frozen=True, slots=True)
class Motion:
    """Turned counter-clockwise by ``angle`` (radians) about the origin, then moved by (dx, dy) cm."""

    angle: float = 0.0
    dx: float = 0.0
    dy: float = 0.0

    def of(self, line: Iterable[Point]) -> Line:
        """The line where it lies after the motion."""
        c, s = math.cos(self.angle), math.sin(self.angle)
        return tuple((x * c - y * s + self.dx, x * s + y * c + self.dy) for x, y in line)

    def then(self, later: Motion) -> Motion:
        """This motion and after it another, as one."""
        ((dx, dy),) = later.of([(self.dx, self.dy)])
        return Motion(self.angle + later.angle, dx, dy)

    def moved(self, dx: float, dy: float) -> Motion:
        """The same, moved on by (dx, dy)."""
        return Motion(self.angle, self.dx + dx, self.dy + dy)


REST = Motion()


@dataclass(frozen=True, slots=True, eq=False)
class Own:
    """A part in its own place: its piece, the other way round where the part is mirrored (cm, outside face up).

    One is itself alone, so that what is worked out of it can be kept.
    """

    id: str
    piece: Piece
    mirrored: bool

    @property
    def ring(self) -> Line:
        """The sewn outline; clockwise where the part is mirrored."""
        return self._turned(self.piece.sewn)

    @property
    def holes(self) -> tuple[Line, ...]:
        """Its holes."""
        return tuple(self._turned(hole) for hole in self.piece.sewn_holes)

    def edge(self, name: str) -> Line:
        """One edge, as the piece walks it.

        Raises KeyError where the piece has none of that name.
        """
        return self._turned(edge_of(self.piece, name).points)

    def at(self, point: Point) -> Point:
        """A point of the piece, on the part."""
        return self._turned((point,))[0]

    def _turned(self, line: Line) -> Line:
        return mirror(line) if self.mirrored else line


@dataclass(frozen=True, slots=True)
class Fold:
    """A part folded in two along a line: what lies on the side of ``keep`` is seen, the rest lies beneath it.

    ``at`` is a point of the line and ``keep`` a unit vector across it, both in the part's own place.
    """

    at: Point
    keep: Point


@dataclass(frozen=True, slots=True)
class Laid:
    """A part as it lies in a picture; ``wrong`` side up where it is folded or lies on its fellow."""

    own: Own
    motion: Motion
    fold: Fold | None = None
    wrong: bool = False

    @property
    def ring(self) -> Line:
        """Its whole sewn outline, as if it lay open."""
        return self.motion.of(self.own.ring)

    def shape(self) -> Polygon | MultiPolygon:
        """What is seen of it: all, or the upper half where it is folded."""
        return _moved(half(self.own, self.fold, True), self.motion)

    def beneath(self) -> Polygon | MultiPolygon | None:
        """The half that is folded under; None where nothing is."""
        return None if self.fold is None else _moved(half(self.own, self.fold, False), self.motion)

    def edge(self, name: str) -> Line:
        """One edge where it lies."""
        return self.motion.of(self.own.edge(name))


def own(draft: Draft, part: Part) -> Own:
    """The part in its own place."""
    return Own(part.id, next(piece for piece in draft.pieces if piece.id == part.piece), part.mirrored)


@lru_cache(maxsize=1024)
def half(part: Own, fold: Fold | None, upper: bool) -> Polygon | MultiPolygon:
    """A part's outline, or the half of it on one side of its fold, the lower one turned over on to the upper."""
    from shapely import Polygon
    from shapely.affinity import affine_transform

    whole = Polygon(part.ring, part.holes).buffer(0)
    if fold is None:
        return whole
    (x, y), (nx, ny) = fold.at, fold.keep
    far = 1000.0
    sign = 1.0 if upper else -1.0
    u, v = (-ny * far, nx * far), (nx * far * sign, ny * far * sign)
    side = Polygon(
        [
            (x + u[0], y + u[1]),
            (x - u[0], y - u[1]),
            (x - u[0] + v[0], y - u[1] + v[1]),
            (x + u[0] + v[0], y + u[1] + v[1]),
        ]
    )
    cut = whole.intersection(side)
    if upper:
        return _whole(cut)
    # the mirror image in the fold: p − 2((p − at)·n) n
    k = 2 * (x * nx + y * ny)
    return _whole(affine_transform(cut, [1 - 2 * nx * nx, -2 * nx * ny, -2 * nx * ny, 1 - 2 * ny * ny, k * nx, k * ny]))


def _whole(shape: Geometry) -> Polygon | MultiPolygon:
    """Every polygon of a shape, without the points and lines that a cut leaves: a fold may cut a part into several."""
    from shapely import MultiPolygon, Polygon, get_parts

    parts = [part for part in get_parts(shape) if isinstance(part, Polygon) and part.area > 1e-9]
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def _moved(shape: Polygon | MultiPolygon, motion: Motion) -> Polygon | MultiPolygon:
    from shapely.affinity import affine_transform

    c, s = math.cos(motion.angle), math.sin(motion.angle)
    return affine_transform(shape, [c, -s, s, c, motion.dx, motion.dy])
