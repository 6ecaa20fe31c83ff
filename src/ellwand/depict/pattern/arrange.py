"""Full-size pieces beside each other on paper: each as high up as it goes beneath those that are there.

Paper has no grain, so a piece may lie any way round by quarter turns; its arrow tells how it lies on the cloth.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt
import shapely

from ellwand.depict.lettering import shape_of
from ellwand.depict.pattern.fullsize import FullSize
from ellwand.geometry.lines import Line, shift, turn
from ellwand.model.drawing import Label

APART: Final = 0.8
"""Between two pieces (cm)."""
CELL: Final = 0.5
"""Width of the strips in which a piece's upper and lower edge are read (cm)."""
TURNS: Final = (0.0, 90.0, 180.0, 270.0)
SLACK: Final = 1e-9

Size = tuple[float, float]
Profile = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece on the paper: turned counter-clockwise by ``turn`` degrees, then moved by (``x``, ``y``); y is up."""

    each: FullSize
    x: float
    y: float
    turn: float

    def there(self, line: Line) -> Line:
        """A line of the piece where it lies."""
        return shift(turn(line, self.turn), self.x, self.y)

    def label(self, label: Label) -> Label:
        """A label of the piece where it lies: it reads upright once the piece is held upright."""
        (at,) = self.there((label.at,))
        return Label(label.role, label.text, at, label.anchor, label.size, label.turn + self.turn)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """What it takes up with its lettering (cm): least x and y, greatest x and y."""
        x0, y0, x1, y1 = self.each.extent
        (ax, ay), (bx, by) = self.there(((x0, y0), (x1, y1)))
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def size_of(each: FullSize) -> Size:
    """Width and height with its lettering (cm)."""
    x0, y0, x1, y1 = each.extent
    return x1 - x0, y1 - y0


def placed_at(each: FullSize, left: float, top: float, degrees: float) -> Placed:
    """The piece so turned, with its upper left corner there."""
    a, _, _, d = Placed(each, 0.0, 0.0, degrees).box
    return Placed(each, left - a, top - d, degrees)


class Way:
    """A piece turned, with half the gap about it: how deep below its upper end each strip begins and ends."""

    def __init__(self, each: FullSize, degrees: float) -> None:
        self.each, self.degrees = each, degrees
        at = placed_at(each, 0.0, 0.0, degrees)
        paper = shapely.Polygon(at.there(each.covers))
        words = [shape_of(at.label(label), 1.0) for label in each.drawing.labels]
        beside = [word for word in words if not paper.contains(word)]
        shape = shapely.union_all([paper, *beside])
        low_x, low_y, high_x, high_y = shape.bounds
        x0, y1 = low_x - APART / 2, high_y + APART / 2
        self.left, self.above = x0, y1
        self.wide, self.high = high_x - low_x + APART, high_y - low_y + APART
        shape = shape.buffer(APART / 2, quad_segs=2)
        spots = shapely.get_coordinates(shapely.segmentize(shape, CELL / 2))
        strip = ((spots[:, 0] - x0) / CELL).astype(int)
        count = int(strip.max()) + 1
        self.top, self.bottom = np.full(count, np.inf), np.full(count, -np.inf)
        np.minimum.at(self.top, strip, y1 - spots[:, 1])
        np.maximum.at(self.bottom, strip, y1 - spots[:, 1])
        self.beneath = float(self.bottom.mean())


Ways = tuple[Way, ...]


def ways_of(pieces: Sequence[FullSize]) -> list[Ways]:
    """Every piece in all its turns, made once to be arranged on sheets of any size."""
    return [tuple(Way(each, degrees) for degrees in TURNS) for each in pieces]


def arranged(pieces: Sequence[Ways], width: float, height: float = math.inf) -> list[list[Placed]]:
    """Sheets of ``width`` × ``height`` cm (or one without end), each with its pieces; every sheet's top is y = 0.

    What is no piece is placed first, then the longest piece; each takes the place, turn and sheet where its lower
    edge lies highest.  Every piece must fit into a sheet, turned or not.
    """
    sheets: list[_Sheet] = []
    for ways in sorted(pieces, key=lambda ways: (ways[0].each.number > 0, -max(size_of(ways[0].each)))):
        spots = [(*spot, i, k) for i, sheet in enumerate(sheets) for k, spot in _spots(sheet, ways, height)]
        if not spots:
            sheets.append(_Sheet(width))
            spots = [(*spot, len(sheets) - 1, k) for k, spot in _spots(sheets[-1], ways, height)]
        # where two ways reach as far down, the one that leaves more room beneath it
        _, left, top, i, k = min(
            spots, key=lambda spot: (spot[3], round(spot[0], 2), round(ways[spot[4]].beneath, 1), spot[1], spot[4])
        )
        sheets[i].take(ways[k], left, top)
    return [sheet.placed for sheet in sheets]


def _spots(sheet: _Sheet, ways: Sequence[Way], height: float) -> list[tuple[int, tuple[float, int, float]]]:
    """For each way round that finds room: the depth of its lower end, its first strip and the depth of its top."""
    found = [(k, spot) for k, way in enumerate(ways) if (spot := sheet.spot(way)) is not None]
    return [(k, spot) for k, spot in found if spot[0] <= height + APART + SLACK]


class _Sheet:
    """One sheet while it is filled: for each strip, how far down it is taken.

    Depths count from half a gap above the sheet, and strips from half a gap to the left of it.
    """

    def __init__(self, width: float) -> None:
        self.width = width + APART
        self.taken: Profile = np.zeros(math.ceil(self.width / CELL) + 2)
        self.placed: list[Placed] = []

    def spot(self, way: Way) -> tuple[float, int, float] | None:
        count = math.floor((self.width - way.wide) / CELL + SLACK) + 1
        if count < 1:
            return None
        under = np.lib.stride_tricks.sliding_window_view(self.taken, len(way.top))[:count]
        tops = np.maximum((under - way.top).max(axis=1), 0.0)
        left = int(np.argmin(np.round(tops, 2)))
        return float(tops[left]) + way.high, left, float(tops[left])

    def take(self, way: Way, left: int, top: float) -> None:
        strips = slice(left, left + len(way.top))
        self.taken[strips] = np.maximum(self.taken[strips], top + way.bottom)
        right, up = left * CELL - APART / 2 - way.left, APART / 2 - top - way.above
        at = placed_at(way.each, 0.0, 0.0, way.degrees)
        self.placed.append(Placed(way.each, at.x + right, at.y + up, way.degrees))
