"""How a full-size pattern falls on sheets of paper: which sheet shows what, and which are joined."""

from __future__ import annotations

import itertools
import math
import string
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import shapely

from ellwand.depict.pattern import FullSize
from ellwand.depict.pattern.arrange import Placed, Size, Ways, arranged, placed_at, size_of, ways_of
from ellwand.geometry.lines import Line, Point
from ellwand.publish.paper import A4, LETTER, Paper

MARGIN: Final = 1.0
"""Round every sheet (cm); most printers reach within 0.6 cm of the edge."""
OVERLAP: Final = 1.0
"""How much of a sheet its neighbour shows too (cm)."""
TRIED: Final = 12
"""So many widths are tried, in sheets beside each other, from the least that holds every piece."""

PaperName = Literal["A4", "Letter", "A3", "A0"]
PAPERS: Final[dict[PaperName, Paper]] = {
    "A4": replace(A4, margin=MARGIN),
    "Letter": replace(LETTER, margin=MARGIN),
    "A3": Paper(29.7, 42.0, MARGIN),
    "A0": Paper(84.1, 118.9, MARGIN),
}
Side = Literal["left", "right", "up", "down"]


Frame = tuple[float, float, float, float]
"""Least x and y, greatest x and y (cm)."""


@dataclass(frozen=True, slots=True)
class Window:
    """What one sheet has room for on the plane (cm, y up), margins apart, and what of it is ``seen``.

    ``joined``: the sides that a piece runs on over; at the others a sheet does not show what its neighbour shows.
    """

    row: int
    column: int
    frame: Frame
    seen: Frame
    joined: frozenset[Side] = frozenset()

    @property
    def name(self) -> str:
        """Row letter and column number: 'B3'."""
        return f"{row_name(self.row)}{self.column + 1}"


def row_name(row: int) -> str:
    """A … Z, AA, AB …"""
    before, last = divmod(row, 26)
    return (row_name(before - 1) if before else "") + string.ascii_uppercase[last]


@dataclass(frozen=True, slots=True)
class Layout:
    """Pieces on the plane, and the sheets that show it, by rows."""

    placed: tuple[Placed, ...]
    windows: tuple[Window, ...]

    @property
    def joins(self) -> int:
        """How many edges are to be glued."""
        return sum(len(window.joined) for window in self.windows) // 2


@dataclass(frozen=True, slots=True)
class _Grid:
    """Overlapping sheets in ``columns`` and ``rows`` from an upper left corner, and the pieces' paper beneath."""

    placed: Sequence[Placed]
    corner: Point
    columns: int
    rows: int
    room: Size

    def core(self, row: int, column: int) -> Frame:
        """What of a sheet is seen once all are joined; together these cover the plane once."""
        wide, high = self.room[0] - OVERLAP, self.room[1] - OVERLAP
        left, top = self.corner[0] + column * wide, self.corner[1] - row * high
        right = left + wide + (OVERLAP if column == self.columns - 1 else 0.0)
        return left, top - high - (OVERLAP if row == self.rows - 1 else 0.0), right, top

    def held(self) -> list[tuple[int, int]]:
        """The sheets that hold something, by rows."""
        spots = list(itertools.product(range(self.rows), range(self.columns)))
        cores = shapely.box(*zip(*(self.core(*spot) for spot in spots), strict=True))
        found, _ = self._paper().query(cores, "intersects")
        return [spots[i] for i in sorted(set(found.tolist()))]

    def windows(self, first_row: int = 0) -> tuple[Window, ...]:
        """The sheets that hold something, with the sides that they are joined at."""
        held, paper = set(self.held()), self._paper()
        return tuple(self._window(row, column, held, paper, first_row) for row, column in sorted(held))

    def _paper(self) -> shapely.STRtree:
        return shapely.STRtree([shapely.Polygon(each.there(each.each.covers)) for each in self.placed])

    def _window(
        self, row: int, column: int, held: set[tuple[int, int]], paper: shapely.STRtree, first_row: int
    ) -> Window:
        left, low, right, top = self.core(row, column)
        sides: dict[Side, tuple[tuple[int, int], Line]] = {
            "left": ((row, column - 1), ((left, top), (left, low))),
            "right": ((row, column + 1), ((right, top), (right, low))),
            "up": ((row - 1, column), ((left, top), (right, top))),
            "down": ((row + 1, column), ((left, low), (right, low))),
        }
        joined = frozenset(
            side
            for side, (spot, line) in sides.items()
            if spot in held and len(paper.query(shapely.LineString(line), "intersects")) > 0
        )
        frame = (left, top - self.room[1], left + self.room[0], top)
        seen_right = frame[2] if "right" in joined else right
        seen = (left, frame[1] if "down" in joined else low, seen_right, top)
        return Window(first_row + row, column, frame, seen, joined)


