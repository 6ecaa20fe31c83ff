"""Lettering of a step's picture on paper: each label takes the first place where it lies over nothing."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from ellwand.depict.lettering import CM_PER_POINT, shape_of, text_width
from ellwand.geometry.lines import Point
from ellwand.model.drawing import Label, Stroke

if TYPE_CHECKING:
    from shapely import Geometry, Polygon, STRtree

BOX_TURNS: Final = 16


@dataclass
class Letters:
    """The labels of one picture while it is made; ``lines``, with their thickness, are kept clear of."""

    lines: list[Geometry]
    labels: list[Label] = field(default_factory=list)
    taken: list[Polygon] = field(default_factory=list)
    leaders: list[Stroke] = field(default_factory=list)
    _kept: tuple[int, STRtree] | None = None

    def clear(self, label: Label) -> bool:
        """Whether the label lies over no line and no other label."""
        shape = shape_of(label, 1.0).buffer(0.04)
        if any(shape.intersects(other) for other in self.taken):
            return False
        return not len(self._tree().query(shape, predicate="intersects"))

    def _tree(self) -> STRtree:
        from shapely import STRtree

        if self._kept is None or self._kept[0] != len(self.lines):
            self._kept = len(self.lines), STRtree(self.lines)
        return self._kept[1]

    def put(self, label: Label) -> None:
        """Write it."""
        self.labels.append(label)
        self.taken.append(shape_of(label, 1.0))

    def inside(self, texts: Sequence[str], shape: Polygon, size: float, smallest: float) -> bool:
        """Write the first of ``texts`` that finds room within a shape, as large as it goes, upright or along it."""
        from shapely import prepare

        tree = self._tree()
        spots = _spots(shape)
        prepare(shape)
        for text in texts:
            points = size
            while points >= smallest:
                _, _, half_wide, half_high = shape_of(Label("number", text, (0.0, 0.0), size=points), 1.0, 0.05).bounds
                for room, at in spots:
                    if room < half_high - 0.01:
                        # no text of this height has its middle so near the border, nor nearer
                        break
                    if not _on(shape, at, half_wide):
                        continue
                    for turn in (0.0, 90.0):
                        label = Label("number", text, at, size=points, turn=turn)
                        box = shape_of(label, 1.0, 0.05)
                        if not shape.contains(box) or any(box.intersects(other) for other in self.taken):
                            continue
                        if len(tree.query(box, predicate="intersects")):
                            continue
                        self.put(label)
                        return True
                points -= 1.0
        return False

    def outside(
        self,
        texts: Sequence[str],
        tip: Point,
        size: float,
        box: tuple[float, float, float, float],
        shapes: Geometry,
        most: float = math.inf,
    ) -> None:
        """Write the first of ``texts`` that finds room beside ``shapes``, with a line to ``tip``, nearer places first.

        No more than ``most`` cm beyond the sides of ``box``, half as much above and below; on a shape where there is no
        room.
        """
        for free, uncrossed in ((True, True), (True, False), (False, False)):
            for text in texts:
                if self._written(text, tip, size, box, shapes if free else None, most, uncrossed):
                    return
        for row in range(6):
            label = Label("number", texts[-1], (box[0], box[3] + 0.3 + row * high(size)), "start", size)
            if self.clear(label):
                self.put(label)
                self.leaders.append(Stroke("link", (_toward(label, tip), tip)))
                return

    def _written(
        self,
        text: str,
        tip: Point,
        size: float,
        box: tuple[float, float, float, float],
        shapes: Geometry | None,
        most: float,
        uncrossed: bool,
    ) -> bool:
        """Whether it found room; ``uncrossed``: only where its line leads over no seam that is drawn bold."""
        from shapely import LineString

        bold = [line for line in self.lines if line.geom_type == "Polygon"] if uncrossed else []
        far = max(box[2] - box[0], box[3] - box[1])
        wide = text_width(text, size) / 2
        reaches = (0.5, 0.8, 1.2, 1.7, 2.3, 3.0, 4.0, far)
        for reach, turn in itertools.product(reaches, range(BOX_TURNS)):
            angle = 2 * math.pi * turn / BOX_TURNS
            at = (tip[0] + (reach + wide) * math.cos(angle), tip[1] + reach * math.sin(angle))
            label = Label("number", text, at, size=size)
            if at[0] - wide < box[0] - most or at[0] + wide > box[2] + most:
                continue
            if at[1] < box[1] - most / 2 or at[1] > box[3] + most / 2:
                continue
            if shapes is not None and shape_of(label, 1.0).intersects(shapes):
                continue
            if not self.clear(label):
                continue
            lead = LineString((_toward(label, tip), tip))
            if any(lead.intersects(other) for other in (*self.taken, *bold)):
                continue
            self.put(label)
            self.leaders.append(Stroke("link", (_toward(label, tip), tip)))
            self.lines.append(lead)
            return True
        return False

    def beside(self, text: str, at: Point, size: float = 9.0, first: Iterable[float] = ()) -> None:
        """Write a small letter close to a point, where it is clear; ``first``: directions tried first (radians)."""
        ways = [*first, *(2 * math.pi * i / 12 for i in range(12))]
        for reach, way in itertools.product((0.24, 0.32, 0.42, 0.6, 0.8), ways):
            label = Label("chalk", text, (at[0] + reach * math.cos(way), at[1] + reach * math.sin(way)), size=size)
            if self.clear(label):
                self.put(label)
                return


def _on(shape: Polygon, at: Point, half_wide: float) -> bool:
    """Whether a text of this half width could lie on the shape, upright or along it: told cheaply."""
    from shapely import contains_xy

    x, y = at
    level = contains_xy(shape, x - half_wide, y) and contains_xy(shape, x + half_wide, y)
    return bool(level or (contains_xy(shape, x, y - half_wide) and contains_xy(shape, x, y + half_wide)))


def _spots(shape: Polygon) -> list[tuple[float, Point]]:
    """Places within a shape and how far (cm) each is from its border, the farthest first."""
    from shapely import Point as Spot

    x0, y0, x1, y1 = shape.bounds
    step = max((x1 - x0) / 14, (y1 - y0) / 14, 0.1)
    nx, ny = max(1, int((x1 - x0) / step)), max(1, int((y1 - y0) / step))
    grid = [(x0 + (x1 - x0) * (i + 0.5) / nx, y0 + (y1 - y0) * (k + 0.5) / ny) for i in range(nx) for k in range(ny)]
    edge = shape.boundary
    room = [(float(edge.distance(Spot(p))), p) for p in grid if shape.contains(Spot(p))]
    return sorted(room, key=lambda each: (-round(each[0], 2), each[1]))[:40]


def _toward(label: Label, tip: Point) -> Point:
    """Where a line from the label to ``tip`` begins: at its border."""
    from shapely import LineString

    box = shape_of(label, 1.0)
    cut = LineString([label.at, tip]).difference(box)
    if cut.is_empty:
        return label.at
    x, y = cut.coords[0]
    return float(x), float(y)


def high(size: float) -> float:
    """How high a line of text of so many points is (cm)."""
    return 1.2 * size * CM_PER_POINT
