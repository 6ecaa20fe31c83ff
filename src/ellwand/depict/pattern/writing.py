"""Lettering of a full-size piece: each name where there is room, as large as is useful in a hall."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from shapely import LineString, Polygon, box, prepare

from ellwand.depict.lettering import CM_PER_POINT, Lettering, readable, shape_of, text_width
from ellwand.geometry.lines import Line, Point
from ellwand.model.drawing import Anchor, Label, Stroke

HEADINGS: Final = (26.0, 20.0, 15.0, 11.0, 9.0, 7.5)
"""Sizes of a heading in points, the best first; the lines below its first are smaller."""
LOWER: Final = 0.62
SMALLEST: Final = 7.5
EDGE: Final = 11.0
END: Final = 18.0
NOTE: Final = 9.0
SHARES: Final = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9)
ARROWS: Final = (30.0, 20.0, 12.0, 7.0, 4.0, 2.0)
"""Lengths of a grain arrow (cm), the best first."""
HEAD: Final = 0.5
"""How far an arrow's barbs reach along it (cm)."""


class Writing:
    """The lettering of one piece while it is being made.

    ``inside``: where names may stand, within the sewn line; what finds no room stands below ``outside``.
    """

    def __init__(self, inside: Polygon, outside: Polygon) -> None:
        self.inside = inside.buffer(-0.05)
        prepare(self.inside)
        self.outside = outside
        self.letters = Lettering(1.0)
        self.leaders: list[Stroke] = []

    def keep_off(self, strokes: Iterable[Stroke]) -> None:
        """Lines that nothing is to be written across."""
        self.letters.taken += [LineString(stroke.points).buffer(0.1) for stroke in strokes]

    def heading(self, lines: Sequence[str]) -> None:
        """Number, name and count together: level, or up a narrow piece, or else below it."""
        for size in HEADINGS:
            for turn in (0.0, 90.0):
                for at in self._middles():
                    block = _block(lines, at, size, turn)
                    if self._fits(block):
                        return self._put(block)
        x0, y0, _, _ = self.outside.bounds
        block = _block(lines, (x0, y0 - 0.4 - _height(lines, 9.0) / 2), 9.0, 0.0, "start")
        corner = min(self.outside.exterior.coords, key=lambda p: p[0] + p[1])
        self.leaders.append(Stroke("leader", (tuple(corner), (x0, y0 - 0.3))))
        return self._put(block)

    def word(self, text: str, y: float) -> None:
        """A word at a height, where the piece is widest there."""
        for size in (END, EDGE):
            for x in self._stretches(y):
                if self._fits(block := [Label("name", text, (x, y), size=size)]):
                    return self._put(block)
        return None

    def along(self, name: str, line: Line) -> bool:
        """Along a line, on its left, which is the inside of an edge."""
        path = LineString(line)
        for size in (EDGE, SMALLEST):
            wide = text_width(name, size)
            if wide > path.length:
                continue
            for share in (0.5, 0.35, 0.65, 0.2, 0.8):
                middle = min(max(share * path.length, wide / 2), path.length - wide / 2)
                a, b = (path.interpolate(middle + half) for half in (-wide / 2, wide / 2))
                run = math.hypot(b.x - a.x, b.y - a.y)
                if run < 0.9 * wide:
                    continue
                turn = math.degrees(math.atan2(b.y - a.y, b.x - a.x))
                mid = path.interpolate(middle)
                left = (-(b.y - a.y) / run, (b.x - a.x) / run)
                for lift in (0.75, 1.2, -0.75):
                    off = lift * size * CM_PER_POINT
                    at = (mid.x + left[0] * off, mid.y + left[1] * off)
                    label = Label("edge", name, at, size=size, turn=readable(turn))
                    if self._fits([label]):
                        self._put([label])
                        return True
        return False

    def beside(self, at: Point, lines: Sequence[str]) -> None:
        """Small lines to the right or left of a point."""
        step = NOTE * 1.25 * CM_PER_POINT
        for away in (0.8, 1.5, 3.0):
            for down in (0.0, 1.0, 2.5, 5.0):
                for side in (1, -1):
                    anchor: Anchor = "start" if side > 0 else "end"
                    x, y = at[0] + side * away, at[1] - down
                    block = [Label("note", text, (x, y - i * step), anchor, NOTE) for i, text in enumerate(lines)]
                    if self._fits(block):
                        return self._put(block)
        return None

    def grain(self) -> list[Stroke]:
        """An arrow along the grain, as long as finds room."""
        x0, y0, x1, y1 = self.inside.bounds
        for tall in ARROWS:
            barb = min(HEAD, tall / 5)
            for share in (0.3, 0.7, 0.4, 0.6, 0.2, 0.8, 0.5, 0.1, 0.9):
                for up in SHARES:
                    x, low = x0 + (x1 - x0) * share, y0 + (y1 - y0) * up - tall / 2
                    area = box(x - 0.6 * barb, low, x + 0.6 * barb, low + tall)
                    if self.inside.contains(area) and self.letters.clear(area):
                        self.letters.taken.append(area)
                        return _arrow(x, low, low + tall, barb)
        return []

    def _middles(self) -> list[Point]:
        _, y0, _, y1 = self.inside.bounds
        return [(x, y) for share in SHARES for y in [y0 + (y1 - y0) * share] for x in self._stretches(y)]

    def _stretches(self, y: float) -> list[float]:
        """The middles of what of the piece lies at a height, the widest stretch first."""
        x0, _, x1, _ = self.inside.bounds
        cut = self.inside.intersection(LineString([(x0 - 1, y), (x1 + 1, y)]))
        spans = [part.bounds for part in getattr(cut, "geoms", [cut]) if not part.is_empty]
        spans.sort(key=lambda span: (-round(span[2] - span[0], 2), span[0]))
        return [float(span[0] + span[2]) / 2 for span in spans]

    def _fits(self, block: Sequence[Label]) -> bool:
        return all(self.inside.contains(shape_of(label, 1.0)) and self.letters.free(label) for label in block)

    def _put(self, block: Sequence[Label]) -> None:
        for label in block:
            self.letters.put(label)


def _height(lines: Sequence[str], size: float) -> float:
    return 1.3 * CM_PER_POINT * sum(_sizes(lines, size))


def _sizes(lines: Sequence[str], size: float) -> list[float]:
    return [size, *(max(LOWER * size, min(SMALLEST, size)) for _ in lines[1:])]


def _block(lines: Sequence[str], at: Point, size: float, turn: float, anchor: Anchor = "middle") -> list[Label]:
    """Lines below each other about a point, turned together."""
    out, down = [], _height(lines, size) / 2
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    for i, (text, high) in enumerate(zip(lines, _sizes(lines, size), strict=True)):
        step = 0.65 * CM_PER_POINT * high
        down -= step
        out.append(Label("name" if i == 0 else "note", text, (at[0] - s * down, at[1] + c * down), anchor, high, turn))
        down -= step
    return out


def _arrow(x: float, low: float, high: float, barb: float) -> list[Stroke]:
    heads = [
        Stroke("grain", ((x - 0.6 * barb, tip + way * barb), (x, tip), (x + 0.6 * barb, tip + way * barb)))
        for tip, way in ((high, -1), (low, 1))
    ]
    return [Stroke("grain", ((x, low), (x, high))), *heads]