def tiled(pieces: Sequence[FullSize], paper: Paper) -> Layout:
    """The pieces over sheets that are joined, as wide as needs the fewest of them; blank ones are left out."""
    room = (paper.room, paper.height - 2 * paper.margin)
    first = _count(max(min(size_of(each)) for each in pieces), room[0])
    ways = ways_of(pieces)
    grids = [_over(ways, columns, room) for columns in range(first, first + TRIED)]
    best = min(grids, key=lambda grid: (len(grid.held()), grid.columns))
    return Layout(tuple(best.placed), best.windows())


def _count(extent: float, room: float) -> int:
    """How many overlapping sheets cover an extent."""
    return max(1, math.ceil((extent - OVERLAP) / (room - OVERLAP) - 1e-9))


def _over(pieces: Sequence[Ways], columns: int, room: Size) -> _Grid:
    (placed,) = arranged(pieces, columns * (room[0] - OVERLAP) + OVERLAP)
    right, low = max(each.box[2] for each in placed), min(each.box[1] for each in placed)
    return _Grid(placed, (0.0, 0.0), _count(right, room[0]), _count(-low, room[1]), room)


def on_sheets(pieces: Sequence[FullSize], room: Size) -> Layout:
    """The pieces on large sheets, none cut through that fits on one; what fits on none is spread over several.

    ``room``: width and height of a sheet without its margins (cm).
    """
    whole = [each for each in pieces if _fits(size_of(each), room)]
    groups = [(sheet, 1, 1) for sheet in arranged(ways_of(whole), *room)]
    groups += [_spread_out(each, room) for each in pieces if not _fits(size_of(each), room)]
    placed: list[Placed] = []
    windows: list[Window] = []
    row, down = 0, 0.0
    for group, columns, rows in groups:
        moved = [replace(each, y=each.y - down) for each in group]
        windows += _Grid(moved, (0.0, -down), columns, rows, room).windows(row)
        placed += moved
        row, down = row + rows, down + rows * room[1] + 10.0
    return Layout(tuple(placed), tuple(windows))


def _fits(size: Size, room: Size) -> bool:
    return min(size) <= min(room) and max(size) <= max(room)


def _spread_out(each: FullSize, room: Size) -> tuple[list[Placed], int, int]:
    """One piece over several sheets, the way round that takes fewer."""
    wide, high = size_of(each)
    ways = [(_count(w, room[0]), _count(h, room[1]), turn) for w, h, turn in ((wide, high, 0.0), (high, wide, 90.0))]
    columns, rows, turn = min(ways, key=lambda way: way[0] * way[1])
    return [placed_at(each, 0.0, 0.0, turn)], columns, rows


def cropped(layout: Layout, *, width: bool) -> Layout:
    """The same with every sheet no longer than what it shows; ``width``: and no wider."""
    boxes = [each.box for each in layout.placed]

    def crop(window: Window) -> Window:
        x0, y0, x1, y1 = window.frame
        shown = [each for each in boxes if meet(each, window.seen)]
        low = max(y0, min(each[1] for each in shown))
        right = min(x1, max(each[2] for each in shown)) if width else x1
        a, b, c, d = window.seen
        return replace(window, frame=(x0, low, right, y1), seen=(a, max(b, low), min(c, right), d))

    return replace(layout, windows=tuple(crop(window) for window in layout.windows))


def meet(one: Frame, two: Frame) -> bool:
    """Whether two rectangles have more in common than an edge."""
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


def shown_on(layout: Layout, window: Window) -> list[Placed]:
    """The pieces of which the sheet shows anything."""
    return [each for each in layout.placed if meet(each.box, window.seen)]


def pieces_on(shown: Iterable[Placed], window: Window) -> list[FullSize]:
    """The pieces whose paper, and not just their rectangle, lies on the sheet, by number."""
    seen = shapely.box(*window.seen)
    on = [each.each for each in shown if shapely.Polygon(each.there(each.each.covers)).intersects(seen)]
    return sorted((each for each in on if each.number), key=lambda each: each.number)
