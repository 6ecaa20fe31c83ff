"""A long narrow cloth drawn in several lengths below each other, so that what lies on it can be read."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from math import inf
from typing import Final

from shapely import LineString, Polygon, box
from shapely import Point as Spot
from shapely.geometry.base import BaseGeometry

from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.lettering import shape_of
from ellwand.depict.naming import numbers
from ellwand.depict.placed import by_id, lie_ring
from ellwand.depict.spread import drawing_bounds, joined, moved
from ellwand.geometry.lines import Line
from ellwand.language import _
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece

BETWEEN: Final = 1.9
"""What each further length takes besides the cloth (cm on paper): its distances, and air."""
AIR: Final = 0.3
WORTH: Final = 1.3
"""Cut up only where that makes the drawing so many times as large."""
MOST: Final = 6
SHIFT: Final = 0.15
"""How far a cut may be from where the lengths would be equal, as a share of a length."""


def lengths_for(lay: Lay, width: float, height: float) -> int:
    """In how many lengths a lay is drawn largest on ``width`` × ``height`` (cm on paper)."""
    across, along = laid_size(lay)

    def scale(count: int) -> float:
        return min(width / (along / count), (height - BETWEEN * (count - 1)) / (across * count))

    best = max(range(1, MOST + 1), key=scale)
    return best if along > across and scale(best) > WORTH * scale(1) else 1


def in_lengths(drawing: Drawing, lay: Lay, pieces: Sequence[Piece], cuts: Sequence[float], scale: float) -> Drawing:
    """A lay drawn lying, for ``scale`` (paper cm per cm), cut up at ``cuts`` (cm along it)."""
    if not cuts:
        return drawing
    stops = [-inf, *cuts, inf]
    out, down = [], 0.0
    for low, high in itertools.pairwise(stops):
        part = _between(drawing, low, high)
        part = Drawing(
            (*part.strokes, *_ends(lay, low, high, scale)),
            (*part.labels, *_missing(part, lay, pieces, low, high, scale), *_goes_on(part, lay, high, scale)),
        )
        _x0, y0, _x1, y1 = drawing_bounds(part, scale)
        out.append(moved(part, 0.0 if low == -inf else -low, -down - y1))
        down += y1 - y0 + AIR / scale
    return joined(out)


def cuts_for(lay: Lay, pieces: Sequence[Piece], count: int) -> tuple[float, ...]:
    """Where to cut it up (cm along): near equal lengths, where the fewest pieces lie across."""
    known, along = by_id(pieces), laid_size(lay)[1]
    spans = [[y for _x, y in lie_ring(known[each.piece].cut, each)] for each in lay.placements]
    ends = sorted(at for span in spans for at in (min(span), max(span)))
    step = along / count
    out = []
    for k in range(1, count):
        near = [k * step, *(at for at in ends if abs(at - k * step) < SHIFT * step)]
        across = {at: sum(min(span) + 0.5 < at < max(span) - 0.5 for span in spans) for at in near}
        out.append(min(near, key=lambda at: (across[at], abs(at - k * step))))
    return tuple(out)


def _between(drawing: Drawing, low: float, high: float) -> Drawing:
    """What lies between two levels of the page's x."""
    strokes = [part for stroke in drawing.strokes for part in _clipped(stroke, low, high)]
    return Drawing(tuple(strokes), tuple(label for label in drawing.labels if low <= label.at[0] < high))


def _clipped(stroke: Stroke, low: float, high: float) -> Iterator[Stroke]:
    xs = [x for x, _y in stroke.points]
    if low <= min(xs) and max(xs) <= high:
        yield stroke
        return
    if max(xs) <= low or min(xs) >= high:
        return
    ys = [y for _x, y in stroke.points]
    window = box(max(low, min(xs) - 1), min(ys) - 1, min(high, max(xs) + 1), max(ys) + 1)
    if stroke.closed:
        # white below, and its outline without a line along the cut
        for part in _parts(Polygon(stroke.points, stroke.holes).buffer(0).intersection(window)):
            if isinstance(part, Polygon) and not part.is_empty:
                holes = tuple(_coords(hole)[:-1] for hole in part.interiors)
                yield Stroke("blank", _coords(part.exterior)[:-1], True, holes)
    for line in (stroke.points, *stroke.holes):
        whole = LineString([*line, line[0]] if stroke.closed else line)
        for piece in _parts(whole.intersection(window)):
            if isinstance(piece, LineString) and not piece.is_empty:
                yield Stroke(stroke.role, _coords(piece))


def _parts(shape: BaseGeometry) -> list[BaseGeometry]:
    return list(getattr(shape, "geoms", [shape]))


def _coords(line: BaseGeometry) -> Line:
    return tuple((float(x), float(y)) for x, y in line.coords)


def _ends(lay: Lay, low: float, high: float, scale: float) -> Iterator[Stroke]:
    """A thin line where a length was cut off."""
    across, beyond = laid_size(lay)[0], 0.15 / scale
    for at in (low, high):
        if abs(at) != inf:
            yield Stroke("leader", ((at, beyond), (at, -across - beyond)))


def _goes_on(part: Drawing, lay: Lay, high: float, scale: float) -> Iterator[Label]:
    """The words at the end of a length, where they are clear of others."""
    if high == inf:
        return
    taken = [shape_of(label, scale) for label in part.labels]
    for off, share in itertools.product((0.3, 0.7, 1.1), (0.5, 0.3, 0.7)):
        at = (high + off / scale, -laid_size(lay)[0] * share)
        label = Label("note", _("goes on below"), at, size=8.0, turn=90.0)
        if not any(shape_of(label, scale).intersects(other) for other in taken):
            yield label
            return


def _missing(
    part: Drawing, lay: Lay, pieces: Sequence[Piece], low: float, high: float, scale: float
) -> Iterator[Label]:
    """The numbers of pieces whose number stands on another length, where there is room for them."""
    known, key = by_id(pieces), numbers(pieces)
    taken = [shape_of(label, scale) for label in part.labels]
    across, along = laid_size(lay)
    window = box(max(low, 0.0), -across, min(high, along), 0.0)
    for placement in lay.placements:
        number = str(key[placement.piece])
        ring = [(y, -x) for x, y in lie_ring(known[placement.piece].cut, placement)]
        here = Polygon(ring).buffer(0).intersection(window)
        if here.is_empty or any(lab.text == number and here.contains(Spot(lab.at)) for lab in part.labels):
            continue
        at = here.representative_point()
        label = Label("name", number, (at.x, at.y), size=11.0)
        shape = shape_of(label, scale)
        if here.contains(shape) and not any(shape.intersects(other) for other in taken):
            taken.append(shape)
            yield label
